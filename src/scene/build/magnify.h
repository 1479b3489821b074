/// Deviation drawn larger than it is: gaps of a few millimetres can't be seen on a whole window.
///
/// Every edge keeps its planned place as the fixed line, and what stands off that line stands off it so many times as
/// far: the as-built edge, the side of the unit, and so the gap between them and each packer in it. The unit is drawn
/// smaller (where it has gaps) or larger (where it doesn't fit); it stays a rectangle, level and plumb. Nothing but the
/// drawing changes: the figures a person reads are always those of the true plan.
#pragma once

#include "plan/plan.h"
#include "scene/build/build.h"

namespace sillwright::scene {

inline constexpr double kMostDeviation = 20;

/// The most that a job's deviations can be magnified by, 1 to kMostDeviation: no unit is drawn at less than two fifths
/// of its size either way.
[[nodiscard]] double mostDeviation(const job::Job& job, const plan::Plan& plan);

/// A point of an opening's plane, from its planned lower left corner, as it is drawn: `planned` is the place on the
/// planned opening that it stands off.
[[nodiscard]] plan::Point magnified(plan::Point point, plan::Point planned, double times);

/// An as-built edge as it is drawn.
[[nodiscard]] plan::Edge magnifiedEdge(const plan::OpeningShape& shape, plan::Side side, const job::Opening& opening,
                                       double times);

/// Corners of the unit as it is drawn, from the planned opening's lower left corner.
struct DrawnUnit {
  plan::Point low, high;
};
[[nodiscard]] DrawnUnit drawnUnit(const plan::OpeningPlan& planned, const job::Opening& opening, double times);

/// The plan of an opening as it is drawn: stand, unit, gaps, packers and the places of screws. For drawing only; at 1
/// it is the plan itself.
[[nodiscard]] plan::OpeningPlan magnified(const plan::OpeningPlan& planned, const job::Opening& opening, double times);

}  // namespace sillwright::scene
