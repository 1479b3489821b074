/// Where the sheets of a skin cover the wall plane and each other.
#pragma once

#include <cstdint>
#include <vector>

#include "plan/weather/skin.h"

namespace sillwright::plan {

/// The box round an outline.
[[nodiscard]] Rect boxOf(const Sheet& sheet);

/// A stretch of a vertical line that a sheet covers.
struct Cover {
  double low = 0;
  double high = 0;
};
/// What a sheet covers of the line at x, from the bottom up. A line along an upright edge counts as beside it.
[[nodiscard]] std::vector<Cover> coversAt(const Sheet& sheet, double x);

/// Whether two sheets cover a common area, and the highest z at which the first one's top edge lies on the second.
struct Overlap {
  bool any = false;
  bool has_top = false;
  Rect box;        ///< Round the common area, as far as lines between the outlines' corners tell it.
  double top = 0;  ///< Where `has_top`.
};
[[nodiscard]] Overlap overlapOf(const Sheet& first, const Sheet& second);

}  // namespace sillwright::plan
