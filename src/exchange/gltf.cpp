// glTF 2.0, binary: one buffer with the corners of all shapes, then their normals, then where shapes that share a node
// stand. A shape is a part's surface brought to a cube of one metre; a node's scale gives it its size, so that all
// boxes are one shape.

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <unordered_map>
#include <vector>

#include "exchange/json.h"
#include "exchange/model.h"
#include "exchange/model_parts.h"
#include "scene/describe.h"

namespace sillwright::exchange {
namespace {

constexpr std::uint64_t kMostBytes = 0xFFFF'FFFFU;
constexpr int kFloats = 5126;         // a component type of the specification
constexpr int kCornerBuffer = 34962;  // a target of the specification
constexpr const char* kInstancing = "EXT_mesh_gpu_instancing";
/// A part has a node of its own in models of no more than so many: not all readers know instances.
constexpr std::size_t kMostNodes = 5'000;
constexpr double kAlike = 0.002;      // mm: corners of two shapes no further apart are the same
constexpr double kFlat = 1e-6;        // mm: a part that is no thicker is not scaled that way
constexpr double kNumberParts = 1e8;  // metres to ten nanometres

/// Millimetres, Z up → metres, Y up.
glm::dvec3 toGltf(glm::dvec3 v) {
  return glm::dvec3{v.x, v.z, -v.y} / 1000.0;
}

/// Its corners in the file.
struct Shape {
  std::size_t first = 0;
  std::size_t count = 0;
  glm::vec3 low{0.0F};
  glm::vec3 high{0.0F};
};

/// A part, or one solid of it, in its wall's axes: a shape and a material, scaled and moved, metres.
struct Placed {
  std::size_t part = 0;
  std::size_t mesh = 0;
  glm::dvec3 middle{0.0};
  glm::dvec3 scale{1.0};
};

struct Geometry {
  std::vector<glm::vec3> corners;
  std::vector<glm::vec3> normals;
  std::vector<Shape> shapes;
  std::vector<std::pair<std::size_t, scene::Material>> meshes;  // shape and material
  std::vector<Placed> placed;                                   // in the order of their parts
};

void addTriangle(Geometry& geometry, const std::array<glm::dvec3, 3>& triangle) {
  const glm::dvec3 across = glm::cross(triangle[1] - triangle[0], triangle[2] - triangle[0]);
  const double size = std::sqrt(glm::dot(across, across));
  if (!(size > 1e-15)) return;  // nothing to see, and no way to look
  for (const glm::dvec3& corner : triangle) {
    geometry.corners.emplace_back(corner);
    geometry.normals.emplace_back(across / size);
  }
}

/// A part's surface in its wall's axes, and the box round it, mm.
struct Surface {
  Polygons polygons;
  std::vector<glm::dvec3> corners;  // of all polygons in turn
  glm::dvec3 low{0.0};
  glm::dvec3 size{0.0};

  Surface(Polygons of, const Axes& axes) : polygons(std::move(of)) {
    for (const Polygon& polygon : polygons) {
      for (std::size_t i = 0; i < polygon.corners; ++i) corners.push_back(axes.toLocal(polygon.corner[i]));
    }
    if (corners.empty()) return;
    glm::dvec3 high = low = corners.front();
    for (const glm::dvec3& corner : corners) low = glm::min(low, corner), high = glm::max(high, corner);
    size = high - low;
  }

  /// In steps of kAlike from the box's low side; −1: its high side.
  [[nodiscard]] std::int32_t step(std::size_t corner, int axis) const {
    const double from = corners[corner][axis] - low[axis];
    return size[axis] - from < kAlike / 2 ? -1 : static_cast<std::int32_t>(std::lround(from / kAlike));
  }

  /// Equal for surfaces of one shape: all corners alike in the box, which is of one size where they are not on its
  /// sides.
  [[nodiscard]] std::string key() const {
    std::string key;
    const auto put = [&](std::int32_t number) { key.append(reinterpret_cast<const char*>(&number), sizeof number); };
    std::array<bool, 3> inside{};
    for (std::size_t i = 0; i < corners.size(); ++i) {
      for (unsigned axis = 0; axis < 3; ++axis) {
        const std::int32_t at = step(i, static_cast<int>(axis));
        put(at);
        inside[axis] = inside[axis] || at > 0;
      }
    }
    for (const Polygon& polygon : polygons) put(static_cast<std::int32_t>(polygon.corners));
    for (unsigned axis = 0; axis < 3; ++axis)
      put(inside[axis] ? static_cast<std::int32_t>(std::lround(size[static_cast<int>(axis)] / kAlike)) : 0);
    return key;
  }

  /// In a cube of one metre about its middle; what is on the box's side is on the cube's.
  [[nodiscard]] glm::dvec3 inCube(std::size_t corner) const {
    glm::dvec3 at{0.0};
    for (int axis = 0; axis < 3; ++axis) {
      if (size[axis] <= kFlat) continue;
      const std::int32_t on = step(corner, axis);
      at[axis] = on <= 0 ? (on < 0 ? 500.0 : -500.0) : (corners[corner][axis] - low[axis]) / size[axis] * 1000 - 500;
    }
    return toGltf(at);
  }
};

Shape addShape(Geometry& geometry, const Surface& surface) {
  Shape shape{geometry.corners.size(), 0, {}, {}};
  std::size_t first = 0;
  for (const Polygon& polygon : surface.polygons) {
    for (std::size_t i = first + 2; i < first + polygon.corners; ++i)
      addTriangle(geometry, {surface.inCube(first), surface.inCube(i - 1), surface.inCube(i)});
    first += polygon.corners;
  }
  shape.count = geometry.corners.size() - shape.first;
  if (shape.count == 0) return shape;
  shape.low = shape.high = geometry.corners[shape.first];
  for (std::size_t i = shape.first; i < geometry.corners.size(); ++i) {
    shape.low = glm::min(shape.low, geometry.corners[i]);
    shape.high = glm::max(shape.high, geometry.corners[i]);
  }
  return shape;
}

/// Shapes and meshes as they are met.
class Gathering {
 public:
  void add(std::size_t part, scene::Material material, const Surface& surface) {
    const auto [shape, fresh] = shape_of_.try_emplace(surface.key(), geometry.shapes.size());
    if (fresh) geometry.shapes.push_back(addShape(geometry, surface));
    if (geometry.shapes[shape->second].count == 0) {  // nothing of it can be seen
      geometry.shapes.pop_back();
      shape_of_.erase(shape);
      return;
    }
    const std::pair mesh{shape->second, material};
    const auto [at, unseen] = mesh_of_.try_emplace(mesh, geometry.meshes.size());
    if (unseen) geometry.meshes.push_back(mesh);
    Placed placed{part, at->second, toGltf(surface.low + surface.size * 0.5), glm::dvec3(1.0)};
    for (int axis = 0; axis < 3; ++axis) {
      const double size = surface.size[std::array{0, 2, 1}[static_cast<std::size_t>(axis)]];
      if (size > kFlat) placed.scale[axis] = size / 1000;
    }
    geometry.placed.push_back(placed);
  }

  Geometry geometry;

 private:
  std::unordered_map<std::string, std::size_t> shape_of_;
  std::map<std::pair<std::size_t, scene::Material>, std::size_t> mesh_of_;
};

/// `shared`: solid by solid, so that a sheet round an opening is boxes like any other.
Geometry gather(const scene::Scene& scene, bool shared) {
  Gathering gathering;
  const PartIndex index(scene);
  for (std::size_t i = 0; i < scene.parts.size(); ++i) {
    const scene::Part& part = scene.parts[i];
    const Axes axes = axesOf(scene, part.wall);
    const auto shells = shared ? index.shellsOf(i) : std::vector<Polygons>{index.surfaceOf(i)};
    for (const Polygons& shell : shells) gathering.add(i, part.material, Surface(shell, axes));
  }
  return std::move(gathering.geometry);
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
  std::vector<Node> nodes{{Level::Job, names.take(job.title), nullptr, {}, {}}};
  std::map<std::tuple<int, int, int, std::size_t, std::size_t>, std::size_t> made;  // wall, layer, step, mesh, which
  constexpr std::size_t kNone = ~std::size_t{0};
  for (const Placed& placed : geometry.placed) {
    const scene::Part& part = scene.parts[placed.part];
    const int layer = static_cast<int>(part.layer), step = static_cast<int>(part.step);
    std::size_t at = 0;
    const auto into = [&](Level level, const auto& key, const auto& name) {
      const auto [found, fresh] = made.emplace(key, nodes.size());
      if (fresh) {
        nodes[at].children.push_back(nodes.size());
        nodes.push_back({level, names.take(name()), &part, {}, {}});
      }
      at = found->second;
    };
    const std::string wall = wallName(part, job);
    const auto in_wall = [&](const std::string& what) { return wall + " " + what; };
    into(Level::Wall, std::tuple(part.wall, -1, -1, kNone, kNone), [&] { return wall; });
    into(Level::Layer, std::tuple(part.wall, layer, -1, kNone, kNone),
         [&] { return in_wall(scene::nameOf(part.layer)); });
    into(Level::Step, std::tuple(part.wall, layer, step, kNone, kNone),
         [&] { return in_wall(std::string(scene::nameOf(part.layer)) + ", " + stepName(part)); });
    const std::size_t which = shared ? static_cast<std::size_t>(part.kind) : placed.part;
    into(Level::Part, std::tuple(part.wall, layer, step, placed.mesh, which), [&] {
      const std::string name = partName(part, job, practice);
      return shared || part.opening < 0 ? in_wall(scene::nameOf(part.kind, practice.words)) : name;
    });
    nodes[at].placed.push_back(&placed);
  }
  return nodes;
}

class Writer {
 public:
  Writer(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice, const Geometry& geometry,
         bool shared)
      : scene_(scene),
        job_(job),
        practice_(practice),
        geometry_(geometry),
        nodes_(treeOf(scene, geometry, job, practice, shared)),
        json_(text_, kNumberParts) {}

  std::string run() {
    json_.beginObject();
    json_.key("asset").object("version", "2.0", "generator", "sillwright").member("scene", 0);
    json_.key("scenes").beginArray().object("nodes", std::array{0}).endArray();
    writeNodes();
    if (!geometry_.meshes.empty()) {
      writeMaterials();
      writeMeshes();
      writeAccessors();
      writeBuffers();
    }
    for (const char* key : {"extensionsUsed", "extensionsRequired"}) {
      if (!instances_.empty()) json_.member(key, std::array{kInstancing});
    }
    json_.endObject();
    return std::move(text_);
  }

  /// What the accessors of instances are of.
  [[nodiscard]] const std::vector<glm::vec3>& instances() const { return instances_; }

 private:
  static std::array<double, 3> numbers(glm::dvec3 v) { return {v.x, v.y, v.z}; }

  void writeNodes() {
    json_.array("nodes", nodes_, [&](const Node& node) {
      json_.newLine().beginObject().member("name", node.name);
      if (!node.children.empty()) json_.member("children", node.children);
      if (node.level == Level::Wall) writeAxes(axesOf(scene_, node.part->wall));
      if (node.level == Level::Part) writePlaces(node);
      writeExtras(node);
      json_.endObject();
    });
  }

  void writeAxes(const Axes& axes) {
    json_.members("translation", numbers(toGltf(axes.origin)), "rotation",
                  std::array{0.0, std::sin(axes.turn / 2), 0.0, std::cos(axes.turn / 2)});
  }

  void writePlaces(const Node& node) {
    // As it is written: what instances are moved by is divided by it.
    const glm::dvec3 scale = glm::round(node.placed.front()->scale * kNumberParts) / kNumberParts;
    const bool alike = std::all_of(node.placed.begin(), node.placed.end(), [&](const Placed* placed) {
      return glm::all(glm::lessThan(glm::abs(placed->scale - scale), glm::dvec3(kAlike / 1000)));
    });
    json_.member("mesh", node.placed.front()->mesh);
    if (alike) json_.member("scale", numbers(scale));
    if (node.placed.size() == 1) return void(json_.member("translation", numbers(node.placed.front()->middle)));
    json_.key("extensions").beginObject().key(kInstancing).beginObject().key("attributes").beginObject();
    writeInstances("TRANSLATION", node, [&](const Placed& of) { return alike ? of.middle / scale : of.middle; });
    if (!alike) writeInstances("SCALE", node, [](const Placed& of) { return of.scale; });
    json_.endObject().endObject().endObject();
  }

  template <class Of>
  void writeInstances(const char* key, const Node& node, const Of& of) {
    json_.member(key, 2 * geometry_.shapes.size() + sharing_.size());
    sharing_.push_back({instances_.size(), node.placed.size()});
    for (const Placed* placed : node.placed) instances_.emplace_back(of(*placed));
  }

  /// What it says beside those above it.
  void writeExtras(const Node& node) {
    json_.key("extras").beginObject();
    if (node.level == Level::Job) json_.member("title", job_.title).member("practice", job_.practice);
    if (node.level == Level::Wall) json_.member("wall", wallName(*node.part, job_));
    if (node.level == Level::Layer) json_.member("layer", scene::nameOf(node.part->layer));
    if (node.level == Level::Step)
      json_.members("step", static_cast<int>(node.part->step), "step_name", stepName(*node.part));
    if (node.level == Level::Part) writePart(node);
    json_.endObject();
  }

  void writePart(const Node& node) {
    const auto openingOf = [&](const Placed* placed) { return scene_.parts[placed->part].opening; };
    const auto nameOf = [&](std::int32_t opening) { return job_.openings[static_cast<std::size_t>(opening)].name; };
    const std::int32_t opening = node.part->opening;
    const bool of_one = std::all_of(node.placed.begin(), node.placed.end(),
                                    [&](const Placed* placed) { return openingOf(placed) == opening; });
    json_.member("kind", scene::nameOf(node.part->kind, practice_.words));
    if (node.placed.size() == 1) json_.member("say", scene::describe(*node.part, practice_));
    if (of_one) {
      if (opening >= 0) json_.member("opening", nameOf(opening));
      return;
    }
    json_.array("openings", node.placed,
                [&](const Placed* placed) { json_.value(openingOf(placed) < 0 ? "" : nameOf(openingOf(placed))); });
  }

  /// Only those that some part has, in their order.
  void writeMaterials() {
    material_of_.fill(-1);
    for (const auto& [shape, material] : geometry_.meshes) material_of_[static_cast<std::size_t>(material)] = 0;
    // Colours of the format are in linear light.
    const auto linear = [](double c) { return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4); };
    int next = 0;
    json_.key("materials").beginArray();
    for (std::size_t m = 0; m < material_of_.size(); ++m) {
      if (material_of_[m] < 0) continue;
      material_of_[m] = next++;
      const Look look = lookOf(static_cast<scene::Material>(m));
      const auto& [red, green, blue, opacity] = look.colour;
      json_.newLine().beginObject().member("name", look.name).key("pbrMetallicRoughness");
      json_.object("baseColorFactor", std::array{linear(red), linear(green), linear(blue), opacity}, "metallicFactor",
                   0, "roughnessFactor", look.rough);
      if (opacity < 1) json_.members("alphaMode", "BLEND", "doubleSided", true);
      json_.endObject();
    }
    json_.endArray();
  }

  void writeMeshes() {
    json_.key("meshes").beginArray();
    for (const auto& [shape, material] : geometry_.meshes) {
      json_.newLine().beginObject().member("name", lookOf(material).name + (" " + std::to_string(shape + 1)));
      json_.key("primitives").beginArray().beginObject().key("attributes");
      json_.object("POSITION", 2 * shape, "NORMAL", 2 * shape + 1);
      json_.member("material", material_of_[static_cast<std::size_t>(material)]).endObject().endArray().endObject();
    }
    json_.endArray();
  }

  void writeAccessor(std::size_t view, std::size_t first, std::size_t count, const Shape* bounds) {
    json_.newLine().beginObject().members("bufferView", view, "byteOffset", first * sizeof(glm::vec3), "componentType",
                                          kFloats, "count", count, "type", "VEC3");
    if (bounds != nullptr) json_.members("min", numbers(bounds->low), "max", numbers(bounds->high));
    json_.endObject();
  }

  void writeAccessors() {
    json_.key("accessors").beginArray();
    for (const Shape& shape : geometry_.shapes) {
      writeAccessor(0, shape.first, shape.count, &shape);
      writeAccessor(1, shape.first, shape.count, nullptr);
    }
    for (const auto& [first, count] : sharing_) writeAccessor(2, first, count, nullptr);
    json_.endArray();
  }

  void writeBuffers() {
    const std::size_t half = geometry_.corners.size() * sizeof(glm::vec3);
    const std::size_t places = instances_.size() * sizeof(glm::vec3);
    std::size_t offset = 0;
    json_.key("bufferViews").beginArray();
    for (const bool corners : {true, true, false}) {
      const std::size_t length = corners ? half : places;
      if (length == 0) continue;
      json_.beginObject().members("buffer", 0, "byteOffset", offset, "byteLength", length);
      if (corners) json_.members("byteStride", sizeof(glm::vec3), "target", kCornerBuffer);
      json_.endObject();
      offset += length;
    }
    json_.endArray();
    json_.key("buffers").beginArray().object("byteLength", offset).endArray();
  }

  const scene::Scene& scene_;
  const job::Job& job_;
  const practice::Practice& practice_;
  const Geometry& geometry_;
  std::vector<Node> nodes_;
  std::vector<glm::vec3> instances_;
  std::vector<std::pair<std::size_t, std::size_t>> sharing_;  ///< First and number of each accessor's instances.
  std::string text_;
  JsonWriter json_;
  std::array<int, scene::kMaterials> material_of_{};
};

void append32(std::string& out, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) out += static_cast<char>(value >> shift & 0xFFU);
}

void append(std::string& out, glm::vec3 v) {
  for (int i = 0; i < 3; ++i) append32(out, std::bit_cast<std::uint32_t>(v[i]));
}

}  // namespace

std::optional<std::string> glb(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice) {
  const bool shared = scene.parts.size() > kMostNodes;
  const Geometry geometry = gather(scene, shared);
  Writer writer(scene, job, practice, geometry, shared);
  std::string json = writer.run();
  json.append((4 - json.size() % 4) % 4, ' ');
  const std::uint64_t binary = (2 * geometry.corners.size() + writer.instances().size()) * sizeof(glm::vec3);
  const std::uint64_t total = 12 + 8 + json.size() + (binary > 0 ? 8 + binary : 0);
  if (total > kMostBytes) return std::nullopt;
  std::string out;
  out.reserve(total);
  out += "glTF";
  append32(out, 2);
  append32(out, static_cast<std::uint32_t>(total));
  append32(out, static_cast<std::uint32_t>(json.size()));
  out += "JSON";
  out += json;
  if (binary == 0) return out;
  append32(out, static_cast<std::uint32_t>(binary));
  out.append("BIN\0", 4);
  for (const glm::vec3& corner : geometry.corners) append(out, corner);
  for (const glm::vec3& normal : geometry.normals) append(out, normal);
  for (const glm::vec3& instance : writer.instances()) append(out, instance);
  return out;
}

}  // namespace sillwright::exchange
