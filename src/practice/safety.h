/// Glass, falls, wet areas and lifting: what a practice says about people getting hurt.
///
/// Heights are above the floor inside unless they say otherwise; the sight line is the lowest edge of the glass seen.
/// Masses of materials are here too, because they say what has to be lifted. Millimetres, kilograms, kg/m³, m², N.
#pragma once

#include <algorithm>
#include <vector>

#include "job/job.h"
#include "practice/figure.h"

namespace sillwright::practice {

struct GlassRules {
  Rule door_safety, low_below, low_area_most, low_thickness_least, beside_door_within, beside_door_below,
      small_side_most, small_area_most, small_thickness_least, screen_height, screen_sphere, wet_area_below,
      stair_below, kitchen_below, mistaken_width_above, mistaken_below, pane_area_above, pane_bottom_below,
      pane_top_above, pane_walk_within, band_height, band_top_least, band_bottom_most, band_height_exempt,
      band_width_exempt, band_sight_line_exempt;

  static void describe(auto& keys) {
    keys.header("[safety.glass]");
    keys("door_safety", &GlassRules::door_safety, kYesNo, "1: all glass in doors is safety glass.");
    keys("low_below", &GlassRules::low_below, kPart, "Sight line below this wants safety glass …");
    keys("low_area_most", &GlassRules::low_area_most, kArea, "… or ordinary glass of at most this area …");
    keys("low_thickness_least", &GlassRules::low_thickness_least, kPart, "… and at least this thickness.");
    keys("beside_door_within", &GlassRules::beside_door_within, kPart, "Nearer than this to a doorway …");
    keys("beside_door_below", &GlassRules::beside_door_below, kPart, "… and with its lower edge below this.");
    keys("small_side_most", &GlassRules::small_side_most, kPart,
         "Left out of both: a pane whose shorter side is no more than this …");
    keys("small_area_most", &GlassRules::small_area_most, kArea, "… of at most this area …");
    keys("small_thickness_least", &GlassRules::small_thickness_least, kPart, "… and at least this thickness.");
    keys("screen_height", &GlassRules::screen_height, kPart, "Or low glass stands behind a screen this high …");
    keys("screen_sphere", &GlassRules::screen_sphere, kPart, "… that stops a sphere of this diameter.");
    keys("wet_area_below", &GlassRules::wet_area_below, kPart.was("wet_below"),
         "In wet areas: sight line below this wants safety glass.");
    keys("stair_below", &GlassRules::stair_below, kPart, "The same beside stairs.");
    keys("kitchen_below", &GlassRules::kitchen_below, kPart, "The same in kitchens.");
    keys("mistaken_width_above", &GlassRules::mistaken_width_above, kPart, "A pane wider than this …");
    keys("mistaken_below", &GlassRules::mistaken_below, kPart,
         "… with its sight line below this may be taken for a doorway.");
    keys("pane_area_above", &GlassRules::pane_area_above, kArea, "Safety glass where all four hold: larger than this,");
    keys("pane_bottom_below", &GlassRules::pane_bottom_below, kPart, "its bottom below this,");
    keys("pane_top_above", &GlassRules::pane_top_above, kPart, "its top above this,");
    keys("pane_walk_within", &GlassRules::pane_walk_within, kPart, "a walking surface nearer than this.");
    keys("band_height", &GlassRules::band_height, kPart, "Marking band on glass that looks like an opening:");
    keys("band_top_least", &GlassRules::band_top_least, kPart, "its upper edge at least this high,");
    keys("band_bottom_most", &GlassRules::band_bottom_most, kPart, "its lower edge at most this high;");
    keys("band_height_exempt", &GlassRules::band_height_exempt, kPart, "not wanted on glass no higher than this,");
    keys("band_width_exempt", &GlassRules::band_width_exempt, kPart, "or no wider than this,");
    keys("band_sight_line_exempt", &GlassRules::band_sight_line_exempt, kPart,
         "or whose sight line is at least this high.");
  }
};

/// Protection from falling through an openable window, for some rooms.
struct FallRule {
  std::vector<job::Room> rooms;
  Rule above_ground_from, opening_above_ground_from, opening_below, sphere, force, barrier, climb_from, climb_to;

  static void describe(auto& keys) {
    keys.header("[[safety.falls]]");
    keys("rooms", &FallRule::rooms, job::wordList(job::kRoomWords, job::kOldRoomWords),
         "Left out: every room not named by another rule.");
    keys("above_ground_from", &FallRule::above_ground_from, kPart.was("drop_from"),
         "Wanted where the floor is at least this above the surface below.");
    keys("opening_above_ground_from", &FallRule::opening_above_ground_from, kPart.was("opening_drop_from"),
         "… or the opening itself is more than this above it.");
    keys("opening_below", &FallRule::opening_below, kPart,
         "… and the lowest part that opens is lower than this above the floor.");
    keys("sphere", &FallRule::sphere, kPart, "The device or screen stops a sphere of this diameter …");
    keys("force", &FallRule::force, kForce, "… and stands this outward force.");
    keys("barrier", &FallRule::barrier, kPart, "Least height of the barrier below it.");
    keys("climb_from", &FallRule::climb_from, kLength, "Nothing to climb on from this height …");
    keys("climb_to", &FallRule::climb_to, kPart, "… to this.");
  }
};

/// A floor's edge over a drop: what a door opens on to, and glass that stands where a barrier would.
struct Guards {
  Rule above_ground_from, height, gap, glass_below;

  static void describe(auto& keys) {
    keys.header("[safety.guards]");
    keys("above_ground_from", &Guards::above_ground_from, kPart, "Wanted where the drop is at least this.");
    keys("height", &Guards::height, kPart, "Of the barrier.");
    keys("gap", &Guards::gap, kPart, "It stops a sphere of this diameter.");
    keys("glass_below", &Guards::glass_below, kPart,
         "Glass below this is itself the barrier; left out: below its height.");
  }
};

struct WetArea {
  Rule waterproof_height, shower_extent, junction;

  static void describe(auto& keys) {
    keys.header("[safety.wet_area]");
    keys("waterproof_height", &WetArea::waterproof_height, kPart, "Inside a shower, walls are waterproof up to this.");
    keys("shower_extent", &WetArea::shower_extent, kPart, "Of an unenclosed shower, from its outlet.");
    keys("junction", &WetArea::junction, kPart, "Waterproofing at wall junctions, each side.");
  }
};

/// Lifting. The team's limits are shares of the summed limits; more than three: mechanical help.
struct Lifting {
  Rule one_person, two_share, three_share, one_person_high, lifter_from, alone_size_most, niosh_load, niosh_horizontal,
      niosh_vertical, niosh_vertical_at, niosh_distance, niosh_distance_over, niosh_raised, niosh_high;

  static void describe(auto& keys) {
    keys.header("[safety.lifting]");
    keys("one_person", &Lifting::one_person, kMass, "What one person lifts, close to the body, at best height.");
    keys("two_share", &Lifting::two_share, kShare, "What two lift together, as a share of their limits summed.");
    keys("three_share", &Lifting::three_share, kShare, "What three lift together, as a share of their limits summed.");
    keys("one_person_high", &Lifting::one_person_high, kMass, "What one person lifts with the hands at head height.");
    keys("lifter_from", &Lifting::lifter_from, kMass, "Heavier than this is lifted by a lifter and not by a team.");
    keys("alone_size_most", &Lifting::alone_size_most, kPart, "One person carries nothing longer than this.");
    keys("niosh_load", &Lifting::niosh_load, kMass, "NIOSH: RWL = load · HM·VM·DM, of a straight lift now and then.");
    keys("niosh_horizontal", &Lifting::niosh_horizontal, kCentimetres, "HM = horizontal / H, H in cm.");
    keys("niosh_vertical", &Lifting::niosh_vertical, kPerCentimetre, "VM = 1 − vertical·|V − vertical_at|,");
    keys("niosh_vertical_at", &Lifting::niosh_vertical_at, kCentimetres, "V in cm.");
    keys("niosh_distance", &Lifting::niosh_distance, kShare, "DM = distance + distance_over / D,");
    keys("niosh_distance_over", &Lifting::niosh_distance_over, kCentimetres, "D in cm.");
    keys("niosh_raised", &Lifting::niosh_raised, kRatio, "Lifting index above which the risk is raised.");
    keys("niosh_high", &Lifting::niosh_high, kRatio, "Lifting index above which the risk is high.");
  }
};

/// What a unit weighs, where the job doesn't say.
struct Masses {
  Figure glass, aluminium, reveal, metal_share;

  static void describe(auto& keys) {
    keys.header("[safety.masses]");
    keys("glass", &Masses::glass, kDensity, "Density.");
    keys("aluminium", &Masses::aluminium, kDensity, "Density.");
    keys("reveal", &Masses::reveal, kDensity, "Density.");
    keys("metal_share", &Masses::metal_share, kShare, "Metal in the frame's box of depth × face.");
  }
};

/// A way out through the window in a fire.
struct Escape {
  std::vector<job::Room> rooms;
  Rule area, width, height, sill_most, storey_most;

  static void describe(auto& keys) {
    keys.header("[safety.escape]");
    keys("rooms", &Escape::rooms, job::wordList(job::kRoomWords), "Where it is asked, besides bedrooms.");
    keys("area", &Escape::area, kArea, "Clear opening, m².");
    keys("width", &Escape::width, kPart, "Its least width.");
    keys("height", &Escape::height, kPart, "Its least height.");
    keys("sill_most", &Escape::sill_most, kPart, "Its bottom above the floor.");
    keys("storey_most", &Escape::storey_most, kPart, "No way out where the floor is more than this above the ground.");
  }
};

/// What old houses may hold that hurts whoever cuts or sands it: told before a replacement is begun.
struct Hazards {
  Rule lead_paint_before, asbestos_before;

  static void describe(auto& keys) {
    keys.header("[safety.hazards]");
    keys("lead_paint_before", &Hazards::lead_paint_before, kYear, "Paint of before this year may hold lead.");
    keys("asbestos_before", &Hazards::asbestos_before, kYear, "Board of before this year may hold asbestos.");
  }
};

struct Safety {
  GlassRules glass;
  std::vector<FallRule> falls;
  Guards guards;
  WetArea wet_area;
  Escape escape;
  Lifting lifting;
  Masses masses;
  Hazards hazards;

  static void describe(auto& keys) {
    keys.header("[safety]");
    keys("glass", &Safety::glass, job::table().optional(), "Where safety glass is asked for.");
    keys("falls", &Safety::falls, kTables, "Protection from falling through an openable window, by rooms.");
    keys("guards", &Safety::guards, job::table().optional(), "Barriers at a floor's edge over a drop.");
    keys("wet_area", &Safety::wet_area, job::table().optional(), "Waterproofing of wet areas.");
    keys("escape", &Safety::escape, job::table().optional(), "A way out through the window in a fire.");
    keys("lifting", &Safety::lifting, job::table().optional(), "What can be lifted by hand.");
    keys("masses", &Safety::masses, job::table(), "What a unit weighs, where the job doesn't say.");
    keys("hazards", &Safety::hazards, job::table().optional(), "What old houses may hold, told at a replacement.");
  }

  /// The rule for a room: one that names it, else the one that names none; nullptr where there is neither.
  [[nodiscard]] const FallRule* fallRule(job::Room room) const {
    const FallRule* for_the_rest = nullptr;
    for (const FallRule& rule : falls) {
      if (std::find(rule.rooms.begin(), rule.rooms.end(), room) != rule.rooms.end()) return &rule;
      if (rule.rooms.empty()) for_the_rest = &rule;
    }
    return for_the_rest;
  }
};

}  // namespace sillwright::practice
