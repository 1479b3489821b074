#include "plan/plan.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <string_view>
#include <utility>

#include "plan/panes.h"
#include "plan/stand/reach.h"

namespace sillwright::plan {

namespace {

/// A thousandth of a millimetre is no move.
constexpr double kNoMove = 1e-3;

/// Planning an opening takes some 20 µs, a wall with its openings more; starting a thread and waiting for it as much.
constexpr std::size_t kOpeningsWorthAThread = 16;
constexpr std::size_t kWallsWorthAThread = 4;

FramedOpening framedOf(const job::Job& job, std::size_t index, const std::optional<job::Lintel>& lintel) {
  const job::Opening& of = job.openings[index];
  return {static_cast<std::int32_t>(index), of.left, of.sill, of.width, of.height, lintel, of.head};
}

/// Whether the rake plates are the head of an opening: they run along it, the wall carries nothing, and no lintel is
/// named.
bool platesAreHead(const job::Job& job, std::size_t index, const practice::Practice& practice) {
  const job::Opening& opening = job.openings[index];
  const job::Wall& wall = job.walls[opening.wall];
  if (!opening.head || opening.lintel || wall.supports) return false;
  return liesUnderPlates(settleWall(wall, practice), framedOf(job, index, {}));
}

OpeningPlan planOne(const job::Job& job, std::size_t index, const practice::Practice& practice,
                    const PackerTable& packers) {
  const job::Opening& opening = job.openings[index];
  OpeningPlan plan;
  plan.wall = opening.wall;
  plan.existing = opening.isExisting();
  plan.inside = job.walls[opening.wall].isInside();
  plan.unit = settleUnit(opening.unit, practice, usualStand(job.walls[opening.wall]));
  if (!plan.isFlashed() && !opening.unit.fin) {
    plan.unit.fin = 0;  // there is nothing for it to lie on
    std::erase_if(plan.unit.assumed, [](const Assumption& each) { return std::string_view(each.key) == "unit.fin"; });
  }
  if (!platesAreHead(job, index, practice)) plan.lintel = settleLintel(opening, practice, plan.assumed);
  const practice::Rule& bow = practice.opening_tolerance.bow;  // a bow's standard error in the survey
  const HeadLine planned = headLineOf(opening);
  plan.as_built =
      withTrustedShape(survey(planned, opening.measured, practice.survey, bow ? bow->value : kUsualStraightness),
                       planned, practice.survey);
  plan.rules = placeRules(opening.width, plan.unit, practice.clearance);
  const HeadLine unit = headLineOf(plan.unit);
  plan.stand = place(plan.as_built, unit, plan.rules);
  plan.remedies = remedies(plan.as_built, unit, plan.rules, plan.stand);
  plan.packing = pack(plan.as_built, plan.unit, plan.stand, practice.packing, packers);
  return plan;
}

/// z of the unit's head where its lower left corner stands at `z` of the opening.
double headAt(const job::Opening& opening, const OpeningPlan& plan, double z) {
  return opening.sill + z + plan.unit.height;
}

/// Where the heads of a wall's units come into line.
void lineUpHeads(const job::Job& job, const std::vector<OpeningPlan>& openings, WallPlan& wall) {
  std::vector<HeadRange> ranges;
  ranges.reserve(wall.openings.size());
  for (const std::int32_t index : wall.openings) {
    const auto i = static_cast<std::size_t>(index);
    const OpeningPlan& plan = openings[i];
    HeadRange range{.low = 0, .high = -1};  // empty: it takes no part
    if (plan.stand.fits) {
      // A head in line is not worth a unit pushed against one jamb: only even stands take part.
      range = {headAt(job.openings[i], plan, plan.stand.even_low), headAt(job.openings[i], plan, plan.stand.even_high),
               headAt(job.openings[i], plan, plan.stand.z)};
    }
    ranges.push_back(range);
  }
  const CommonHead common = commonHead(ranges);
  wall.head_line = common.level;
  for (const std::size_t apart : common.apart) wall.not_in_line.push_back(wall.openings[apart]);
}

/// Moves the units of a wall to their common line and packs them again.
void moveToLine(const job::Job& job, const practice::Practice& practice, const PackerTable& packers,
                const WallPlan& wall, std::vector<OpeningPlan>& openings) {
  if (!wall.head_line) return;
  for (const std::int32_t index : wall.openings) {
    OpeningPlan& plan = openings[static_cast<std::size_t>(index)];
    const double z = *wall.head_line - job.openings[static_cast<std::size_t>(index)].sill - plan.unit.height;
    if (!plan.stand.fits || std::abs(z - plan.stand.z) < kNoMove) continue;
    raiseTo(plan.stand, plan.as_built, headLineOf(plan.unit), z);
    plan.packing = pack(plan.as_built, plan.unit, plan.stand, practice.packing, packers);  // the gaps have changed
  }
}

/// What is the same for every opening of a job, looked up once.
struct Shared {
  PackerTable packers;
  ScrewStock screws;
  std::vector<HouseEnds> corners;
  std::array<WindLoad, 2> wind;  ///< Away from a corner of the house, near one.
};

Shared sharedBy(const job::Job& job, const practice::Practice& practice, std::vector<HouseEnds> corners) {
  return {packerTable(packersAtHand(job, practice), practice.packing),
          screwsAtHand(job, practice),
          std::move(corners),
          {windOn(job.wind, false, practice), windOn(job.wind, true, practice)}};
}

/// Takes away the packers between fixings that stand no further apart than the packers' own rule has them: each fixing
/// has a packer. Those at the ends, under mullions and where panels meet carry the unit and stay.
void dropServed(const FixingSpots& wanted, OpeningPlan& plan) {
  auto& points = plan.packing.points;
  std::array<double, 4> widest{};  // as the packers' rule has them: nothing is dropped yet
  for (std::size_t i = 1; i < points.size(); ++i) {
    double& most = widest[static_cast<std::size_t>(points[i].side)];
    if (points[i].side == points[i - 1].side) most = std::max(most, points[i].at - points[i - 1].at);
  }
  const std::vector<double> bearing = bearings(plan.unit);
  const auto isServed = [&](const PackingPoint& point) {
    const auto here = [&](double at) { return std::abs(point.at - at) <= kAtPacker; };
    double below = -HUGE_VAL;  // no fixing on that side: the packer stays
    double above = HUGE_VAL;
    for (const FixingSpot& spot : wanted.spots) {
      if (spot.side != point.side) continue;
      if (here(spot.at)) return false;  // it is that fixing's packer
      (spot.at < point.at ? below : above) = spot.at < point.at ? std::max(below, spot.at) : std::min(above, spot.at);
    }
    if (above - below > widest[static_cast<std::size_t>(point.side)]) return false;
    return point.side != Side::Sill || std::none_of(bearing.begin(), bearing.end(), here);
  };
  std::erase_if(points, isServed);
}

/// Each fixing has a packer: one that the fixings' rule asks for and the packers' rule doesn't is added. Fixings
/// nearer to each other than a packer's half have one between them. Nothing is packed at the head.
void packFixings(const practice::Practice& practice, const PackerTable& packers, const MoreFixings& more,
                 OpeningPlan& plan) {
  const FixingSpots wanted = fixingSpots(plan.unit, plan.packing, practice, more);
  if (wanted.kind == FixingKind::ThroughFin) return;  // a fin's screws meet no packer
  dropServed(wanted, plan);
  const auto isPacked = [&](const FixingSpot& spot) {
    if (spot.side == Side::Head || (spot.side == Side::Sill && plan.packing.sill_full_bearing)) return true;
    return std::any_of(plan.packing.points.begin(), plan.packing.points.end(), [&](const PackingPoint& point) {
      return point.side == spot.side && std::abs(point.at - spot.at) <= kAtPacker;
    });
  };
  for (auto first = wanted.spots.begin(); first != wanted.spots.end(); ++first) {
    if (isPacked(*first)) continue;
    auto last = first;
    for (auto next = first + 1; next != wanted.spots.end() && next->side == first->side; ++next) {
      if (next->at - first->at <= kAtPacker && !isPacked(*next)) last = next;  // one packer between them serves both
    }
    packAt(plan.packing, first->side, (first->at + last->at) / 2, plan.as_built, plan.unit, plan.stand,
           practice.packing, packers);
  }
}

/// What is tried after `more` didn't hold: another fixing each side of the mullions where the worst is on the sill or
/// the head, of the transoms where it is on a jamb, else all round, and then closer, down to what doesn't split a
/// reveal (common practice, no source). False: there is no more.
bool addMore(const Fixings& fixings, MoreFixings& more) {
  constexpr std::array<double, 4> kSpacings{0, 300, 225, 150};  // mm; 0: the rule's own
  constexpr int kMostBeside = 4;
  const bool level = isLevel(fixings.points[static_cast<std::size_t>(fixings.worst)].side);
  int& beside = level ? more.beside : more.beside_transoms;
  if ((level ? fixings.bar_ends : fixings.transom_ends) > 0 && beside < kMostBeside) {
    ++beside;
    return true;
  }
  if (more.spacing == kSpacings.back()) return false;
  if (more.all_round) more.spacing = *(std::find(kSpacings.begin(), kSpacings.end(), more.spacing) + 1);
  more.all_round = true;     // all round is first tried at the rule's spacing
  more.beside_transoms = 0;  // fewer may do now
  return true;
}

/// The rule's fixings, or more of them: the first that hold, else the best. Each is packed from the packers' own rule,
/// so that what is chosen doesn't depend on what was tried before it.
template <class FixWith>
void holdBest(const FixWith& fixWith, OpeningPlan& plan) {
  const Packing by_rule = plan.packing;  // fixWith changes plan.packing
  plan.fixings = fixWith({});
  if (plan.fixings.worst_ratio <= 1 || plan.unit.fixing) return;  // a schedule is taken as given
  Packing best = std::exchange(plan.packing, by_rule);
  MoreFixings more;
  Fixings last = plan.fixings;  // what more is tried by, whether it was better or not
  while (plan.fixings.worst_ratio > 1 && addMore(last, more)) {
    last = fixWith(more);
    Packing packed = std::exchange(plan.packing, by_rule);
    if (!(last.worst_ratio < plan.fixings.worst_ratio)) continue;
    plan.fixings = last;
    best = std::move(packed);
  }
  plan.packing = std::move(best);
}

void hold(const job::Job& job, std::size_t index, const practice::Practice& practice, const Shared& shared,
          const WallSpec& spec, OpeningPlan& plan) {
  const job::Opening& opening = job.openings[index];
  const job::Wall& wall = job.walls[plan.wall];
  const bool near_corner = isNearCorner(wall, shared.corners[plan.wall], opening, practice.strength.wind);
  if (!plan.inside) plan.wind = shared.wind[near_corner ? 1 : 0];  // no wind within the house
  const FixingTimber timber = fixingTimber(wall, spec, opening.width, plan.lintel, practice);
  const std::optional<job::FixingSchedule>& schedule = plan.unit.fixing;  // if it names a screw, no other is used
  const ScrewStock own = schedule && schedule->screw ? screwsNamed(*schedule->screw, practice) : ScrewStock{};
  plan.mass = massOf(plan.unit, opening.unit.mass_kg, practice);  // before the fixings, which carry it
  const auto fixWith = [&](const MoreFixings& more) {
    packFixings(practice, shared.packers, more, plan);
    return fix(plan.unit, plan.stand, plan.packing, plan.wind, plan.mass.total_kg, timber,
               own.empty() ? shared.screws : own, practice, more);
  };
  holdBest(fixWith, plan);
  if (plan.lintel && !opening.head)
    plan.lintel_check = checkLintel(*plan.lintel, opening.width, timber.bearing, wall, practice);
}

/// What follows once the unit's stand is settled.
void finish(const job::Job& job, std::size_t index, const practice::Practice& practice, const Shared& shared,
            const WallSpec& wall, OpeningPlan& plan) {
  hold(job, index, practice, shared, wall, plan);
  plan.weather = weatherproof(job, index, wall, plan.unit, plan.stand, practice);
  if (plan.isFlashed()) plan.water = waterFaults(plan.weather.skin);  // else the skin isn't all known
  plan.water.held.clear();                                            // what holds as yet is told of a change alone
}

/// Plans a wall whose openings are known.
WallPlan planWallOf(const job::Job& job, std::size_t index, std::vector<std::int32_t> of_wall,
                    const practice::Practice& practice, const std::vector<OpeningPlan>& openings) {
  WallPlan plan;
  plan.spec = settleWall(job.walls[index], practice);
  plan.openings = std::move(of_wall);
  std::stable_sort(plan.openings.begin(), plan.openings.end(), [&](std::int32_t a, std::int32_t b) {
    return job.openings[static_cast<std::size_t>(a)].left < job.openings[static_cast<std::size_t>(b)].left;
  });
  std::vector<FramedOpening> framed;
  framed.reserve(plan.openings.size());
  for (const std::int32_t each : plan.openings) {
    const auto opening = static_cast<std::size_t>(each);
    framed.push_back(framedOf(job, opening, openings[opening].lintel));
  }
  plan.frame = frameWall(plan.spec, framed, practice.framing, longestPiece(job, practice));
  if (job.walls[index].align_heads) lineUpHeads(job, openings, plan);
  return plan;
}

/// Plans a wall whose openings are surveyed and placed, and then what is marked of them to the end.
void finishWall(const job::Job& job, std::size_t index, const practice::Practice& practice, const Shared& shared,
                const Flags& openings, Plan& plan) {
  WallPlan& wall = plan.walls[index];
  std::sort(wall.openings.begin(), wall.openings.end());  // a new plan begins so: equal ones then fall alike
  wall = planWallOf(job, index, std::move(wall.openings), practice, plan.openings);
  moveToLine(job, practice, shared.packers, wall, plan.openings);  // before `finish`, which reads the stand
  for (const std::int32_t each : wall.openings) {
    const auto opening = static_cast<std::size_t>(each);
    if (openings[opening] != 0) finish(job, opening, practice, shared, wall.spec, plan.openings[opening]);
  }
}

/// Gives each wall the list of its openings.
void hangOpenings(const job::Job& job, Plan& plan) {
  plan.walls.resize(job.walls.size());
  plan.openings.resize(job.openings.size());
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    plan.walls[job.openings[i].wall].openings.push_back(static_cast<std::int32_t>(i));
  }
}

std::vector<std::size_t> marked(const Flags& flags) {
  std::vector<std::size_t> indices;
  for (std::size_t i = 0; i < flags.size(); ++i) {
    if (flags[i] != 0) indices.push_back(i);
  }
  return indices;
}

void planMarked(const job::Job& job, const practice::Practice& practice, const Shared& shared, const Changes& changes,
                base::Threads threads, Plan& plan) {
  const std::vector<std::size_t> openings = marked(changes.openings);
  base::inParallel(openings.size(), kOpeningsWorthAThread, threads, [&](std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) {
      plan.openings[openings[i]] = planOne(job, openings[i], practice, shared.packers);
    }
  });
  const std::vector<std::size_t> walls = marked(changes.frames);  // after all openings: heads in line need every stand
  base::inParallel(walls.size(), kWallsWorthAThread, threads, [&](std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) finishWall(job, walls[i], practice, shared, changes.openings, plan);
  });
}

/// Whether the openings hang in the walls as before and what the whole job shares is the same.
bool areComparable(const job::Job& before, const job::Job& after) {
  return before.practice == after.practice && before.wind == after.wind && before.bushfire == after.bushfire &&
         before.heat == after.heat && before.stock == after.stock && before.walls.size() == after.walls.size() &&
         std::equal(before.openings.begin(), before.openings.end(), after.openings.begin(), after.openings.end(),
                    [](const job::Opening& a, const job::Opening& b) { return a.wall == b.wall; });
}

/// Walls that are not as they were, and those whose corners of the house have moved with another wall.
void markWalls(const job::Job& before, const job::Job& after, const practice::Practice& practice, Flags& walls) {
  if (before.walls == after.walls) return;  // corners follow walls alone
  const std::vector<HouseEnds> ends_before = houseCorners(before, practice);
  const std::vector<HouseEnds> ends_after = houseCorners(after, practice);
  for (std::size_t i = 0; i < walls.size(); ++i) {
    walls[i] = before.walls[i] == after.walls[i] && ends_before[i] == ends_after[i] ? 0 : 1;
  }
}

}  // namespace

bool isFinished(const job::Job& job, const WallPlan& wall) {
  return !wall.openings.empty() && std::all_of(wall.openings.begin(), wall.openings.end(), [&](std::int32_t index) {
    return job.openings[static_cast<std::size_t>(index)].isExisting();
  });
}

const std::vector<double>& packersAtHand(const job::Job& job, const practice::Practice& practice) {
  return job.stock && !job.stock->packers.empty() ? job.stock->packers : practice.stock.packers;
}

Plan makePlan(const job::Job& job, const practice::Practice& practice, base::Threads threads) {
  return replan(job, practice, {}, everything(job), threads);
}

Plan makePlanOfPart(const job::Job& part, const practice::Practice& practice, std::vector<HouseEnds> corners) {
  Plan plan;
  hangOpenings(part, plan);
  planMarked(part, practice, sharedBy(part, practice, std::move(corners)), everything(part), {1}, plan);
  return plan;
}

Plan replan(const job::Job& job, const practice::Practice& practice, Plan before, const Changes& changes,
            base::Threads threads) {
  assert(changes.all || (before.openings.size() == job.openings.size() && before.walls.size() == job.walls.size()));
  Plan plan = changes.all ? Plan{} : std::move(before);
  if (changes.all) hangOpenings(job, plan);
  planMarked(job, practice, sharedBy(job, practice, houseCorners(job, practice)), changes, threads, plan);
  return plan;
}

Changes changesBetween(const job::Job& before, const job::Job& after, const practice::Practice& practice) {
  if (!areComparable(before, after)) return everything(after);
  Changes changes{false, Flags(after.walls.size()), {}, Flags(after.openings.size())};
  markWalls(before, after, practice, changes.walls);
  changes.frames = changes.walls;
  for (std::size_t i = 0; i < after.openings.size(); ++i) {
    if (before.openings[i] == after.openings[i]) continue;
    changes.openings[i] = 1;
    changes.frames[after.openings[i].wall] = 1;
  }
  for (std::size_t i = 0; i < after.openings.size(); ++i) {
    const std::size_t wall = after.openings[i].wall;
    const bool in_line = after.walls[wall].align_heads && changes.frames[wall] != 0;  // all heads may move
    if (changes.walls[wall] != 0 || in_line) changes.openings[i] = 1;
  }
  return changes;
}

Changes everything(const job::Job& job) {
  return {true, Flags(job.walls.size(), 1), Flags(job.walls.size(), 1), Flags(job.openings.size(), 1)};
}

}  // namespace sillwright::plan
