/// A unit where it stands, measured from the floor and along its wall: what the rules about people getting hurt ask.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/rules.h"
#include "plan/panes.h"

namespace sillwright::check {

struct Standing {
  plan::UnitParts parts;
  double x = 0;  ///< Of the unit's lower left corner, in the wall's axes.
  double z = 0;

  [[nodiscard]] double sightLine(const plan::UnitRect& pane) const { return z + pane.z0; }
  /// Height above the floor of the lowest place that opens; empty: none does.
  [[nodiscard]] std::optional<double> lowest() const {
    std::optional<double> foot;
    for (const plan::LightParts& light : parts.light) {
      if (!plan::opens(light.kind) || job::isDoor(light.kind)) continue;
      foot = std::min(foot.value_or(HUGE_VAL), z + light.clear.z0);
    }
    return foot;
  }
};

[[nodiscard]] inline Standing standing(const Bench& bench) {
  const auto& planned = bench.planned();
  return {plan::partsOf(planned.unit), bench.opening().left + planned.stand.x, bench.opening().sill + planned.stand.z};
}

[[nodiscard]] inline bool isWet(const std::optional<job::Room>& room) {
  return room == job::Room::WetArea || room == job::Room::Shower;
}

void judgeGlass(Bench& bench, const Standing& at);
void judgeFalls(Bench& bench, const Standing& at);
void judgeEscape(Bench& bench, const Standing& at);

}  // namespace sillwright::check
