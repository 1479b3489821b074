/// A unit where it stands, measured from the floor and along its wall: what the rules about people getting hurt ask.
#pragma once

#include "check/rules.h"
#include "plan/hold/panes.h"

namespace sillwright::check {

struct Standing {
  plan::UnitParts parts;
  double x = 0;  ///< Of the unit's lower left corner, in the wall's axes.
  double z = 0;

  [[nodiscard]] double sightLine(const plan::UnitRect& pane) const { return z + pane.z0; }
  /// Height above the floor of the lowest place that opens.
  [[nodiscard]] double lowest() const { return z + parts.clear.z0; }
};

[[nodiscard]] inline Standing standing(const Bench& bench) {
  const auto& planned = bench.planned();
  return {plan::partsOf(planned.unit), bench.opening().left + planned.stand.x, bench.opening().sill + planned.stand.z};
}

[[nodiscard]] inline bool isWet(const std::optional<job::Room>& room) {
  return room == job::Room::WetArea || room == job::Room::Shower;
}

/// A window with a sash that moves.
[[nodiscard]] inline bool opens(job::UnitKind kind) {
  return kind == job::UnitKind::SlidingWindow || kind == job::UnitKind::AwningWindow ||
         kind == job::UnitKind::CasementWindow;
}

void judgeGlass(Bench& bench, const Standing& at);
void judgeFalls(Bench& bench, const Standing& at);
void judgeEscape(Bench& bench, const Standing& at);

}  // namespace sillwright::check
