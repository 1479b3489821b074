/// Hatching: the lines that fill a shape, as values.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "sheet/paper/flat.h"

namespace sillwright::sheet {

/// Parallel lines across a simple polygon, `spacing` mm of paper apart, at `degrees` anticlockwise from the page's x as
/// seen on paper. They lie on one grid through the page's corner, so that shapes beside each other hatch alike. Empty
/// where the polygon has less than three corners or `spacing` is not above 0.
[[nodiscard]] std::vector<std::array<Vec, 2>> hatchLines(std::span<const Vec> polygon, double degrees, double spacing);

}  // namespace sillwright::sheet
