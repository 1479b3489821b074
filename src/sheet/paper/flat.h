/// Points and boxes on a page, the mapping from a drawing's millimetres to the page, and what was drawn there as
/// values.
///
/// Page axes: millimetres of paper, x to the right, y DOWN from the page's upper left corner. Drawings have z (or any
/// second axis) up; a View converts between the two.
#pragma once

#include <algorithm>
#include <array>
#include <cassert>
#include <glm/geometric.hpp>
#include <glm/vec2.hpp>
#include <set>
#include <string>
#include <vector>

#include "plan/shape.h"

namespace sillwright::sheet {

using Vec = glm::dvec2;

/// x0 ≤ x1, y0 ≤ y1; y0 is the upper edge.
struct Box {
  double x0 = 0;
  double y0 = 0;
  double x1 = 0;
  double y1 = 0;

  [[nodiscard]] double width() const { return x1 - x0; }
  [[nodiscard]] double height() const { return y1 - y0; }
  [[nodiscard]] Vec middle() const { return {(x0 + x1) / 2, (y0 + y1) / 2}; }
  /// Round it from the upper left one.
  [[nodiscard]] std::array<Vec, 4> corners() const { return {Vec{x0, y0}, Vec{x1, y0}, Vec{x1, y1}, Vec{x0, y1}}; }
  [[nodiscard]] Box grown(double by) const { return {x0 - by, y0 - by, x1 + by, y1 + by}; }
  /// Boxes that share more than an edge.
  [[nodiscard]] bool meets(const Box& other) const {
    return x0 < other.x1 && other.x0 < x1 && y0 < other.y1 && other.y0 < y1;
  }
  [[nodiscard]] bool holds(const Box& other) const {
    return other.x0 >= x0 && other.x1 <= x1 && other.y0 >= y0 && other.y1 <= y1;
  }
};

/// The smallest box round points; there must be one.
template <class Points>
[[nodiscard]] Box boxRound(const Points& points) {
  assert(!std::ranges::empty(points));
  const auto [x0, x1] = std::ranges::minmax(points, {}, &Vec::x);
  const auto [y0, y1] = std::ranges::minmax(points, {}, &Vec::y);
  return {x0.x, y0.y, x1.x, y1.y};
}

/// A drawing's scale: 1 mm of the thing is `per_mm` mm of paper.
struct Scale {
  double per_mm = 0.05;
  std::string name = "1:20";
};

/// Where a drawing lies on the page: its own (0, 0) at `origin`, its second axis upwards.
struct View {
  double per_mm = 0.05;
  Vec origin{};

  [[nodiscard]] Vec at(double x, double z) const { return {origin.x + x * per_mm, origin.y - z * per_mm}; }
  [[nodiscard]] std::vector<Vec> at(const std::vector<plan::Point>& places) const {
    std::vector<Vec> points;
    for (const plan::Point& place : places) points.push_back(at(place.x, place.z));
    return points;
  }
  /// The box on the page between two places of the drawing, of which the second is further right and up.
  [[nodiscard]] Box box(double x0, double z0, double x1, double z1) const {
    const Vec low = at(x0, z0);
    const Vec high = at(x1, z1);
    return {low.x, high.y, high.x, low.y};
  }
};

/// A line of text on the page; its box reaches from the top of the capitals to below the descenders.
struct Label {
  std::string text;
  Box box;
  double capitals = 0;  ///< Height of its capitals, mm.
};

/// A dimension drawn to scale: the places of its two ticks, and the length that it states.
struct Measure {
  std::string text;
  Vec from;
  Vec to;
  double value = 0;   ///< mm of the thing.
  double per_mm = 0;  ///< Paper by thing.
};

/// What was drawn on a page: tests read it.
struct PageLog {
  std::string title;
  double width = 0;
  double height = 0;
  Box frame;  ///< Nothing is drawn outside it.
  std::vector<Label> labels;
  std::vector<Measure> measures;
  std::set<char32_t> missing;  ///< Letters that no typeface of this machine has: boxes stand in their places.

  /// Whether no text stands in a box yet.
  [[nodiscard]] bool isFree(const Box& box) const {
    return std::ranges::none_of(labels, [&](const Label& label) { return label.box.meets(box); });
  }
};

}  // namespace sillwright::sheet
