/// Where the things of a building model are and how far they reach: corners, not surfaces. IFC 2x3 and IFC 4, mm.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "exchange/step/step_reader.h"
#include "job/job.h"

namespace sillwright::exchange {

/// What is cut away beyond a plane: kept is where dot(p − at, towards) ≥ 0.
struct CutPlane {
  glm::dvec3 at{0.0};
  glm::dvec3 towards{0.0};
};

/// The corners of a thing's body, in the world, before it is cut by the planes.
struct Body {
  std::vector<glm::dvec3> corners;
  std::vector<CutPlane> cuts;
  bool curved = false;   ///< Some edge of its outline is an arc.
  bool unknown = false;  ///< Some of it is described in a way that is not read.
};

/// The shapes of a file's things, which are read as they are asked for.
struct IfcShapes {
  StepFile& file;
  double unit;                ///< The length of the file's unit, mm; 0: its project names none.
  std::size_t look_ups_left;  ///< For all bodies: a file may name one shape ever so often.

  explicit IfcShapes(StepFile& of);
  /// Of a thing with a place and a shape (IfcProduct).
  [[nodiscard]] Body bodyOf(const StepInstance& product);
  /// From the thing's own axes into the world.
  [[nodiscard]] glm::dmat4 placeOf(const StepInstance& product) const;
};

inline constexpr double kStraight = 2;  // mm: a corner of a wall's top no further off the line is none
/// The upper edge round points: left to right, no corner that hangs below the line between others.
[[nodiscard]] std::vector<job::TopPoint> upperEdge(std::vector<job::TopPoint> points);
/// What of the edge lies under the line z = height + slope · x.
[[nodiscard]] std::vector<job::TopPoint> under(const std::vector<job::TopPoint>& edge, double height, double slope);

}  // namespace sillwright::exchange
