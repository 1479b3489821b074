/// Heads in line: one common level for the heads of the units along a wall.
///
/// Each unit may stand anywhere in its own feasible range of heights. The common level lies in all ranges, where there
/// is such a level, and moves the unit that is moved furthest the least: the middle of the lowest and the highest
/// preferred height, brought into the common range. Where no level suits all, those are named that keep the most others
/// from standing in line: the fewest that would have to be left out.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace sillwright::plan {

/// Where one unit's head may be, in the wall's z. mm.
struct HeadRange {
  double low = 0;
  double high = 0;  ///< Below `low`: the unit doesn't fit and takes no part.
  double preferred = 0;
};

struct CommonHead {
  std::optional<double> level;     ///< Empty: no level suits all that take part, or none takes part.
  std::vector<std::size_t> apart;  ///< Indices of the ranges that prevent it, and of those that take no part, rising.
};

/// O(n log n).
[[nodiscard]] CommonHead commonHead(std::span<const HeadRange> ranges);

}  // namespace sillwright::plan
