/// An area of the wall plane with rectangular holes, cut into upright trapezoids.
///
/// Linings, membranes, cladding boards and battens are all such areas: a level bottom, a top that follows the plate's
/// line, and openings cut out. Each strip becomes one hexahedron. Where two strips of an area meet, the seam is not
/// inked; strips are split so that a side is either all seam or all outline.
#pragma once

#include <algorithm>
#include <cstdint>
#include <span>
#include <vector>

#include "scene/solids.h"

namespace sillwright::scene {

/// A line rising in x, at least two points; (x, z).
using Line = std::vector<glm::dvec2>;

/// Height of the line at x. Before its first and after its last point the end segments run on.
[[nodiscard]] double heightAt(const Line& line, double x);
[[nodiscard]] double highest(const Line& line);

/// Sorts values, and keeps one of those that are no further apart than so much.
void sortUnique(std::vector<double>& values, double apart);

/// The line between x0 and x1, held down to `cap`.
[[nodiscard]] Line cappedLine(const Line& line, double x0, double x1, double cap);

/// An upright trapezoid: sides at x0 and x1, from low to high at each.
struct Strip {
  double x0 = 0, x1 = 0;
  Range left;   ///< Along z at x0.
  Range right;  ///< Along z at x1.
  std::uint16_t edges = kAllEdges;
  bool joined = false;  ///< Touches a strip before it in the list.

  [[nodiscard]] double lowest() const { return std::min(left.low, right.low); }
  [[nodiscard]] double highest() const { return std::max(left.high, right.high); }
  /// What of x it reaches over, along z.
  [[nodiscard]] Range at(double x) const {
    const double share = (x - x0) / (x1 - x0);
    return {left.low + share * (right.low - left.low), left.high + share * (right.high - left.high)};
  }
};

[[nodiscard]] inline Strip stripOf(const Rect& rect) {
  return {rect.x0, rect.x1, {rect.z0, rect.z1}, {rect.z0, rect.z1}};
}

/// A face whose pointed side would be thinner is opened by so much: it can't be drawn steadily.
inline constexpr double kThinnest = 0.5;

/// What directed edges enclose, by how often they wind round it, as strips from left to right; nothing of the columns
/// in which they don't close.
[[nodiscard]] std::vector<Strip> stripsWithin(const std::vector<std::array<glm::dvec2, 2>>& edges,
                                              double thinnest = kThinnest);

/// A polygon moved by (x, z) as strips from left to right.
[[nodiscard]] std::vector<Strip> stripsOf(const std::vector<plan::Point>& polygon, double x, double z);

/// The area between the level `bottom` and the line `top`, from the line's first to its last x, less the holes, as
/// strips from left to right. Holes are trapezoids that may overlap each other and reach past the area. Empty where
/// nothing is left.
[[nodiscard]] std::vector<Strip> strips(const Line& top, double bottom, std::span<const Strip> holes);

/// A face of a sheet: y at height z is `at` + `lean`·z. A sheet that lies plumb has lean 0.
struct Face {
  double at = 0;
  double lean = 0;
  [[nodiscard]] double y(double z) const { return at + lean * z; }
};

/// Adds a strip of the part opened last, from the front face to the back face.
void addStrip(const Bench& bench, const Strip& strip, const Face& front, const Face& back, Grain grain);

}  // namespace sillwright::scene
