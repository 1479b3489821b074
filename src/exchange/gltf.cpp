// glTF 2.0, binary: one buffer with the corners of all shapes, then their normals, then how triangles are made of
// those, then where shapes that share a node stand. A shape is a part's surface brought to a cube of one metre; a
// node's scale gives it its size, so that all boxes are one shape.

#include <algorithm>
#include <bit>
#include <cmath>
#include <map>
#include <tuple>

#include "base/words.h"
#include "exchange/json.h"
#include "exchange/model.h"
#include "exchange/model_parts.h"
#include "scene/describe.h"

namespace sillwright::exchange {
namespace {

constexpr std::uint64_t kMostBytes = 0xFFFF'FFFFU;          // the file's header has 32 bits for its length
constexpr int kWhole = 5125, kFloats = 5126;                // component types of the specification
constexpr int kCornerBuffer = 34962, kIndexBuffer = 34963;  // targets of the specification
constexpr const char* kInstancing = "EXT_mesh_gpu_instancing";
/// A part has a node of its own, and its corners normals, in models of no more than so many: not all readers know
/// instances. Without normals faces are flat by the specification, as ours are.
constexpr std::size_t kMostNodes = 5'000;
constexpr double kAlike = 0.002;      // mm: corners of two shapes no further apart are the same
constexpr double kFlat = 1e-6;        // mm: a part that is no thicker is not scaled that way
constexpr double kNumberParts = 1e8;  // metres to ten nanometres

/// Millimetres, Z up → metres, Y up.
glm::dvec3 toGltf(glm::dvec3 v) { return glm::dvec3{v.x, v.z, -v.y} / 1000.0; }

/// Corners, each once to a normal; which of them are triangles.
struct Shape {
  std::vector<glm::vec3> corners, normals;
  std::vector<std::uint32_t> triangles;
};

/// A part, or one solid of it, in its wall's axes: a shape and a material, scaled and moved, metres.
struct Placed {
  std::size_t part = 0;
  std::size_t mesh = 0;
  glm::dvec3 middle{0.0};
  glm::dvec3 scale{1.0};
};

struct Geometry {
  std::vector<Shape> shapes;
  std::vector<std::pair<std::size_t, scene::Material>> meshes;  // shape and material
  std::vector<Placed> placed;                                   // in the order of their parts
};

/// A part's surface in its wall's axes, and the box round it, mm.
struct Surface {
  Polygons polygons;
  std::vector<glm::dvec3> corners;  // of all polygons in turn
  glm::dvec3 low{0.0};
  glm::dvec3 size{0.0};

  Surface(Polygons of, const Axes& axes) : polygons(std::move(of)) {
    for (const Polygon& polygon : polygons) {
      for (const glm::vec3& corner : polygon) corners.push_back(axes.toLocal(corner));
    }
    if (corners.empty()) return;  // the part has no face with an area
    glm::dvec3 high = low = corners.front();
    for (const glm::dvec3& corner : corners) low = glm::min(low, corner), high = glm::max(high, corner);
    size = high - low;
  }

  /// In steps of kAlike from the box's low side; −1: its high side, however far off: so boxes of all sizes are alike.
  [[nodiscard]] std::int32_t step(std::size_t corner, int axis) const {
    const double from = corners[corner][axis] - low[axis];
    return size[axis] - from < kAlike / 2 ? -1 : static_cast<std::int32_t>(std::lround(from / kAlike));
  }

  /// Equal for surfaces of one shape: all corners alike in the box, which is of one size where they are not on its
  /// sides.
  [[nodiscard]] std::string key() const {
    std::string key;
    const auto put = [&](std::int32_t number) { key.append(reinterpret_cast<const char*>(&number), sizeof number); };
    for (int axis = 0; axis < 3; ++axis) {
      bool inside = false;
      for (std::size_t i = 0; i < corners.size(); ++i) {  // shapes alike have their corners in the same order
        const std::int32_t at = step(i, axis);
        put(at);
        inside = inside || at > 0;  // a corner on neither side of the box: its place depends on the size
      }
      put(inside ? static_cast<std::int32_t>(std::lround(size[axis] / kAlike)) : 0);
    }
    for (const Polygon& polygon : polygons) put(static_cast<std::int32_t>(polygon.size()));  // and faces alike
    return key;
  }

  /// In a cube of one metre about its middle; what is on the box's side is on the cube's.
  [[nodiscard]] glm::dvec3 inCube(std::size_t corner) const {
    glm::dvec3 at{0.0};
    for (int axis = 0; axis < 3; ++axis) {
      if (size[axis] <= kFlat) continue;  // what is flat that way lies in the cube's middle, unscaled
      const std::int32_t on = step(corner, axis);
      at[axis] = on <= 0 ? (on < 0 ? 500.0 : -500.0) : (corners[corner][axis] - low[axis]) / size[axis] * 1000 - 500;
    }
    return toGltf(at);
  }
};

Shape shapeOf(const Surface& surface, bool normals) {
  Shape shape;
  std::map<std::array<float, 6>, std::uint32_t> known;  // corners with their normals, as they will be written
  const auto add = [&](const std::array<glm::dvec3, 3>& triangle) {
    const glm::dvec3 across = glm::cross(triangle[1] - triangle[0], triangle[2] - triangle[0]);
    const double size = std::sqrt(glm::dot(across, across));
    if (!(size > 1e-15)) return;  // nothing to see, and no way to look
    const glm::vec3 n = normals ? glm::vec3(across / size) : glm::vec3(0.0F);
    for (const glm::vec3 at : triangle) {
      const auto [found, fresh] = known.try_emplace({at.x, at.y, at.z, n.x, n.y, n.z}, known.size());
      shape.triangles.push_back(found->second);
      if (fresh) shape.corners.push_back(at);
      if (fresh && normals) shape.normals.push_back(n);
    }
  };
  std::size_t first = 0;
  for (const Polygon& polygon : surface.polygons) {
    for (std::size_t i = first + 2; i < first + polygon.size(); ++i)  // a fan of triangles: faces are convex
      add({surface.inCube(first), surface.inCube(i - 1), surface.inCube(i)});
    first += polygon.size();
  }
  return shape;
}

/// Shapes and meshes as they are met. `shared`: solid by solid, so that a sheet round an opening is boxes like any
/// other.
Geometry gather(const scene::Scene& scene, bool shared) {
  Geometry geometry;  // everything in the order of the parts: a job always gives the same bytes
  std::unordered_map<std::string, std::size_t> shape_of;  // it is only looked up: its own order reaches no file
  std::map<std::pair<std::size_t, scene::Material>, std::size_t> mesh_of;
  const auto add = [&](std::size_t part, const Surface& surface) {
    const auto [shape, fresh] = shape_of.try_emplace(surface.key(), geometry.shapes.size());
    if (fresh) geometry.shapes.push_back(shapeOf(surface, !shared));
    if (geometry.shapes[shape->second].corners.empty()) return;  // nothing of it can be seen
    const std::pair mesh{shape->second, scene.parts[part].material};
    const auto [at, unseen] = mesh_of.try_emplace(mesh, geometry.meshes.size());
    if (unseen) geometry.meshes.push_back(mesh);
    Placed placed{part, at->second, toGltf(surface.low + surface.size * 0.5), glm::dvec3(1.0)};
    for (int axis = 0; axis < 3; ++axis) {
      const double size = surface.size[std::array{0, 2, 1}[static_cast<std::size_t>(axis)]];  // in the file x, z, −y
      if (size > kFlat) placed.scale[axis] = size / 1000;
    }
    geometry.placed.push_back(placed);
  };
  const PartIndex index(scene);
  for (std::size_t i = 0; i < scene.parts.size(); ++i) {  // a part is one node unless nodes are shared
    const auto shells = shared ? index.shellsOf(i) : std::vector<Polygons>{index.surfaceOf(i)};
    for (const Polygons& shell : shells) add(i, Surface(shell, axesOf(scene, scene.parts[i].wall)));
  }
  return geometry;
}

/// What a node of the file stands for, from the job down.
enum class Level { Job, Wall, Layer, Step, Part };

/// Of parts it has a mesh and where it is placed; the others have children.
struct Node {
  Level level = Level::Job;
  std::string name;
  const scene::Part* part = nullptr;  ///< The first under it; null: there is none.
  std::vector<std::size_t> children;
  std::vector<const Placed*> placed;
};

/// The job, its walls, their layers, the steps, the parts; in a large job those of one mesh and kind as one.
std::vector<Node> treeOf(const scene::Scene& scene, const Geometry& geometry, const job::Job& job,
                         const practice::Practice& practice, bool shared) {
  UniqueNames names;
  const std::vector<std::string> part_names =
      shared ? std::vector<std::string>() : partNames(scene, job, practice, names);
  std::vector<Node> nodes{{Level::Job, names.take(job.title), nullptr, {}, {}}};
  std::map<std::tuple<std::size_t, std::size_t, std::size_t>, std::size_t> made;  // by the node above, and what it is
  for (const Placed& placed : geometry.placed) {
    const scene::Part& part = scene.parts[placed.part];
    std::size_t at = 0;  // from the job, node 0, down to the part
    const auto into = [&](Level level, auto what, std::size_t mesh, const auto& name) {
      const auto [found, fresh] = made.emplace(std::tuple(at, static_cast<std::size_t>(what), mesh), nodes.size());
      if (fresh) {  // nodes come in the order of their first parts
        nodes[at].children.push_back(nodes.size());
        const bool own = level == Level::Part && !shared;  // partNames has taken the names of these
        nodes.push_back({level, own ? name() : names.take(name()), &part, {}, {}});
      }
      at = found->second;
    };
    const std::string wall = wallName(part, job);
    const auto in_wall = [&](const std::string& what) { return wall + " " + what; };
    const std::string layer = scene::nameOf(part.layer);
    into(Level::Wall, part.wall, 0, [&] { return wall; });  // −1 is the site
    into(Level::Layer, part.layer, 0, [&] { return in_wall(layer); });
    into(Level::Step, part.step, 0, [&] { return in_wall(layer + ", " + stepName(part)); });
    into(Level::Part, shared ? static_cast<std::size_t>(part.kind) : placed.part, placed.mesh,
         [&] { return shared ? in_wall(scene::nameOf(part.kind, practice.words)) : part_names[placed.part]; });
    nodes[at].placed.push_back(&placed);
  }
  const auto opening = [&](const Placed* of) { return scene.parts[of->part].opening; };
  const auto before = [&](const Placed* a, const Placed* b) { return opening(a) < opening(b); };  // for writePart
  for (Node& node : nodes) std::stable_sort(node.placed.begin(), node.placed.end(), before);
  return nodes;
}

void append(std::string& out, std::uint32_t value) {  // little endian, as the format is
  for (int shift = 0; shift < 32; shift += 8) out += static_cast<char>(value >> shift & 0xFFU);
}

void append(std::string& out, glm::vec3 v) {
  for (int i = 0; i < 3; ++i) append(out, std::bit_cast<std::uint32_t>(v[i]));
}

/// What the buffer holds, in this order, a view each. The last: normals; in a large model where instances stand.
enum Stretch : std::size_t { kCorners, kIndices, kMore };

struct Accessor {
  Stretch in{};
  std::size_t offset = 0;
  std::size_t count = 0;
  const Shape* bounds = nullptr;  ///< Whose corners they are.
};

/// The file being written, and its buffer.
struct Writer {
  const scene::Scene& scene;
  const job::Job& job;
  const practice::Practice& practice;
  const Geometry& geometry;
  bool shared;
  std::vector<Node> nodes = treeOf(scene, geometry, job, practice, shared);
  std::array<std::string, 3> buffer{};
  std::vector<Accessor> accessors{};
  std::map<std::pair<Stretch, std::string>, std::size_t> known{};  // accessors by the bytes they lead to
  std::string text{};
  JsonWriter json{text, kNumberParts};  // it keeps `text` by reference, which must be made before it
  std::map<scene::Material, int> material_of{};

  std::string run() {
    json.beginObject();
    json.key("asset").object("version", "2.0", "generator", "sillwright").member("scene", 0);
    json.key("scenes").beginArray().object("nodes", std::array{0}).endArray();  // node 0 is the job
    writeNodes();
    if (!geometry.meshes.empty()) {  // the format allows no empty lists of these
      writeMaterials();
      writeMeshes();
      writeAccessors();
      writeBuffers();
    }
    for (const char* key : {"extensionsUsed", "extensionsRequired"}) {
      if (shared && !buffer[kMore].empty()) json.member(key, std::array{kInstancing});
    }
    json.endObject();
    return std::move(text);
  }

  static std::array<double, 3> numbers(glm::dvec3 v) { return {v.x, v.y, v.z}; }

  void writeNodes() {
    json.array("nodes", nodes, [&](const Node& node) {
      json.newLine().beginObject().member("name", node.name);
      if (!node.children.empty()) json.member("children", node.children);
      if (node.level == Level::Wall) {  // a quaternion about the file's y, which is up
        const Axes axes = axesOf(scene, node.part->wall);
        json.members("translation", numbers(toGltf(axes.origin)), "rotation",
                     std::array{0.0, std::sin(axes.turn / 2), 0.0, std::cos(axes.turn / 2)});
      }
      if (node.level == Level::Part) writePlaces(node);
      writeExtras(node);
      json.endObject();
    });
  }

  void writePlaces(const Node& node) {
    // As it is written: what instances are moved by is divided by it.
    const glm::dvec3 scale = glm::round(node.placed.front()->scale * kNumberParts) / kNumberParts;
    const bool alike = std::all_of(node.placed.begin(), node.placed.end(), [&](const Placed* placed) {
      return glm::all(glm::lessThan(glm::abs(placed->scale - scale), glm::dvec3(kAlike / 1000)));  // kAlike is mm
    });
    json.member("mesh", node.placed.front()->mesh);   // one node, one mesh
    if (alike) json.member("scale", numbers(scale));  // else each instance brings its own
    if (node.placed.size() == 1) return void(json.member("translation", numbers(node.placed.front()->middle)));
    json.key("extensions").beginObject().key(kInstancing).beginObject().key("attributes").beginObject();
    std::vector<glm::vec3> places, scales;
    for (const Placed* of : node.placed) {
      places.emplace_back(alike ? of->middle / scale : of->middle);  // the node's scale multiplies it again
      scales.emplace_back(of->scale);
    }
    json.member("TRANSLATION", accessor(kMore, places));
    if (!alike) json.member("SCALE", accessor(kMore, scales));
    json.endObject().endObject().endObject();
  }

  /// The number of the accessor of these; of the same ones it is the same.
  template <class Number>
  std::size_t accessor(Stretch in, const std::vector<Number>& all) {
    std::string bytes;
    for (const Number& each : all) append(bytes, each);
    const auto [found, fresh] = known.try_emplace({in, bytes}, accessors.size());
    if (fresh) {
      accessors.push_back({in, buffer[in].size(), all.size(), nullptr});
      buffer[in] += bytes;
    }
    return found->second;
  }

  /// What it says beside those above it.
  void writeExtras(const Node& node) {
    json.key("extras").beginObject();
    if (node.level == Level::Job) {
      json.member("title", job.title).member("practice", job.practice);  // writePart numbers the openings below
      if (shared) json.array("openings", job.openings, [&](const job::Opening& each) { json.value(each.name); });
    }
    if (node.level == Level::Wall) json.member("wall", wallName(*node.part, job));
    if (node.level == Level::Layer) json.member("layer", scene::nameOf(node.part->layer));
    if (node.level == Level::Step)
      json.members("step", static_cast<int>(node.part->step), "step_name", stepName(*node.part));
    if (node.level == Level::Part) writePart(node);
    json.endObject();
  }

  void writePart(const Node& node) {
    const auto openingOf = [&](const Placed* placed) { return scene.parts[placed->part].opening; };
    const std::int32_t opening = node.part->opening;
    const bool of_one = std::all_of(node.placed.begin(), node.placed.end(),
                                    [&](const Placed* placed) { return openingOf(placed) == opening; });
    json.member("kind", scene::nameOf(node.part->kind, practice.words));
    if (!shared) json.member("say", scene::describe(*node.part, practice));  // parts that share a node differ in this
    if (of_one) {
      if (opening >= 0) json.member("opening", job.openings[static_cast<std::size_t>(opening)].name);
      return;
    }
    // Each opening by its place among the job's, and how many of the instances are its own: they are in that order.
    std::map<std::int32_t, int> own;
    for (const Placed* placed : node.placed) ++own[openingOf(placed)];
    json.array("openings", own, [&](const auto& each) { json.value(each.first).value(each.second); });
  }

  /// Only those that some part has, in their order.
  void writeMaterials() {
    for (const auto& [shape, material] : geometry.meshes) material_of[material] = 0;  // each once, sorted
    // Colours of the format are in linear light.
    const auto linear = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
    int next = 0;
    json.key("materials").beginArray();
    for (auto& [material, number] : material_of) {
      number = next++;
      const Look look = lookOf(material);  // glass, the one that isn't opaque, is seen from both sides
      const auto& [red, green, blue, opacity] = look.colour;
      json.newLine().beginObject().member("name", look.name).key("pbrMetallicRoughness");
      json.object("baseColorFactor", std::array{linear(red), linear(green), linear(blue), opacity}, "metallicFactor", 0,
                  "roughnessFactor", look.rough);
      if (opacity < 1) json.members("alphaMode", "BLEND", "doubleSided", true);
      json.endObject();
    }
    json.endArray();
  }

  void writeMeshes() {
    json.key("meshes").beginArray();
    for (const auto& [shape, material] : geometry.meshes) {
      json.newLine().beginObject().member("name", lookOf(material).name + (" " + std::to_string(shape + 1)));
      json.key("primitives").beginArray().beginObject().key("attributes");
      const Shape& of = geometry.shapes[shape];
      const std::size_t corners = accessor(kCorners, of.corners);
      accessors[corners].bounds = &of;  // the format wants the bounds of positions
      const auto normals = shared ? std::nullopt : std::optional(accessor(kMore, of.normals));
      json.object("POSITION", corners, "NORMAL", normals).member("indices", accessor(kIndices, of.triangles));
      json.member("material", material_of[material]).endObject().endArray().endObject();
    }
    json.endArray();
  }

  void writeAccessors() {
    json.array("accessors", accessors, [&](const Accessor& each) {
      const bool whole = each.in == kIndices;  // corners' numbers; all else is three floats
      json.beginObject().members("bufferView", std::size_t{each.in}, "byteOffset", each.offset, "componentType",
                                 whole ? kWhole : kFloats, "count", each.count, "type", whole ? "SCALAR" : "VEC3");
      if (each.bounds != nullptr) {
        const scene::Box box = scene::boxRound(each.bounds->corners);
        json.members("min", numbers(box.low), "max", numbers(box.high));
      }
      json.endObject();
    });
  }

  void writeBuffers() {
    std::size_t offset = 0;
    json.key("bufferViews").beginArray();
    for (const Stretch i : {kCorners, kIndices, kMore}) {
      if (buffer[i].empty()) continue;  // no node has instances
      json.beginObject().members("buffer", 0, "byteOffset", offset, "byteLength", buffer[i].size());
      if (i == kIndices) json.member("target", kIndexBuffer);
      if (i == kCorners || (i == kMore && !shared))  // what a card reads as vertices: not where instances stand
        json.members("byteStride", sizeof(glm::vec3), "target", kCornerBuffer);
      json.endObject();
      offset += buffer[i].size();  // a multiple of 4, which the format asks of accessors
    }
    json.endArray();
    json.key("buffers").beginArray().object("byteLength", offset).endArray();
  }
};

}  // namespace

std::optional<std::string> glb(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice) {
  const bool shared = scene.parts.size() > kMostNodes;
  const Geometry geometry = gather(scene, shared);
  Writer writer{scene, job, practice, geometry, shared};
  std::string json = writer.run();
  json.append((4 - json.size() % 4) % 4, ' ');                 // a chunk ends at a multiple of 4, this one in blanks
  const std::string binary = base::joined(writer.buffer, "");  // 12 bytes of header, 8 before each chunk
  const std::uint64_t total = 12 + 8 + json.size() + (binary.empty() ? 0 : 8 + binary.size());
  if (total > kMostBytes) return std::nullopt;
  std::string out;
  out.reserve(total);
  out += "glTF";
  append(out, 2U);  // the version of the format
  append(out, static_cast<std::uint32_t>(total));
  append(out, static_cast<std::uint32_t>(json.size()));
  out += "JSON";
  out += json;
  if (binary.empty()) return out;  // there is nothing to be seen
  append(out, static_cast<std::uint32_t>(binary.size()));
  return out.append("BIN\0", 4) + binary;
}

}  // namespace sillwright::exchange
