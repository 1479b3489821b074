/// Packers: where they stand, how deep the gap is there, and which thicknesses fill it.
///
/// Points come from the practice and the unit's kind; a stack is the largest total not above its gap made from the
/// stock, with the fewest pieces. A stack is never above its gap: that would bow the frame.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "plan/place.h"
#include "plan/settle.h"
#include "plan/shape.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// Most pieces of one stack that are kept track of; practices allow fewer.
inline constexpr std::size_t kMostPieces = 6;

struct Stack {
  std::array<float, kMostPieces> piece{};  ///< Thicknesses, thickest first.
  int pieces = 0;
  double total = 0;
};

struct PackingPoint {
  Side side = Side::Sill;
  double at = 0;          ///< Along the side, from the unit's lower left (sill: along x; jambs: up).
  double gap = 0;         ///< Clear gap there at the preferred stand.
  Stack stack;
  double left_over = 0;   ///< Gap less stack.
  double backing = 0;     ///< Timber backing wanted behind the stack where the gap is deeper than packers may fill; 0: none.
};

struct Packing {
  std::vector<PackingPoint> points;  ///< Sill left to right, then left jamb upwards, then right jamb upwards.
  Side first_jamb = Side::Left;      ///< The jamb packed plumb before the unit goes in.
};

/// The best stack for a gap: largest total not above it, then fewest pieces, then the thickest pieces. `stock` in any
/// order. No allocation.
[[nodiscard]] Stack bestStack(double gap, std::span<const double> stock, int most_pieces);

[[nodiscard]] Packing pack(const AsBuilt& opening, const UnitSpec& unit, const Stand& stand,
                           const practice::Packing& rules, std::span<const double> stock);

}  // namespace sillwright::plan
