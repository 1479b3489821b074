// The order of work: which steps apply, that they say what they have to, and a crew's list for the whole job.

#include "plan/work/order_of_work.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>

#include "support/catch.h"
#include "support/demo_jobs.h"
#include "support/simple_job.h"

namespace {

using namespace sillwright;
using namespace sillwright::plan;
using sillwright::testing::DemoJob;
using sillwright::testing::demoJobs;

struct Named {
  DemoJob demo;
  std::size_t opening = 0;

  [[nodiscard]] std::vector<StepKind> kinds() const { return stepsAt(demo.plan.openings[opening]); }
  [[nodiscard]] std::vector<Step> steps() const { return orderOfWork(demo.job, demo.plan, opening, *demo.practice); }
  [[nodiscard]] Step step(StepKind kind) const {
    for (auto& each : steps()) {
      if (each.kind == kind) return each;
    }
    FAIL("no such step: " << toWord(kind));
    return {};
  }
  [[nodiscard]] bool has(StepKind kind) const { return stepNumber(kinds(), kind) > 0; }
};

Named named(const char* file, const char* name) {
  Named found{testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/" + file)};
  const auto& openings = found.demo.job.openings;
  const auto at =
      std::find_if(openings.begin(), openings.end(), [&](const job::Opening& opening) { return opening.name == name; });
  REQUIRE(at != openings.end());
  found.opening = static_cast<std::size_t>(at - openings.begin());
  return found;
}

std::string joined(const Step& step) {
  std::string all = step.title + " " + step.what + " " + step.before_going_on;
  if (!step.caution.empty()) all += " " + step.caution;
  for (const auto& part : step.parts) all += " " + part;
  return all;
}

bool says(const Step& step, const std::string& words) { return joined(step).find(words) != std::string::npos; }

}  // namespace

TEST_CASE("steps that don't apply are left out") {
  const Named gable = named("boatshed.toml", "H1");  // a fixed window in a gable, flashed on site
  CHECK(gable.has(StepKind::HeadFlashing));
  CHECK(gable.has(StepKind::HeadFlap));
  CHECK(gable.has(StepKind::SillFlashing));
  CHECK(gable.has(StepKind::JambFlashings));
  CHECK(!gable.has(StepKind::TryOpening));            // nothing opens
  const Named fitted = named("boatshed.toml", "J2");  // under an eave, its flashings fitted
  CHECK(!fitted.has(StepKind::HeadFlashing));
  CHECK(!fitted.has(StepKind::HeadFlap));
  CHECK(!fitted.has(StepKind::SillFlashing));  // freed in one step with the jambs'
  CHECK(fitted.has(StepKind::JambFlashings));
  CHECK(fitted.has(StepKind::TryOpening));
  const Named wet = named("boatshed.toml", "L2");  // a bare frame
  CHECK(!wet.has(StepKind::BoreReveal));
  const Named door = named("boatshed.toml", "J1");  // on the floor
  CHECK(door.has(StepKind::SillFlashing));          // its pan
  CHECK(door.has(StepKind::JambFlashings));
}

TEST_CASE(
    "each step says what is done, with what, and what is checked: the numbers are the plan's and the practice's") {
  for (const auto& demo : demoJobs()) {
    for (std::size_t i = 0; i < demo.plan.openings.size(); ++i) {
      CAPTURE(demo.job.file, demo.job.openings[i].name);
      const auto steps = orderOfWork(demo.job, demo.plan, i, *demo.practice);
      const auto kinds = stepsAt(demo.plan.openings[i]);
      REQUIRE(steps.size() == kinds.size());
      CHECK(std::is_sorted(kinds.begin(), kinds.end()));
      CHECK(orderFaults(kinds).empty());
      for (std::size_t k = 0; k < steps.size(); ++k) {
        CAPTURE(toWord(kinds[k]), steps[k].title, steps[k].what);
        CHECK(steps[k].kind == kinds[k]);
        CHECK(!steps[k].title.empty());
        CHECK(steps[k].title.size() <= 40);  // a few words
        CHECK(steps[k].what.size() > 20);
        CHECK(!steps[k].tools.empty());
        CHECK(steps[k].before_going_on.size() > 20);
        CHECK(joined(steps[k]).find("  ") == std::string::npos);
        CHECK(joined(steps[k]).find("..") == std::string::npos);
      }
    }
  }
  const Named gable = named("boatshed.toml", "H1");
  // 1830 + 2 × 150 (common practice, no source; ABCB Housing Provisions 7.5.6(a)(i): 110 past the reveal at least)
  CHECK(says(gable.step(StepKind::SillFlashing), "sill flashing 230 mm wide, 2130 mm long"));
  CHECK(says(gable.step(StepKind::SillFlashing), "110 mm at least"));
  // QBCC Standards and Tolerances, as in the practice: 4 in 2000.
  CHECK(says(gable.step(StepKind::ReadOpening), "at most 4 mm in 2000 mm"));
  CHECK(says(gable.step(StepKind::Membrane), "150 mm"));  // AS 4200.2:2017, as summarised: lap 150
  CHECK(says(gable.step(StepKind::HeadFlashing), "upstand 75 mm"));
  CHECK(says(gable.step(StepKind::LiftIn), "never flat"));
  CHECK(says(gable.step(StepKind::FixFirstJamb), "cable"));
  CHECK(says(gable.step(StepKind::CheckFraming), "engineer"));
}

TEST_CASE("the practice's own words and units") {
  const Named garage = named("garage-header.toml", "A");
  CHECK(says(garage.step(StepKind::PackSill), "shims"));
  CHECK(says(garage.step(StepKind::CheckFraming), "header"));
  CHECK(says(garage.step(StepKind::Membrane), "wrap"));
  CHECK(says(garage.step(StepKind::LiftIn), "nail fin"));
  CHECK(says(garage.step(StepKind::CheckFraming), "48 1/2 in × 48 1/2 in"));
  for (const auto& step : garage.steps()) CHECK(joined(step).find(" mm") == std::string::npos);
}

TEST_CASE("packers of a step are those of the plan") {
  const Named yard = named("workshop-window.toml", "Y1");
  const auto& packing = yard.demo.plan.openings[yard.opening].packing;
  std::size_t points = 0;
  for (const auto& point : packing.points) points += point.side == Side::Sill && point.stack.pieces > 0 ? 1 : 0;
  std::size_t told = 0;
  for (const auto& part : yard.step(StepKind::PackSill).parts) {
    told += 1 + static_cast<std::size_t>(std::count(part.begin(), part.end(), ','));
  }
  CHECK(told == points);
}

TEST_CASE("a step's word is its own, and is found by it") {
  std::set<std::string> words;
  for (std::size_t i = 0; i < kStepKinds; ++i) {
    const auto kind = static_cast<StepKind>(i);
    CHECK(words.insert(toWord(kind)).second);
    CHECK(stepNamed(toWord(kind)) == kind);
  }
  CHECK(!stepNamed("tea"));
}

TEST_CASE("a crew does each step of each opening once, in an order that each opening allows") {
  for (const auto& demo : demoJobs()) {
    CAPTURE(demo.job.file);
    std::map<std::size_t, std::vector<StepKind>> done;
    for (const auto& task : crewOrder(demo.plan)) {
      CHECK(!task.title.empty());
      CHECK(!task.openings.empty());
      for (const std::size_t opening : task.openings) {
        CHECK(demo.job.openings[opening].wall == task.wall);
        const auto applying = stepsAt(demo.plan.openings[opening]);
        for (const StepKind kind : task.steps) {
          if (stepNumber(applying, kind) > 0) done[opening].push_back(kind);
        }
      }
    }
    for (std::size_t i = 0; i < demo.job.openings.size(); ++i) {
      CAPTURE(demo.job.openings[i].name);
      CHECK(done[i] == stepsAt(demo.plan.openings[i]));
    }
  }
}

TEST_CASE(
    "a crew checks and reads every opening before it cuts anything, and closes nothing before all is read again") {
  const Named house = named("boatshed.toml", "J1");
  const auto tasks = crewOrder(house.demo.plan);
  const auto first = [&](StepKind kind) {
    return std::find_if(tasks.begin(), tasks.end(), [&](const CrewTask& task) {
      return std::find(task.steps.begin(), task.steps.end(), kind) != task.steps.end();
    });
  };
  const auto last = [&](StepKind kind) {
    auto at = tasks.end();
    for (auto i = tasks.begin(); i != tasks.end(); ++i) {
      if (std::find(i->steps.begin(), i->steps.end(), kind) != i->steps.end()) at = i;
    }
    return at;
  };
  CHECK(last(StepKind::ReadOpening) < first(StepKind::Membrane));
  CHECK(last(StepKind::ReadAgain) < first(StepKind::SealInside));
  CHECK(last(StepKind::HeadFlap) < first(StepKind::Cladding));
}

TEST_CASE("an order that can't be built is told with the reason, one that can be is not") {
  std::vector<StepKind> order;
  for (std::size_t i = 0; i < kStepKinds; ++i) order.push_back(static_cast<StepKind>(i));
  CHECK(orderFaults(order).empty());
  // Harmless: the reveal is bored before the membrane is hung, the two readings at the end change places.
  CHECK(orderFaults(std::vector{StepKind::CheckFraming, StepKind::BoreReveal, StepKind::Membrane, StepKind::LiftIn})
            .empty());
  CHECK(orderFaults(std::vector{StepKind::ReadAgain, StepKind::TryOpening}).empty());
  const auto faults = orderFaults(std::vector{StepKind::LiftIn, StepKind::PackSill});
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].done == StepKind::LiftIn);
  CHECK(faults[0].before == StepKind::PackSill);
  CHECK(faults[0].why == "The unit is set down on packers that are level already.");
  std::reverse(order.begin(), order.end());
  CHECK(orderFaults(order).size() > 20);
}

TEST_CASE("a jamb flashing is said to lie over the sill's by what it is cut for") {
  for (const DemoJob& demo : demoJobs()) {
    if (demo.practice->display != practice::Display::Millimetres) continue;
    for (std::size_t i = 0; i < demo.job.openings.size(); ++i) {
      const auto& pieces = demo.plan.openings[i].weather.pieces;
      const auto jamb = std::find_if(pieces.begin(), pieces.end(),
                                     [](const Piece& piece) { return piece.kind == PieceKind::JambFlashing; });
      if (jamb == pieces.end() || demo.job.openings[i].sill <= 0) continue;
      const double high = headLineOf(demo.job.openings[i]).sideHeight(jamb->side);
      const double over = jamb->length - high - demo.practice->weather.flashing.jamb_past.value;
      for (const Step& step : orderOfWork(demo.job, demo.plan, i, *demo.practice)) {
        if (step.kind != StepKind::JambFlashings) continue;
        CAPTURE(demo.job.title, demo.job.openings[i].name, step.what);
        CHECK(step.what.find(" by " + std::to_string(std::lround(over)) + " mm") != std::string::npos);
      }
    }
  }
}

TEST_CASE("no task of a crew names a step that none of its openings has") {
  for (const DemoJob& demo : demoJobs()) {
    for (const CrewTask& task : crewOrder(demo.plan)) {
      for (const StepKind kind : task.steps) {
        CAPTURE(demo.job.title, task.title, toWord(kind));
        CHECK(std::any_of(task.openings.begin(), task.openings.end(), [&](std::size_t opening) {
          return stepNumber(stepsAt(demo.plan.openings[opening]), kind) > 0;
        }));
      }
    }
  }
}

TEST_CASE("the steps of a unit without a fin speak of none") {
  for (const char* practice : {"au", "uk"}) {
    job::Job job = testing::simpleJob(job::UnitKind::AwningWindow, 1200, 1000, practice);
    job.openings[0].unit.fin = 0;
    const practice::Practice& rules = testing::shipped(practice);
    for (const Step& step : orderOfWork(job, makePlan(job, rules), 0, rules)) {
      CAPTURE(practice, joined(step));
      CHECK_FALSE(says(step, " " + rules.words.fin));
    }
  }
}

TEST_CASE("the sealant inside is as long in the steps as in the list: a door's foot is bedded") {
  const practice::Practice& rules = testing::shipped("au");
  const job::Job job = testing::simpleJob(job::UnitKind::HingedDoor, 900, 2100, "au");
  for (const Step& step : orderOfWork(job, makePlan(job, rules), 0, rules)) {
    if (step.kind == StepKind::SealInside) CHECK(says(step, "5100 mm round the unit"));
  }
}

TEST_CASE(
    "under a slope each jamb has its own holes, a triangle's head stands for its jamb, sealant follows the slope") {
  const Named raked = named("gable-loft.toml", "R1");
  CHECK(says(raked.step(StepKind::BoreReveal), "holes: 3 in the left jamb, 5 in the right jamb, heads 3 mm"));
  CHECK(says(raked.step(StepKind::FixOtherJamb), "Pack and fix the right jamb"));
  const Named triangle = named("gable-loft.toml", "T1");
  CHECK(says(triangle.step(StepKind::BoreReveal), "holes: 3 in the left jamb, 5 in the head, heads 3 mm"));
  CHECK(triangle.step(StepKind::FixOtherJamb).title == "Fix the head");
  CHECK(says(triangle.step(StepKind::ReadOpening), "the upper corners; height at left; the sill"));
  CHECK(!says(triangle.step(StepKind::FixOtherJamb), "Packers to a firm fit"));
  CHECK(!says(triangle.step(StepKind::FixOtherJamb), "lintel"));  // the plates are its head
  // 775 up, 1550 along: 775 · (1 + 2 + √5) = 4057.95
  CHECK(says(triangle.step(StepKind::SealInside), "4058 mm round the unit"));
}

TEST_CASE("a sill flashing on the wall lies there before the packers that stand on it") {
  const Named gable = named("boatshed.toml", "H1");
  const auto kinds = gable.kinds();
  CHECK(stepNumber(kinds, StepKind::SillFlashing) < stepNumber(kinds, StepKind::PackSill));
  const auto faults = orderFaults(std::vector{StepKind::PackSill, StepKind::SillFlashing});
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].before == StepKind::SillFlashing);
}

TEST_CASE("what goes in with the unit is made ready before it and comes with it: only what came fitted isn't cut") {
  const practice::Practice& rules = testing::shipped("au");
  for (const job::Flashing how : {job::Flashing::Fitted, job::Flashing::OnUnit}) {
    job::Job job = testing::simpleJob(job::UnitKind::AwningWindow, 1200, 1000, "au");
    job.openings[0].unit.flashing = how;
    const Plan plan = makePlan(job, rules);
    for (const Piece& piece : plan.openings[0].weather.pieces) {
      if (piece.kind != PieceKind::SillFlashing && piece.kind != PieceKind::JambFlashing) continue;
      CHECK(piece.step == StepKind::LiftIn);
      CHECK(piece.fitted == (how == job::Flashing::Fitted));
    }
    const auto kinds = stepsAt(plan.openings[0]);
    CHECK(stepNumber(kinds, StepKind::SillFlashing) == 0);
    CHECK(stepNumber(kinds, StepKind::FirstJamb) < stepNumber(kinds, StepKind::JambFlashings));
    for (const Step& step : orderOfWork(job, plan, 0, rules)) {
      if (step.kind != StepKind::JambFlashings) continue;
      CHECK(says(step, "sill flashing"));
      CHECK(says(step, how == job::Flashing::Fitted ? "cut their ties" : "staple"));
    }
  }
}

TEST_CASE("a door stands in a pan under every practice, never straight on the floor") {
  for (const char* practice : {"au", "nz", "us", "uk"}) {
    const practice::Practice& rules = testing::shipped(practice);
    const job::Job job = testing::simpleJob(job::UnitKind::HingedDoor, 900, 2100, practice);
    const Plan plan = makePlan(job, rules);
    CAPTURE(practice);
    const auto& pieces = plan.openings[0].weather.pieces;
    CHECK(std::count_if(pieces.begin(), pieces.end(),
                        [](const Piece& piece) { return piece.kind == PieceKind::SillPan && !piece.fitted; }) == 1);
    CHECK(plan.openings[0].water.leaks.empty());
    const auto steps = orderOfWork(job, plan, 0, rules);
    const auto pan =
        std::find_if(steps.begin(), steps.end(), [](const Step& step) { return step.kind == StepKind::SillFlashing; });
    REQUIRE(pan != steps.end());
    CHECK(says(*pan, "sill pan"));
  }
}

TEST_CASE("a door too heavy to lift whole is lifted without its panel, which goes back when the frame is fixed") {
  const practice::Practice& rules = testing::shipped("au");
  job::Job job = testing::simpleJob(job::UnitKind::SlidingDoor, 3600, 2400, "au");
  job.openings[0].unit.mass_kg = 235;
  const Plan plan = makePlan(job, rules);
  const UnitMass& mass = plan.openings[0].mass;
  REQUIRE(mass.panel_kg > 50);
  const auto kinds = stepsAt(plan.openings[0]);
  CHECK(stepNumber(kinds, StepKind::PanelsOut) < stepNumber(kinds, StepKind::LiftIn));
  CHECK(stepNumber(kinds, StepKind::FixOtherJamb) < stepNumber(kinds, StepKind::PanelsIn));
  CHECK(stepNumber(kinds, StepKind::PanelsIn) < stepNumber(kinds, StepKind::TryOpening));
  for (const Step& step : orderOfWork(job, plan, 0, rules)) {
    if (step.kind != StepKind::LiftIn) continue;
    CHECK(says(step, std::to_string(std::lround(mass.lifted())) + " kg without its sliding panel"));
    CHECK(!says(step, "235"));
  }
  job.openings[0].unit.mass_kg = 30;
  CHECK(stepNumber(stepsAt(makePlan(job, rules).openings[0]), StepKind::PanelsOut) == 0);
}

TEST_CASE("a step names each tool once, and packers are parts and no tool") {
  for (const DemoJob& demo : demoJobs()) {
    for (std::size_t i = 0; i < demo.job.openings.size(); ++i) {
      for (const Step& step : orderOfWork(demo.job, demo.plan, i, *demo.practice)) {
        CAPTURE(step.title);
        CHECK(std::set<std::string>(step.tools.begin(), step.tools.end()).size() == step.tools.size());
        for (const std::string& tool : step.tools) CHECK(tool != demo.practice->words.packer + "s");
      }
    }
  }
}
