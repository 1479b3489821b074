/// Meshes read from OBJ files (tinyobjloader).
///
/// An OBJ is read strictly: a corner that doesn't exist, a number that isn't one, a file without faces are errors at
/// their line, never a mesh with holes. Millimetres, in a wall's axes: x to the right as seen from outside, y into the
/// building, z up. Normals, textures and materials are passed over; the renderer shades flat.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "base/error.h"
#include "scene/scene.h"

namespace sillwright::scene {

inline constexpr std::size_t kMostTriangles = 2'000'000;
inline constexpr std::size_t kMostCorners = 256;                               ///< Of one face.
inline constexpr double kFarthestVertex = 1e6;                                 ///< From the mesh's origin, mm.
inline constexpr std::uintmax_t kLargestMeshFile = std::uintmax_t{256} << 20;  ///< Bytes.
/// Two faces that turn by more than this at their common edge have it inked.
inline constexpr double kInkedTurnDegrees = 30.0;

/// Reads an OBJ from its text; `file` is used in messages and as the mesh's name. All errors come at once (the first
/// twenty), at their lines: not text, a vertex that is not finite, a corner that doesn't exist, no faces, more than
/// kMostTriangles. Faces may be any simple polygons; those without area are left out, and a few may cross themselves.
/// Ink runs along borders and where faces turn by more than kInkedTurnDegrees.
[[nodiscard]] base::Result<Mesh> readMesh(std::string_view text, std::string file);

/// Reads the file and then its text. What the machine refuses is one error without a line.
[[nodiscard]] base::Result<Mesh> readMeshFile(const std::filesystem::path& path);

/// What is wrong in the file's lines, without making a mesh of it: whether its faces have area isn't asked.
[[nodiscard]] std::vector<base::Error> checkMeshFile(const std::filesystem::path& path);

/// Box round a mesh's corners; zero where it has none.
[[nodiscard]] Box boundsOf(const Mesh& mesh);

}  // namespace sillwright::scene
