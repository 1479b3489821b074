/// A unit's division: its frame, the sashes or the leaf in it, and their panes of glass, from the unit's sizes alone.
///
/// Weight, glass rules, scene and sheets all take it from here. Sections that a job doesn't ask for (a sash's, a leaf's
/// stile) are usual ones: common practice, no source. Measured from the unit's lower left outside corner, as seen from
/// outside, mm; y as the wall's.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "plan/settle.h"

namespace sillwright::plan {

/// A rectangle of the wall plane.
struct UnitRect {
  double x0 = 0;
  double z0 = 0;
  double x1 = 0;
  double z1 = 0;

  [[nodiscard]] double width() const { return x1 - x0; }
  [[nodiscard]] double height() const { return z1 - z0; }
  [[nodiscard]] double area() const { return width() * height(); }
  /// Smaller by `by` all round; larger where it is negative.
  [[nodiscard]] UnitRect inset(double by) const { return {x0 + by, z0 + by, x1 - by, z1 - by}; }
};

/// A sash, or a door's leaf; a fixed pane has neither.
struct Sash {
  UnitRect outside;
  double depth = 0;  ///< Of its section, through the wall.
};

struct UnitParts {
  UnitRect frame;                ///< Outside of the aluminium frame: inside the reveal.
  UnitRect clear;                ///< Inside of the aluminium frame.
  std::array<Sash, 2> sash;      ///< Of a sliding unit both; of a hung one the first.
  std::array<UnitRect, 2> pane;  ///< Sight size: the glass that is seen. The lowest edge is the sight line.
  int sashes = 0;
  int panes = 0;

  [[nodiscard]] std::span<const Sash> allSashes() const { return {sash.data(), static_cast<std::size_t>(sashes)}; }
  [[nodiscard]] std::span<const UnitRect> allPanes() const { return {pane.data(), static_cast<std::size_t>(panes)}; }
};

/// A face of a section that leaves at least three fifths of the rectangle clear.
[[nodiscard]] double faceWithin(double face, const UnitRect& rect);

[[nodiscard]] UnitParts partsOf(const UnitSpec& unit);

/// What is clear when it stands open as far as its kind goes: a casement nearly all, a sliding window what its sash
/// leaves. Empty: it doesn't open, or its sash hangs in the way.
[[nodiscard]] std::optional<UnitRect> clearOpening(const UnitSpec& unit, const UnitParts& parts);

/// The aluminium frame's outside face stands so far before the studs. Common practice, no source.
inline constexpr double kFrameProud = 35;
/// y of a unit's inside face: of its reveal, or of a bare frame.
[[nodiscard]] inline double insideFace(const UnitSpec& unit) {
  return unit.reveal ? unit.reveal->depth : unit.frame.depth - kFrameProud;
}

}  // namespace sillwright::plan
