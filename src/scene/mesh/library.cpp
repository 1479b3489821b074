#include "scene/mesh/library.h"

#include <utility>

namespace sillwright::scene {
namespace {

std::string lineOf(const base::Error& error) {
  const std::string place = error.at.line > 0 ? "line " + std::to_string(error.at.line) + ": " : std::string{};
  return error.file + ": " + place + error.say;
}

}  // namespace

std::vector<base::Error> loadMeshes(MeshLibrary& library, const std::filesystem::path& assets, const job::Job& job,
                                    const std::filesystem::path& job_folder) {
  std::vector<base::Error> errors;
  for (const char* name : {kScrewMesh, kHandleMesh, kCatchMesh, kHingeMesh}) {
    base::Result<Mesh> read = readMeshFile(assets / name);
    if (read.ok()) library.mesh.insert_or_assign(name, std::move(*read.value));
    errors.insert(errors.end(), read.errors.begin(), read.errors.end());
  }
  std::map<std::string, std::vector<base::Error>> refused_before;
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Unit& unit = job.openings[i].unit;
    if (!unit.mesh) continue;
    auto known = refused_before.find(*unit.mesh);
    if (known == refused_before.end()) {
      base::Result<Mesh> read = readMeshFile(job_folder / *unit.mesh);
      if (read.ok()) library.mesh.insert_or_assign(*unit.mesh, std::move(*read.value));
      known = refused_before.emplace(*unit.mesh, std::move(read.errors)).first;
    }
    for (const base::Error& error : known->second) {
      errors.push_back({job.file, unit.mesh_place, "opening[" + std::to_string(i) + "].unit.mesh", lineOf(error)});
    }
  }
  return errors;
}

}  // namespace sillwright::scene
