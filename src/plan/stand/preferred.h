/// Which of all the stands with enough to spare is preferred: usual sill packing first, then even gaps at the jambs.
#pragma once

#include "plan/stand/clearing.h"

namespace sillwright::plan {

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

}  // namespace sillwright::plan
