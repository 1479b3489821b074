/// The meshes that a scene is built with: small parts that repeat, and units drawn by a mesh of the job's own.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "base/error.h"
#include "job/job.h"
#include "scene/mesh/mesh.h"

namespace sillwright::scene {

/// The program's own small meshes and those that the job's units name, by path: own ones by the names below, a unit's
/// by the words of the job.
struct MeshLibrary {
  std::map<std::string, Mesh, std::less<>> mesh;
};

/// Own meshes, below assets/. Screw: 8 gauge × 75, head's face at the origin, running along +y; scale it to others.
/// Handle (a lever) and catch: back on y = 0, standing out along +y, the lever to the right (the catch's down).
/// Hinge: on its pin, upright, plates on y = 0.
inline constexpr const char* kScrewMesh = "meshes/screw.obj";
inline constexpr const char* kHandleMesh = "meshes/handle.obj";
inline constexpr const char* kCatchMesh = "meshes/catch.obj";
inline constexpr const char* kHingeMesh = "meshes/hinge.obj";

/// Loads the program's meshes and every mesh named by the job (paths beside the job file). A bad or missing mesh of a
/// unit is an error at the unit's line; the rest are loaded.
[[nodiscard]] std::vector<base::Error> loadMeshes(MeshLibrary& library, const std::filesystem::path& assets,
                                                  const job::Job& job, const std::filesystem::path& job_folder);

/// The same errors of the units' meshes where nothing is to be drawn: what is wrong in their lines.
[[nodiscard]] std::vector<base::Error> checkMeshes(const job::Job& job, const std::filesystem::path& job_folder);

}  // namespace sillwright::scene
