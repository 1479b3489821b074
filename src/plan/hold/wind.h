/// Wind on one unit: from the job's class or pressure to the pressures its fixings and laps must stand.
///
/// Indicative: class and coefficients are the practice's; local codes and an engineer come first.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/hold/fixing_points.h"
#include "practice/practice.h"

namespace sillwright::plan {

struct WindLoad {
  std::optional<double> ultimate_kpa = {};  ///< Net, on the unit.
  std::optional<double> serviceability_kpa = {};
  std::optional<double> water_kpa = {};  ///< That the laps and upstands must stand.
  bool near_corner = false;              ///< Within the practice's distance of a corner of the house.
  std::string how = {};  ///< The derivation in one line, for people: "0.6 × 50² × 0.9 = 1.35 kPa (N3, general)".
  const practice::Figure* source = nullptr;  ///< Of the governing figure.
};

/// Pressures on an opening, near a corner of the house or away from one.
[[nodiscard]] WindLoad windOn(const std::optional<job::Wind>& wind, bool near_corner,
                              const practice::Practice& practice);

// How the wind on a unit comes to its fixings, as the area whose wind each carries.
//
// Each light is a plate that its mullions and transoms hold, and of the frame the sides that are fixed along their
// length: an edge carries the part that lies nearest to it, bounded by lines at 45° from the corners where two held
// edges meet (the yield lines of a plate). A bar is a beam between what it ends at: what comes to it is shared to its
// two ends by the lever rule, and is there a load on the bar that it ends at, or on the fixings beside it in the
// frame. A door's sill brings what comes there to the floor. Together the whole wind, once.

/// Of each fixing, mm².
[[nodiscard]] std::vector<double> windShares(const FixingSpots& by, const UnitSpec& unit);

}  // namespace sillwright::plan
