/// Inside the room, what `place` puts together: what governs the largest spare, how well it is known and the chance
/// that there is any; which of all the stands with enough to spare is preferred; the largest unit that goes in an
/// opening.
#pragma once

#include <array>

#include "plan/stand/clearing.h"
#include "plan/survey/survey.h"

namespace sillwright::plan {

struct Governing {
  std::array<std::array<double, 3>, kSides> weight{};  ///< λ by Side and At; all sum to 1.
  double sigma = 0;                                    ///< Standard error of the largest spare, to first order.
  double chance = 0;                                   ///< That the largest spare is above 0.
};

/// `edges` and `clearing`: of the opening. `spare`: the largest spare of `clearing`. `unit_sigma`: standard error of
/// the unit's width and of its height.
[[nodiscard]] Governing governingOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing,
                                    double spare, double unit_sigma);

/// The preferred stand (the unit's lower left corner) among those with at least `spare` (0, or the largest spare
/// where that is negative). `packing`: usual packing over the highest point of the sill under the unit.
[[nodiscard]] Point preferredStand(const Clearing& clearing, double spare, double packing);

/// Position at height z with as much more than its least gap at the left as at the right, moved no more than sill and
/// head ask for.
[[nodiscard]] double sidewaysAt(const Clearing& clearing, double z, double spare);

/// The heights that can be reached from `z` without passing through one that leaves less than `spare`.
[[nodiscard]] Range heightsRound(const Clearing& clearing, double z, double spare);

/// The part of `heights` in which sill and head leave at least `spare` where the unit stands evenly between the jambs;
/// all of it where the even stand at `z` does not hold.
[[nodiscard]] Range evenHeightsIn(const Clearing& clearing, Range heights, double z, double spare);

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
