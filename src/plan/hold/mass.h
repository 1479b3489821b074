/// The unit's weight from its parts, and how many people lift it.
///
/// Glass by its true size, aluminium by section times the practice's share of metal in it, reveal and fin by theirs.
/// Handles, hinges, rollers, beads and gaskets are left out: a unit near a limit is weighed, and the job states it.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "plan/settle.h"
#include "practice/practice.h"

namespace sillwright::plan {

inline constexpr double kGravity = 9.81;  ///< m/s²
/// How far glass reaches into its rebate, past what is seen of it, mm. From memory.
inline constexpr double kGlassBite = 10;
inline constexpr double kFinMetal = 3;  ///< Thickness of a fin, mm.

struct Team {
  std::optional<int> people;     ///< The smallest that may lift it, or the largest that is named; empty: none is.
  bool mechanical_help = false;  ///< From the practice's own figure for a lifter, else above the largest's limit.
};

/// Who lifts it is, where something is taken out, for the heavier of that and the rest.
struct UnitMass : Team {
  double glass_kg = 0;
  double frame_kg = 0;  ///< Aluminium of frame, sashes and fin.
  double reveal_kg = 0;
  double total_kg = 0;  ///< The job's own figure where it gives one.
  bool stated = false;  ///< True: the job gave the total.
  /// Of the heaviest of the sliding panels or hung leaves that are taken out where the whole is too heavy to be lifted;
  /// 0: it is lifted whole.
  double panel_kg = 0;
  int panels_out = 0;
  bool leaves_out = false;       ///< They are hung leaves, not panels that slide.
  double out_kg = 0;             ///< Of all that are taken out.
  std::vector<double> parts_kg;  ///< Of a unit in coupled parts each, as madeParts; empty: it is whole.
  std::vector<Team> parts_team;  ///< Who lifts each of them.
  std::vector<double> leaf_kg;   ///< Of each sash and leaf with its glass, as UnitParts::sash.

  /// "leaf", "panels": what is taken out, one or all of them.
  [[nodiscard]] const char* outWord() const {
    if (leaves_out) return panels_out == 1 ? "leaf" : "leaves";
    return panels_out == 1 ? "panel" : "panels";
  }
  /// What is lifted in; of coupled parts the heaviest.
  [[nodiscard]] double lifted() const {
    return parts_kg.empty() ? total_kg - out_kg : *std::max_element(parts_kg.begin(), parts_kg.end());
  }
};

[[nodiscard]] UnitMass massOf(const UnitSpec& unit, const std::optional<double>& stated_kg,
                              const practice::Practice& practice);

/// Mass of panes of one size, kg: area in mm², density in kg/m³.
[[nodiscard]] double glassMass(double area, const job::Glass& glass, double density);

/// What a team lifts, as a multiple of what one lifts alone: 1 to 3 people, 0 where the practice's rule names no such
/// team.
[[nodiscard]] double teamShare(int people, const practice::Lifting& rules);
/// What it lifts without a closer look, kg: the filter of the practice's rule, not yet a limit.
[[nodiscard]] inline double teamLimit(int people, const practice::Lifting& rules) {
  return rules.one_person ? rules.one_person->value * teamShare(people, rules) : 0;
}

/// "1 person", "2 people", "a lifter, one panel out first", "3 people, 2 leaves out first": the same words wherever it
/// is told; empty where no rule names a team.
[[nodiscard]] std::string liftedBy(const UnitMass& mass);
[[nodiscard]] std::string liftedBy(const Team& team);
/// "24 kg by 1 person, 31 kg by 2 people": of coupled parts each; empty: it is whole.
[[nodiscard]] std::string partsLifted(const UnitMass& mass, practice::Display display);
/// "26, 26 and 31 kg": its sashes and leaves, light by light.
[[nodiscard]] std::string leavesWords(const UnitMass& mass, practice::Display display);

/// `longest`: the unit's longer side, mm.
[[nodiscard]] Team teamFor(double mass_kg, double longest, const practice::Lifting& rules);

// How much a person may lift where the hands are not at their best: the revised NIOSH lifting equation (publication
// 94-110) with the practice's constants.
//
// It is a second opinion on the practice's rule of how many people lift a unit: that rule is about a load
// held close at the best height, this one about the way from the floor on to the sill. One pair of hands; where
// several carry, each is taken to carry an equal share. Millimetres, degrees, kilograms.

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
[[nodiscard]] inline Lift liftOn(double unit_height, double sill) {
  return {.from = unit_height / 2, .to = std::max(sill, 0.0) + unit_height / 2};
}

/// Load over recommended weight; empty where that is empty or nothing.
[[nodiscard]] std::optional<double> liftingIndex(double load_kg, const Lift& lift, const practice::Lifting& rules);

}  // namespace sillwright::plan
