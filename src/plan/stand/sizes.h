/// The largest unit that goes in an opening.
#pragma once

#include <array>

#include "plan/stand/clearing.h"

namespace sillwright::plan {

/// Largest width at the unit's height and largest height at its width that keep the least gaps, exact; −infinity:
/// none, whatever it is.
struct LargestSizes {
  double width = 0;
  double height = 0;
};

/// `clearing`: of a unit of the planned size among `edges`, with the gaps `least`.
[[nodiscard]] LargestSizes largestSizes(const Profiles& edges, const Clearing& clearing, const LeastGaps& least);

/// Down to the practice's step, never below 0. A step of 0 or less leaves the size as it is.
[[nodiscard]] double roundedDown(double size, double step);

/// The unit's width and height, made smaller where the opening's middle has no room for them, and then rounded down
/// to the step.
[[nodiscard]] std::array<double, 2> cutToMiddle(const Profiles& edges, const Clearing& clearing, const LeastGaps& least,
                                                double step);

}  // namespace sillwright::plan
