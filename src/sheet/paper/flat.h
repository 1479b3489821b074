/// Points and boxes on a page, and the mapping from a drawing's millimetres to the page.
///
/// Page axes: millimetres of paper, x to the right, y DOWN from the page's upper left corner. Drawings have z (or any
/// second axis) up; a View converts between the two.
#pragma once

#include <array>
#include <cmath>
#include <string>

namespace sillwright::sheet {

struct Vec {
  double x = 0;
  double y = 0;
  bool operator==(const Vec&) const = default;
};

inline Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y}; }
inline Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
inline Vec operator*(Vec a, double k) { return {a.x * k, a.y * k}; }
inline double length(Vec a) { return std::hypot(a.x, a.y); }

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
  bool operator==(const Box&) const = default;
};

/// A drawing's scale: 1 mm of the thing is `per_mm` mm of paper.
struct Scale {
  double per_mm = 0.05;
  std::string name = "1:20";
};

/// Where a drawing lies on the page: its own (0, 0) at `origin`, its second axis upwards.
struct View {
  double per_mm = 0.05;
  Vec origin;

  [[nodiscard]] Vec at(double x, double z) const { return {origin.x + x * per_mm, origin.y - z * per_mm}; }
  /// The box on the page between two places of the drawing, of which the second is further right and up.
  [[nodiscard]] Box box(double x0, double z0, double x1, double z1) const {
    const Vec low = at(x0, z0);
    const Vec high = at(x1, z1);
    return {low.x, high.y, high.x, low.y};
  }
};

}  // namespace sillwright::sheet
