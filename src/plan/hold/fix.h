/// What holds the unit: where it is screwed, with which screw, and how its load compares with what the screw can take.
///
/// Positions by the practice's rule and by the customary one; the stricter holds (fixing_points.h). Each screw is the
/// shortest in stock that is long enough for the embedment asked behind its own packer. Capacity by
/// the general dowel equations with the packer as the gap (fixing_capacity.h). A timber backing behind the packers is
/// part of the stud.
///
/// Load: of the whole wind each fixing carries its share once (wind.h). Where that is more than the fixings of
/// the rule hold, the unit is fixed all round, then closer (`holdBest` in plan.cpp). The unit
/// stands on its sill packers; that they are missing or crushed is the case each jamb fixing is judged for too, so its
/// share of the weight (without a factor) is added to the wind as a vector. A fin bears against the wall: its screws
/// are judged in suction only.
///
/// Indicative: the unit maker's instructions, local codes and an engineer come first.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"
#include "plan/hold/fixing_capacity.h"
#include "plan/hold/fixing_points.h"
#include "plan/hold/wind.h"
#include "plan/settle.h"
#include "plan/stand/pack.h"
#include "plan/stand/place.h"
#include "practice/practice.h"

namespace sillwright::plan {

// The screws at hand, and which of them goes in at a point: the shortest that is long enough, the thinner of two.

/// A screw of the stock. Names and gauges live in the job and the practice, which must outlive it.
struct StockScrew {
  const practice::Gauge* gauge = nullptr;
  double length = 0;
  std::string_view name;  ///< Empty for one that isn't in stock.
};

/// Shortest first, then thinnest.
using ScrewStock = std::vector<StockScrew>;

/// The job's stock, else the practice's. Names the practice has no gauge for are left aside (they are errors of the
/// job, told by `disagreements`).
[[nodiscard]] ScrewStock screwsAtHand(const job::Job& job, const practice::Practice& practice);
/// The one screw that a schedule names, if the practice has its gauge. `name` must outlive it.
[[nodiscard]] ScrewStock screwsNamed(const std::string& name, const practice::Practice& practice);
/// Every length of a gauge that can be bought.
[[nodiscard]] ScrewStock screwsOf(const practice::Gauge& gauge);

/// Embedment that the practice asks of a gauge, point included, mm: the larger of a length and a number of shank
/// diameters; 0 where it names neither.
[[nodiscard]] double embedmentWanted(const practice::Gauge& gauge, const practice::Fixing& rules);

struct Fixing : FixingSpot {
  Fixing() noexcept {}  // or a new one would be cleared before its members are set
  FixingKind kind = FixingKind::ThroughReveal;
  std::int32_t screw = -1;           ///< Index in Fixings::screws; -1: nothing in stock is long enough.
  double gap = 0;                    ///< Filled by the packers there, a timber backing left out, mm.
  double embedment = 0;              ///< In the stud (or backing), mm, point included.
  double past_stud = 0;              ///< How far the point comes out behind the studs; ≤ 0: it stays inside.
  double wind_n = 0;                 ///< Wind of the practice's method on this fixing, square to the wall.
  double weight_n = 0;               ///< Its share of self-weight if the sill packers were missing.
  double demand_n = 0;               ///< Of what it must carry: the vector sum where weight counts.
  std::optional<double> capacity_n;  ///< Empty: the practice's method does not cover it, or names no material data.
  YieldMode mode = YieldMode::II;
  bool withdrawal = false;  ///< Capacity is that of being pulled out; `mode` says nothing then.
};

/// A screw chosen from stock.
struct ChosenScrew {
  std::string name;  ///< As in the stock: "8g x 75".
  double length = 0;
  double shank = 0;  ///< Diameters, mm.
  double root = 0;
  double head = 0;
};

/// The gauge that would bring demand below capacity, and the longest length of it that is wanted: "10g x 100".
struct LargerScrew {
  std::string screw;
  double ratio = 0;  ///< Worst demand over capacity then.
};

struct Fixings : FixingNumber {
  std::vector<Fixing> points;  ///< Left jamb upwards, right jamb upwards, sill left to right, head likewise.
  std::vector<ChosenScrew> screws;
  std::size_t bar_ends = 0;      ///< Of mullions and meeting stiles, at sill and head.
  std::size_t transom_ends = 0;  ///< At the jambs.
  double line = 0;           ///< y of the screws through reveal or frame: on the stud, clear of the aluminium frame.
  double countersink = 0;    ///< Depth of the heads below the reveal's face; 0: not named, or no reveal.
  double under_head = 0;     ///< Wood left under the countersink, mm.
  double length_wanted = 0;  ///< Where nothing in stock is long enough at some point: the length that would be.
  double worst_ratio = 0;    ///< Largest demand over capacity; 0: nothing to judge.
  std::int32_t worst = -1;   ///< Index in points.
  std::string not_covered;   ///< Why the practice's own method gives no figure here; empty: it does.
  std::string missing;       ///< What a capacity lacks in the practice or the job; empty: nothing.
  std::optional<LargerScrew> larger;  ///< Where the worst is above 1: what would do.
};

/// The timber that fixings go into.
struct FixingTimber {
  double side_studs = 0;  ///< Thickness of the studs at each side of the opening, mm.
  double bearing = 0;     ///< Of those under each end of the lintel; 0: it is housed.
  double sill = 0;        ///< Of the sill trimmer.
  double head = 0;        ///< Of what lies over the head: the lintel's depth.
  double stud_depth = 0;
  const practice::TimberGrade* grade = nullptr;  ///< nullptr: not known.
};

/// Timber round an opening of a width: studs by the practice's rule for it, its lintel, if it has one.
[[nodiscard]] FixingTimber fixingTimber(const job::Wall& wall, const WallSpec& spec, double opening_width,
                                        const std::optional<job::Lintel>& lintel, const practice::Practice& practice);

/// Chooses and judges the fixings of a unit that stands and is packed. `mass_kg` of the unit.
[[nodiscard]] Fixings fix(const UnitSpec& unit, const Stand& stand, const Packing& packing, const WindLoad& wind,
                          double mass_kg, const FixingTimber& timber, const ScrewStock& stock,
                          const practice::Practice& practice, const MoreFixings& more = {});

}  // namespace sillwright::plan
