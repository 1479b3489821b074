/// The framed opening as it is: four corners, how well they are known, and the bow of its edges.
///
/// Frame: BL at the origin, x to the right as seen from outside, z plumb. This is the value that `survey` makes from
/// readings (or from the plan where nothing was read) and that `place` and `pack` work on.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "job/job.h"

namespace sillwright::plan {

/// Edges of the wall plane that are nearer than this touch and do not overlap, mm: room for rounding, no tolerance.
inline constexpr double kTouching = 1e-6;

/// A point of the wall plane, mm.
struct Point {
  double x = 0, z = 0;
  bool operator==(const Point&) const = default;
};

/// A rectangle of the wall plane, x0 ≤ x1 and z0 ≤ z1.
struct Rect {
  double x0 = 0, z0 = 0;
  double x1 = 0, z1 = 0;

  [[nodiscard]] double width() const { return x1 - x0; }
  [[nodiscard]] double height() const { return z1 - z0; }
  [[nodiscard]] double area() const { return width() * height(); }
  /// Smaller by `by` all round; larger where it is negative.
  [[nodiscard]] Rect inset(double by) const { return {x0 + by, z0 + by, x1 - by, z1 - by}; }
  [[nodiscard]] Rect moved(double x, double z) const { return {x0 + x, z0 + z, x1 + x, z1 + z}; }
  /// Grows as far as the point.
  void hold(Point point) {
    *this = {std::min(x0, point.x), std::min(z0, point.z), std::max(x1, point.x), std::max(z1, point.z)};
  }
};

enum class Corner : std::uint8_t { BL, BR, TR, TL };
enum class Side : std::uint8_t { Left, Right, Sill, Head };

[[nodiscard]] constexpr bool isRight(Corner corner) { return corner == Corner::BR || corner == Corner::TR; }
[[nodiscard]] constexpr bool isTop(Corner corner) { return corner == Corner::TL || corner == Corner::TR; }

/// "left", "right", "sill", "head" of the opening.
[[nodiscard]] constexpr const char* toWord(Side side) {
  constexpr std::array<const char*, 4> kWords{"left", "right", "sill", "head"};
  return kWords[static_cast<std::size_t>(side)];
}

/// Whether it lies along x: sill or head.
[[nodiscard]] constexpr bool isLevel(Side side) { return side == Side::Sill || side == Side::Head; }

inline constexpr std::size_t kSides = 4;
inline constexpr std::array<Side, kSides> kEverySide{Side::Left, Side::Right, Side::Sill, Side::Head};

/// Out of the opening, square to a side; of length 1.
[[nodiscard]] constexpr Point outOf(Side side) {
  constexpr std::array<Point, 4> kOut{{{-1, 0}, {1, 0}, {0, -1}, {0, 1}}};
  return kOut[static_cast<std::size_t>(side)];
}

/// The corners that a side runs between: a jamb from foot to head, sill and head from left to right.
[[nodiscard]] constexpr std::array<Corner, 2> endsOf(Side side) {
  using C = Corner;
  constexpr std::array<std::array<C, 2>, 4> kEnds{{{C::BL, C::TL}, {C::BR, C::TR}, {C::BL, C::BR}, {C::TL, C::TR}}};
  return kEnds[static_cast<std::size_t>(side)];
}

/// What belongs to a side, of anything that has a left, a right, a sill and a head.
template <class Sides>
[[nodiscard]] constexpr auto& bySide(Sides& all, Side side) {
  const std::array members{&all.left, &all.right, &all.sill, &all.head};
  return *members[static_cast<std::size_t>(side)];
}

/// The upper edge of an opening's or a unit's outline, from its left edge to its right, above its foot: level, raked or
/// by way of a peak. The one place that knows an outline's shape; a rectangle is one whose head is level.
class HeadLine {
 public:
  HeadLine(double width, double height) : HeadLine(width, height, std::nullopt) {}
  HeadLine(double width, double height, const std::optional<job::Head>& head)
      : corner_{Point{0, head ? head->left : height}, Point{width / 2, height},
                Point{width, head ? head->right : height}},
        peaked_(head && head->peaked()) {
    if (!head) return;
    corner_[1] = peaked_ ? Point{head->peak_x, head->peak_z} : Point{width / 2, (head->left + head->right) / 2};
    slope_ = {slopeOf(0), slopeOf(1)};
  }

  [[nodiscard]] double width() const { return corner_[2].x; }
  [[nodiscard]] bool level() const { return slope_[0] == 0 && slope_[1] == 0; }
  [[nodiscard]] bool peaked() const { return peaked_; }
  [[nodiscard]] double top() const { return std::max({corner_[0].z, corner_[1].z, corner_[2].z}); }
  [[nodiscard]] double left() const { return corner_[0].z; }
  [[nodiscard]] double right() const { return corner_[2].z; }
  [[nodiscard]] double sideHeight(Side side) const { return side == Side::Left ? left() : right(); }
  /// Its corners from the left: two, or three with a peak.
  [[nodiscard]] std::vector<Point> corners() const;
  /// The peak; of a straight head its middle.
  [[nodiscard]] Point middle() const { return corner_[1]; }
  /// Rise over run left and right of the middle.
  [[nodiscard]] const std::array<double, 2>& slopes() const { return slope_; }
  /// Height at x; beyond the ends the slopes run on.
  [[nodiscard]] double at(double x) const {
    return x < corner_[1].x ? corner_[0].z + slope_[0] * x : corner_[2].z + slope_[1] * (x - corner_[2].x);
  }
  [[nodiscard]] double lowest(double x0, double x1) const { return std::min(at(x0), at(x1)); }
  [[nodiscard]] double highest(double x0, double x1) const {
    const bool over = x0 < corner_[1].x && corner_[1].x < x1;
    return std::max({at(x0), at(x1), over ? corner_[1].z : at(x0)});
  }
  /// The line so far below this one, square to each slope; above it where `by` is negative.
  [[nodiscard]] HeadLine inset(double by) const;
  /// What of a rectangle lies below the line: a convex polygon, anticlockwise from its lower left corner.
  [[nodiscard]] std::vector<Point> under(const Rect& rect) const;
  /// What of it lies above: a convex polygon for each slope.
  [[nodiscard]] std::vector<std::vector<Point>> over(const Rect& rect) const;
  /// Where a point of an outline as high as `top()` goes when its head follows this line: as far from the slope, square
  /// to it, as it was from the level head. What lies in its lower half stays.
  [[nodiscard]] Point followed(Point point) const {
    if (point.z <= top() / 2) return point;
    const double slope = slope_[point.x < corner_[1].x ? 0 : 1];
    return {point.x, at(point.x) - (top() - point.z) * std::sqrt(1 + slope * slope)};
  }

 private:
  [[nodiscard]] double slopeOf(std::size_t run) const {
    return (corner_[run + 1].z - corner_[run].z) / (corner_[run + 1].x - corner_[run].x);
  }
  std::array<Point, 3> corner_;
  std::array<double, 2> slope_{};
  bool peaked_ = false;
};

/// Of anything that has a width, a height and a head.
template <class Sized>
[[nodiscard]] HeadLine headLineOf(const Sized& of) {
  return {of.width, of.height, of.head};
}

/// Of a polygon, mm².
[[nodiscard]] double areaOf(const std::vector<Point>& polygon);

/// Inward is +: a jamb bowed into the opening, a sill humped up, a lintel sagging down. mm at the middle of the edge.
struct Bow {
  double left = 0, right = 0, sill = 0, head = 0;
  bool operator==(const Bow&) const = default;
};

/// An edge as a polyline through its middle: jambs from foot to head, sill and head from left to right.
using Edge = std::array<Point, 3>;

struct OpeningShape {
  std::array<Point, 4> corner{};  ///< BL, BR, TR, TL; BL is (0, 0).
  Bow bow;
  std::optional<Point> peak = {};  ///< Of a head that has one, between TL and TR.

  /// The edge from corner to corner with its middle moved by the bow, square to the nominal edge (along x for jambs,
  /// along z for sill and head); of a peaked head by way of its peak.
  [[nodiscard]] Edge edge(Side side) const;
  bool operator==(const OpeningShape&) const = default;
};

/// Covariance of (BR.x, BR.z, TR.x, TR.z, TL.x, TL.z), mm², row by row.
using CornerCovariance = std::array<std::array<double, 6>, 6>;

/// The outline exactly as planned, known exactly.
[[nodiscard]] OpeningShape plannedShape(const HeadLine& line);

}  // namespace sillwright::plan
