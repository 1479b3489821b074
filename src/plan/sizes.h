/// The largest unit that goes in an opening.
#pragma once

#include <array>

#include "plan/place.h"
#include "plan/shape.h"

namespace sillwright::plan {

/// Largest width at `height` with the gaps of `gaps`, exact; −infinity: none, whatever the width.
[[nodiscard]] double largestWidth(const OpeningShape& opening, double width, double height, const LeastGaps& gaps);
/// Largest height at `width`, likewise.
[[nodiscard]] double largestHeight(const OpeningShape& opening, double width, double height, const LeastGaps& gaps);

/// Down to the practice's step, never below 0. A step of 0 or less leaves the size as it is.
[[nodiscard]] double roundedDown(double size, double step);

/// `width` × `height` made smaller where the opening's middle has no room for it, each rounded down to the step.
[[nodiscard]] std::array<double, 2> cutToMiddle(const OpeningShape& opening, double width, double height,
                                                const LeastGaps& gaps, double step);

}  // namespace sillwright::plan
