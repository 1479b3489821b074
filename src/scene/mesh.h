/// Meshes read from OBJ files (tinyobjloader): small parts that repeat, and units drawn by a mesh of the job's own.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "job/error.h"
#include "job/job.h"
#include "scene/scene.h"

namespace sillwright::scene {

/// Reads an OBJ (millimetres). Errors name the file and what is wrong: not an OBJ, an index out of range, a vertex
/// that is not finite, no faces, more than kMostTriangles.
[[nodiscard]] job::Result<Mesh> readMesh(std::string_view text, std::string file);
[[nodiscard]] job::Result<Mesh> readMeshFile(const std::filesystem::path& path);

inline constexpr std::size_t kMostTriangles = 2'000'000;

/// The program's own small meshes and those that the job's units name, by path.
struct MeshLibrary {
  std::map<std::string, Mesh, std::less<>> mesh;
};

/// Loads assets/meshes and every mesh named by the job (paths beside the job file). A bad or missing mesh is an error
/// at the unit's line; the rest are loaded.
[[nodiscard]] std::vector<job::Error> loadMeshes(MeshLibrary& library, const std::filesystem::path& assets,
                                                 const job::Job& job, const std::filesystem::path& job_folder);

}  // namespace sillwright::scene
