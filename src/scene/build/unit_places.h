/// Where packers and screws are about a unit: for the scene, the sheets and the screen alike.
///
/// Unit axes: the origin is the unit's lower left outside corner, x runs to the right as seen from outside, y into the
/// building from the studs' outside face, z up; mm.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "plan/plan.h"
#include "scene/solids.h"

namespace sillwright::scene {

/// The place of something that lies beside a unit of this size: `along` the side from the unit's corner, `off` it
/// outwards. Sizes of any one scale: a drawing may stretch what is off the unit.
[[nodiscard]] Rect besideUnit(plan::Side side, const Range& along, const Range& off, double width, double height);

/// A piece that packs a unit: one of a stack, or the timber behind the stack.
struct PackerPiece {
  Range along;  ///< The side.
  Range off;    ///< The unit, outwards.
  bool timber = false;
};

/// The pieces at a packing point, from the framing to the unit.
[[nodiscard]] std::vector<PackerPiece> packerPieces(const plan::PackingPoint& point);

/// A packer on plan: plan::kPackerLength along the side, and so wide through the wall. From memory.
inline constexpr double kPackerWidth = 32;

/// y of the packers at a side: at the jambs about the line of the screws that go through them, at sill and head in the
/// middle of the unit's depth; never past the unit or the studs. Empty (low = high) where a unit has no depth in the
/// wall.
[[nodiscard]] Range packerDepth(plan::Side side, const plan::OpeningPlan& planned, double stud_depth);

/// A screw as it is driven, from the middle of its head's face on.
struct DrivenScrew {
  glm::dvec3 head{0.0};
  glm::dvec3 way{0.0, 1.0, 0.0};  ///< Unit length.
};
[[nodiscard]] DrivenScrew drivenScrew(const plan::Fixing& fixing, const plan::OpeningPlan& planned);

}  // namespace sillwright::scene
