/// Inside the room: polygons of a drawing, clipped and measured. Any unit of length.
#pragma once

#include <vector>

#include "sheet/paper/flat.h"

namespace sillwright::sheet {

/// The part of a convex polygon inside a box (in the polygon's own axes); empty where nothing is.
[[nodiscard]] std::vector<Vec> clipped(std::vector<Vec> polygon, const Box& box);

/// Shortens a segment to its stretch inside a box; false where none is.
[[nodiscard]] bool clip(const Box& box, Vec& from, Vec& to);

/// Area of a simple polygon, not negative.
[[nodiscard]] double areaOf(const std::vector<Vec>& polygon);

/// Centroid of a simple polygon with area; its first corner where it has none.
[[nodiscard]] Vec centroidOf(const std::vector<Vec>& polygon);

}  // namespace sillwright::sheet
