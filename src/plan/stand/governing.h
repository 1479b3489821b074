/// What governs the largest spare, how well that spare is known, and the chance that there is any.
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

}  // namespace sillwright::plan
