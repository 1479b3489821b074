// Walls as they are built: brick veneer, a new unit in an old hole, storeys, walls between rooms, steel studs.

#include "plan/work/order_of_work.h"

#include <algorithm>
#include <string>

#include "judge_support.h"
#include "plan/panes.h"
#include "support/catch.h"
#include "takeoff/takeoff.h"

using namespace sillwright;
using namespace sillwright::testing;
using plan::StepKind;

namespace {

constexpr job::Cladding kBrick{110, 40, job::CladdingKind::BrickVeneer};

job::Job windowIn(const job::Cladding& cladding) {
  job::Job job = readWindow("au");
  job.wind = "N2";
  job.walls[0].cladding = cladding;
  job.openings[0].unit.fin = 0;
  return job;
}

bool hasStep(const plan::Plan& plan, StepKind kind) {
  return plan::stepNumber(plan::stepsAt(plan.openings[0]), kind) > 0;
}

std::string stepText(const job::Job& job, const plan::Plan& plan, StepKind kind) {
  for (const plan::Step& step : plan::orderOfWork(job, plan, 0, shipped("au"))) {
    if (step.kind == kind) return step.title + ": " + step.what + " " + step.caution;
  }
  return {};
}

}  // namespace

TEST_CASE("cladding that names no kind is boards, as thick as a brick before a cavity it is brick veneer") {
  CHECK(plan::kindOf({16, 0}) == job::CladdingKind::Boards);
  CHECK(plan::kindOf({110, 0}) == job::CladdingKind::Boards);
  CHECK(plan::kindOf({69, 40}) == job::CladdingKind::Boards);
  CHECK(plan::kindOf({70, 40}) == job::CladdingKind::BrickVeneer);
  CHECK(plan::kindOf({9, 20, job::CladdingKind::Sheet}) == job::CladdingKind::Sheet);
}

TEST_CASE(
    "in brick veneer the unit stands out over the cavity and its sill's flashing comes out below the sill bricks") {
  const auto result = judged(windowIn(kBrick), shipped("au"));
  const plan::OpeningPlan& planned = result.plan.openings[0];
  CHECK(planned.unit.stands == -50);  // the cavity of 40 and 10 more: common practice, no source
  CHECK(planned.water.leaks.empty());
  CHECK(planned.water.behind_cladding.empty());
  const auto sill = std::find_if(planned.weather.pieces.begin(), planned.weather.pieces.end(),
                                 [](const plan::Piece& piece) { return piece.kind == plan::PieceKind::SillFlashing; });
  REQUIRE(sill != planned.weather.pieces.end());
  // Gap 5 from memory; by hand: bricks of 110 on edge at 15° are 113.88 high and fall 36.17 over 135; less the 10 under
  // the unit, and 10 turned down.
  CHECK(sill->width >= 5 + 113.88 + 36.17 - 10 + 10);
  CHECK(result.find("movement gap") != nullptr);
  const std::string clad = stepText(windowIn(kBrick), result.plan, StepKind::Cladding);
  CHECK(clad.find("Course by course") != std::string::npos);
  CHECK(clad.find("board") == std::string::npos);
}

TEST_CASE("a brick's cavity is held to what the practice allows") {
  // ABCB Housing Provisions 5.7: 25 to 75 clear.
  CHECK(judged(windowIn({110, 25, job::CladdingKind::BrickVeneer}), shipped("au")).find("brick cavity") == nullptr);
  CHECK(judged(windowIn({110, 20, job::CladdingKind::BrickVeneer}), shipped("au")).find("brick cavity") != nullptr);
  CHECK(judged(windowIn({110, 75, job::CladdingKind::BrickVeneer}), shipped("au")).find("brick cavity") == nullptr);
  CHECK(judged(windowIn({110, 80, job::CladdingKind::BrickVeneer}), shipped("au")).find("brick cavity") != nullptr);
}

TEST_CASE("a new unit in an old hole under a low plate: the lintel drawn over it is no fault of it") {
  job::Job job = windowIn({16, 0});
  job.walls[0].top[0].z = job.walls[0].top[1].z = job.openings[0].sill + job.openings[0].height + 150;
  CHECK(judged(job, shipped("au")).find("lintel room") != nullptr);
  job.openings[0].existing = true;
  CHECK(judged(job, shipped("au")).find("lintel room") == nullptr);
}

TEST_CASE("a new unit in an old hole: no membrane and no flashings, old paint and board told first") {
  job::Job job = windowIn({16, 0});
  job.openings[0].existing = true;
  const auto result = judged(job, shipped("au"));
  for (const StepKind none : {StepKind::Membrane, StepKind::SillFlashing, StepKind::JambFlashings,
                              StepKind::HeadFlashing, StepKind::HeadFlap}) {
    CHECK(!hasStep(result.plan, none));
  }
  CHECK(hasStep(result.plan, StepKind::TakeOut));
  CHECK(result.plan.openings[0].weather.pieces.empty());
  const auto steps = plan::orderOfWork(job, result.plan, 0, shipped("au"));
  REQUIRE(steps.size() > 2);
  CHECK(steps[0].caution.find("Lead: old paint of before 1976") == 0);
  CHECK(steps[0].caution.find("Asbestos: old board") != std::string::npos);
  const auto* told = result.find("replacement");
  REQUIRE(told != nullptr);
  CHECK(told->say.find("Not judged") != std::string::npos);
  CHECK(result.findings.cautions.front().find("Lead") == 0);
  // A house younger than the practice's years has neither.
  CHECK(result.find("old paint and board") != nullptr);
  CHECK(result.verdict() == check::Verdict::Attend);
  job.built = 2010;
  CHECK(judged(job, shipped("au")).find("old paint and board") == nullptr);
  CHECK(plan::oldHouseCautions(job, shipped("au")).empty());
  job.built = 1980;  // board before 2004, paint before 1976
  CHECK(plan::oldHouseCautions(job, shipped("au")).size() == 1);
  // Its packers and screws are planned as ever.
  CHECK(!result.plan.openings[0].packing.points.empty());
  CHECK(!result.plan.openings[0].fixings.points.empty());
  // What is not there is not bought.
  const takeoff::Takeoff list = takeoff::takeOff(job, shipped("au"), result.plan);
  CHECK(list.walls[0].membrane == 0);
  CHECK(list.walls[0].cladding == 0);
  job.openings[0].unit.fin = 30;
  CHECK(judged(job, shipped("au")).find("flashing", "no wall to lie on") != nullptr);
}

TEST_CASE("a fall is measured from the storey's floor to the ground") {
  job::Job job = windowIn({16, 0});
  job.openings[0].unit.kind = job::UnitKind::AwningWindow;
  job.openings[0].room = job::Room::Bedroom;
  job.walls[0].above_ground = 400;
  const auto ground = judged(job, shipped("au"));
  job.walls[0].level = 2700;
  const auto upper = judged(job, shipped("au"));
  const auto warned = [](const Judged& result) {
    const auto* falls = result.find("falls");
    return falls != nullptr && falls->severity != check::Severity::Note;
  };
  CHECK(!warned(ground));
  CHECK(warned(upper));  // ABCB Housing Provisions 11.3.7: bedrooms, floor 2 m or more above the surface below
}

TEST_CASE("a wall between two rooms has no weather, no wind and no falls") {
  job::Job job = windowIn({16, 0});
  job.walls[0].inside = true;
  job.walls[0].above_ground = 3000;
  const auto result = judged(job, shipped("au"));
  CHECK(result.plan.openings[0].weather.pieces.empty());
  CHECK(!hasStep(result.plan, StepKind::Membrane));
  CHECK(!hasStep(result.plan, StepKind::TakeOut));
  for (const char* none : {"water", "head flashing", "wind", "wind rating", "label", "falls", "replacement"}) {
    CHECK(result.find(none) == nullptr);
  }
}

TEST_CASE("fixings into steel are not judged by timber rules, and steel is listed as such") {
  job::Job job = windowIn({16, 0});
  job.walls[0].studs = job::StudKind::Steel;
  const auto result = judged(job, shipped("au"));
  CHECK(result.find("fixing load", "not judged by the rules for timber") != nullptr);
  for (const plan::Fixing& fixing : result.plan.openings[0].fixings.points) CHECK(!fixing.capacity_n);
  const takeoff::Takeoff list = takeoff::takeOff(job, shipped("au"), result.plan);
  CHECK(std::any_of(list.timber.begin(), list.timber.end(),
                    [](const takeoff::TimberSection& section) { return section.grade == "steel"; }));
}

TEST_CASE("a double stud wall is as deep as its rows and their gap, and both are listed: units go into the outer one") {
  job::Job job = windowIn({16, 0});
  const auto one = judged(job, shipped("au"));
  job.walls[0].second_row = job::SecondRow{70, 40};
  const auto two = judged(job, shipped("au"));
  const auto& told = two.findings.walls[0];
  CHECK(std::any_of(told.begin(), told.end(), [](const check::Finding& each) { return each.about == "second row"; }));
  CHECK(two.plan.walls[0].spec.depth() == one.plan.walls[0].spec.depth() + 110);
  const auto pieces = [&](const auto& result, double depth) {
    int count = 0;
    for (const auto& section : takeoff::takeOff(job, shipped("au"), result.plan).timber) {
      if (section.depth != depth) continue;
      for (const auto& line : section.lines) count += line.count;
    }
    return count;
  };
  CHECK(pieces(two, 70) == pieces(one, 90));
  CHECK(pieces(two, 90) == pieces(one, 90));
  const auto& before = one.plan.openings[0].fixings.points;
  const auto& after = two.plan.openings[0].fixings.points;
  REQUIRE(before.size() == after.size());
  for (std::size_t i = 0; i < before.size(); ++i) CHECK(after[i].past_stud == before[i].past_stud);
}

TEST_CASE("a wall that carries nothing: where the rule set has a figure it is told, a gable elsewhere is not judged") {
  job::Job job = windowIn({16, 0});
  job.walls[0].top = {{0, job.openings[0].sill + job.openings[0].height + 400},
                      {job.walls[0].length, job.openings[0].sill + job.openings[0].height + 500}};
  CHECK(judged(job, shipped("au")).find("lintel", "a gable that carries nothing") != nullptr);
  CHECK(judged(job, shipped("us")).find("lintel", "a gable that carries nothing") != nullptr);
  job.walls[0].top[1].z = job.walls[0].top[0].z;  // its figure is of a nailing surface parallel to the opening's head
  CHECK(judged(job, shipped("us")).find("lintel", "R602.7.4") != nullptr);
  job.walls[0].supports = job::Supports{3000, 0.9};
  CHECK(judged(job, shipped("us")).find("lintel", "R602.7.4") == nullptr);
}

TEST_CASE("a lintel tight under the plates: no jack studs over it, and the framing's check says so") {
  job::Job job = windowIn({16, 0});
  const auto jackStudsAbove = [](const Judged& of) {
    const auto& members = of.plan.walls[0].frame.members;
    return std::count_if(members.begin(), members.end(),
                         [](const plan::Member& each) { return each.part == plan::MemberPart::JackStudAbove; });
  };
  const double head = job.openings[0].sill + job.openings[0].height;
  job.openings[0].lintel = job::Lintel{140, 45, 2};
  const auto under = [&](double room) {  // two plates of 45 over it
    job.walls[0].top[0].z = job.walls[0].top[1].z = head + 140 + room + 90;
    return judged(job, shipped("au"));
  };
  const auto tight = under(0);
  CHECK(jackStudsAbove(tight) == 0);
  CHECK(tight.find("lintel room") == nullptr);
  CHECK(stepText(job, tight.plan, StepKind::CheckFraming).find("tight under the top plate") != std::string::npos);
  const auto apart = under(150);
  CHECK(jackStudsAbove(apart) > 0);
  CHECK(stepText(job, apart.plan, StepKind::CheckFraming).find("tight under") == std::string::npos);
}

TEST_CASE("a sub-sill: the frame stands on it in the unit's height, it goes in first and is listed") {
  job::Job job = windowIn({16, 0});
  const auto without = judged(job, shipped("au"));
  job.openings[0].unit.sub_sill = job::SubSill{30, 120};
  const auto with = judged(job, shipped("au"));
  const plan::UnitSpec& unit = with.plan.openings[0].unit;
  const plan::UnitParts parts = plan::partsOf(unit);
  CHECK(parts.frame.height() == plan::partsOf(without.plan.openings[0].unit).frame.height() - 30);
  CHECK(parts.frame.z0 == parts.in_reveal.z0 + 30);
  CHECK(with.plan.openings[0].stand.z == without.plan.openings[0].stand.z);
  CHECK(with.plan.openings[0].mass.glass_kg < without.plan.openings[0].mass.glass_kg);
  CHECK(stepText(job, with.plan, StepKind::PackSill).find("sub-sill") != std::string::npos);
  CHECK(stepText(job, with.plan, StepKind::LiftIn).find("Its foot on the sub-sill") != std::string::npos);
  const auto sub_sills = takeoff::takeOff(job, shipped("au"), with.plan).sub_sills;
  REQUIRE(sub_sills.size() == 1);
  CHECK(sub_sills.begin()->first.length == unit.width - (unit.reveal ? 2 * unit.reveal->thickness : 0));
  // By hand: its outer edge 35 before the studs, as the frame's, sheds clear of boards of 16; flush with a frame that
  // is 20 behind their face it doesn't.
  job.openings[0].unit.stands = -35;
  job.openings[0].unit.sub_sill->depth = unit.frame.depth;
  CHECK(judged(job, shipped("au")).find("sub-sill") == nullptr);
  job.openings[0].unit.stands = 4;
  CHECK(judged(job, shipped("au")).find("sub-sill", "20 mm behind") != nullptr);
}

TEST_CASE("a lintel is checked by its own grade, one that the table has not is not judged") {
  job::Job job = windowIn({16, 0});
  job.walls[0].supports = job::Supports{3000, 0.9};
  job.openings[0].lintel = job::Lintel{140, 45, 1, "MGP15"};
  CHECK(judged(job, shipped("au")).find("lintel", "MGP15") != nullptr);
  job.openings[0].lintel = job::Lintel{200, 45, 1, "LVL 13"};
  const auto result = judged(job, shipped("au"));
  CHECK(result.find("lintel", "not judged") != nullptr);
  const takeoff::Takeoff list = takeoff::takeOff(job, shipped("au"), result.plan);
  CHECK(std::any_of(list.timber.begin(), list.timber.end(),
                    [](const takeoff::TimberSection& section) { return section.grade == "LVL 13"; }));
}

TEST_CASE("a corner of the house that stands open is told at both its walls, a closed one is not") {
  job::Job job = windowIn({16, 0});
  job::Wall next = job.walls[0];
  next.name = "side";
  next.length = 4000;
  next.at_x = 9000;
  next.at_y = 90;  // behind the front's studs
  next.turn_degrees = 90;
  job.walls.push_back(next);
  const auto told = [&](std::size_t wall) {
    const auto findings = judged(job, shipped("au")).findings.walls[wall];
    return std::count_if(findings.begin(), findings.end(),
                         [](const check::Finding& finding) { return finding.about == "house corner"; });
  };
  CHECK(told(0) == 0);
  job.walls[1].at_x = 9040;
  CHECK(told(0) == 1);
  CHECK(told(1) == 1);
  job.walls[1].at_x = 9000;
  job.walls[1].at_y = 390;
  CHECK(told(0) == 1);
  job.walls[1].level = 2700;  // above it: no corner of one storey
  CHECK(told(0) == 0);
  job.walls[1].level.reset();
  job.walls[1].at_y = 2000;  // too far to be meant to meet
  CHECK(told(0) == 0);
}
