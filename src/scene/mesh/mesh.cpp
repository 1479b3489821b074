#include "scene/mesh/mesh.h"

#include <tiny_obj_loader.h>
#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

#include "base/write_file.h"
#include "scene/mesh/mesh_parts.h"

namespace sillwright::scene {

namespace {

/// What the loader's callbacks fill.
struct Loaded {
  Faces faces;
  std::vector<std::vector<std::uint32_t>> polygons;
};

void onVertex(void* user, tinyobj::real_t x, tinyobj::real_t y, tinyobj::real_t z, tinyobj::real_t /*w*/) {
  static_cast<Loaded*>(user)->faces.vertex.emplace_back(x, y, z);
}

void onFace(void* user, tinyobj::index_t* corners, int count) {
  auto& loaded = *static_cast<Loaded*>(user);
  std::vector<std::uint32_t>& ring = loaded.polygons.emplace_back();
  ring.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    // As written in the file: from 1, or from the last vertex backwards. checkObj has seen to the range.
    const int index = corners[i].vertex_index;
    const auto so_far = static_cast<int>(loaded.faces.vertex.size());
    ring.push_back(static_cast<std::uint32_t>(index > 0 ? index - 1 : so_far + index));
  }
}

/// Whether the loader saw the vertices and corners that checkObj saw: it reads lines and numbers in its own way.
bool isAsChecked(const Loaded& loaded) {
  const auto lies = [](const glm::vec3& vertex) {  // false for what is not a number, too
    return std::abs(vertex.x) <= kFarthestVertex && std::abs(vertex.y) <= kFarthestVertex &&
           std::abs(vertex.z) <= kFarthestVertex;
  };
  const auto all = [](const auto& range, const auto& good) { return std::all_of(range.begin(), range.end(), good); };
  return all(loaded.faces.vertex, lies) && all(loaded.polygons, [&](const auto& ring) {
           return all(ring, [&](std::uint32_t corner) { return corner < loaded.faces.vertex.size(); });
         });
}

std::string lineOf(const base::Error& error) {
  const std::string place = error.at.line > 0 ? "line " + std::to_string(error.at.line) + ": " : std::string{};
  return error.file + ": " + place + error.say;
}

/// What `read` has against the units' meshes, each file read once, at the units' lines.
template <class Read>
std::vector<base::Error> readUnits(const job::Job& job, const Read& read) {
  std::vector<base::Error> errors;
  std::map<std::string, std::vector<base::Error>> refused;
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Unit& unit = job.openings[i].unit;
    if (!unit.mesh) continue;
    const auto [known, is_new] = refused.try_emplace(*unit.mesh);
    if (is_new) known->second = read(*unit.mesh);
    for (const base::Error& error : known->second) {
      errors.push_back({job.file, unit.mesh_place, "opening[" + std::to_string(i) + "].unit.mesh", lineOf(error)});
    }
  }
  return errors;
}

}  // namespace

base::Result<Mesh> readMesh(std::string_view text, std::string file) {
  if (std::vector<base::Error> errors = checkObj(text, file); !errors.empty()) return {{}, std::move(errors)};
  Loaded loaded;
  tinyobj::callback_t callback;
  callback.vertex_cb = onVertex;
  callback.index_cb = onFace;
  std::istringstream stream{std::string(text)};
  std::string warn, error;
  if (!tinyobj::LoadObjWithCallback(stream, callback, &loaded, nullptr, &warn, &error) || !isAsChecked(loaded)) {
    return {{}, {{std::move(file), {}, "", "the file can't be read as an OBJ"}}};
  }
  for (std::vector<std::uint32_t>& ring : loaded.polygons) {
    if (addPolygonTo(loaded.faces, ring)) continue;
    return {{}, {{std::move(file), {}, "", "too many faces cross themselves; have them cut into triangles first"}}};
  }
  if (loaded.faces.corner.empty()) return {{}, {{std::move(file), {}, "", "none of the faces has any area"}}};

  base::Result<Mesh> result;
  Mesh& mesh = result.value.emplace();
  mesh.name = std::move(file);
  mesh.corner.reserve(loaded.faces.corner.size());
  for (const std::uint32_t corner : loaded.faces.corner) mesh.corner.push_back(loaded.faces.vertex[corner]);
  mesh.line = inkedLines(loaded.faces);
  return result;
}

base::Result<Mesh> readMeshFile(const std::filesystem::path& path) {
  const auto text = base::loadText(path, kLargestMeshFile);
  return text.ok() ? readMesh(*text.value, path.generic_string()) : base::Result<Mesh>{{}, text.errors};
}

std::vector<base::Error> loadMeshes(MeshLibrary& library, const std::filesystem::path& assets, const job::Job& job,
                                    const std::filesystem::path& job_folder) {
  std::vector<base::Error> errors;
  const auto load = [&](const std::string& name, const std::filesystem::path& folder) {
    base::Result<Mesh> read = readMeshFile(folder / name);
    if (read.ok()) library.mesh.insert_or_assign(name, std::move(*read.value));
    return std::move(read.errors);
  };
  for (const char* name : {kScrewMesh, kHandleMesh, kCatchMesh, kHingeMesh}) {
    const auto refused = load(name, assets);
    errors.insert(errors.end(), refused.begin(), refused.end());
  }
  const auto of_units = readUnits(job, [&](const std::string& name) { return load(name, job_folder); });
  errors.insert(errors.end(), of_units.begin(), of_units.end());
  return errors;
}

std::vector<base::Error> checkMeshes(const job::Job& job, const std::filesystem::path& job_folder) {
  // No mesh is made of it: whether its faces have area isn't asked.
  return readUnits(job, [&](const std::string& name) {
    const auto text = base::loadText(job_folder / name, kLargestMeshFile);
    return text.ok() ? checkObj(*text.value, (job_folder / name).generic_string()) : text.errors;
  });
}

}  // namespace sillwright::scene
