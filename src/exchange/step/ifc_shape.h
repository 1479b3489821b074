/// Where the things of a building model are and how far they reach: corners, not surfaces. IFC 2x3 and IFC 4, mm.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
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

class IfcShapes {
 public:
  /// The file must outlive it.
  explicit IfcShapes(StepFile& file);
  /// The length of the file's unit, mm; 0: its project names none.
  [[nodiscard]] double unit() const { return unit_; }
  /// Of a thing with a place and a shape (IfcProduct).
  [[nodiscard]] Body bodyOf(const StepInstance& product);
  /// From the thing's own axes into the world.
  [[nodiscard]] glm::dmat4 placeOf(const StepInstance& product) { return placement(product[5], 0); }

 private:
  [[nodiscard]] std::optional<glm::dvec3> triple(const StepValue& list, double scale) const;
  [[nodiscard]] glm::dvec3 point(const StepValue& reference);
  [[nodiscard]] glm::dvec3 direction(const StepValue& reference, glm::dvec3 otherwise);
  [[nodiscard]] glm::dmat4 axes(const StepValue& reference);
  [[nodiscard]] glm::dmat4 placement(const StepValue& reference, int depth);
  void walk(Body& body, const StepValue& value, const glm::dmat4& to_world, int depth);
  void walkItem(Body& body, const StepInstance& item, const glm::dmat4& to_world, int depth);
  void addPoint(Body& body, const StepValue& list, const glm::dmat4& to_world);
  void addExtruded(Body& body, const StepInstance& solid, const glm::dmat4& to_world, int depth);
  void addBox(Body& body, const StepInstance& profile, const glm::dmat4& to_world, glm::dvec2 size);
  void addCut(Body& body, const StepInstance& half, const glm::dmat4& to_world);
  void addMapped(Body& body, const StepInstance& item, const glm::dmat4& to_world, int depth);

  StepFile& file_;
  double unit_;
  std::size_t look_ups_left_;  ///< For all bodies: a file may name one shape ever so often.
};

inline constexpr double kStraight = 2;  // mm: a corner of a wall's top no further off the line is none
/// The upper edge round points: left to right, no corner that hangs below the line between others.
[[nodiscard]] std::vector<job::TopPoint> upperEdge(std::vector<job::TopPoint> points);
/// What of the edge lies under the line z = height + slope · x.
[[nodiscard]] std::vector<job::TopPoint> under(const std::vector<job::TopPoint>& edge, double height, double slope);

}  // namespace sillwright::exchange
