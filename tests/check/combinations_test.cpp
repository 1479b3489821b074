// Odd combinations: what is said where one thing is part of another, or where what a rule asks isn't told.
#include "check/judge.h"
#include "safety_support.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;

TEST_CASE("a door that is part of a window is a door: its drop, its glass, what it opens on to") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 2000, 2095, "au");
  job.walls[0].above_ground = 2600;
  job.openings[0].sill = 0;
  SECTION("joined on site") {
    job.openings[0].unit.coupled = {{.kind = job::UnitKind::HingedDoor, .width = 900, .height = {}, .mass_kg = {}}};
  }
  SECTION("one of its lights") {
    job.openings[0].unit.lights = {static_cast<job::Light>(job::UnitKind::FixedWindow),
                                   static_cast<job::Light>(job::UnitKind::HingedDoor)};
  }
  const auto findings = judged(job);
  REQUIRE(about(findings, "falls") != nullptr);
  CHECK(about(findings, "falls")->say.find("It is a door 2600 mm above the ground") != std::string::npos);
  REQUIRE(about(findings, "safety glass") != nullptr);
  CHECK(about(findings, "safety glass")->say.find("it is a door") != std::string::npos);
  CHECK(notJudged(job).find("what the door opens on to") != std::string::npos);
}

TEST_CASE("low glass over ground that isn't told, and a window beside a stair, are told as not judged") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, "au");
  job.openings[0].unit.glass->safety = true;
  setSightLine(job, 300);
  CHECK(notJudged(job).find("how far below its low glass the ground is") != std::string::npos);
  setSightLine(job, 1100);
  CHECK(notJudged(job).find("low glass") == std::string::npos);
  CHECK(notJudged(job).find("treads") == std::string::npos);
  job.openings[0].room = job::Room::Stair;
  CHECK(notJudged(job).find("how high the treads beside it are") != std::string::npos);
}

TEST_CASE("UK Approved Document B: a window as a way out, on a floor whose height isn't told") {
  job::Job job = simpleJob(job::UnitKind::CasementWindow, 910, 1210, "uk");
  job.openings[0].room = job::Room::Bedroom;
  setLowestOpening(job, 900);
  CHECK(notJudged(job).find("above 4500 mm a window is no way out in a fire") != std::string::npos);
  job.walls[0].above_ground = 2600;
  CHECK(notJudged(job).find("no way out in a fire") == std::string::npos);
}

TEST_CASE("a firm's rules on ways out may name a width and no area") {
  practice::Practice own = shipped("uk");
  own.safety.escape.area.reset();
  job::Job job = simpleJob(job::UnitKind::CasementWindow, 500, 1210, "uk");
  job.openings[0].room = job::Room::Bedroom;
  const auto plan = plan::makePlan(job, own);
  const auto findings = check::judge(job, own, plan).openings[0];
  REQUIRE(about(findings, "escape") != nullptr);
  CHECK(about(findings, "escape")->unit == "mm");
}
