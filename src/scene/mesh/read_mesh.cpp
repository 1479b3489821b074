// An OBJ's text, line by line, before the loader sees it: the loader itself passes over what it can't read.

#include <tiny_obj_loader.h>
#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <numeric>
#include <sstream>
#include <tuple>

#include "scene/mesh/mesh.h"

namespace sillwright::scene {

namespace {

constexpr std::size_t kMostErrors = 20;

/// What a file's faces may take together. A simple polygon finds its ears soon, one that crosses itself never: a
/// hundred of the largest would take seconds.
constexpr std::size_t kMostEffort = 100'000'000;

/// The faces of an OBJ by the numbers of their vertices: as they are written, and cut into triangles.
struct Faces {
  std::vector<glm::vec3> vertex;
  std::vector<std::vector<std::uint32_t>> rings;
  std::vector<std::uint32_t> corner;  ///< Three a triangle.
  std::size_t effort = 0;             ///< Corners that were looked at to find all ears so far.
};

/// Takes the next line off `text`. Lines end at \n, \r\n or \r, as they do for the loader.
std::string_view takeLine(std::string_view& text) {
  const std::string_view line = text.substr(0, text.find_first_of("\r\n"));
  text.remove_prefix(line.size());
  text.remove_prefix(text.substr(0, 2) == "\r\n" ? 2 : std::min<std::size_t>(text.size(), 1));
  return line;
}

/// Takes the next word off a line; empty at its end.
std::string_view takeWord(std::string_view& line) {
  line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
  const std::string_view word = line.substr(0, line.find_first_of(" \t"));
  line.remove_prefix(word.size());
  return word;
}

template <class Number>
bool readWhole(std::string_view word, Number& number) {
  if (!word.empty() && word.front() == '+') word.remove_prefix(1);  // from_chars takes no plus, files have it
  const std::from_chars_result result = std::from_chars(word.data(), word.data() + word.size(), number);
  return result.ec == std::errc() && result.ptr == word.data() + word.size();
}

/// A corner's numbers of a texture and of a normal, "" to "/1/2": passed over, but the loader takes what it makes of
/// anything else for a further corner.
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

/// Whether the loader reads the number as the standard library does: it multiplies the digits by a power of its own,
/// which overflows ("0e794" would be no number), and adds them up one by one.
bool isReadAlike(std::string_view word) {
  constexpr std::size_t kMostCharacters = 64;
  constexpr int kLargestExponent = 99;
  if (word.size() > kMostCharacters) return false;
  const std::size_t mark = word.find_first_of("eE");
  if (mark == std::string_view::npos) return true;
  int exponent = 0;
  return readWhole(word.substr(mark + 1), exponent) && exponent <= kLargestExponent;
}

class Checker {
 public:
  explicit Checker(const std::string& file) : file_(file) {}

  std::vector<base::Error> check(std::string_view text) {
    while (!text.empty() && errors_.size() < kMostErrors) {
      ++line_;
      std::string_view line = takeLine(text);
      if (line.find('\0') != std::string_view::npos) {
        say("this is not text; an OBJ is a text file");
        return errors_;
      }
      const std::string_view word = takeWord(line);
      if (word == "v") checkVertex(line);
      if (word == "f") checkFace(line);
    }
    if (!errors_.empty()) return errors_;  // the count of vertices is not to be trusted then
    for (const Ahead& ahead : ahead_) {
      if (ahead.vertex <= vertices_ || errors_.size() >= kMostErrors) continue;
      line_ = ahead.line;
      say("vertex " + std::to_string(ahead.vertex) + " does not exist; the file has " + std::to_string(vertices_));
    }
    line_ = 0;  // of the file as a whole
    if (errors_.empty() && triangles_ == 0) say("no faces; an OBJ needs lines that begin with f");
    return errors_;
  }

 private:
  void say(std::string words) { errors_.push_back({file_, {line_, line_ > 0 ? 1U : 0U}, "", std::move(words)}); }

  void checkVertex(std::string_view line) {
    ++vertices_;
    for (int i = 0; i < 3; ++i) {
      const std::string_view word = takeWord(line);
      double value = 0;
      if (word.empty()) return say("a vertex needs three numbers, found " + std::to_string(i));
      if (!readWhole(word, value) || !std::isfinite(value)) {
        return say("\"" + std::string(word.substr(0, 40)) + "\" is not a finite number");
      }
      if (!isReadAlike(word)) {
        return say("\"" + std::string(word.substr(0, 40)) +
                   "\" is a number in a form that is not read: at most 64 characters, an exponent of at most 99");
      }
      if (std::abs(value) > kFarthestVertex) {
        return say("a vertex lies further than 1000000 mm from the origin: " + std::string(word.substr(0, 40)));
      }
    }
  }

  void checkFace(std::string_view line) {
    std::size_t corners = 0;
    for (std::string_view word = takeWord(line); !word.empty(); word = takeWord(line)) {
      ++corners;
      if (std::string wrong = wrongWith(word); !wrong.empty()) return say(std::move(wrong));
    }
    if (corners < 3) return say("a face needs three corners or more, found " + std::to_string(corners));
    if (corners > kMostCorners) {
      return say("a face may have 256 corners at most, found " + std::to_string(corners));
    }
    const bool were_few = triangles_ <= kMostTriangles;  // so that it is said once
    triangles_ += corners - 2;                           // as many as a polygon is cut into
    if (were_few && triangles_ > kMostTriangles) say("more than 2000000 triangles");
  }

  /// What is wrong with a face's corner; empty: nothing that the file so far can tell.
  std::string wrongWith(std::string_view word) {
    long long vertex = 0;
    const std::string_view number = word.substr(0, word.find('/'));
    if (!readWhole(number, vertex) || !isTextureAndNormal(word.substr(number.size()))) {
      return "\"" + std::string(word.substr(0, 40)) + "\" is not a face's corner; it is the number of a vertex";
    }
    if (vertex == 0) return "vertices are counted from 1, found 0";
    if (vertex < 0 && -vertex > vertices_) {
      return "vertex " + std::to_string(vertex) + " does not exist; " + std::to_string(vertices_) +
             " stand before this line";
    }
    if (vertex > vertices_) ahead_.push_back({line_, vertex});
    return {};
  }

  const std::string& file_;
  std::uint32_t line_ = 0;
  long long vertices_ = 0;
  std::size_t triangles_ = 0;
  std::vector<Ahead> ahead_;
  std::vector<base::Error> errors_;
};

// What the loader's callbacks fill.

void onVertex(void* user, tinyobj::real_t x, tinyobj::real_t y, tinyobj::real_t z, tinyobj::real_t /*w*/) {
  static_cast<Faces*>(user)->vertex.emplace_back(x, y, z);
}

void onFace(void* user, tinyobj::index_t* corners, int count) {
  auto& faces = *static_cast<Faces*>(user);
  std::vector<std::uint32_t>& ring = faces.rings.emplace_back();
  ring.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    // As written in the file: from 1, or from the last vertex backwards. The checker has seen to the range.
    const int index = corners[i].vertex_index;
    const auto so_far = static_cast<int>(faces.vertex.size());
    ring.push_back(static_cast<std::uint32_t>(index > 0 ? index - 1 : so_far + index));
  }
}

/// Whether the loader saw the vertices and corners that the checker saw: it reads lines and numbers in its own way.
bool isAsChecked(const Faces& faces) {
  const auto lies = [](const glm::vec3& vertex) {  // false for what is not a number, too
    return std::abs(vertex.x) <= kFarthestVertex && std::abs(vertex.y) <= kFarthestVertex &&
           std::abs(vertex.z) <= kFarthestVertex;
  };
  const auto all = [](const auto& range, const auto& good) { return std::all_of(range.begin(), range.end(), good); };
  return all(faces.vertex, lies) && all(faces.rings, [&](const auto& ring) {
           return all(ring, [&](std::uint32_t corner) { return corner < faces.vertex.size(); });
         });
}

// Polygons to triangles, and triangles to the lines that are inked.

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
  if (glm::dot(normalOf(faces, a, b, c), up) <= 0) return false;  // the corner turns in, or not at all
  return std::none_of(ring.begin(), ring.end(),
                      [&](std::uint32_t p) { return p != a && p != b && p != c && inside(faces, a, b, c, p, up); });
}

struct HalfEdge {
  std::uint32_t low = 0, high = 0, triangle = 0;
  bool rises = false;  // walked from low to high
};

/// For each vertex, the first vertex at the same place.
std::vector<std::uint32_t> merged(const std::vector<glm::vec3>& vertex) {
  std::vector<std::uint32_t> order(vertex.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto key = [&](std::uint32_t i) { return std::make_tuple(vertex[i].x, vertex[i].y, vertex[i].z); };
  std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return key(a) < key(b); });
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
    while (at < ring.size() && !isEar(faces, ring, at, up)) ++at;  // it has two if simple (Meisters 1975, from memory)
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
  // Every triangle's edges by their ends: sorted, those along one line lie together.
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
    if (!smooth && edges[i].low != edges[i].high) {  // an edge between two at one place has no length
      lines.insert(lines.end(), {faces.vertex[edges[i].low], faces.vertex[edges[i].high]});
    }
    i = end;
  }
  return lines;
}

}  // namespace

std::vector<base::Error> checkMesh(std::string_view text, const std::string& file) { return Checker(file).check(text); }

base::Result<Mesh> readMesh(std::string_view text, std::string file) {
  if (std::vector<base::Error> errors = checkMesh(text, file); !errors.empty()) return {{}, std::move(errors)};
  Faces faces;
  tinyobj::callback_t callback;
  callback.vertex_cb = onVertex;
  callback.index_cb = onFace;
  std::istringstream stream{std::string(text)};
  std::string warn, error;
  if (!tinyobj::LoadObjWithCallback(stream, callback, &faces, nullptr, &warn, &error) || !isAsChecked(faces)) {
    return {{}, {{std::move(file), {}, "", "the file can't be read as an OBJ"}}};
  }
  for (std::vector<std::uint32_t>& ring : faces.rings) {
    if (addPolygonTo(faces, ring)) continue;
    return {{}, {{std::move(file), {}, "", "too many faces cross themselves; have them cut into triangles first"}}};
  }
  if (faces.corner.empty()) return {{}, {{std::move(file), {}, "", "none of the faces has any area"}}};

  base::Result<Mesh> result;
  Mesh& mesh = result.value.emplace();
  mesh.corner.reserve(faces.corner.size());
  for (const std::uint32_t corner : faces.corner) mesh.corner.push_back(faces.vertex[corner]);
  mesh.line = inkedLines(faces);
  mesh.box = boxRound(mesh.corner);
  return result;
}

}  // namespace sillwright::scene
