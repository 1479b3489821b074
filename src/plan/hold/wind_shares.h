/// How the wind on a unit comes to its fixings, as the area whose wind each carries.
///
/// Each light is a plate that its mullions and transoms hold, and of the frame the sides that are fixed along their
/// length: an edge carries the part that lies nearest to it, bounded by lines at 45° from the corners where two held
/// edges meet (the yield lines of a plate). A bar is a beam between what it ends at: what comes to it is shared to its
/// two ends by the lever rule, and is there a load on the bar that it ends at, or on the fixings beside it in the
/// frame. A door's sill brings what comes there to the floor. Together the whole wind, once.
#pragma once

#include <vector>

#include "plan/hold/fixing_points.h"

namespace sillwright::plan {

/// Of each fixing, mm².
[[nodiscard]] std::vector<double> windShares(const FixingSpots& by, const UnitSpec& unit);

}  // namespace sillwright::plan
