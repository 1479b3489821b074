/// The framed opening as it is: four corners, how well they are known, and the bow of its edges.
///
/// Frame: BL at the origin, x to the right as seen from outside, z plumb. This is the value that `survey` makes from
/// readings (or from the plan where nothing was read) and that `place` and `pack` work on.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace sillwright::plan {

/// Edges of the wall plane that are nearer than this touch and do not overlap, mm: room for rounding, no tolerance.
inline constexpr double kTouching = 1e-6;

/// A point of the wall plane, mm.
struct Point {
  double x = 0;
  double z = 0;
  bool operator==(const Point&) const = default;
};

/// A rectangle of the wall plane, x0 ≤ x1 and z0 ≤ z1.
struct Rect {
  double x0 = 0;
  double z0 = 0;
  double x1 = 0;
  double z1 = 0;

  [[nodiscard]] double width() const { return x1 - x0; }
  [[nodiscard]] double height() const { return z1 - z0; }
  [[nodiscard]] double area() const { return width() * height(); }
  /// Smaller by `by` all round; larger where it is negative.
  [[nodiscard]] Rect inset(double by) const { return {x0 + by, z0 + by, x1 - by, z1 - by}; }
  [[nodiscard]] Rect moved(double x, double z) const { return {x0 + x, z0 + z, x1 + x, z1 + z}; }
};

enum class Corner : std::uint8_t { BL, BR, TR, TL };
enum class Side : std::uint8_t { Left, Right, Sill, Head };

[[nodiscard]] constexpr bool isRight(Corner corner) {
  return corner == Corner::BR || corner == Corner::TR;
}
[[nodiscard]] constexpr bool isTop(Corner corner) {
  return corner == Corner::TL || corner == Corner::TR;
}

/// "left", "right", "sill", "head" of the opening.
[[nodiscard]] constexpr const char* toWord(Side side) {
  constexpr std::array<const char*, 4> kWords{"left", "right", "sill", "head"};
  return kWords[static_cast<std::size_t>(side)];
}

/// Whether it lies along x: sill or head.
[[nodiscard]] constexpr bool isLevel(Side side) {
  return side == Side::Sill || side == Side::Head;
}

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

/// Inward is +: a jamb bowed into the opening, a sill humped up, a lintel sagging down. mm at the middle of the edge.
struct Bow {
  double left = 0;
  double right = 0;
  double sill = 0;
  double head = 0;
  bool operator==(const Bow&) const = default;
};

/// An edge as a polyline through its middle: jambs from foot to head, sill and head from left to right.
using Edge = std::array<Point, 3>;

struct OpeningShape {
  std::array<Point, 4> corner{};  ///< BL, BR, TR, TL; BL is (0, 0).
  Bow bow;

  /// The edge from corner to corner with its middle moved by the bow, square to the nominal edge (along x for jambs,
  /// along z for sill and head).
  [[nodiscard]] Edge edge(Side side) const;
  bool operator==(const OpeningShape&) const = default;
};

/// Covariance of (BR.x, BR.z, TR.x, TR.z, TL.x, TL.z), mm², row by row.
using CornerCovariance = std::array<std::array<double, 6>, 6>;

/// A rectangle exactly as planned, known exactly.
[[nodiscard]] OpeningShape plannedShape(double width, double height);

}  // namespace sillwright::plan
