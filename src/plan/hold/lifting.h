/// How much a person may lift where the hands are not at their best: the revised NIOSH lifting equation (publication
/// 94-110) with the practice's constants.
///
/// It is a second opinion on the practice's rule of how many people lift a unit (mass.h): that rule is about a load
/// held close at the best height, this one about the way from the floor on to the sill. One pair of hands; where
/// several carry, each is taken to carry an equal share. Millimetres, degrees, kilograms.
#pragma once

#include <optional>

#include "practice/practice.h"

namespace sillwright::plan {

/// One lift of a pair of hands.
struct Lift {
  double out = 250;   ///< Of the hands before the ankles.
  double from = 750;  ///< Height of the hands at the start …
  double to = 750;    ///< … and at the end.
};

/// RWL = load·HM·VM·DM, the lower of the lift's two ends: without a twist, a good grip, no more than one lift in five
/// minutes. Nothing out of reach: hands more than 630 out or 1750 up (those limits from memory). Empty: the practice
/// names no constants.
[[nodiscard]] std::optional<double> recommendedWeight(const Lift& lift, const practice::Lifting& rules);

/// A unit lifted from the floor on to its sill, held close at mid-height of its jambs. Common practice, no source.
[[nodiscard]] Lift liftOn(double unit_height, double sill);

/// Load over recommended weight; empty where that is empty or nothing.
[[nodiscard]] std::optional<double> liftingIndex(double load_kg, const Lift& lift, const practice::Lifting& rules);

}  // namespace sillwright::plan
