/// Meshes read from OBJ files (tinyobjloader).
///
/// An OBJ is read strictly: a corner that doesn't exist, a number that isn't one, a file without faces are errors at
/// their line, never a mesh with holes. Millimetres, in a wall's axes: x to the right as seen from outside, y into the
/// building, z up. Normals, textures and materials are passed over; the renderer shades flat.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <iterator>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "job/job.h"
#include "scene/scene.h"

namespace sillwright::scene {

inline constexpr std::size_t kMostTriangles = 2'000'000;
inline constexpr std::size_t kMostCorners = 256;                               ///< Of one face.
inline constexpr double kFarthestVertex = 1e6;                                 ///< From the mesh's origin, mm.
inline constexpr std::uintmax_t kLargestMeshFile = std::uintmax_t{256} << 20;  ///< Bytes.
/// Two faces that turn by more than this at their common edge have it inked.
inline constexpr double kInkedTurnDegrees = 30.0;

/// Reads an OBJ from its text; `file` is used in messages. All errors come at once (the first
/// twenty), at their lines: not text, a vertex that is not finite, a corner that doesn't exist, no faces, more than
/// kMostTriangles. Faces may be any simple polygons; those without area are left out, and a few may cross themselves.
/// Ink runs along borders and where faces turn by more than kInkedTurnDegrees.
[[nodiscard]] base::Result<Mesh> readMesh(std::string_view text, std::string file);

/// The errors in its lines alone: whether its faces have area isn't asked.
[[nodiscard]] std::vector<base::Error> checkMesh(std::string_view text, const std::string& file);

/// Reads the file and then its text. What the machine refuses is one error without a line.
[[nodiscard]] base::Result<Mesh> readMeshFile(const std::filesystem::path& path);

// The meshes that a scene is built with: small parts that repeat, and units drawn by a mesh of the job's own.

/// The program's own small meshes and those that the job's units name, by path: own ones by the names below, a unit's
/// by the words of the job. A scene has all of them, in this order.
struct MeshLibrary {
  std::map<std::string, Mesh, std::less<>> mesh;
  /// Index in Scene::meshes; empty where there is no such mesh.
  [[nodiscard]] std::optional<std::uint32_t> indexOf(std::string_view key) const {
    const auto found = mesh.find(key);
    if (found == mesh.end()) return std::nullopt;
    return static_cast<std::uint32_t>(std::distance(mesh.begin(), found));
  }
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
