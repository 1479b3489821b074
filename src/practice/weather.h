/// Flashings, membrane and cladding: what a practice says about keeping water out of one opening.
///
/// A Measure gives what is cut and drawn (`usual`) and, where the practice names one, the least a check holds it to.
/// Lengths along the wall are past the framed opening, each side. Millimetres, degrees.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "practice/figure.h"

namespace sillwright::practice {

enum class Comparison : std::uint8_t { AtLeast, MoreThan };
inline constexpr std::string_view kComparisonWords[] = {"at least", "more than"};

/// A head may go without flashing where the eave's reach compares with `ratio` times the drop from soffit to head.
struct EaveRule {
  Rule ratio;  ///< Empty: the practice names none; every head is flashed.
  Comparison comparison = Comparison::AtLeast;

  /// Whether the eave keeps the rain off. Without a ratio nothing is sheltered. `drop` may be negative (the soffit is
  /// below the head): sheltered, wherever there is a rule and an eave.
  [[nodiscard]] bool shelters(double reach, double drop) const {
    if (!ratio || reach <= 0) return false;
    const double wanted = ratio->value * drop;
    return comparison == Comparison::AtLeast ? reach >= wanted : reach > wanted;
  }
};

struct Flashings {
  Measure sill_past, head_past, jamb_over_sill, head_turn_down;
  Figure jamb_past, sill_down, jamb_out, sill_upstand, sill_end_upstand, head_upstand, head_slope, head_stop_end,
      head_reach;
  ByClass head_upstand_extra;
  std::vector<std::string> head_sealed_in;
  EaveRule eave;

  static void describe(auto& keys) {
    keys.header("[weather.flashing]");
    keys("sill_past", &Flashings::sill_past, kLength, "Sill flashing past the opening at each end.");
    keys("jamb_past", &Flashings::jamb_past, kLength, "Jamb flashing past the opening's head.");
    keys("head_past", &Flashings::head_past, kLength, "Head flashing past the opening at each end.");
    keys("jamb_over_sill", &Flashings::jamb_over_sill, kLength,
         "Lap of a jamb flashing's foot over the sill flashing, below the opening's sill.");
    keys("sill_down", &Flashings::sill_down, kPart, "Sill flashing down the wall face.");
    keys("jamb_out", &Flashings::jamb_out, kPart, "Jamb flashing on to the wall face.");
    keys("sill_upstand", &Flashings::sill_upstand, kLength,
         "Inner edge of the sill flashing turned up behind the unit.");
    keys("sill_end_upstand", &Flashings::sill_end_upstand, kLength, "Its ends turned up the studs.");
    keys("head_upstand", &Flashings::head_upstand, kPart, "On the wall, behind the membrane's flap.");
    keys("head_slope", &Flashings::head_slope, kAngle, "Fall outwards.");
    keys("head_turn_down", &Flashings::head_turn_down, kLength, "Over the fin.");
    keys("head_stop_end", &Flashings::head_stop_end, kLength, "Height of the stop ends.");
    keys("head_reach", &Flashings::head_reach, kPart, "Outwards from the wall face to the turn-down.");
    keys("head_upstand_extra", &Flashings::head_upstand_extra, kLength, "Added to head_upstand, by wind class.");
    keys("head_sealed_in", &Flashings::head_sealed_in, kTexts,
         "Wind classes in which the head flashing is sealed to the fin.");
    keys(
        "eave_ratio", [](auto& into) -> auto& { return into.eave.ratio; }, kRatio,
        "No head flashing where the overhang compares with this many times the height from head to soffit …");
    keys(
        "eave_comparison", [](auto& into) -> auto& { return into.eave.comparison; },
        job::word(kComparisonWords).optional(), "… in this way.");
  }
};

struct Membrane {
  Measure lap, flap_over_head;
  Figure end_lap;
  Rule corner_tape, fixing_spacing_most, support_spacing_most, support_from_studs;

  static void describe(auto& keys) {
    keys.header("[weather.membrane]");
    keys("lap", &Membrane::lap, kLength, "A run over the one below.");
    keys("end_lap", &Membrane::end_lap, kLength, "End over end, on a stud.");
    keys("flap_over_head", &Membrane::flap_over_head, kLength, "The head flap over the head flashing's upstand.");
    keys("corner_tape", &Membrane::corner_tape, kPart,
         "Tape both ways over the bare triangle that each 45° cut leaves in a corner.");
    keys("fixing_spacing_most", &Membrane::fixing_spacing_most, kPart, "Largest distance between its fixings.");
    keys("support_spacing_most", &Membrane::support_spacing_most, kPart,
         "Battens or tape behind it at no more than this …");
    keys("support_from_studs", &Membrane::support_from_studs, kPart, "… where studs stand further apart than this.");
  }
};

struct CladdingRules {
  /// Of a storey whose floor is so high above the ground storey's.
  [[nodiscard]] const Rule& movementGap(double level) const {
    return level > 0 && movement_gap_upper ? movement_gap_upper : movement_gap_least;
  }

  Figure head_gap;
  Rule board_lap_least, over_upstand_least, under_sill_least, ground_clearance, cavity_barrier_least,
      movement_gap_least, movement_gap_upper, weep_spacing_most, brick_cavity_least, brick_cavity_most, brick_length,
      brick_height, sill_slope_least, damp_course_least;
  std::vector<std::string> direct_fix_not_in;

  static void describe(auto& keys) {
    keys.header("[weather.cladding]");
    keys("head_gap", &CladdingRules::head_gap, kLength, "End of the cladding above to the head flashing.");
    keys("board_lap_least", &CladdingRules::board_lap_least, kLength, "A board over the one below.");
    keys("over_upstand_least", &CladdingRules::over_upstand_least, kLength,
         "Cladding over the head flashing's upstand.");
    keys("under_sill_least", &CladdingRules::under_sill_least, kLength,
         "Sill flange or flashing over the cladding below.");
    keys("ground_clearance", &CladdingRules::ground_clearance, kLength, "Bottom of the cladding above the ground.");
    keys("cavity_barrier_least", &CladdingRules::cavity_barrier_least, kPart,
         "The cavity is closed round the opening; thickness of a timber that does.");
    keys("movement_gap_least", &CladdingRules::movement_gap_least, kPart,
         "Under the sill to masonry that stands by itself, at the ground storey: the frame shrinks.");
    keys("movement_gap_upper", &CladdingRules::movement_gap_upper, kPart, "… and at the storey above it.");
    keys("weep_spacing_most", &CladdingRules::weep_spacing_most, kPart, "Largest distance between weepholes.");
    keys("brick_cavity_least", &CladdingRules::brick_cavity_least, kPart, "Least clear cavity behind brick veneer.");
    keys("brick_cavity_most", &CladdingRules::brick_cavity_most, kPart, "Widest clear cavity behind brick veneer.");
    keys("damp_course_least", &CladdingRules::damp_course_least, kPart, "Of the damp-proof course above the ground.");
    keys("brick_length", &CladdingRules::brick_length, kPart, "Of a brick, as it is drawn. Left out: 230.");
    keys("brick_height", &CladdingRules::brick_height, kPart, "Of a brick, as it is drawn. Left out: 76.");
    keys("sill_slope_least", &CladdingRules::sill_slope_least, kAngle, "Least slope of sill bricks.");
    keys("direct_fix_not_in", &CladdingRules::direct_fix_not_in, kTexts, "Wind classes that want a cavity.");
  }
};

/// Sealing between unit and frame.
struct Sealing {
  Rule backing_from, sealant_depth_least;

  static void describe(auto& keys) {
    keys.header("[weather.sealing]");
    keys("backing_from", &Sealing::backing_from, kLength, "A gap wider than this wants a backing strip.");
    keys("sealant_depth_least", &Sealing::sealant_depth_least, kPart, "Least depth of sealant.");
  }
};

struct Weather {
  Flashings flashing;
  Membrane membrane;
  CladdingRules cladding;
  Sealing sealing;
  ByClass door_upstand;

  static void describe(auto& keys) {
    keys.header("[weather]");
    keys("flashing", &Weather::flashing, job::table(), "Flashings around the opening.");
    keys("membrane", &Weather::membrane, job::table(), "The membrane behind the cladding.");
    keys("cladding", &Weather::cladding, job::table(), "The cladding at the opening.");
    keys("sealing", &Weather::sealing, job::table().optional(), "Sealing between unit and frame.");
    keys("door_upstand", &Weather::door_upstand, kLength, "Turn-up of the membrane at a door's sill, by wind class.");
  }
};

}  // namespace sillwright::practice
