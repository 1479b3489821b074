/// The sizes that the skin of an opening is made from, and the skin made from them.
///
/// Axes as in skin.h: the framed opening's lower left corner is the origin.
#pragma once

#include "job/job.h"
#include "plan/settle.h"
#include "plan/stand/place.h"
#include "plan/weather/skin.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// Membrane comes in rolls about this wide, mm. Common practice, no source.
inline constexpr double kMembraneRun = 1350;
/// A longer lap of the membrane's runs is laid as this, so that a roll always gains height.
inline constexpr double kMostRunLap = 300;
/// Tape past the edges of what it seals, mm. Common practice, no source.
inline constexpr double kTapePast = 25;
/// The front of a sill pan laps so far down over the strip below it, mm. Common practice, no source.
inline constexpr double kPanLap = 50;
inline constexpr const char* kPanName = "sill pan";
/// Cladding and membrane hang so far below the floor, mm. Common practice, no source.
inline constexpr double kSkirt = 40;
/// Between the cladding and the unit's frame. Common practice, no source.
inline constexpr double kFrameGap = 3;

/// Between bricks and the unit's frame at its sides. Common practice, no source.
inline constexpr double kBrickGap = 10;
/// A sealant line at the unit's face laps the cladding's edge by this. Common practice, no source.
inline constexpr double kSealLap = 5;

/// Bricks and the courses that they are laid in, mm: 230 × 110 × 76 in joints of 10 (common practice, no source).
inline constexpr double kBrickLength = 230;
inline constexpr double kBrickHeight = 76;
inline constexpr double kBrickJoint = 10;
/// Bricks on edge under a sill: their height, slope in degrees and how far they stand out. Common practice, no source.
inline constexpr double kSillBrickHigh = 110;
inline constexpr double kSillBrickSlope = 15;
inline constexpr double kSillBrickProud = 25;
/// Under the unit's sill where the practice names no gap to masonry: the frame shrinks. From memory.
inline constexpr double kSillBrickGap = 5;

/// Whether boards stand out far enough to run over the unit's fin up to its frame: with membrane, flashings and fin
/// behind them, at their thinner upper edge, three fifths as thick. Thinner sheets fixed direct stop beside the fin.
/// Common practice, no source.
[[nodiscard]] inline bool boardsCoverFin(const job::Cladding& cladding) {
  constexpr double kBehind = 9;
  return cladding.cavity + 0.6 * cladding.thickness >= kBehind;
}

/// Everything that places a sheet, mm. Lengths `past` are beyond the framed opening.
struct SkinSizes {
  HeadLine head{0, 0}, unit_head{0, 0};  ///< Of opening and unit; all heights below are as if they were level.
  bool stop_ends = true;
  double opening_width = 0, opening_height = 0;
  double foot = 0;  ///< z of the wall's foot (≤ 0).
  double unit_left = 0, unit_right = 0, unit_bottom = 0, unit_top = 0, fin = 0;
  bool sill_flashing = true;  ///< False where the opening stands on the floor: a pan alone lies under the unit there.
  /// True: the sill's flashing is a strip on the face and, lapping over it, a pan under the unit. Which it is depends
  /// on the rolls at hand: `weatherproof` decides.
  bool sill_pan = false;
  double pan_back = 0;      ///< y of a pan's inner upstand: behind a unit on the floor, under any other.
  bool direct_fix = false;  ///< No cavity behind the cladding.
  double sill_past = 0, sill_down = 0;
  double jamb_out = 0, jamb_past = 0, jamb_foot = 0;  ///< Foot: below the sill, over the sill flashing.
  double head_past = 0, head_upstand = 0, head_turn_down = 0, head_lap = 0;
  double head_reach = 0;          ///< Of the head flashing, out from the wall to its turn-down.
  double head_drop = 0;           ///< By which it falls over that reach.
  bool on_unit = false;           ///< Flashings at sill and jambs go in with the unit.
  bool existing = false;          ///< The old cladding stays, cut to the unit; there are no flashings of ours.
  bool brick = false;             ///< The cladding is bricks, with sill bricks on edge under the unit.
  double frame_gap = kFrameGap;   ///< Between the cladding and the frame at its sides.
  double sill_over_cladding = 0;  ///< Lap of the sill flashing over the cladding below it.
  double board_lap = 0;
  bool over_fin = true;     ///< Boards beside and above cover the fin.
  double cladding_gap = 0;  ///< Between the cladding above and the head flashing or the unit.
  double run_lap = 0;       ///< Of a run of membrane over the one below.

  /// z of the fold between a head flashing's upstand and its fall: its outer edge is then level with the fin's top.
  [[nodiscard]] double headFold() const { return unit_top + fin + head_drop; }
};

/// The bricks under a unit's sill, in the opening's z: upper inner edge, height, and fall to their outer edge.
struct SillBricks {
  double top = 0, high = 0, fall = 0;
};
[[nodiscard]] SillBricks sillBricks(const WallSpec& wall, const Stand& stand, const practice::CladdingRules& rules);

[[nodiscard]] SkinSizes skinSizes(const job::Job& job, const job::Opening& opening, const WallSpec& wall,
                                  const UnitSpec& unit, const Stand& stand, const practice::Practice& practice);

/// `rain_from`: z below which rain reaches the face.
[[nodiscard]] Skin makeSkin(const SkinSizes& size, bool head_flashing, double rain_from,
                            const practice::Practice& practice);

}  // namespace sillwright::plan
