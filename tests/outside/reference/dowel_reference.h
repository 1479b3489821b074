/// Joints that no fixing of a unit is, made from the equations that ship, so that published examples of them can be
/// computed: bolts, bored wood, double shear, and EN 1995-1-1 with its own factors. Units as in plan/hold/dowel.h.
#pragma once

#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "plan/hold/fixing_capacity.h"

namespace sillwright::outside {

/// The angle between force and grain as cos² and sin².
struct Turn {
  double along = 1;
  double across = 0;
};
inline Turn turnOf(double degrees) {
  const double sine = std::sin(degrees * std::numbers::pi / 180);
  return {1 - sine * sine, sine * sine};
}

/// NDS 2018 12.3.3 from 1/4 in, N/mm²: 11200·G psi along the grain, 6100·G^1.45/√D psi across it, Hankinson's formula
/// between.
inline double embeddingNdsBolt(double specific_gravity, double diameter, double degrees) {
  constexpr double kPsi = 0.006894757293168361;  // N/mm²
  const double along = 11200 * specific_gravity * kPsi;
  const double across = 6100 * std::pow(specific_gravity, 1.45) / std::sqrt(diameter / 25.4) * kPsi;
  const Turn turn = turnOf(degrees);
  return along * across / (along * turn.across + across * turn.along);
}

/// EN 1995-1-1 eq. 8.16, wood that is bored: 0.082·(1 − 0.01·d)·ρ.
inline double embeddingEc5Bored(double density, double diameter) { return 0.082 * (1 - 0.01 * diameter) * density; }

/// EN 1995-1-1 eq. 8.31 and 8.33, under a bolt in softwood.
inline double embeddingEc5Bolt(double density, double diameter, double degrees) {
  const Turn turn = turnOf(degrees);
  const double k90 = 1.35 + 0.015 * diameter;
  return embeddingEc5Bored(density, diameter) / (k90 * turn.across + turn.along);
}

/// EN 1995-1-1 (8.6), N: 1.05 times in the modes of one hinge, 1.15 in that of two, for members that touch; the head's
/// pull is left out.
inline std::array<double, plan::kYieldModes> yieldLoadsEc5(plan::DowelJoint joint) {
  joint.gap = 0;
  std::array<double, plan::kYieldModes> loads = plan::yieldLoads(joint);
  constexpr std::array<double, plan::kYieldModes> kFactor{1, 1, 1, 1.05, 1.05, 1.15};
  for (std::size_t i = 0; i < plan::kYieldModes; ++i) loads[i] *= kFactor[i];
  return loads;
}

/// NDS 12.3.1, a dowel through three members in two shear planes, the joint's whole load in N: `main` is the middle
/// member, both sides are alike. II and IIIm cannot happen: infinity.
inline std::array<double, plan::kYieldModes> doubleShearLoads(const plan::DowelJoint& joint) {
  constexpr double kNever = std::numeric_limits<double>::infinity();
  const std::array<double, plan::kYieldModes> one = plan::yieldLoads(joint);
  return {one[0], 2 * one[1], kNever, kNever, 2 * one[4], 2 * one[5]};
}

}  // namespace sillwright::outside
