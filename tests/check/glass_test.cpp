// Safety glass against the clauses it is asked for by, as quoted on public pages (the practice files name each).

#include <string>

#include "safety_support.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;

TEST_CASE("AU 8.4.5: a sight line below 500 wants safety glass, or ordinary glass of 5 mm up to 1.2 m²") {
  job::Job job = pane(500, 2400, "au");  // 1.2 m² of 5 mm
  setSightLine(job, 499);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].unit.glass->thickness = 4;
  CHECK(has(job, "safety glass"));
  job = pane(500, 2420, "au");  // 1.21 m²
  setSightLine(job, 499);
  const auto findings = judged(job);
  const auto* finding = about(findings, "safety glass");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Attend);  // the job doesn't say what glass it is
  CHECK(finding->source.find("8.4.5") != std::string::npos);
  CHECK_FALSE(finding->remedy.empty());
  CHECK_FALSE(finding->caution.empty());
  job.openings[0].unit.glass->safety = false;
  const auto ordinary = judged(job);
  CHECK(about(ordinary, "safety glass")->severity == check::Severity::Stop);
  job.openings[0].unit.glass->safety = true;
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].unit.glass->safety.reset();
  setSightLine(job, 500);
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("AU 8.4.4: a pane wider than 500 with its sight line below 500 may be taken for a doorway") {
  job::Job job = pane(501, 600, "au");
  setSightLine(job, 499);
  const auto findings = judged(job);
  const auto* finding = about(findings, "safety glass");
  REQUIRE(finding != nullptr);
  CHECK(finding->source.find("8.4.4") != std::string::npos);
  setSightLine(job, 500);
  CHECK_FALSE(has(job, "safety glass"));
  job = pane(500, 600, "au");
  setSightLine(job, 499);
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("NZS 4223.3: glass with its sight line below 800, of doors and wet rooms it says not judged") {
  job::Job job = pane(1000, 600, "nz");
  setSightLine(job, 799);
  CHECK(has(job, "safety glass"));
  setSightLine(job, 800);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].room = job::Room::Shower;
  CHECK(notJudged(job).find("glass in wet areas") != std::string::npos);
  const job::Job door = simpleJob(job::UnitKind::HingedDoor, 920, 2095, "nz");  // full height, ordinary glass
  CHECK(notJudged(door).find("glass in doors") != std::string::npos);
}

TEST_CASE("UK Approved Document K: small panes of 6 mm are let in, and a screen is the other way") {
  // 5.6 to 5.8, as quoted on public pages: no side longer than 250 but one, 0.5 m², 6 mm; a screen 800 high.
  job::Job job = pane(250, 1000, "uk");
  setSightLine(job, 700);
  job.openings[0].unit.glass->thickness = 6;
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].unit.glass->thickness = 5;
  CHECK(has(job, "safety glass"));
  job = pane(251, 1000, "uk");
  setSightLine(job, 700);
  job.openings[0].unit.glass->thickness = 6;
  const auto findings = judged(job);
  REQUIRE(about(findings, "safety glass") != nullptr);
  CHECK(about(findings, "safety glass")->remedy.find("75 mm") != std::string::npos);
}

TEST_CASE("AU 8.4.6 (2025): a kitchen's glass with its sight line below 2 m") {
  job::Job job = pane(400, 400, "au");
  job.openings[0].room = job::Room::Kitchen;
  setSightLine(job, 1999);
  CHECK(has(job, "safety glass"));
  setSightLine(job, 2000);
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("US R308.4.6: glass beside a stair with its bottom below 36 in") {
  constexpr double kInch = 25.4;
  job::Job job = pane(600, 500, "us");
  job.openings[0].room = job::Room::Stair;
  setSightLine(job, 35.9 * kInch);
  CHECK(has(job, "safety glass"));
  setSightLine(job, 36 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  job.practice = "au";
  CHECK(notJudged(job).find("glass beside stairs") != std::string::npos);
}

TEST_CASE("AU 8.4.2 and 8.4.3: doors, and panes nearer than 300 to a doorway") {
  CHECK(has(simpleJob(job::UnitKind::SlidingDoor, 1810, 2095, "au"), "safety glass"));
  job::Job job = pane(600, 800, "au");
  job.openings.push_back(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "au").openings[0]);
  job.openings[1].name = "D1";
  const auto plan = testing::planAlone(job, 0, shipped("au"));
  const double edge = job.openings[0].left + plan.stand.x + plan::partsOf(plan.unit).pane[0].x1;
  job.openings[1].left = edge + 299;
  CHECK(has(job, "safety glass"));
  job.openings[1].left = edge + 300;
  CHECK_FALSE(has(job, "safety glass"));
  // A fixed pane at the other hand of the door.
  job.openings[1].left = 3000 + plan.stand.x + plan::partsOf(plan.unit).pane[0].x0 - 940 - 250;
  CHECK(has(job, "safety glass"));
}

TEST_CASE("AU 8.4.6: in wet rooms a sight line below 2 m") {
  job::Job job = pane(600, 400, "au");
  job.openings[0].unit.reveal.reset();
  setSightLine(job, 1999);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].room = job::Room::WetArea;
  CHECK(has(job, "safety glass"));
  setSightLine(job, 2000);
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("US R308.4.3: 10 sq ft from 17 to 40 in is hazardous, from 18 in it isn't") {
  constexpr double kInch = 25.4;
  job::Job job = pane(10 * 144 * kInch / 23, 23 * kInch, "us");
  setSightLine(job, 17 * kInch);
  const auto findings = judged(job);
  const auto* finding = about(findings, "safety glass");
  REQUIRE(finding != nullptr);
  CHECK(finding->source.find("R308.4.3") != std::string::npos);
  setSightLine(job, 18 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  job = pane(9 * 144 * kInch / 23, 23 * kInch, "us");  // just 9 sq ft
  setSightLine(job, 17 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("AU 8.4.7: a large low pane is marked, not one no higher than 1 m, no wider than 500 or from 500 up") {
  job::Job job = pane(900, 1400, "au");
  setSightLine(job, 100);
  const auto findings = judged(job);
  const auto* finding = about(findings, "glass marking");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Note);
  for (const char* figure : {"20 mm", "700 mm", "1200 mm"}) CHECK(finding->say.find(figure) != std::string::npos);
  const auto marked = [](double width, double height, double sight) {
    job::Job other = pane(width, height, "au");
    setSightLine(other, sight);
    return has(other, "glass marking");
  };
  CHECK(marked(501, 1001, 499));
  CHECK_FALSE(marked(501, 1000, 499));
  CHECK_FALSE(marked(500, 1001, 499));
  CHECK_FALSE(marked(501, 1001, 500));
}

TEST_CASE("UK Approved Document K: glass below 800, or beside a doorway below 1500, all of a door's") {
  // As quoted in a trade newsletter.
  job::Job job = pane(1000, 600, "uk");
  setSightLine(job, 799);
  CHECK(has(job, "safety glass"));
  setSightLine(job, 800);
  CHECK_FALSE(has(job, "safety glass"));
  CHECK(has(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "uk"), "safety glass"));
  job.openings.push_back(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "uk").openings[0]);
  job.openings[1].name = "D1";
  const auto plan = testing::planAlone(job, 0, shipped("uk"));
  const double edge = job.openings[0].left + plan.stand.x + plan::partsOf(plan.unit).pane[0].x1;
  job.openings[1].left = edge + 299;
  setSightLine(job, 1499);
  CHECK(has(job, "safety glass"));
  setSightLine(job, 1500);
  CHECK_FALSE(has(job, "safety glass"));
  setSightLine(job, 1499);
  job.openings[1].left = edge + 300;
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("US R308.4.2 and R308.4.5: within 24 in of a door, and in wet rooms, with its bottom edge below 60 in") {
  constexpr double kInch = 25.4;
  job::Job job = pane(800, 500, "us");
  setSightLine(job, 59.9 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].room = job::Room::WetArea;
  CHECK(has(job, "safety glass"));
  setSightLine(job, 60 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].room.reset();
  setSightLine(job, 59.9 * kInch);
  job.openings.push_back(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "us").openings[0]);
  job.openings[1].name = "D1";
  const auto plan = testing::planAlone(job, 0, shipped("us"));
  const double edge = job.openings[0].left + plan.stand.x + plan::partsOf(plan.unit).pane[0].x1;
  job.openings[1].left = edge + 609;
  CHECK(has(job, "safety glass"));
  setSightLine(job, 60 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  setSightLine(job, 59.9 * kInch);
  job.openings[1].left = edge + 611;
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("each light is judged by its own glass: laminated below, ordinary above") {
  job::Job job = pane(1000, 1800, "au");
  job::Unit& unit = job.openings[0].unit;
  unit.lights = {job::Light(job::UnitKind::FixedWindow), job::Light(job::UnitKind::FixedWindow)};
  unit.rows = {0, 600};
  unit.glass = job::Glass{4, 1, {}, {}, job::GlassType::Float};
  job.openings[0].sill = 200;
  const auto ordinary = judged(job);
  const auto* finding = about(ordinary, "safety glass");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Stop);  // float glass is known to be none
  unit.glass_of = {{2, 1, {}, {}, {}, {}, job::GlassType::Laminated}};
  CHECK_FALSE(has(job, "safety glass"));
  // The other way round: the low light is told of.
  unit.glass->type = job::GlassType::Toughened;
  unit.glass_of = {{2, 1, {}, {}, {}, {}, job::GlassType::Float}};
  const auto low = judged(job);
  REQUIRE(about(low, "safety glass") != nullptr);
  CHECK(about(low, "safety glass")->say.find("The glass of row 2, light 1") == 0);
  // Wired glass may be either: the job says it.
  unit.glass_of = {{2, 1, {}, {}, {}, {}, job::GlassType::Wired}};
  const auto wired = judged(job);
  REQUIRE(about(wired, "safety glass") != nullptr);
  CHECK(about(wired, "safety glass")->severity == check::Severity::Attend);
}
