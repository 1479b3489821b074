#include "scene/mesh/mesh.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>
#include <numeric>
#include <tuple>
#include <utility>

#include "base/write_file.h"

namespace sillwright::scene {
namespace {

constexpr std::size_t kMostErrors = 20;

/// What a file's faces may take together. A simple polygon finds its ears soon, one that crosses itself never: a
/// hundred of the largest would take seconds.
constexpr std::size_t kMostEffort = 100'000'000;

/// A mesh by the numbers of its vertices.
struct Faces {
  std::vector<glm::vec3> vertex;
  std::vector<std::uint32_t> corner;  ///< Three a triangle.
  std::size_t effort = 0;             ///< Corners that were looked at to find all ears so far.
};

/// Takes the next line off `text`. Lines end at \n, \r\n or \r, as they do for the loader.
std::string_view takeLine(std::string_view& text) {
  const std::size_t end = text.find_first_of("\r\n");
  const std::string_view line = text.substr(0, end);
  if (end == std::string_view::npos) {
    text = {};
  } else {
    const bool both = text.substr(end, 2) == "\r\n";
    text.remove_prefix(end + (both ? 2 : 1));
  }
  return line;
}

/// Takes the next word off a line; empty at its end.
std::string_view takeWord(std::string_view& line) {
  const std::size_t begin = line.find_first_not_of(" \t");
  if (begin == std::string_view::npos) return {};
  line.remove_prefix(begin);
  const std::string_view word = line.substr(0, line.find_first_of(" \t"));
  line.remove_prefix(word.size());
  return word;
}

template <class Number>
bool readWhole(std::string_view word, Number& number) {
  if (!word.empty() && word.front() == '+') word.remove_prefix(1);
  const std::from_chars_result result = std::from_chars(word.data(), word.data() + word.size(), number);
  return result.ec == std::errc() && result.ptr == word.data() + word.size();
}

/// Whether it is a corner's numbers of a texture and of a normal, "" to "/1/2", which are passed over.
bool isTextureAndNormal(std::string_view rest) {
  for (int part = 0; part < 2 && !rest.empty(); ++part) {
    rest.remove_prefix(1);  // the slash
    const std::string_view number = rest.substr(0, rest.find('/'));
    long long ignored = 0;
    if (!number.empty() && !readWhole(number, ignored)) return false;
    rest.remove_prefix(number.size());
  }
  return rest.empty();
}

/// A corner that names a vertex further down the file, looked at again when all vertices are known.
struct Ahead {
  std::uint32_t line = 0;
  long long vertex = 0;
};

/// Reads an OBJ's text line by line. Its polygons may be taken where there are no errors: all their corners exist then.
struct Reader {
  const std::string& file;
  std::vector<glm::vec3> vertex = {};
  std::vector<std::vector<std::uint32_t>> polygons = {};
  std::vector<base::Error> errors = {};
  std::uint32_t line_number = 0;
  std::size_t triangles = 0;
  std::vector<Ahead> ahead = {};

  void read(std::string_view text) {
    while (!text.empty() && errors.size() < kMostErrors) {
      ++line_number;
      std::string_view line = takeLine(text);
      if (line.find('\0') != std::string_view::npos) return say("this is not text; an OBJ is a text file");
      const std::string_view word = takeWord(line);
      if (word == "v") readVertex(line);
      if (word == "f") readFace(line);
    }
    if (!errors.empty()) return;
    for (const Ahead& each : ahead) {
      if (each.vertex <= count() || errors.size() >= kMostErrors) continue;
      line_number = each.line;
      say("vertex " + std::to_string(each.vertex) + " does not exist; the file has " + std::to_string(count()));
    }
    line_number = 0;
    if (errors.empty() && triangles == 0) say("no faces; an OBJ needs lines that begin with f");
  }

  [[nodiscard]] long long count() const { return static_cast<long long>(vertex.size()); }

  void say(std::string words) {
    errors.push_back({file, {line_number, line_number > 0 ? 1U : 0U}, "", std::move(words)});
  }

  void readVertex(std::string_view line) {
    glm::dvec3 at{0.0};
    vertex.emplace_back(0.0F);  // counted where it is wrong, too
    for (int i = 0; i < 3; ++i) {
      const std::string_view word = takeWord(line);
      if (word.empty()) return say("a vertex needs three numbers, found " + std::to_string(i));
      const std::string shown(word.substr(0, 40));
      if (!readWhole(word, at[i]) || !std::isfinite(at[i])) return say("\"" + shown + "\" is not a finite number");
      if (std::abs(at[i]) > kFarthestVertex) {
        return say("a vertex lies further than 1000000 mm from the origin: " + shown);
      }
    }
    vertex.back() = glm::vec3(at);
  }

  void readFace(std::string_view line) {
    std::vector<std::uint32_t> ring;
    for (std::string_view word = takeWord(line); !word.empty(); word = takeWord(line)) {
      if (!readCorner(word, ring)) return;
    }
    if (ring.size() < 3) return say("a face needs three corners or more, found " + std::to_string(ring.size()));
    if (ring.size() > kMostCorners) {
      return say("a face may have 256 corners at most, found " + std::to_string(ring.size()));
    }
    const bool were_few = triangles <= kMostTriangles;
    triangles += ring.size() - 2;
    if (were_few && triangles > kMostTriangles) say("more than 2000000 triangles");
    if (errors.empty()) polygons.push_back(std::move(ring));
  }

  /// Adds it to the ring. Vertices are counted from 1, or from the last one backwards.
  bool readCorner(std::string_view word, std::vector<std::uint32_t>& ring) {
    long long number = 0;
    const std::string_view first = word.substr(0, word.find('/'));
    if (!readWhole(first, number) || !isTextureAndNormal(word.substr(first.size()))) {
      say("\"" + std::string(word.substr(0, 40)) + "\" is not a face's corner; it is the number of a vertex");
    } else if (number == 0) {
      say("vertices are counted from 1, found 0");
    } else if (number < 0 && -number > count()) {
      say("vertex " + std::to_string(number) + " does not exist; " + std::to_string(count()) +
          " stand before this line");
    } else {
      if (number > count()) ahead.push_back({line_number, number});
      ring.push_back(static_cast<std::uint32_t>(number > 0 ? number - 1 : count() + number));
      return true;
    }
    return false;
  }
};

/// Twice the area of a triangle as a vector square to it.
glm::dvec3 normalOf(const Faces& faces, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
  const glm::dvec3 origin(faces.vertex[a]);
  return glm::cross(glm::dvec3(faces.vertex[b]) - origin, glm::dvec3(faces.vertex[c]) - origin);
}

/// Newell's sum: right for polygons of any shape, flat or nearly so.
glm::dvec3 normalOf(const Faces& faces, const std::vector<std::uint32_t>& ring) {
  glm::dvec3 sum{0.0};
  for (std::size_t i = 2; i < ring.size(); ++i) sum += normalOf(faces, ring[0], ring[i - 1], ring[i]);
  return sum;
}

void addTriangle(Faces& faces, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
  constexpr double kLeastArea = 1e-9;  // mm², twice over: less is a line or a point
  if (glm::length(normalOf(faces, a, b, c)) <= kLeastArea) return;
  faces.corner.insert(faces.corner.end(), {a, b, c});
}

/// Whether `p` lies in the triangle, seen along `up`; on its edge counts.
bool inside(const Faces& faces, std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t p,
            const glm::dvec3& up) {
  return glm::dot(normalOf(faces, a, b, p), up) >= 0 && glm::dot(normalOf(faces, b, c, p), up) >= 0 &&
         glm::dot(normalOf(faces, c, a, p), up) >= 0;
}

bool isEar(const Faces& faces, const std::vector<std::uint32_t>& ring, std::size_t at, const glm::dvec3& up) {
  const std::size_t count = ring.size();
  const std::uint32_t a = ring[(at + count - 1) % count];
  const std::uint32_t b = ring[at];
  const std::uint32_t c = ring[(at + 1) % count];
  if (glm::dot(normalOf(faces, a, b, c), up) <= 0) return false;
  return std::none_of(ring.begin(), ring.end(),
                      [&](std::uint32_t p) { return p != a && p != b && p != c && inside(faces, a, b, c, p, up); });
}

struct HalfEdge {
  std::uint32_t low = 0;
  std::uint32_t high = 0;
  std::uint32_t triangle = 0;
  bool rises = false;  // walked from low to high
};

/// For each vertex, the first vertex at the same place.
std::vector<std::uint32_t> merged(const std::vector<glm::vec3>& vertex) {
  std::vector<std::uint32_t> order(vertex.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto key = [&](std::uint32_t i) { return std::make_tuple(vertex[i].x, vertex[i].y, vertex[i].z); };
  std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
    return std::tuple_cat(key(a), std::make_tuple(a)) < std::tuple_cat(key(b), std::make_tuple(b));
  });
  std::vector<std::uint32_t> first(vertex.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    const bool same = i > 0 && key(order[i]) == key(order[i - 1]);
    first[order[i]] = same ? first[order[i - 1]] : order[i];
  }
  return first;
}

/// Cuts a simple polygon into triangles by clipping ears, and adds those that have area. `ring` is used up. False: the
/// faces have taken more than kMostEffort, and this one is not cut.
bool addPolygonTo(Faces& faces, std::vector<std::uint32_t>& ring) {
  const glm::dvec3 up = normalOf(faces, ring);
  while (ring.size() > 3) {
    std::size_t at = 0;
    while (at < ring.size() && !isEar(faces, ring, at, up)) ++at;
    faces.effort += (at + 1) * ring.size();
    if (faces.effort > kMostEffort) return false;
    // A polygon that crosses itself may have no ear; its corners are then cut off in turn.
    if (at == ring.size()) at = 1;
    const std::size_t count = ring.size();
    addTriangle(faces, ring[(at + count - 1) % count], ring[at], ring[(at + 1) % count]);
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(at));
  }
  if (ring.size() == 3) addTriangle(faces, ring[0], ring[1], ring[2]);
  return true;
}

/// Ends of the lines to ink, two a line: borders, edges of more than two triangles, and turns above kInkedTurnDegrees.
/// Vertices at one place count as one.
std::vector<glm::vec3> inkedLines(const Faces& faces) {
  const std::vector<std::uint32_t> first = merged(faces.vertex);
  std::vector<HalfEdge> edges;
  edges.reserve(faces.corner.size());
  for (std::uint32_t i = 0; i < faces.corner.size(); ++i) {
    const std::uint32_t next = i % 3 == 2 ? i - 2 : i + 1;
    const std::uint32_t a = first[faces.corner[i]];
    const std::uint32_t b = first[faces.corner[next]];
    edges.push_back({std::min(a, b), std::max(a, b), i / 3, a < b});
  }
  const auto key = [](const HalfEdge& e) { return std::tie(e.low, e.high, e.triangle); };
  std::sort(edges.begin(), edges.end(), [&](const HalfEdge& a, const HalfEdge& b) { return key(a) < key(b); });
  const auto facing = [&](const HalfEdge& e) {
    const std::size_t t = std::size_t{3} * e.triangle;
    const glm::dvec3 normal =
        glm::normalize(normalOf(faces, faces.corner[t], faces.corner[t + 1], faces.corner[t + 2]));
    return e.rises ? normal : -normal;
  };
  const double least_cosine = std::cos(kInkedTurnDegrees * std::numbers::pi / 180.0);
  std::vector<glm::vec3> lines;
  for (std::size_t i = 0; i < edges.size();) {
    std::size_t end = i + 1;
    while (end < edges.size() && edges[end].low == edges[i].low && edges[end].high == edges[i].high) ++end;
    // Two triangles that walk their edge in opposite directions face the same way; the sign above sees to both cases.
    const bool smooth = end - i == 2 && -glm::dot(facing(edges[i]), facing(edges[i + 1])) > least_cosine;
    if (!smooth && edges[i].low != edges[i].high) {
      lines.push_back(faces.vertex[edges[i].low]);
      lines.push_back(faces.vertex[edges[i].high]);
    }
    i = end;
  }
  return lines;
}

std::string lineOf(const base::Error& error) {
  const std::string place = error.at.line > 0 ? "line " + std::to_string(error.at.line) + ": " : std::string{};
  return error.file + ": " + place + error.say;
}

}  // namespace

base::Result<Mesh> readMesh(std::string_view text, std::string file) {
  Reader reader{file};
  reader.read(text);
  if (!reader.errors.empty()) return {{}, std::move(reader.errors)};
  Faces faces{std::move(reader.vertex), {}};
  for (std::vector<std::uint32_t>& ring : reader.polygons) {
    if (addPolygonTo(faces, ring)) continue;
    return {{}, {{file, {}, "", "too many faces cross themselves; have them cut into triangles first"}}};
  }
  if (faces.corner.empty()) return {{}, {{file, {}, "", "none of the faces has any area"}}};
  Mesh mesh{std::move(file), {}, inkedLines(faces)};
  mesh.corner.reserve(faces.corner.size());
  for (const std::uint32_t corner : faces.corner) mesh.corner.push_back(faces.vertex[corner]);
  return {std::move(mesh), {}};
}

base::Result<Mesh> readMeshFile(const std::filesystem::path& path) {
  auto text = base::loadText(path, kLargestMeshFile);
  return text.ok() ? readMesh(*text.value, path.generic_string()) : base::Result<Mesh>{{}, std::move(text.errors)};
}

Box boundsOf(const Mesh& mesh) { return boxRound(mesh.corner); }

std::vector<base::Error> loadMeshes(MeshLibrary& library, const std::filesystem::path& assets, const job::Job& job,
                                    const std::filesystem::path& job_folder) {
  const auto load = [&](const std::string& name, const std::filesystem::path& folder) {
    base::Result<Mesh> read = readMeshFile(folder / name);
    if (read.ok()) library.mesh.insert_or_assign(name, std::move(*read.value));
    return std::move(read.errors);
  };
  std::vector<base::Error> errors;
  for (const char* name : {kScrewMesh, kHandleMesh, kCatchMesh, kHingeMesh}) {
    if (assets.empty()) break;
    const auto refused = load(name, assets);
    errors.insert(errors.end(), refused.begin(), refused.end());
  }
  std::map<std::string, std::vector<base::Error>> refused;  // each file is read once
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Unit& unit = job.openings[i].unit;
    if (!unit.mesh) continue;
    const auto [known, is_new] = refused.try_emplace(*unit.mesh);
    if (is_new) known->second = load(*unit.mesh, job_folder);
    for (const base::Error& error : known->second) {
      errors.push_back({job.file, unit.mesh_place, "opening[" + std::to_string(i) + "].unit.mesh", lineOf(error)});
    }
  }
  return errors;
}

}  // namespace sillwright::scene
