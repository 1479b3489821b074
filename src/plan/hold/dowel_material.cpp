#include "plan/hold/dowel_material.h"

#include <cmath>

namespace sillwright::plan {
namespace {

constexpr double kPsi = 0.006894757293168361;  // N/mm²
constexpr double kPound = 4.4482216152605;     // N
constexpr double kInch = 25.4;
constexpr double kPoundPerInch = kPound / kInch;  // N/mm

}  // namespace

double embeddingNds(double specific_gravity) {
  return 16600 * std::pow(specific_gravity, 1.84) * kPsi;
}

double embeddingEc5(double density, double diameter) {
  return 0.082 * density * std::pow(diameter, -0.3);
}

double plasticMoment(double yield, double diameter) {
  return yield * diameter * diameter * diameter / 6;
}

double yieldMomentEc5(double tensile, double diameter) {
  return 0.3 * tensile * std::pow(diameter, 2.6);
}

double withdrawalNds(double specific_gravity, double shank) {
  return 2850 * specific_gravity * specific_gravity * (shank / kInch) * kPoundPerInch;
}

}  // namespace sillwright::plan
