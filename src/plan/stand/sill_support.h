/// Whether a unit that stands out over a cavity has its sill carried across it, and whether the cavity is closed round
/// its opening: as the practice asks.
#pragma once

#include "plan/settle.h"
#include "practice/practice.h"

namespace sillwright::plan {

[[nodiscard]] inline bool wantsSillSupport(const UnitSpec& unit, double opening_width, const WallSpec& wall,
                                           const practice::Practice& practice) {
  const practice::Rule& wider = practice.packing.cavity_support_above;
  return wall.cladding.cavity > 0 && wider && !unit.isDoor() && opening_width > wider->value;
}

/// The least thickness of timber that closes it; empty: the practice asks for none, or there is no cavity.
[[nodiscard]] inline practice::Rule cavityCloser(const WallSpec& wall, const practice::Practice& practice) {
  return wall.cladding.cavity > 0 ? practice.weather.cladding.cavity_barrier_least : practice::Rule{};
}

}  // namespace sillwright::plan
