#include "scene/mesh/mesh.h"

#include <utility>

#include "base/write_file.h"

namespace sillwright::scene {

namespace {

/// What `read` has against the units' meshes, each file read once, at the units' lines.
template <class Read>
std::vector<base::Error> readUnits(const job::Job& job, const Read& read) {
  std::vector<base::Error> errors;
  std::map<std::string, std::vector<base::Error>> refused;
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Unit& unit = job.openings[i].unit;
    if (!unit.mesh) continue;
    const auto [known, is_new] = refused.try_emplace(*unit.mesh);  // many units may name one file
    if (is_new) known->second = read(*unit.mesh);
    for (const base::Error& error : known->second) {
      // The error stands at the unit: the line in the mesh goes into its words.
      const std::string line = error.at.line > 0 ? "line " + std::to_string(error.at.line) + ": " : "";
      errors.push_back({job.file, unit.mesh_place, "opening[" + std::to_string(i) + "].unit.mesh",
                        error.file + ": " + line + error.say});
    }
  }
  return errors;
}

}  // namespace

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
    return text.ok() ? checkMesh(*text.value, (job_folder / name).generic_string()) : text.errors;
  });
}

}  // namespace sillwright::scene
