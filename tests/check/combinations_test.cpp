// Labels, and odd combinations: what is said where one thing is part of another, or where what a rule asks isn't told.
#include "check/judge.h"
#include "safety_support.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;

TEST_CASE("the site's wind and rain against the unit's label") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 900, 900, "au");
  CHECK_FALSE(has(job, "label"));
  job.wind = job::Wind{std::string("N3")};
  const auto wind = plan::makePlan(job, shipped("au")).openings[0].wind;
  CHECK(notJudged(job).find("label") != std::string::npos);
  job.openings[0].unit.label = job::Label{*wind.ultimate_kpa - 0.01, std::nullopt, wind.water_kpa};
  auto findings = judged(job);
  REQUIRE(about(findings, "label") != nullptr);
  CHECK(about(findings, "label")->severity == check::Severity::Stop);
  // The class's own rating is what a label shows; the finding says what it is from.
  const double rating = shipped("au").strength.wind.find("N3")->rating_kpa->value;
  CHECK(rating > *wind.ultimate_kpa);
  job.openings[0].unit.label->ultimate_kpa = *wind.ultimate_kpa;
  findings = judged(job);
  REQUIRE(about(findings, "label") != nullptr);
  CHECK(about(findings, "label")->source.find("AS 2047") != std::string::npos);
  job.openings[0].unit.label->ultimate_kpa = rating;
  CHECK_FALSE(has(job, "label"));
  if (wind.water_kpa) {
    *job.openings[0].unit.label->water_kpa -= 0.01;
    findings = judged(job);
    REQUIRE(about(findings, "label") != nullptr);
    CHECK(about(findings, "label")->severity == check::Severity::Attend);
  }
}

TEST_CASE("a label whose unit no longer works at the site's serviceability wind is told, each with its own source") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 900, 900, "au");
  job.wind = job::Wind{std::string("N3")};
  const double service = *plan::makePlan(job, shipped("au")).openings[0].wind.serviceability_kpa;
  job.openings[0].unit.label = job::Label{9, service - 0.01, 1};
  const auto findings = judged(job);
  REQUIRE(about(findings, "label") != nullptr);
  CHECK(about(findings, "label")->severity == check::Severity::Attend);
  CHECK(about(findings, "label")->say.find("wind in service") != std::string::npos);
  CHECK(about(findings, "label")->status == practice::Status::Memory);  // of the speed that it is from
  job.openings[0].unit.label->serviceability_kpa = service;
  CHECK_FALSE(has(job, "label"));
  job.openings[0].unit.label->serviceability_kpa.reset();
  CHECK(notJudged(job).find("the label's wind in service") != std::string::npos);
}

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
