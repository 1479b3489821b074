// glTF 2.0, binary: one buffer with all corners, then all normals; a mesh and a node a part.

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
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

/// Millimetres, Z up → metres, Y up.
glm::dvec3 toGltf(glm::dvec3 world) {
  return glm::dvec3{world.x, world.z, -world.y} / 1000.0;
}

/// A part's corners in the file, about its middle.
struct Mesh {
  std::size_t part = 0;
  glm::dvec3 middle{0.0};  // metres
  std::size_t first = 0;   // corner
  std::size_t count = 0;
  glm::vec3 low{0.0F};
  glm::vec3 high{0.0F};
};

struct Geometry {
  std::vector<glm::vec3> corners;
  std::vector<glm::vec3> normals;
  std::vector<Mesh> meshes;
  std::vector<std::optional<std::size_t>> mesh_of;  // of each part
};

void addTriangle(Geometry& geometry, const std::array<glm::dvec3, 3>& triangle) {
  const glm::dvec3 across = glm::cross(triangle[1] - triangle[0], triangle[2] - triangle[0]);
  const double size = std::sqrt(glm::dot(across, across));
  if (!(size > 1e-15)) return;  // m²: nothing to see, and no way to look
  for (const glm::dvec3& corner : triangle) {
    geometry.corners.emplace_back(corner);
    geometry.normals.emplace_back(across / size);
  }
}

glm::dvec3 middleOf(const std::vector<Polygon>& surface) {
  glm::dvec3 low(surface.front().corner[0]), high = low;
  for (const Polygon& polygon : surface) {
    for (std::size_t i = 0; i < polygon.corners; ++i) {
      low = glm::min(low, glm::dvec3(polygon.corner[i]));
      high = glm::max(high, glm::dvec3(polygon.corner[i]));
    }
  }
  return (low + high) * 0.5;
}

void addPart(Geometry& geometry, std::size_t part, const std::vector<Polygon>& surface) {
  if (surface.empty()) return;
  const glm::dvec3 middle = middleOf(surface);
  Mesh mesh{part, toGltf(middle), geometry.corners.size(), 0, {}, {}};
  const auto about = [&](glm::vec3 corner) { return toGltf(glm::dvec3(corner) - middle); };
  for (const Polygon& polygon : surface) {
    for (std::size_t i = 2; i < polygon.corners; ++i) {
      addTriangle(geometry, {about(polygon.corner[0]), about(polygon.corner[i - 1]), about(polygon.corner[i])});
    }
  }
  mesh.count = geometry.corners.size() - mesh.first;
  if (mesh.count == 0) return;
  mesh.low = mesh.high = geometry.corners[mesh.first];
  for (std::size_t i = mesh.first; i < geometry.corners.size(); ++i) {
    mesh.low = glm::min(mesh.low, geometry.corners[i]);
    mesh.high = glm::max(mesh.high, geometry.corners[i]);
  }
  geometry.mesh_of[part] = geometry.meshes.size();
  geometry.meshes.push_back(mesh);
}

Geometry gather(const scene::Scene& scene) {
  Geometry geometry;
  geometry.mesh_of.resize(scene.parts.size());
  const PartIndex index(scene);
  for (std::size_t part = 0; part < scene.parts.size(); ++part) addPart(geometry, part, index.surfaceOf(part));
  return geometry;
}

/// A node of the file. Parts have a mesh, the others have children.
struct Node {
  std::string name;
  std::vector<std::size_t> children;
  std::optional<std::size_t> part;
};

/// The job, its walls, their layers, the steps, the parts.
std::vector<Node> treeOf(const scene::Scene& scene, const Geometry& geometry, const job::Job& job,
                         const practice::Practice& practice) {
  std::vector<Node> nodes{{job.title, {}, {}}};
  using Key = std::array<int, 3>;  // wall, layer, step
  std::map<Key, std::size_t> made;
  const auto child = [&](std::size_t parent, Key key, std::string name) {
    const auto [at, fresh] = made.emplace(key, nodes.size());
    if (fresh) {
      nodes[parent].children.push_back(nodes.size());
      nodes.push_back({std::move(name), {}, {}});
    }
    return at->second;
  };
  for (const Mesh& mesh : geometry.meshes) {
    const scene::Part& part = scene.parts[mesh.part];
    const int layer = static_cast<int>(part.layer);
    const bool of_wall = part.wall >= 0;
    const std::size_t wall_node = child(
        0, {part.wall, -1, -1}, of_wall ? job.walls[static_cast<std::size_t>(part.wall)].name : std::string("site"));
    const std::size_t layer_node = child(wall_node, {part.wall, layer, -1}, scene::nameOf(part.layer));
    const std::size_t step_node = child(layer_node, {part.wall, layer, static_cast<int>(part.step)}, stepName(part));
    nodes[step_node].children.push_back(nodes.size());
    nodes.push_back({partName(part, job, practice), {}, mesh.part});
  }
  return nodes;
}

class Writer {
 public:
  Writer(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice, const Geometry& geometry)
      : scene_(scene), job_(job), practice_(practice), geometry_(geometry), json_(text_) {}

  std::string run() {
    json_.beginObject();
    json_.key("asset").beginObject().member("version", "2.0").member("generator", "sillwright").endObject();
    json_.member("scene", 0);
    json_.key("scenes").beginArray().beginObject();
    json_.key("nodes").beginArray().value(0).endArray().endObject().endArray();
    writeNodes();
    if (!geometry_.meshes.empty()) {
      writeMaterials();
      writeMeshes();
      writeAccessors();
      writeBuffers();
    }
    json_.endObject();
    return std::move(text_);
  }

 private:
  JsonWriter& index(std::size_t number) { return json_.value(static_cast<std::int64_t>(number)); }
  void member(const char* key, std::size_t number) { json_.member(key, static_cast<std::int64_t>(number)); }

  void vector(const char* key, glm::dvec3 v) {
    json_.key(key).beginArray();
    for (int i = 0; i < 3; ++i) json_.value(v[i] + 0.0);  // no −0
    json_.endArray();
  }

  void writeNodes() {
    json_.key("nodes").beginArray();
    for (const Node& node : treeOf(scene_, geometry_, job_, practice_)) {
      json_.newLine().beginObject().member("name", node.name);
      if (!node.children.empty()) {
        json_.key("children").beginArray();
        for (const std::size_t child : node.children) index(child);
        json_.endArray();
      }
      if (node.part) writePart(*node.part);
      json_.endObject();
    }
    json_.endArray();
  }

  void writePart(std::size_t at) {
    const scene::Part& part = scene_.parts[at];
    const std::size_t mesh = *geometry_.mesh_of[at];
    member("mesh", mesh);
    vector("translation", geometry_.meshes[mesh].middle);
    json_.key("extras").beginObject();
    json_.member("say", scene::describe(part, practice_));
    json_.member("layer", scene::nameOf(part.layer));
    json_.member("step", static_cast<int>(part.step));
    json_.member("step_name", stepName(part));
    if (part.opening >= 0) json_.member("opening", job_.openings[static_cast<std::size_t>(part.opening)].name);
    json_.endObject();
  }

  /// Only those that some part has, in their order.
  void writeMaterials() {
    material_of_.fill(-1);
    for (const Mesh& mesh : geometry_.meshes)
      material_of_[static_cast<std::size_t>(scene_.parts[mesh.part].material)] = 0;
    int next = 0;
    json_.key("materials").beginArray();
    for (std::size_t m = 0; m < material_of_.size(); ++m) {
      if (material_of_[m] < 0) continue;
      material_of_[m] = next++;
      const Look& look = lookOf(static_cast<scene::Material>(m));
      json_.newLine().beginObject().member("name", look.name);
      json_.key("pbrMetallicRoughness").beginObject().key("baseColorFactor").beginArray();
      for (const double channel : look.colour) json_.value(channel);
      json_.endArray().member("metallicFactor", look.metal).member("roughnessFactor", look.rough).endObject();
      if (look.colour[3] < 1) json_.member("alphaMode", "BLEND").member("doubleSided", true);
      json_.endObject();
    }
    json_.endArray();
  }

  void writeMeshes() {
    json_.key("meshes").beginArray();
    for (std::size_t i = 0; i < geometry_.meshes.size(); ++i) {
      const scene::Part& part = scene_.parts[geometry_.meshes[i].part];
      json_.newLine().beginObject().member("name", scene::nameOf(part.kind, practice_.words));
      json_.key("primitives").beginArray().beginObject();
      json_.key("attributes").beginObject();
      member("POSITION", 2 * i);
      member("NORMAL", 2 * i + 1);
      json_.endObject();
      json_.member("material", material_of_[static_cast<std::size_t>(part.material)]);
      json_.endObject().endArray().endObject();
    }
    json_.endArray();
  }

  void writeAccessors() {
    json_.key("accessors").beginArray();
    for (const Mesh& mesh : geometry_.meshes) {
      for (const int view : {0, 1}) {
        json_.newLine().beginObject().member("bufferView", view);
        member("byteOffset", mesh.first * sizeof(glm::vec3));
        json_.member("componentType", kFloats);
        member("count", mesh.count);
        json_.member("type", "VEC3");
        if (view == 0) {
          vector("min", mesh.low);
          vector("max", mesh.high);
        }
        json_.endObject();
      }
    }
    json_.endArray();
  }

  void writeBuffers() {
    const std::size_t half = geometry_.corners.size() * sizeof(glm::vec3);
    json_.key("bufferViews").beginArray();
    for (const std::size_t offset : {std::size_t{0}, half}) {
      json_.beginObject().member("buffer", 0);
      member("byteOffset", offset);
      member("byteLength", half);
      member("byteStride", sizeof(glm::vec3));
      json_.member("target", kCornerBuffer).endObject();
    }
    json_.endArray();
    json_.key("buffers").beginArray().beginObject();
    member("byteLength", 2 * half);
    json_.endObject().endArray();
  }

  const scene::Scene& scene_;
  const job::Job& job_;
  const practice::Practice& practice_;
  const Geometry& geometry_;
  std::string text_;
  JsonWriter json_;
  std::array<int, scene::kMaterials> material_of_{};
};

void append32(std::string& out, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) out += static_cast<char>(value >> shift & 0xFFU);
}

void appendVectors(std::string& out, const std::vector<glm::vec3>& vectors) {
  for (const glm::vec3& v : vectors) {
    for (int i = 0; i < 3; ++i) append32(out, std::bit_cast<std::uint32_t>(v[i]));
  }
}

}  // namespace

std::optional<std::string> glb(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice) {
  const Geometry geometry = gather(scene);
  std::string json = Writer(scene, job, practice, geometry).run();
  json.append((4 - json.size() % 4) % 4, ' ');
  const std::uint64_t binary = 2 * std::uint64_t{geometry.corners.size()} * sizeof(glm::vec3);
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
  appendVectors(out, geometry.corners);
  appendVectors(out, geometry.normals);
  return out;
}

}  // namespace sillwright::exchange
