#include "plan/hold/dowel_material.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sillwright::plan {
namespace {

constexpr double kPsi = 0.006894757293168361;  // N/mm²
constexpr double kPound = 4.4482216152605;     // N
constexpr double kInch = 25.4;
constexpr double kPoundPerInch = kPound / kInch;  // N/mm

struct Turn {
  double along = 1;   ///< cos²
  double across = 0;  ///< sin²
};

Turn turnOf(double degrees) {
  const double sine = std::sin(degrees * std::numbers::pi / 180);
  return {1 - sine * sine, sine * sine};
}

}  // namespace

double embeddingNds(double specific_gravity) {
  return 16600 * std::pow(specific_gravity, 1.84) * kPsi;
}

double embeddingNdsBolt(double specific_gravity, double diameter, double degrees) {
  const double along = 11200 * specific_gravity * kPsi;
  const double across = 6100 * std::pow(specific_gravity, 1.45) / std::sqrt(diameter / kInch) * kPsi;
  const Turn turn = turnOf(degrees);
  return along * across / (along * turn.across + across * turn.along);
}

double embeddingEc5(double density, double diameter) {
  return 0.082 * density * std::pow(diameter, -0.3);
}

double embeddingEc5Bored(double density, double diameter) {
  return 0.082 * (1 - 0.01 * diameter) * density;
}

double embeddingEc5Bolt(double density, double diameter, double degrees) {
  const Turn turn = turnOf(degrees);
  const double k90 = 1.35 + 0.015 * diameter;
  return embeddingEc5Bored(density, diameter) / (k90 * turn.across + turn.along);
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

double withdrawalNdsLag(double specific_gravity, double shank) {
  return 1800 * std::pow(specific_gravity, 1.5) * std::pow(shank / kInch, 0.75) * kPoundPerInch;
}

double withdrawalNdsNail(double specific_gravity, double shank) {
  return 1380 * std::pow(specific_gravity, 2.5) * (shank / kInch) * kPoundPerInch;
}

double headPullThroughNds(double specific_gravity, double head, double thickness) {
  const double counts = std::min(thickness, 2.5 * head);  // 690 · 2.5 = 1725: both formulas in one
  return 690 * std::numbers::pi * (head / kInch) * specific_gravity * specific_gravity * (counts / kInch) * kPound;
}

double headPullThroughEc5(double density, double head) {
  return 70e-6 * density * density * head * head;
}

}  // namespace sillwright::plan
