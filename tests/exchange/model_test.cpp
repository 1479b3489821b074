// The scene in other programs' formats, read back by readers of their own: glTF by a JSON reader and the layout of the
// glTF 2.0 specification (Khronos, 2021), OBJ by tinyobjloader, both by Assimp. What comes back is measured against the
// scene.

#include "exchange/model.h"

#include <assimp/postprocess.h>
#include <assimp/scene.h>
#include <tiny_obj_loader.h>

#include <algorithm>
#include <assimp/Importer.hpp>
#include <bit>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "bench/many.h"
#include "check/judge.h"
#include "scene/build/build.h"
#include "scene/describe.h"
#include "scene/measure.h"
#include "support/check_json.h"
#include "support/demo_jobs.h"
#include "support/obj_files.h"

using namespace sillwright;
using nlohmann::json;

namespace {

struct Built {
  testing::DemoJob demo;
  scene::Scene scene;
};

Built build(testing::DemoJob demo, const std::filesystem::path& folder) {
  Built built{std::move(demo), {}};
  scene::MeshLibrary meshes;
  REQUIRE(scene::loadMeshes(meshes, SILLWRIGHT_ASSETS_DIR, built.demo.job, folder).empty());
  built.scene = scene::build(built.demo.job, *built.demo.practice, built.demo.plan, meshes);
  return built;
}

std::vector<Built> allScenes() {
  std::vector<Built> all;
  for (auto& demo : testing::demoJobs()) all.push_back(build(std::move(demo), SILLWRIGHT_ASSETS_DIR "/jobs"));
  return all;
}

/// What of a part can be told from its surface: box, area, and volume by the divergence theorem.
struct Measure {
  glm::dvec3 low{1e30};
  glm::dvec3 high{-1e30};
  double area = 0;
  double volume = 0;

  void add(glm::dvec3 a, glm::dvec3 b, glm::dvec3 c) {
    for (const auto& corner : {a, b, c}) {
      low = glm::min(low, corner);
      high = glm::max(high, corner);
    }
    area += glm::length(glm::cross(b - a, c - a)) / 2;
    volume += glm::dot(a, glm::cross(b, c)) / 6;
  }
  [[nodiscard]] bool empty() const { return low.x > high.x; }
};

/// Of each part, straight from the scene's corners, mm. Everything is taken about `about`, so that volumes keep their
/// digits.
std::vector<Measure> measured(const scene::Scene& scene, glm::dvec3 about) {
  std::vector<Measure> parts(scene.parts.size());
  for (const auto& solid : scene.solids) {
    for (const auto& face : scene::kFaces) {
      const auto at = [&](std::size_t i) { return glm::dvec3(solid.corner[face[i]]) - about; };
      parts[solid.part].add(at(0), at(1), at(2));
      parts[solid.part].add(at(0), at(2), at(3));
    }
  }
  for (const auto& use : scene.uses) {
    const auto& corner = scene.meshes[use.mesh].corner;
    const bool mirrored = glm::determinant(glm::mat3(use.place)) < 0;
    for (std::size_t i = 0; i + 2 < corner.size(); i += 3) {
      const auto at = [&](std::size_t k) { return glm::dvec3(use.place * glm::vec4(corner[i + k], 1.0F)) - about; };
      parts[use.part].add(at(0), at(mirrored ? 2 : 1), at(mirrored ? 1 : 2));
    }
  }
  return parts;
}

void requireAlike(const Measure& read, const Measure& wanted, double within) {
  for (int axis = 0; axis < 3; ++axis) {
    REQUIRE(std::abs(read.low[axis] - wanted.low[axis]) <= within);
    REQUIRE(std::abs(read.high[axis] - wanted.high[axis]) <= within);
  }
  const glm::dvec3 size = wanted.high - wanted.low;
  const double length = size.x + size.y + size.z;
  REQUIRE(std::abs(read.area - wanted.area) <= 1e-5 * wanted.area + within * length);
  REQUIRE(std::abs(read.volume - wanted.volume) <= 1e-5 * std::abs(wanted.volume) + within * wanted.area + 1e-3);
}

std::uint32_t number32(const std::string& bytes, std::size_t at) {
  REQUIRE(at + 4 <= bytes.size());
  std::uint32_t value = 0;
  for (std::size_t i = 4; i-- > 0;) value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

/// A .glb taken apart by sections 4.4 (binary) and 3.6 (accessors) of the specification.
struct Glb {
  json document;
  std::string binary;

  explicit Glb(const std::string& bytes) {
    REQUIRE(number32(bytes, 0) == 0x46546C67U);  // "glTF"
    REQUIRE(number32(bytes, 4) == 2);
    REQUIRE(number32(bytes, 8) == bytes.size());
    const std::size_t size = number32(bytes, 12);
    REQUIRE(size % 4 == 0);
    REQUIRE(number32(bytes, 16) == 0x4E4F534AU);  // "JSON"
    document = json::parse(bytes.substr(20, size));
    const std::size_t at = 20 + size;
    if (at == bytes.size()) return;
    REQUIRE(number32(bytes, at) % 4 == 0);
    REQUIRE(number32(bytes, at + 4) == 0x004E4942U);  // "BIN"
    binary = bytes.substr(at + 8);
    REQUIRE(binary.size() == number32(bytes, at));
    REQUIRE(document["buffers"].size() == 1);
    REQUIRE(document["buffers"][0]["byteLength"] == binary.size());
  }

  /// Where an accessor's numbers begin, so many bytes apart.
  [[nodiscard]] std::pair<std::size_t, std::size_t> numbersOf(std::size_t accessor, bool whole) const {
    const json& it = document["accessors"].at(accessor);
    REQUIRE(it["componentType"] == (whole ? 5125 : 5126));
    REQUIRE(it["type"] == (whole ? "SCALAR" : "VEC3"));
    const std::size_t size = whole ? 4 : 12;
    const json& view = document["bufferViews"].at(it["bufferView"].get<std::size_t>());
    const std::size_t stride = view.value("byteStride", size);
    const auto count = it["count"].get<std::size_t>();
    const std::size_t offset = it.value("byteOffset", std::size_t{0});
    REQUIRE(count > 0);
    REQUIRE(offset + (count - 1) * stride + size <= view["byteLength"].get<std::size_t>());
    const std::size_t from = view.value("byteOffset", std::size_t{0}) + offset;
    REQUIRE(view.value("byteOffset", std::size_t{0}) + view["byteLength"].get<std::size_t>() <= binary.size());
    REQUIRE(from % 4 == 0);
    return {from, stride};
  }

  [[nodiscard]] std::vector<std::size_t> indices(std::size_t accessor) const {
    const auto [from, stride] = numbersOf(accessor, true);
    std::vector<std::size_t> all(document["accessors"][accessor]["count"].get<std::size_t>());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = number32(binary, from + i * stride);
    return all;
  }

  [[nodiscard]] std::vector<glm::vec3> vectors(std::size_t accessor) const {
    const auto [from, stride] = numbersOf(accessor, false);
    std::vector<glm::vec3> all(document["accessors"][accessor]["count"].get<std::size_t>());
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (int axis = 0; axis < 3; ++axis) {
        all[i][axis] = std::bit_cast<float>(number32(binary, from + i * stride + 4 * static_cast<std::size_t>(axis)));
      }
    }
    return all;
  }
};

/// From the file's axes (metres, Y up) to the scene's (mm, Z up).
glm::dvec3 toScene(glm::dvec3 v) { return glm::dvec3{v.x, -v.z, v.y} * 1000.0; }

struct ReadPart {
  std::string name, wall, layer, step, material, kind;
  Measure measure;
};

/// Turns and moves of the nodes above, then scale and move of the part's own: section 3.5.3 of the specification.
struct Move {
  glm::dvec3 by{0.0};
  glm::dvec3 scale{1.0};
  double turn = 0;  ///< About Y.

  explicit Move(const json& node) {
    const auto three = [&](const char* key, glm::dvec3 otherwise) {
      if (!node.contains(key)) return otherwise;
      return glm::dvec3{node[key][0].get<double>(), node[key][1].get<double>(), node[key][2].get<double>()};
    };
    by = three("translation", by);
    scale = three("scale", scale);
    if (!node.contains("rotation")) return;
    const auto rotation = node["rotation"].get<std::vector<double>>();
    REQUIRE(rotation.size() == 4);
    REQUIRE(rotation[0] == 0);
    REQUIRE(rotation[2] == 0);
    REQUIRE(std::hypot(rotation[1], rotation[3]) == Approx(1).margin(1e-7));
    turn = 2 * std::atan2(rotation[1], rotation[3]);
  }
  [[nodiscard]] glm::dvec3 operator()(glm::dvec3 v) const {
    v *= scale;
    const double c = std::cos(turn), s = std::sin(turn);
    return by + glm::dvec3{c * v.x + s * v.z, v.y, c * v.z - s * v.x};
  }
};

/// The places of a node's mesh: its own, or those of its instances (EXT_mesh_gpu_instancing).
std::vector<Move> placesOf(const Glb& glb, const json& node) {
  if (!node.contains("extensions")) return {Move(node)};
  const json& attributes = node["extensions"]["EXT_mesh_gpu_instancing"]["attributes"];
  const Move whole(node);
  std::vector<Move> places;
  for (const glm::vec3& at : glb.vectors(attributes["TRANSLATION"].get<std::size_t>())) {
    places.push_back(whole);
    places.back().by += whole.scale * glm::dvec3(at);
  }
  if (!attributes.contains("SCALE")) return places;
  const auto scale = glb.vectors(attributes["SCALE"].get<std::size_t>());
  REQUIRE(scale.size() == places.size());
  for (std::size_t i = 0; i < scale.size(); ++i) places[i].scale *= glm::dvec3(scale[i]);
  return places;
}

/// Corners and normals of a primitive's triangles, one after the other.
struct Corners {
  std::vector<glm::vec3> at, normal;

  Corners(const Glb& glb, const json& primitive) {
    const auto accessor = primitive["attributes"]["POSITION"].get<std::size_t>();
    const auto corners = glb.vectors(accessor);
    for (const std::size_t corner : glb.indices(primitive["indices"].get<std::size_t>()))
      at.push_back(corners.at(corner));
    REQUIRE(at.size() % 3 == 0);
    if (primitive["attributes"].contains("NORMAL")) {
      const auto normals = glb.vectors(primitive["attributes"]["NORMAL"].get<std::size_t>());
      REQUIRE(normals.size() == corners.size());
      for (const std::size_t corner : glb.indices(primitive["indices"].get<std::size_t>()))
        normal.push_back(normals[corner]);
    }
    glm::vec3 low = at[0], high = at[0];
    for (std::size_t i = 0; i < normal.size(); ++i) {  // Normals look the way the triangle is wound.
      const auto* three = &at[i - i % 3];
      REQUIRE(glm::dot(glm::cross(three[1] - three[0], three[2] - three[0]), normal[i]) > 0);
      REQUIRE(std::abs(glm::length(normal[i]) - 1) < 1e-5F);
    }
    for (const auto& corner : at) low = glm::min(low, corner), high = glm::max(high, corner);
    const json& about = glb.document["accessors"][accessor];
    for (int axis = 0; axis < 3; ++axis) {  // as the specification asks: to the last bit
      REQUIRE(about["min"][static_cast<std::size_t>(axis)].get<float>() == low[axis]);
      REQUIRE(about["max"][static_cast<std::size_t>(axis)].get<float>() == high[axis]);
    }
  }
};

/// Of an instance: the opening that its place falls to.
std::string ownerOf(const json& openings, std::size_t place, const json& names) {
  for (std::size_t i = 0; i + 1 < openings.size(); i += 2) {
    const auto own = openings[i + 1].get<std::size_t>();
    const auto owner = openings[i].get<int>();
    if (place < own) return owner < 0 ? "" : names.at(static_cast<std::size_t>(owner)).get<std::string>();
    place -= own;
  }
  FAIL("no opening has this instance");
  return {};
}

/// Walks the nodes: job, wall, layer, step, part.
std::vector<ReadPart> partsOf(const Glb& glb) {
  std::vector<ReadPart> parts;
  const json& nodes = glb.document["nodes"];
  std::set<std::size_t> seen;
  std::set<std::string> names{nodes.at(0)["name"]};
  const auto childrenOf = [&](const json& node) {
    REQUIRE(!node.contains("mesh"));
    std::vector<const json*> children;
    for (const auto& child : node["children"]) {
      REQUIRE(seen.insert(child.get<std::size_t>()).second);  // a tree: no node has two parents
      children.push_back(&nodes.at(child.get<std::size_t>()));
      REQUIRE(names.insert((*children.back())["name"]).second);
      REQUIRE(children.back()->contains("extras"));
    }
    return children;
  };
  for (const json* wall : childrenOf(nodes.at(0))) {
    const Move in_world(*wall);
    for (const json* layer : childrenOf(*wall)) {
      for (const json* step : childrenOf(*layer)) {
        for (const json* part : childrenOf(*step)) {
          REQUIRE(!part->contains("children"));
          const json& extras = (*part)["extras"];
          const json& mesh = glb.document["meshes"].at((*part)["mesh"].get<std::size_t>());
          REQUIRE(mesh["primitives"].size() == 1);
          const json& primitive = mesh["primitives"][0];
          const json& material = glb.document["materials"].at(primitive["material"].get<std::size_t>());
          const Corners corners(glb, primitive);
          const auto places = placesOf(glb, *part);
          for (std::size_t place = 0; place < places.size(); ++place) {
            const std::string opening = extras.contains("openings")
                                            ? ownerOf(extras["openings"], place, nodes.at(0)["extras"]["openings"])
                                            : extras.value("opening", "");
            ReadPart read{opening,
                          (*wall)["extras"]["wall"],
                          (*layer)["extras"]["layer"],
                          (*step)["extras"]["step_name"],
                          material["name"],
                          extras["kind"],
                          {}};
            for (std::size_t i = 0; i < corners.at.size(); i += 3) {
              const auto at = [&](std::size_t k) { return toScene(in_world(places[place](corners.at[k]))); };
              read.measure.add(at(i), at(i + 1), at(i + 2));
            }
            parts.push_back(std::move(read));
          }
        }
      }
    }
  }
  REQUIRE(seen.size() + 1 == nodes.size());
  return parts;
}

std::string keyOf(const std::string& wall, const std::string& layer, const std::string& name) {
  return wall + "/" + layer + "/" + name;
}

std::string nameIn(const Built& built, const scene::Part& part) {
  const std::string name = (part.opening < 0 ? "" : built.demo.job.openings[std::size_t(part.opening)].name) + " " +
                           scene::nameOf(part.kind, built.demo.practice->words);
  const std::string wall = part.wall < 0 ? "site" : built.demo.job.walls[std::size_t(part.wall)].name;
  return keyOf(wall, scene::nameOf(part.layer), name);
}

void requireGlbIsScene(const Built& built) {
  const auto bytes = exchange::glb(built.scene, built.demo.job, *built.demo.practice);
  REQUIRE(bytes);
  const Glb glb(*bytes);
  CHECK(glb.document["asset"]["version"] == "2.0");
  CHECK(glb.document["scenes"][0]["nodes"] == json::array({0}));
  CHECK(glb.document["nodes"][0]["name"] == built.demo.job.title);
  auto parts = partsOf(glb);
  // In the scene's order within its wall, layer and step, so parts of one name are paired in turn.
  std::map<std::string, std::vector<const ReadPart*>> by_name;
  for (const auto& part : parts) by_name[keyOf(part.wall, part.layer, part.name + " " + part.kind)].push_back(&part);
  std::map<std::string, std::size_t> used;
  const auto wanted = measured(built.scene, glm::dvec3(0.0));
  glm::dvec3 low(1e30), high(-1e30), read_low(1e30), read_high(-1e30);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (wanted[i].empty()) continue;
    const std::string key = nameIn(built, built.scene.parts[i]);
    CAPTURE(i, key);
    auto& candidates = by_name[key];
    REQUIRE(used[key] < candidates.size());
    // Parts of one name may differ in step: the tree then has them in another order.
    const auto at = std::find_if(candidates.begin(), candidates.end(), [&](const ReadPart* one) {
      return one != nullptr && glm::length(one->measure.low - wanted[i].low) < 2e-3 &&
             glm::length(one->measure.high - wanted[i].high) < 2e-3;
    });
    REQUIRE(at != candidates.end());
    ++used[key];
    requireAlike((*at)->measure, wanted[i], 1e-3);
    read_low = glm::min(read_low, (*at)->measure.low);
    read_high = glm::max(read_high, (*at)->measure.high);
    low = glm::min(low, wanted[i].low);
    high = glm::max(high, wanted[i].high);
    *at = nullptr;  // taken
  }
  for (const auto& [key, candidates] : by_name) {
    CAPTURE(key);
    CHECK(used[key] == candidates.size());
  }
  for (int axis = 0; axis < 3; ++axis) {  // to 1e-6 m
    CHECK(std::abs(read_low[axis] - low[axis]) <= 1e-3);
    CHECK(std::abs(read_high[axis] - high[axis]) <= 1e-3);
  }
}

void requireObjIsScene(const Built& built) {
  const auto files = testing::objFiles(built.scene, built.demo.job, *built.demo.practice, "house.mtl");
  std::istringstream obj(files.obj), mtl(files.mtl);
  tinyobj::MaterialStreamReader materials(mtl);
  tinyobj::attrib_t attributes;
  std::vector<tinyobj::shape_t> shapes;
  std::vector<tinyobj::material_t> read_materials;
  std::string warning, error;
  REQUIRE(tinyobj::LoadObj(&attributes, &shapes, &read_materials, &warning, &error, &obj, &materials, true));
  CHECK(warning.empty());
  CHECK(error.empty());
  const auto wanted = measured(built.scene, glm::dvec3(0.0));
  std::vector<std::size_t> with_surface;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (!wanted[i].empty() && wanted[i].area > 1e-6) with_surface.push_back(i);
  }
  REQUIRE(shapes.size() == with_surface.size());
  for (std::size_t s = 0; s < shapes.size(); ++s) {
    const auto& mesh = shapes[s].mesh;
    CAPTURE(shapes[s].name);
    Measure read;
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) {
      const auto at = [&](std::size_t k) {
        const auto first = 3 * static_cast<std::size_t>(mesh.indices[i + k].vertex_index);
        return glm::dvec3{attributes.vertices.at(first), attributes.vertices.at(first + 1),
                          attributes.vertices.at(first + 2)};
      };
      read.add(at(0), at(1), at(2));
    }
    requireAlike(read, wanted[with_surface[s]], 2e-3);  // a float's last bits at 10 m are a micrometre
    std::set<int> of_faces(mesh.material_ids.begin(), mesh.material_ids.end());
    REQUIRE(of_faces.size() == 1);
    REQUIRE(*of_faces.begin() >= 0);  // a material that the other file has
  }
}

Built manyOpenings(std::size_t openings) {
  auto demo = testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/workshop-window.toml");
  demo.job = bench::manyOpenings(demo.job, openings);
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  return build(std::move(demo), SILLWRIGHT_ASSETS_DIR "/jobs");
}

/// What Assimp finds at a node and under it: a surface each, in the scene's axes.
void takeSurfaces(const aiScene& model, const aiNode& node, const aiMatrix4x4& above, bool gltf,
                  std::map<std::string, Measure>& surfaces) {
  const aiMatrix4x4 place = above * node.mTransformation;
  Measure surface;
  for (unsigned m = 0; m < node.mNumMeshes; ++m) {
    const aiMesh& mesh = *model.mMeshes[node.mMeshes[m]];
    for (unsigned f = 0; f < mesh.mNumFaces; ++f) {
      REQUIRE(mesh.mFaces[f].mNumIndices == 3);
      const auto at = [&](unsigned i) {
        const aiVector3D corner = place * mesh.mVertices[mesh.mFaces[f].mIndices[i]];
        const glm::dvec3 read{corner.x, corner.y, corner.z};
        return gltf ? toScene(read) : read;
      };
      surface.add(at(0), at(1), at(2));
    }
  }
  if (!surface.empty()) REQUIRE(surfaces.emplace(node.mName.C_Str(), surface).second);  // a name of its own
  for (unsigned i = 0; i < node.mNumChildren; ++i) takeSurfaces(model, *node.mChildren[i], place, gltf, surfaces);
}

/// Each part is a node of Assimp's, as large as in the scene and where it is.
void requireAssimpReads(const Built& built, const std::string& bytes, bool gltf) {
  Assimp::Importer importer;
  const aiScene* model =
      importer.ReadFileFromMemory(bytes.data(), bytes.size(), aiProcess_Triangulate, gltf ? "glb" : "obj");
  CAPTURE(importer.GetErrorString());
  REQUIRE(model != nullptr);
  std::map<std::string, Measure> surfaces;
  takeSurfaces(*model, *model->mRootNode, {}, gltf, surfaces);
  constexpr double kWithin = 0.02;  // mm: it reckons in floats
  std::size_t parts = 0;
  for (const Measure& wanted : measured(built.scene, glm::dvec3(0.0))) {
    if (wanted.empty() || wanted.area < 1e-6) continue;
    const auto found = std::find_if(surfaces.begin(), surfaces.end(), [&](const auto& one) {
      return glm::length(one.second.low - wanted.low) < kWithin && glm::length(one.second.high - wanted.high) < kWithin;
    });
    REQUIRE(found != surfaces.end());
    requireAlike(found->second, wanted, kWithin);
    surfaces.erase(found);
    ++parts;
  }
  CHECK(surfaces.empty());
  CHECK(parts > 50);
}

}  // namespace

TEST_CASE("glTF and OBJ: Assimp reads each part where it is in the scene, and as large") {
  for (const char* job : {"boatshed", "gable-loft", "old-schoolroom"}) {
    CAPTURE(job);
    const auto built = build(testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR "/jobs/") + job + ".toml"),
                             SILLWRIGHT_ASSETS_DIR "/jobs");
    requireAssimpReads(built, *exchange::glb(built.scene, built.demo.job, *built.demo.practice), true);
    requireAssimpReads(built, testing::objFiles(built.scene, built.demo.job, *built.demo.practice, "m").obj, false);
  }
}

TEST_CASE("glTF: each part is there once, by name, wall, layer and step, as large as in the scene and where it is") {
  for (const auto& built : allScenes()) {
    CAPTURE(built.demo.job.title);
    requireGlbIsScene(built);
  }
}

TEST_CASE("glTF: extents hold to a micrometre a kilometre away from the origin of the plan") {
  auto demo = testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/workshop-window.toml");
  demo.job.walls[0].at_x = 987'654.0;
  demo.job.walls[0].at_y = -456'789.0;
  demo.job.walls[0].turn_degrees = 17;
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  requireGlbIsScene(build(std::move(demo), SILLWRIGHT_ASSETS_DIR "/jobs"));
}

TEST_CASE("glTF: steps and materials are those of the parts") {
  const auto built =
      build(testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/boatshed.toml"), SILLWRIGHT_ASSETS_DIR "/jobs");
  const Glb glb(*exchange::glb(built.scene, built.demo.job, *built.demo.practice));
  std::map<std::string, std::set<std::string>> steps, materials;
  for (const auto& part : partsOf(glb)) {
    steps[part.layer].insert(part.step);
    materials[part.kind].insert(part.material);
  }
  CHECK(steps["frame"] == std::set<std::string>{"from the start"});
  CHECK(steps["packers"].count("from the start") == 0);
  CHECK(steps["membrane"].count("membrane") == 1);
  CHECK(materials["stud"] == std::set<std::string>{"pine"});
  CHECK(materials["glass"] == std::set<std::string>{"glass"});
  CHECK(materials["screw"] == std::set<std::string>{"screw"});
}

TEST_CASE("glTF: 1,000 openings, no two alike, take less than 8 MB") {
  const auto built = manyOpenings(1000);
  CHECK(exchange::glb(built.scene, built.demo.job, *built.demo.practice)->size() < 8'000'000);
}

TEST_CASE("glTF: in a large job solids are as large as in the scene, where they are, together") {
  const auto built = manyOpenings(250);
  const auto bytes = exchange::glb(built.scene, built.demo.job, *built.demo.practice);
  // Solids of one kind share nodes: what an opening or a wall has of a kind is measured as one.
  std::map<std::string, Measure> read, wanted;
  const auto join = [](Measure& into, const Measure& one) {
    into.low = glm::min(into.low, one.low), into.high = glm::max(into.high, one.high);
    into.area += one.area, into.volume += one.volume;
  };
  for (const auto& part : partsOf(Glb(*bytes)))
    join(read[keyOf(part.wall, part.layer, part.name + " " + part.kind)], part.measure);
  const auto measures = measured(built.scene, glm::dvec3(0.0));
  for (std::size_t i = 0; i < measures.size(); ++i) {
    if (!measures[i].empty()) join(wanted[nameIn(built, built.scene.parts[i])], measures[i]);
  }
  REQUIRE(read.size() == wanted.size());
  for (const auto& [key, measure] : wanted) {
    CAPTURE(key);
    requireAlike(read[key], measure, 1e-2);
  }
}

TEST_CASE("glTF: colours are the viewer's") {
  const auto built =
      build(testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/workshop-window.toml"), SILLWRIGHT_ASSETS_DIR "/jobs");
  const Glb glb(*exchange::glb(built.scene, built.demo.job, *built.demo.practice));
  std::map<std::string, json> colours;
  for (const auto& material : glb.document["materials"])
    colours[material["name"]] = material["pbrMetallicRoughness"]["baseColorFactor"];
  // 0xF0D6A8 by the sRGB transfer function of IEC 61966-2-1: ((c + 0.055) / 1.055)^2.4 of 240, 214 and 168 of 255.
  CHECK(colours["pine"][0].get<double>() == Approx(0.8713671).margin(1e-6));
  CHECK(colours["pine"][1].get<double>() == Approx(0.6724432).margin(1e-6));
  CHECK(colours["pine"][2].get<double>() == Approx(0.3915725).margin(1e-6));
  CHECK(colours["glass"][3].get<double>() == Approx(0.36));
}

TEST_CASE("OBJ: each wall is a group") {
  const auto built =
      build(testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/boatshed.toml"), SILLWRIGHT_ASSETS_DIR "/jobs");
  const auto files = testing::objFiles(built.scene, built.demo.job, *built.demo.practice, "house.mtl");
  for (const auto& wall : built.demo.job.walls) CHECK(files.obj.find("\ng " + wall.name + "\n") != std::string::npos);
}

TEST_CASE("a member has one name: in the report, in glTF and in OBJ") {
  const auto built =
      build(testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/workshop-window.toml"), SILLWRIGHT_ASSETS_DIR "/jobs");
  const job::Job& job = built.demo.job;
  const practice::Practice& practice = *built.demo.practice;
  const auto findings = check::judge(job, practice, built.demo.plan);
  const json report = json::parse(testing::checkJson(job, practice, built.demo.plan, findings));
  const std::string obj = testing::objFiles(built.scene, job, practice, "m").obj;
  const Glb glb(*exchange::glb(built.scene, job, practice));
  std::set<std::string> nodes;
  for (const auto& node : glb.document["nodes"]) nodes.insert(node["name"]);
  REQUIRE(!report["walls"][0]["members"].empty());
  for (const auto& member : report["walls"][0]["members"]) {
    std::string name = member["name"];
    CAPTURE(name);
    CHECK(nodes.contains(name));
    std::ranges::replace(name, ' ', '_');
    CHECK(obj.find("\no " + name + "\n") != std::string::npos);
  }
}

TEST_CASE("OBJ: tinyobjloader reads the scene back, part by part") {
  for (const auto& built : allScenes()) {
    CAPTURE(built.demo.job.title);
    requireObjIsScene(built);
  }
}

TEST_CASE("a mesh that is placed as in a mirror still looks outwards") {
  Built built{testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/workshop-window.toml"), {}};
  // A corner of a box, wound from outside: volume 10³ / 6.
  const glm::vec3 o(0.0F), x(10.0F, 0.0F, 0.0F), y(0.0F, 10.0F, 0.0F), z(0.0F, 0.0F, 10.0F);
  built.scene.meshes.push_back({{o, y, x, o, z, y, o, x, z, x, y, z}, {}, {o, x + y + z}});
  for (const float turn : {1.0F, -1.0F}) {
    scene::MeshUse use;
    use.part = static_cast<std::uint32_t>(built.scene.parts.size());
    use.place[0][0] = turn;
    built.scene.uses.push_back(use);
    built.scene.parts.emplace_back();
  }
  const Glb glb(*exchange::glb(built.scene, built.demo.job, *built.demo.practice));
  const auto parts = partsOf(glb);
  REQUIRE(parts.size() == 2);
  for (const auto& part : parts) CHECK(part.measure.volume == Approx(1000.0 / 6).epsilon(1e-5));
}

TEST_CASE("a job without anything makes models that can be read") {
  Built built{testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/workshop-window.toml"), {}};
  const Glb glb(*exchange::glb(built.scene, built.demo.job, *built.demo.practice));
  CHECK(glb.document["nodes"].size() == 1);
  CHECK(!glb.document.contains("meshes"));
  CHECK(!glb.document.contains("buffers"));
  CHECK(glb.binary.empty());
}

TEST_CASE("the same scene gives the same bytes") {
  const auto a = build(testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/boatshed.toml"), SILLWRIGHT_ASSETS_DIR "/jobs");
  const auto b = build(testing::demoJob(SILLWRIGHT_ASSETS_DIR "/jobs/boatshed.toml"), SILLWRIGHT_ASSETS_DIR "/jobs");
  CHECK(exchange::glb(a.scene, a.demo.job, *a.demo.practice) == exchange::glb(b.scene, b.demo.job, *b.demo.practice));
  CHECK(testing::objFiles(a.scene, a.demo.job, *a.demo.practice, "m").obj ==
        testing::objFiles(b.scene, b.demo.job, *b.demo.practice, "m").obj);
}
