/// Inside `fix`: one set of fixing points judged, for the unit where it stands or moved sideways.
#pragma once

#include <cmath>

#include "plan/hold/fix.h"

namespace sillwright::plan {

/// Everything a set of fixings is judged from.
struct Hold {
  const UnitSpec& unit;
  const Stand& stand;
  const Packing& packing;
  const WindLoad& wind;
  double mass_kg = 0;
  const FixingTimber& timber;
  const practice::Practice& practice;
};

/// Demand over capacity, which must be known; without end where nothing is held.
[[nodiscard]] inline double ratioOf(const Fixing& fixing) {
  return *fixing.capacity_n > 0 ? fixing.demand_n / *fixing.capacity_n : HUGE_VAL;
}

/// Fills points, screws, worst and what is missing. `move`: of the unit from its stand, + to the right; packers follow.
[[nodiscard]] Fixings holdAt(const Hold& hold, const FixingSpots& spots, const ScrewStock& stock, double move);

/// What would bring the worst of `fixings` to 1 or below, in order: smaller packer, larger gauge.
[[nodiscard]] std::vector<FixingHelp> helpFor(const Hold& hold, const Fixings& fixings, const FixingSpots& spots,
                                              const ScrewStock& stock);

}  // namespace sillwright::plan
