/// Glass, falls, wet areas and lifting: what a practice says about people getting hurt.
///
/// Heights are above the floor inside unless they say otherwise; the sight line is the lowest edge of the glass seen.
/// Masses of materials are here too, because they say what has to be lifted. Millimetres, kilograms, kg/m³, m², N.
#pragma once

#include <string>
#include <vector>

#include "job/job.h"
#include "practice/figure.h"

namespace sillwright::practice {

struct GlassRules {
  Rule door_safety;          ///< 1: all glass in doors is safety glass.
  Rule low_below;            ///< Sight line below this wants safety glass …
  Rule low_area_most;        ///< … or ordinary glass of at most this area …
  Rule low_thickness_least;  ///< … and at least this thickness.
  Rule beside_door_within;   ///< Nearer than this to a doorway …
  Rule beside_door_below;    ///< … and with its lower edge below this.
  Rule wet_below;            ///< In wet rooms: sight line below this wants safety glass.
  /// Hazardous where all four hold: larger, its bottom below, its top above, a walking surface within.
  Rule pane_area_above, pane_bottom_below, pane_top_above, pane_walk_within;
  Rule band_height;             ///< Marking band on glass that looks like an opening:
  Rule band_top_least;          ///< its upper edge at least this high,
  Rule band_bottom_most;        ///< its lower edge at most this high;
  Rule band_height_exempt;      ///< not wanted on glass no higher than this
  Rule band_width_exempt;       ///< or no wider than this,
  Rule band_sight_line_exempt;  ///< or whose sight line is at least this high.
  bool operator==(const GlassRules&) const = default;
};

/// Protection from falling through an openable window, for some rooms.
struct FallRule {
  std::vector<job::Room> rooms;  ///< Empty: every room not named by another rule.
  Rule drop_from;                ///< Wanted where the floor is at least this above the surface below.
  Rule opening_drop_from;        ///< … or the opening itself is more than this above it.
  Rule opening_below;            ///< … and the lowest part that opens is lower than this above the floor.
  Rule sphere;                   ///< The device or screen stops a sphere of this diameter …
  Rule force;                    ///< … and stands this outward force.
  Rule barrier;                  ///< Least height of the barrier below it.
  Rule climb_from, climb_to;     ///< Nothing to climb on between these heights.
  bool operator==(const FallRule&) const = default;
};

struct WetArea {
  Rule waterproof_height;  ///< Inside a shower, walls are waterproof up to this.
  Rule shower_extent;      ///< Of an unenclosed shower, from its outlet.
  Rule junction;           ///< Waterproofing at wall junctions, each side.
  bool operator==(const WetArea&) const = default;
};

/// Lifting. The team's limits are shares of the summed limits; more than three: mechanical help.
struct Lifting {
  Rule one_person;  ///< kg, close to the body, at best height.
  Rule two_share, three_share;
  /// NIOSH: RWL = load · HM·VM·DM·AM·FM·CM with HM = horizontal/H, VM = 1 − vertical·|V − vertical_at|,
  /// DM = distance + distance_over/D, AM = 1 − asymmetry·A (H, V, D in cm, A in degrees).
  Rule niosh_load, niosh_horizontal, niosh_vertical, niosh_vertical_at, niosh_distance, niosh_distance_over,
      niosh_asymmetry;
  Rule niosh_raised, niosh_high;  ///< Lifting index above which the risk is raised, is high.
  bool operator==(const Lifting&) const = default;
};

/// What a unit weighs, where the job doesn't say.
struct Masses {
  Figure glass, aluminium, reveal;  ///< Densities, kg/m³.
  Figure metal_share;               ///< Metal in the frame's box of depth × face.
  bool operator==(const Masses&) const = default;
};

/// A way out through the window in a fire.
struct Escape {
  Rule area;       ///< Clear opening, m².
  Rule side;       ///< Least width and height of it.
  Rule sill_most;  ///< Its bottom above the floor.
  bool operator==(const Escape&) const = default;
};

struct Safety {
  GlassRules glass;
  std::vector<FallRule> falls;
  WetArea wet_area;
  Escape escape;
  Lifting lifting;
  Masses masses;

  /// The rule for a room: one that names it, else the one that names none; nullptr where there is neither.
  [[nodiscard]] const FallRule* fallRule(job::Room room) const;
  bool operator==(const Safety&) const = default;
};

}  // namespace sillwright::practice
