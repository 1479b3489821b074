/// A plane through the scene's solids: what a section shows cut.
#pragma once

#include <cstddef>
#include <vector>

#include "plan/shape.h"
#include "scene/scene.h"
#include "sheet/paper/flat.h"

namespace sillwright::sheet {

/// Across the wall at an x (seen from the wall's left end: first axis y, outside negative; second axis z), or level at
/// a z (seen from above: first axis x, second axis y).
enum class Cut { AcrossWall, Level };

/// One solid as it is cut: a convex polygon in the section's two axes, millimetres of the wall.
struct CutSolid {
  std::uint32_t part = 0;
  std::vector<Vec> outline;
  bool end_grain = false;  ///< Its grain runs through the plane.
};

/// What the plane cuts of a wall's own parts and of one opening's, in the scene's order. Solids that only touch the
/// plane are left out.
[[nodiscard]] std::vector<CutSolid> slice(const scene::Scene& scene, std::size_t wall, std::int32_t opening, Cut cut,
                                          double at);

/// The part of a convex polygon inside a box (in the polygon's own axes); empty where nothing is.
[[nodiscard]] std::vector<Vec> clipped(std::vector<Vec> polygon, const Box& box);

/// Area of a simple polygon, not negative.
[[nodiscard]] double areaOf(const std::vector<Vec>& polygon);
/// Centroid of a simple polygon with area.
[[nodiscard]] Vec centroidOf(const std::vector<Vec>& polygon);

}  // namespace sillwright::sheet
