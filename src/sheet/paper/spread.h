/// Moves labels in a row apart, only as far as needed so that none overlaps another.
#pragma once

#include <span>
#include <vector>

namespace sillwright::sheet {

/// Returns the middles of labels of the given sizes. They keep the order of `wanted` (rising), don't overlap, and have
/// the least sum of squared distances from `wanted`. All lie within low … high if they fit there, else they are packed
/// from `low` on.
[[nodiscard]] std::vector<double> spread(std::span<const double> wanted, std::span<const double> sizes, double low,
                                         double high);

}  // namespace sillwright::sheet
