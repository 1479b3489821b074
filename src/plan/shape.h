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

enum class Corner : std::uint8_t { BL, BR, TR, TL };
enum class Side : std::uint8_t { Left, Right, Sill, Head };

/// "left", "right", "sill", "head" of the opening.
[[nodiscard]] constexpr const char* toWord(Side side) {
  constexpr std::array<const char*, 4> kWords{"left", "right", "sill", "head"};
  return kWords[static_cast<std::size_t>(side)];
}

/// Whether it lies along x: sill or head.
[[nodiscard]] constexpr bool isLevel(Side side) {
  return side == Side::Sill || side == Side::Head;
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
