/// The steps of reading a mesh: the text read line by line, polygons cut into triangles, edges chosen for inking.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"

namespace sillwright::scene {

/// The faces of an OBJ's text by the numbers of their vertices.
struct Polygons {
  std::vector<glm::vec3> vertex;
  std::vector<std::vector<std::uint32_t>> rings;
};

/// Or what is wrong in its lines, the first twenty of it.
[[nodiscard]] base::Result<Polygons> readObj(std::string_view text, const std::string& file);

/// A mesh by the numbers of its vertices.
struct Faces {
  std::vector<glm::vec3> vertex;
  std::vector<std::uint32_t> corner;  ///< Three a triangle.
  std::size_t effort = 0;             ///< Corners that were looked at to find all ears so far.
};

/// What a file's faces may take together. A simple polygon finds its ears soon, one that crosses itself never: a
/// hundred of the largest would take seconds.
inline constexpr std::size_t kMostEffort = 100'000'000;

/// Cuts a simple polygon into triangles by clipping ears, and adds those that have area. `ring` is used up. False: the
/// faces have taken more than kMostEffort, and this one is not cut.
[[nodiscard]] bool addPolygonTo(Faces& faces, std::vector<std::uint32_t>& ring);

/// Ends of the lines to ink, two a line: borders, edges of more than two triangles, and turns above kInkedTurnDegrees.
/// Vertices at one place count as one.
[[nodiscard]] std::vector<glm::vec3> inkedLines(const Faces& faces);

}  // namespace sillwright::scene
