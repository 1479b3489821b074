#include "plan/hold/wind.h"

#include "words/length.h"

namespace sillwright::plan {
namespace {

/// "0.6 × 50² × 0.9 = 1.35 kPa (N3, general)", or the class's own pressure where the practice names it.
std::string derivation(const practice::Wind& rules, const practice::WindClass& found, const practice::Pressures& made,
                       bool at_corner, bool corner_unknown) {
  const std::string in = " (" + found.name + (at_corner ? ", near a corner)" : ", general)") +
                         (corner_unknown ? "; the rule set has no pressure near a corner" : "");
  if (!made.ultimate) return "no ultimate pressure given" + in;
  const std::string is = words::number(*made.ultimate, 3) + " kPa" + in;
  if (made.from_ultimate != (found.ultimate_speed ? &*found.ultimate_speed : nullptr)) return is;
  const practice::Rule& coefficient = at_corner ? found.corner_coefficient : found.general_coefficient;
  return words::number(rules.air_density->value / 2, 3) + " × " + words::number(found.ultimate_speed->value, 3) +
         "² × " + words::number(coefficient->value, 3) + " = " + is;
}

}  // namespace

WindLoad windOn(const std::optional<job::Wind>& wind, bool near_corner, const practice::Practice& practice) {
  WindLoad load;
  load.near_corner = near_corner;
  if (!wind) {
    load.how = "the job gives no wind";
    return load;
  }
  if (const auto* stated = std::get_if<job::StatedPressure>(&*wind)) {
    load.ultimate_kpa = stated->kpa;
    load.how = words::number(stated->kpa, 3) + " kPa, as the job states";
    return load;
  }
  const practice::Wind& rules = practice.strength.wind;
  const practice::WindClass* found = rules.find(std::get<std::string>(*wind));
  if (found == nullptr) {
    load.how = "no such wind class in the practice";
    return load;
  }
  practice::Pressures made = practice::pressures(rules, *found, near_corner);
  const bool corner_unknown = near_corner && !made.ultimate;
  if (corner_unknown) made = practice::pressures(rules, *found, false);
  load.ultimate_kpa = made.ultimate;
  load.serviceability_kpa = made.service;
  load.water_kpa = made.water;
  load.source = made.from_ultimate;
  load.how = derivation(rules, *found, made, near_corner && !corner_unknown, corner_unknown);
  return load;
}

}  // namespace sillwright::plan
