/// Points, boxes and polygons on a page, the mapping from a drawing's millimetres to the page, and what was drawn there
/// as values.
///
/// Page axes: millimetres of paper, x to the right, y DOWN from the page's upper left corner. Drawings have z (or any
/// second axis) up; a View converts between the two.
#pragma once

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <glm/geometric.hpp>
#include <glm/vec2.hpp>
#include <set>
#include <string>
#include <utility>
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

// Polygons, clipped and measured. Any unit of length.

/// The part of a convex polygon inside a box (in the polygon's own axes); empty or without area where nothing is.
[[nodiscard]] inline std::vector<Vec> clipped(std::vector<Vec> polygon, const Box& box) {
  // Sutherland and Hodgman: one side of the box after the other, by how far inside it a point is.
  const auto clip = [&](auto inside) {
    std::vector<Vec> kept;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Vec a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      const double from = inside(a), to = inside(b);
      if (from >= 0) kept.push_back(a);
      if ((from >= 0) != (to >= 0)) kept.push_back(a + (b - a) * (from / (from - to)));
    }
    polygon = std::move(kept);
  };
  clip([&](Vec p) { return p.x - box.x0; });
  clip([&](Vec p) { return box.x1 - p.x; });
  clip([&](Vec p) { return p.y - box.y0; });
  clip([&](Vec p) { return box.y1 - p.y; });
  return polygon;
}

/// Shortens a segment to its stretch inside a box; false where none is.
[[nodiscard]] inline bool clip(const Box& box, Vec& from, Vec& to) {
  // A polygon of two corners: what is left of it begins and goes on as the segment does.
  const std::vector<Vec> kept = clipped({from, to}, box);
  if (kept.size() < 2) return false;
  from = kept[0];
  to = kept[1];
  return true;
}

/// A simple polygon's, not negative, and its centroid; its first corner where it has no area.
struct Area {
  double size = 0;
  Vec middle{};
};
[[nodiscard]] inline Area areaOf(const std::vector<Vec>& polygon) {
  double twice = 0;
  Vec sum{};
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec a = polygon[i], b = polygon[(i + 1) % polygon.size()];
    const double cross = a.x * b.y - b.x * a.y;
    twice += cross;
    sum += (a + b) * cross;
  }
  if (twice == 0) return {0, polygon.empty() ? Vec{} : polygon.front()};
  return {std::abs(twice) / 2, sum * (1 / (3 * twice))};
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
