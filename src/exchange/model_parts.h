/// Inside the room: what both model formats need of a scene.
#pragma once

#include <array>
#include <cstddef>
#include <glm/glm.hpp>
#include <string>
#include <vector>

#include "job/job.h"
#include "practice/practice.h"
#include "scene/scene.h"

namespace sillwright::exchange {

/// A material as other programs show it: linear colour, tuned by eye.
struct Look {
  const char* name;
  std::array<double, 4> colour;  ///< Red, green, blue, opacity; 0 … 1.
  double metal;
  double rough;
};
[[nodiscard]] const Look& lookOf(scene::Material material);

/// The step at which a part comes into being, in plain words; "from the start" where it needs none.
[[nodiscard]] std::string stepName(const scene::Part& part);
/// "N1 jamb stud", or without an opening "stud".
[[nodiscard]] std::string partName(const scene::Part& part, const job::Job& job, const practice::Practice& practice);

/// A polygon of a part's surface, anticlockwise from outside; three or four corners, no two alike.
struct Polygon {
  std::array<glm::vec3, 4> corner;
  std::size_t corners = 0;
};

/// Where the solids and mesh uses of each part are.
class PartIndex {
 public:
  explicit PartIndex(const scene::Scene& scene);
  /// The part's surface, in the world, mm. Polygons without area are left out.
  [[nodiscard]] std::vector<Polygon> surfaceOf(std::size_t part) const;

 private:
  const scene::Scene& scene_;
  std::vector<std::size_t> first_solid_;           // of each part, and one past the last
  std::vector<std::vector<std::size_t>> uses_of_;  // of each part
};

}  // namespace sillwright::exchange
