// Safety glass against published limits: each is tried at its figure and just past it. No code itself was seen but
// Approved Document K; where a text quotes it the case says so.

#include "outside/limits.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;

namespace {

/// Whether the pane has to be of safety glass, its sight line this high.
bool wantsSafetyGlass(job::Job job, double sight_line, std::optional<job::Room> room = std::nullopt) {
  job.openings[0].room = room;
  setSightLine(job, sight_line);
  return has(job, "safety glass");
}

/// The same of a pane whose edge stands so far from a doorway in its wall.
bool wantsBeside(job::Job job, double away, double sight_line) {
  const auto plan = planAlone(job, 0, shipped(job.practice));
  const double edge = job.openings[0].left + plan.stand.x + plan::partsOf(plan.unit).pane[0].x1;
  job.openings.push_back(simpleJob(job::UnitKind::HingedDoor, 920, 2095, job.practice).openings[0]);
  job.openings[1].name = "D1";
  job.openings[1].left = edge + away;
  setSightLine(job, sight_line);
  return has(job, "safety glass");
}

bool wantsBand(double width, double height, double sight_line) {
  job::Job job = pane(width, height, "au");
  setSightLine(job, sight_line);
  return has(job, "glass marking");
}

}  // namespace

TEST_CASE("ABCB Housing Provisions 2022, 8.4.2(a): glass in doors is Grade A") {
  CHECK(has(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "au"), "safety glass"));
}

TEST_CASE("ABCB Housing Provisions 2025, 8.4.3(1), as quoted: side panels nearer than 300 to a doorway") {
  holdsPast(300, -1, [](double away) { return wantsBeside(pane(400, 600, "au"), away, 1000); });
}

TEST_CASE("ABCB Housing Provisions 2025, 8.4.4, as quoted: wider than 500 with a sight line below 500") {
  holdsPast(500, 1, [](double width) { return wantsSafetyGlass(pane(width, 600, "au"), 499); });
  holdsPast(500, -1, [](double sight_line) { return wantsSafetyGlass(pane(600, 600, "au"), sight_line); });
}

TEST_CASE("ABCB Housing Provisions 2025, 8.4.5, as quoted: sight line below 500, but for 5 mm up to 1.2 m2") {
  holdsPast(500, -1, [](double sight_line) { return wantsSafetyGlass(pane(500, 2500, "au"), sight_line); });
  holdsPast(1.2, 0.01, [](double area) { return wantsSafetyGlass(pane(500, area / 500 * 1e6, "au"), 499); });
  holdsPast(5, -1, [](double thickness) {
    job::Job job = pane(500, 2000, "au");
    job.openings[0].unit.glass->thickness = thickness;
    return wantsSafetyGlass(job, 499);
  });
}

TEST_CASE("ABCB Housing Provisions 2025, 8.4.6(1), as quoted: sight line below 2000 in wet rooms and kitchens") {
  for (const auto room : {job::Room::WetArea, job::Room::Kitchen}) {
    holdsPast(2000, -1, [&](double sight_line) { return wantsSafetyGlass(pane(400, 400, "au"), sight_line, room); });
  }
}

TEST_CASE("ABCB Housing Provisions 2025, 8.4.7(2) and (3), as quoted: the marking band and what goes without") {
  job::Job job = pane(900, 1800, "au");
  setSightLine(job, 200);
  for (const double figure : {20.0, 700.0, 1200.0}) CHECK(names(job, "glass marking", figure));
  holdsPast(1000, 1, [](double height) { return wantsBand(900, height, 200); });
  holdsPast(500, 1, [](double width) { return wantsBand(width, 1800, 200); });
  holdsPast(500, -1, [](double sight_line) { return wantsBand(900, 1800, sight_line); });
}

TEST_CASE("NZS 4223.3:2016, as told on glaziers' pages: low glass, a sight line below 800") {
  holdsPast(800, -1, [](double sight_line) { return wantsSafetyGlass(pane(1000, 600, "nz"), sight_line); });
}

TEST_CASE("Approved Document K 2013, diagram 5.1, as quoted: 800 from the floor, 1500 and 300 beside doors") {
  CHECK(has(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "uk"), "safety glass"));
  holdsPast(800, -1, [](double sight_line) { return wantsSafetyGlass(pane(1000, 600, "uk"), sight_line); });
  holdsPast(1500, -1, [](double sight_line) { return wantsBeside(pane(600, 600, "uk"), 250, sight_line); });
  holdsPast(300, -1, [](double away) { return wantsBeside(pane(600, 600, "uk"), away, 1000); });
}

TEST_CASE("Approved Document K 2013, 5.6 to 5.8, as quoted: small panes, and a screen before low glass") {
  const auto small = [](double side, double area, double thickness) {
    job::Job job = pane(side, area / side * 1e6, "uk");
    job.openings[0].unit.glass->thickness = thickness;
    return wantsSafetyGlass(job, 700);
  };
  holdsPast(250, 1, [&](double side) { return small(side, 0.4, 6); });
  holdsPast(0.5, 0.01, [&](double area) { return small(240, area, 6); });
  holdsPast(6, -1, [&](double thickness) { return small(240, 0.4, thickness); });
  job::Job job = pane(1000, 600, "uk");
  setSightLine(job, 700);
  CHECK(names(job, "safety glass", 800));
  CHECK(names(job, "safety glass", 75));
}

TEST_CASE("IRC 2015 R308.4.1 and R308.4.2, as quoted: doors, and below 60 in within 24 in beside them") {
  CHECK(has(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "us"), "safety glass"));
  holdsPast(60 * kFromInches, -1, [](double foot) { return wantsBeside(pane(600, 400, "us"), 300, foot); });
  holdsPast(24 * kFromInches, -1, [](double away) { return wantsBeside(pane(600, 400, "us"), away, 1000); });
}

TEST_CASE("IRC 2015 R308.4.3, as quoted: over 9 sq ft, bottom below 18 in, top above 36 in, walked on within 36 in") {
  holdsPast(9, 0.05, [](double square_feet) {
    return wantsSafetyGlass(pane(900, square_feet * kFromSquareFeet * 1e6 / 900, "us"), 17 * kFromInches);
  });
  holdsPast(18 * kFromInches, -1, [](double bottom) { return wantsSafetyGlass(pane(1200, 900, "us"), bottom); });
  holdsPast(36 * kFromInches, 1,
            [](double top) { return wantsSafetyGlass(pane(2000, top - 5 * kFromInches, "us"), 5 * kFromInches); });
  job::Job job = pane(1200, 900, "us");
  setSightLine(job, 17 * kFromInches);
  CHECK(names(job, "safety glass", 36 * kFromInches));
}

TEST_CASE("IRC R308.4.5 and R308.4.6 (2015, 2018), as quoted: below 60 in at wet surfaces, below 36 in at stairs") {
  holdsPast(60 * kFromInches, -1,
            [](double bottom) { return wantsSafetyGlass(pane(400, 400, "us"), bottom, job::Room::WetArea); });
  holdsPast(36 * kFromInches, -1,
            [](double bottom) { return wantsSafetyGlass(pane(400, 400, "us"), bottom, job::Room::Stair); });
}
