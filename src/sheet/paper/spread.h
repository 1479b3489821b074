/// Labels in a row, moved apart just so far that none lies on another.
#pragma once

#include <span>
#include <vector>

namespace sillwright::sheet {

/// Middles for labels of the given sizes that want to stand at `wanted` (rising), in their order, none overlapping,
/// with the least sum of squared moves; all within low … high where they have room there, else from `low` on without
/// gaps. `sizes` has one entry a label.
[[nodiscard]] std::vector<double> spread(std::span<const double> wanted, std::span<const double> sizes, double low,
                                         double high);

}  // namespace sillwright::sheet
