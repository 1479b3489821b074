#include "plan/hold/lifting.h"

#include <algorithm>
#include <cmath>

namespace sillwright::plan {
namespace {

constexpr double kMmPerCm = 10;
constexpr double kFurthestOut = 63;  // cm
constexpr double kHighest = 175;     // cm
constexpr double kLeastWay = 25;     // cm, counted for any shorter one

}  // namespace

std::optional<double> recommendedWeight(const Lift& lift, const practice::Lifting& rules) {
  if (!rules.niosh_load || !rules.niosh_horizontal || !rules.niosh_vertical || !rules.niosh_vertical_at ||
      !rules.niosh_distance || !rules.niosh_distance_over) {
    return std::nullopt;
  }
  const double out = std::max(lift.out / kMmPerCm, rules.niosh_horizontal->value);
  const double low = std::min(lift.from, lift.to) / kMmPerCm;
  const double high = std::max(lift.from, lift.to) / kMmPerCm;
  if (out > kFurthestOut || high > kHighest || low < 0) return 0;
  const double off = std::max(std::abs(low - rules.niosh_vertical_at->value),  //
                              std::abs(high - rules.niosh_vertical_at->value));
  const double horizontal = rules.niosh_horizontal->value / out;
  const double vertical = 1 - rules.niosh_vertical->value * off;
  const double way = std::max(high - low, kLeastWay);
  const double distance = std::min(rules.niosh_distance->value + rules.niosh_distance_over->value / way, 1.0);
  return rules.niosh_load->value * horizontal * vertical * distance;
}

Lift liftOn(double unit_height, double sill) {
  Lift lift;
  lift.from = unit_height / 2;
  lift.to = std::max(sill, 0.0) + unit_height / 2;
  return lift;
}

std::optional<double> liftingIndex(double load_kg, const Lift& lift, const practice::Lifting& rules) {
  const std::optional<double> most = recommendedWeight(lift, rules);
  if (!most || *most <= 0) return std::nullopt;
  return load_kg / *most;
}

}  // namespace sillwright::plan
