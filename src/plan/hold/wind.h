/// Wind on one unit: from the job's class or pressure to the pressures its fixings and laps must stand.
///
/// Indicative: class and coefficients are the practice's; local codes and an engineer come first.
#pragma once

#include <optional>
#include <string>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::plan {

struct WindLoad {
  std::optional<double> ultimate_kpa;  ///< Net, on the unit.
  std::optional<double> serviceability_kpa;
  std::optional<double> water_kpa;  ///< That the laps and upstands must stand.
  bool near_corner = false;         ///< Within the practice's distance of a corner of the house.
  std::string how;  ///< The derivation in one line, for people: "0.6 × 50² × 0.9 = 1.35 kPa (N3, general)".
  const practice::Figure* source = nullptr;  ///< Of the governing figure.
};

/// Pressures on an opening, near a corner of the house or away from one.
[[nodiscard]] WindLoad windOn(const std::optional<job::Wind>& wind, bool near_corner,
                              const practice::Practice& practice);

}  // namespace sillwright::plan
