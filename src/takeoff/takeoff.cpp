#include "takeoff/takeoff.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <functional>
#include <tuple>

#include "plan/frame/frame.h"
#include "plan/stand/place.h"
#include "plan/weather/weather_skin.h"
#include "plan/work/order_of_work.h"

namespace sillwright::takeoff {
namespace {

/// A length to the nearest tenth, so that equal pieces are equal.
double toTenth(double mm) { return std::round(mm * 10) / 10; }

constexpr double kMm2PerM2 = 1e6;
constexpr double kMm3PerMl = 1e3;

/// Diameters that closed-cell backing rod is made in. From memory.
constexpr std::array<double, 9> kRods{6, 8, 10, 13, 15, 20, 25, 30, 40};
/// A rod is held by being thicker than its gap by a quarter. From memory.
constexpr double kRodPress = 1.25;

/// Lengths of a head along its slopes, left and right of its middle.
std::array<double, 2> runsOf(const plan::HeadLine& head) {
  const auto [left, right] = head.slopes();
  return {head.middle().x * std::hypot(1, left), (head.width() - head.middle().x) * std::hypot(1, right)};
}

/// The joint along one side of a unit, its gap taken as the mean of its ends.
void addJoint(double length, double gap, const practice::Sealing& rules, Sealing& sealing) {
  sealing.length += length;
  if (gap <= 0) return;  // they touch: nothing goes in
  const double least = rules.sealant_depth_least ? rules.sealant_depth_least->value : 0;
  sealing.sealant_ml += gap * std::max(least, gap / 2) * length / kMm3PerMl;
  if (rules.backing_from && gap <= rules.backing_from->value) return;  // sealant alone fills it
  const auto* rod = std::find_if(kRods.begin(), kRods.end(), [&](double size) { return size >= gap * kRodPress; });
  sealing.rods[rod == kRods.end() ? 0 : *rod] += length;  // 0: no rod is so thick
}

void addFixings(const plan::OpeningPlan& opening, Takeoff& takeoff) {
  for (const plan::PackingPoint& point : opening.packing.points) {
    if (point.backing > 0) ++takeoff.backing[point.backing];
  }
  for (const plan::Fixing& fixing : opening.fixings.points) {
    ++(fixing.screw < 0 ? takeoff.without_screw
                        : takeoff.screws[opening.fixings.screws[static_cast<std::size_t>(fixing.screw)].name]);
  }
}

void addSealing(const practice::Sealing& rules, const plan::OpeningPlan& opening, Sealing& sealing) {
  const auto mean = [](const std::array<double, 2>& gap) { return (gap[0] + gap[1]) / 2; };
  const plan::Gaps& gaps = opening.stand.gaps;
  const plan::HeadLine head = plan::headLineOf(opening.unit);
  addJoint(head.left(), mean(gaps.left), rules, sealing);
  addJoint(head.right(), mean(gaps.right), rules, sealing);
  for (const double run : runsOf(head)) addJoint(run, mean(gaps.head), rules, sealing);
  if (opening.unit.isDoor()) {  // its foot is sealed in the sill's bed
    sealing.foot_of_doors += opening.unit.width;
  } else {
    addJoint(opening.unit.width, mean(gaps.sill), rules, sealing);
  }
  sealing.coupled.insert(sealing.coupled.end(), opening.unit.coupled,
                         opening.unit.coupled_over ? opening.unit.width : opening.unit.height);
}

void addOverCavity(const job::Opening& opening, const practice::Practice& practice, const plan::OpeningPlan& planned,
                   const plan::WallSpec& wall, Takeoff& takeoff) {
  const plan::UnitSpec& unit = planned.unit;
  if (unit.sub_sill) {
    const double length = plan::partsOf(unit).in_reveal.width();
    ++takeoff.sub_sills[{unit.sub_sill->depth, length, unit.sub_sill->height}];
  }
  if (!planned.isFlashed()) return;  // the cavity round an old opening stays as it is
  if (plan::cavityCloser(wall, practice)) {
    const plan::HeadLine head = plan::headLineOf(opening);
    const auto [left, right] = runsOf(head);
    const double sill = unit.isDoor() ? 0 : opening.width;  // a door stands on the floor
    takeoff.over_cavity[wall.cladding.cavity].closers += sill + left + right + head.left() + head.right();
  }
  if (plan::wantsSillSupport(unit, opening.width, wall, practice)) {
    ++takeoff.over_cavity[wall.cladding.cavity].supports[opening.width];
  }
}

template <class Sized>
double areaOf(const Sized& of) {
  return plan::areaOf(plan::headLineOf(of).under({0, 0, of.width, of.height}));
}

void gatherAreas(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, Takeoff& takeoff) {
  const double lap = std::clamp(practice.weather.membrane.lap.usual.value, 0.0, plan::kMostRunLap);  // as it is laid
  for (const plan::WallPlan& wall : plan.walls) {
    const std::vector<job::TopPoint>& top = wall.spec.top;
    WallAreas areas;
    double height = 0;
    for (std::size_t i = 0; i < top.size(); ++i) {
      height = std::max(height, top[i].z);
      if (i > 0) areas.face += (top[i].x - top[i - 1].x) * (top[i].z + top[i - 1].z) / 2 / kMm2PerM2;
    }
    areas.lining = wall.spec.lining > 0 ? areas.face : 0;
    const double outside = areas.face + plan::kSkirt * wall.spec.length / kMm2PerM2;  // both hang below the floor
    areas.cladding = wall.spec.cladding.thickness > 0 ? outside : 0;
    for (const std::int32_t index : wall.openings) {
      const auto& opening = job.openings[static_cast<std::size_t>(index)];
      const auto& unit = plan.openings[static_cast<std::size_t>(index)].unit;
      areas.lining -= areaOf(opening) / kMm2PerM2;
      areas.cladding -= areaOf(unit) / kMm2PerM2;
    }
    areas.lining = std::max(0.0, areas.lining);  // a wall without one has gone below 0 by its openings
    areas.cladding = std::max(0.0, areas.cladding);
    const double cover = plan::kMembraneRun - lap;
    const double above_first = std::max(0.0, height + plan::kSkirt - plan::kMembraneRun);
    areas.membrane_runs = 1 + static_cast<int>(std::ceil(above_first / cover - 1e-9));
    areas.membrane = outside + (areas.membrane_runs - 1) * lap * wall.spec.length / kMm2PerM2;
    if (job.walls[takeoff.walls.size()].isInside()) areas = {.face = areas.face, .lining = 2 * areas.lining};
    if (plan::isFinished(job, wall)) areas = {.face = areas.face};  // its skins stay on
    takeoff.walls.push_back(areas);
  }
}

void addTools(const std::vector<plan::Step>& steps, std::size_t opening, Takeoff& takeoff) {
  for (const plan::Step& step : steps) {
    for (const std::string& tool : step.tools) {
      std::vector<std::size_t>& asked = takeoff.tools[tool];
      if (asked.empty() || asked.back() != opening) asked.push_back(opening);  // several steps may ask for one
    }
  }
}

// Flashings by roll, folded metal, tapes.

bool isStrip(plan::PieceKind kind) {
  return kind == plan::PieceKind::SillFlashing || kind == plan::PieceKind::SillPan ||
         kind == plan::PieceKind::JambFlashing;
}

/// Flashings, folded metal and tapes.
void gatherWeather(const plan::Plan& plan, Takeoff& takeoff) {
  std::map<std::pair<double, bool>, std::map<double, int, std::greater<>>> rolls;
  std::map<std::tuple<double, double, std::vector<double>, double, double>, int> folded;  // longest and widest first
  for (const plan::OpeningPlan& opening : plan.openings) {
    for (const plan::Piece& piece : opening.weather.pieces) {
      if (piece.fitted) {
        ++takeoff.fitted_flashings;
      } else if (isStrip(piece.kind)) {
        rolls[{toTenth(piece.width), piece.too_wide}][toTenth(piece.length)] += 1;
      } else if (piece.kind == plan::PieceKind::HeadFlashing) {
        ++folded[{-toTenth(piece.length), -toTenth(piece.width), piece.folds, piece.fall_degrees, piece.stop_end}];
      } else if (piece.kind == plan::PieceKind::CornerTape || piece.kind == plan::PieceKind::HeadTape) {
        const char* name = piece.kind == plan::PieceKind::CornerTape ? "corner tape" : "head tape";
        takeoff.tapes[{name, toTenth(piece.width)}] += piece.length;
      }
    }
  }
  for (const auto& [key, lengths] : rolls) {
    RollUse& roll = takeoff.rolls.emplace_back(RollUse{key.first, key.second, {}, {}});
    for (const auto& [length, count] : lengths) roll.pieces.push_back({length, count});
  }
  for (const auto& [key, count] : folded) {
    const auto& [length, girth, folds, fall, stop_end] = key;
    takeoff.folded.push_back({-girth, -length, folds, fall, stop_end, count});
  }
}

// Timber of all frames, by section and grade.

/// Depth, thickness, both below zero so that the largest is first, and grade.
using SectionKey = std::tuple<double, double, std::string>;
/// Part, length, short length, both below zero likewise, and cut.
using LineKey = std::tuple<plan::MemberPart, double, double, double>;
/// How many pieces have a mark, by wall and mark.
using MarkCounts = std::map<std::pair<std::size_t, std::string>, int>;

SectionKey sectionOf(double a, double b, const std::string& grade) {
  return {-toTenth(std::max(a, b)), -toTenth(std::min(a, b)), grade};
}

/// The section that a member is bought in, of a row of studs so deep: a lintel without room is drawn shallower than it
/// is bought.
SectionKey boughtAs(const plan::Member& member, double deep, const plan::Plan& plan, const std::string& grade) {
  if (member.part == plan::MemberPart::Lintel && member.opening >= 0) {
    const auto& lintel = plan.openings[static_cast<std::size_t>(member.opening)].lintel;
    if (lintel) return sectionOf(lintel->depth, lintel->thickness, lintel->material.value_or(grade));
  }
  return sectionOf(member.width, deep, grade);
}

TimberSection sectionFrom(const SectionKey& key, const std::map<LineKey, MarkCounts>& lines) {
  const auto& [depth, thickness, grade] = key;
  TimberSection section{-depth, -thickness, grade, {}, 0, {}, {}};
  std::map<double, int, std::greater<>> pieces;
  for (const auto& [line, marks] : lines) {
    const auto& [part, length, short_length, degrees] = line;
    TimberLine& made = section.lines.emplace_back(TimberLine{part, -length, 0.0 - short_length, degrees, 0, {}});
    for (const auto& [mark, count] : marks) {
      made.count += count;
      made.marks.push_back({mark.first, mark.second, count});
    }
    section.length += made.length * made.count;
    pieces[toTenth(made.length)] += made.count;
  }
  for (const auto& [length, count] : pieces) section.pieces.push_back({length, count});
  return section;
}

/// Timber without its cutting.
std::vector<TimberSection> gatherTimber(const job::Job& job, const practice::Practice& practice,
                                        const plan::Plan& plan) {
  std::map<SectionKey, std::map<LineKey, MarkCounts>> sections;
  for (std::size_t w = 0; w < plan.walls.size(); ++w) {
    if (plan::isFinished(job, plan.walls[w])) continue;  // its frame stands
    const plan::Frame& frame = plan.walls[w].frame;
    const std::string grade = job.walls[w].isSteel() ? "steel" : job.walls[w].timber.value_or("");
    for (const plan::MemberGroup& group : plan::groupsOf(frame, practice.display)) {
      const LineKey line{group.part, -group.length, -group.short_length, std::round(group.cut_degrees * 10) / 10};
      for (const std::size_t member : group.members) {
        ++sections[boughtAs(frame.members[member], frame.members[member].depth, plan, grade)][line][{w, group.mark}];
        const auto& second = plan.walls[w].spec.second_row;  // framed as the first is
        if (!second || (group.part == plan::MemberPart::Lintel && frame.members[member].y1 > second->depth)) continue;
        ++sections[boughtAs(frame.members[member], second->depth, plan, grade)][line][{w, group.mark}];
      }
    }
  }
  std::vector<TimberSection> all;
  for (const auto& [key, lines] : sections) all.push_back(sectionFrom(key, lines));
  return all;
}

}  // namespace

Takeoff takeOff(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                const TakeoffOptions& options) {
  assert(plan.walls.size() == job.walls.size() && plan.openings.size() == job.openings.size());  // this job's plan
  Takeoff takeoff;
  takeoff.kerf = options.kerf;
  takeoff.end_trim = plan::endTrim(practice);
  takeoff.timber = gatherTimber(job, practice, plan);
  gatherWeather(plan, takeoff);
  gatherAreas(job, practice, plan, takeoff);
  std::vector<plan::Packing> packings;
  for (std::size_t i = 0; i < plan.openings.size(); ++i) {
    const plan::OpeningPlan& planned = plan.openings[i];
    packings.push_back(planned.packing);
    addFixings(planned, takeoff);
    addSealing(practice.weather.sealing, planned, takeoff.sealing);
    addOverCavity(job.openings[i], practice, planned, plan.walls[planned.wall].spec, takeoff);
    addTools(plan::orderOfWork(job, plan, i, practice), i, takeoff);
  }
  takeoff.packers = plan::packerTotals(packings);

  const auto cuts = static_cast<std::int64_t>(takeoff.timber.size() + takeoff.rolls.size());
  const std::int64_t share = options.steps / std::max<std::int64_t>(1, cuts);  // equal: none waits for another
  for (TimberSection& section : takeoff.timber) {
    section.cutting = cut(section.pieces, {plan::timberAtHand(job, practice), options.kerf, share, takeoff.end_trim});
  }
  const double roll_length = job.stock && job.stock->roll_length ? *job.stock->roll_length : practice.stock.roll_length;
  for (RollUse& roll : takeoff.rolls) roll.cutting = cut(roll.pieces, {{roll_length}, 0, share, 0});  // a knife cuts
  return takeoff;
}

}  // namespace sillwright::takeoff
