/// The plan of a job: everything that is computed from it, as one value.
///
/// `makePlan` composes the ideas of this room: settle → frame, survey → place → pack → wind, mass, fix → weather →
/// water. Per-opening work is a pure function of the opening, its wall and the practice.
/// Plans keep pointers to the practice's figures: the practice must outlive its plans.
#pragma once

#include <optional>
#include <vector>

#include "base/error.h"
#include "base/in_parallel.h"
#include "job/job.h"
#include "plan/frame/frame.h"
#include "plan/hold/beam.h"
#include "plan/hold/fix.h"
#include "plan/hold/mass.h"
#include "plan/hold/wind.h"
#include "plan/house_corners.h"
#include "plan/settle.h"
#include "plan/stand/pack.h"
#include "plan/stand/place.h"
#include "plan/survey/survey.h"
#include "plan/weather/water.h"
#include "plan/weather/weather.h"
#include "practice/practice.h"

namespace sillwright::plan {

// What has to be worked out anew where one job takes the place of another: the rest is taken from the last answer.
//
// Told from the two jobs alone, by value. Each part of an answer depends on little: an opening's plan on the opening,
// its wall, the house's corners at that wall and what the whole job shares; with heads in line also on the wall's
// other openings. What is marked may come out the same; what is not marked does come out the same.

/// A flag a thing; char, because threads may not share the bytes of a vector<bool>.
using Flags = std::vector<char>;

struct Changes {
  bool all = true;  ///< Nothing can be kept; the lists may then be empty.
  Flags walls;      ///< As Job::walls: what the job says of the wall, or its place in the house.
  Flags frames;     ///< As Job::walls: the wall, or any of its openings.
  Flags openings;   ///< As Job::openings: the plan of the opening.
};

/// Both jobs with the same practice.
[[nodiscard]] Changes changesBetween(const job::Job& before, const job::Job& after, const practice::Practice& practice);

/// Marks every wall and every opening: nothing is kept.
[[nodiscard]] Changes everything(const job::Job& job);

struct WallPlan {
  WallSpec spec;
  Frame frame;
  std::vector<std::int32_t> openings;  ///< Indices of its openings, left to right.
  /// With `align = "heads"`: openings that keep the heads apart, and those whose unit doesn't fit and so takes no part.
  std::vector<std::int32_t> not_in_line;
  /// With `align = "heads"`: the z of all the units' heads, where every unit that fits can stand so.
  std::optional<double> head_line;
};

/// Whether membrane and cladding of the wall are there already: all its openings are old holes.
[[nodiscard]] bool isFinished(const job::Job& job, const WallPlan& wall);

struct OpeningPlan {
  std::size_t wall = 0;
  bool existing = false;  ///< A new unit in an old hole: what keeps the water out there is not ours and can't be seen.
  bool inside = false;    ///< In a wall between two rooms.
  UnitSpec unit;
  std::optional<job::Lintel> lintel;
  std::vector<Assumption> assumed;  ///< Of the lintel; the unit's own are in `unit.assumed`.
  AsBuilt as_built;
  PlaceRules rules;
  Stand stand;
  std::vector<Remedy> remedies;
  Packing packing;  ///< With a packer at every fixing.
  WindLoad wind;
  UnitMass mass;
  Fixings fixings;
  std::optional<LintelCheck> lintel_check;  ///< Empty: there is no lintel, or it lies in a slope.
  Weather weather;
  WaterFaults water;  ///< On the skin of `weather`, where that is all known.

  /// Whether membrane and flashings are put on round it.
  [[nodiscard]] bool isFlashed() const { return !existing && !inside; }
};

struct Plan {
  std::vector<WallPlan> walls;        ///< As Job::walls.
  std::vector<OpeningPlan> openings;  ///< As Job::openings.
};

/// What in the job does not exist in its practice (a wind class, a timber grade, a screw): errors at their line, with
/// what there is and what may have been meant. A job with such errors is not planned.
[[nodiscard]] std::vector<base::Error> disagreements(const job::Job& job, const practice::Practice& practice);

/// Large jobs by several threads; the plan is the same for any number of them.
[[nodiscard]] Plan makePlan(const job::Job& job, const practice::Practice& practice, base::Threads threads = {});
/// The same plan, where `before` was made of a job that differs by `changes`, with the same practice: only what they
/// mark is worked out.
[[nodiscard]] Plan replan(const job::Job& job, const practice::Practice& practice, Plan before, const Changes& changes,
                          base::Threads threads = {});

/// The plan of a part of a house: some of its walls with all the openings in them. `corners`: as houseCorners gives
/// them for the whole house, of the walls of the part.
[[nodiscard]] Plan makePlanOfPart(const job::Job& part, const practice::Practice& practice,
                                  std::vector<HouseEnds> corners);

/// Packer sizes at hand: the job's stock, else the practice's.
[[nodiscard]] const std::vector<double>& packersAtHand(const job::Job& job, const practice::Practice& practice);

}  // namespace sillwright::plan
