#include "plan/hold/wind.h"

#include "plan/house_corners.h"
#include "support/catch.h"
#include "support/simple_job.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using testing::shipped;
using testing::simpleJob;

namespace {

job::Wall wallAt(double x, double y, double turn, double length) {
  job::Wall wall;
  wall.length = length;
  wall.stud = job::StudSection{90, 45};
  wall.at_x = x;
  wall.at_y = y;
  wall.turn_degrees = turn;
  return wall;
}

/// Four walls: the long ones whole, the short ones between them.
job::Job house() {
  job::Job job;
  job.walls = {wallAt(0, 0, 0, 7200), wallAt(7200, 90, 90, 4620), wallAt(7200, 4800, 180, 7200),
               wallAt(0, 4710, 270, 4620)};
  return job;
}

bool nearCorner(const job::Job& job, double left, double width, job::UnitKind kind = job::UnitKind::FixedWindow,
                std::size_t wall = 0) {
  const auto& practice = shipped("au");
  job::Opening opening;
  opening.left = left;
  opening.width = opening.unit.width = width;
  opening.unit.kind = kind;
  return plan::isNearCorner(job.walls[wall], plan::houseCorners(job, practice)[wall], opening, practice.strength.wind);
}

}  // namespace

TEST_CASE("all ends of four walls in a ring are corners of the house, told from their outside faces") {
  const auto ends = plan::houseCorners(house(), shipped("au"));
  for (const auto& wall : ends) {
    CHECK(wall[0].corner);
    CHECK(wall[1].corner);
  }
  CHECK_THAT(ends[0][0].past_end, WithinAbs(0, 1e-6));
  CHECK_THAT(ends[0][1].past_end, WithinAbs(0, 1e-6));
  // The short walls stop a stud's depth short of the corners.
  CHECK_THAT(ends[1][0].past_end, WithinAbs(90, 1e-6));
  CHECK_THAT(ends[1][1].past_end, WithinAbs(90, 1e-6));
}

TEST_CASE("the inner corner of an L and walls that go on in line are no corners: free ends are") {
  job::Job job;
  // Along the front to the L's inner corner, then outwards.
  job.walls = {wallAt(0, 0, 0, 4000), wallAt(4000, 0, 270, 3000)};
  auto ends = plan::houseCorners(job, shipped("au"));
  CHECK(ends[0][0].corner);
  CHECK_FALSE(ends[0][1].corner);
  CHECK_FALSE(ends[1][0].corner);
  CHECK(ends[1][1].corner);

  job.walls = {wallAt(0, 0, 0, 4000), wallAt(4000, 0, 0, 3000)};
  ends = plan::houseCorners(job, shipped("au"));
  CHECK_FALSE(ends[0][1].corner);
  CHECK_FALSE(ends[1][0].corner);
  CHECK(ends[1][1].corner);

  // Walls that were never placed all lie on each other: every end is free.
  job.walls = {wallAt(0, 0, 0, 4000), wallAt(0, 0, 0, 4000)};
  for (const auto& wall : plan::houseCorners(job, shipped("au"))) CHECK((wall[0].corner && wall[1].corner));
}

TEST_CASE("a bay window's obtuse corners are corners of the house") {
  job::Job job;
  job.walls = {wallAt(0, 0, 0, 2000), wallAt(2000, 0, 45, 1500)};
  const auto ends = plan::houseCorners(job, shipped("au"));
  CHECK(ends[0][1].corner);
  CHECK(ends[1][0].corner);
}

TEST_CASE("near a corner: a quarter of one panel within 1200 of it") {
  // AS 4055 by way of a question-and-answer page on AS 1288: 25 % of one panel's width within 1200 mm.
  CHECK(nearCorner(house(), 900, 1200));        // 300 of 1200 in the zone
  CHECK_FALSE(nearCorner(house(), 901, 1200));  // 299
  // Two panels of 600: 150 is enough.
  CHECK(nearCorner(house(), 1050, 1200, job::UnitKind::SlidingWindow));
  CHECK_FALSE(nearCorner(house(), 1051, 1200, job::UnitKind::SlidingWindow));
  CHECK(nearCorner(house(), 7200 - 900 - 1200, 1200));  // the other end
  // On a wall that stops 90 short of the corner the zone reaches 90 less along it.
  CHECK(nearCorner(house(), 810, 1200, job::UnitKind::FixedWindow, 1));
  CHECK_FALSE(nearCorner(house(), 811, 1200, job::UnitKind::FixedWindow, 1));
}

TEST_CASE("a class gives its pressures and says how they come about") {
  const auto load = plan::windOn(job::Wind{std::string("N3")}, false, shipped("au"));
  CHECK_THAT(*load.ultimate_kpa, WithinAbs(1.35, 1e-9));
  CHECK(load.how == "0.6 × 50² × 0.9 = 1.35 kPa (N3, general)");
  REQUIRE(load.source != nullptr);
  CHECK(load.source->value == 50);
  const auto corner = plan::windOn(job::Wind{std::string("N3")}, true, shipped("au"));
  CHECK_THAT(*corner.ultimate_kpa, WithinAbs(2.025, 1e-9));
  CHECK(corner.how == "0.6 × 50² × 1.35 = 2.025 kPa (N3, near a corner)");
  // A practice whose classes name no pressure near corners gives the general one and says so.
  const auto zealand = plan::windOn(job::Wind{std::string("EH")}, true, shipped("nz"));
  CHECK(*zealand.ultimate_kpa == 2.13);
  CHECK(*zealand.water_kpa == 0.455);
  CHECK(zealand.how.find("has no pressure near a corner") != std::string::npos);
}

TEST_CASE("each class of a region's table blows harder than the one before, and harder near a corner") {
  for (const char* name : {"au", "nz", "uk", "us"}) {
    const auto& practice = shipped(name);
    for (const bool corner : {false, true}) {
      double before = 0;
      char family = 0;
      for (const auto& one : practice.strength.wind.classes) {
        if (one.name.front() != family && name == std::string("au")) before = 0;  // N and C are two tables
        family = one.name.front();
        const auto load = plan::windOn(job::Wind{one.name}, corner, practice);
        CAPTURE(name, one.name, corner);
        REQUIRE(load.ultimate_kpa.has_value());
        CHECK(*load.ultimate_kpa > before);
        CHECK(*load.ultimate_kpa >= *plan::windOn(job::Wind{one.name}, false, practice).ultimate_kpa);
        before = *load.ultimate_kpa;
      }
    }
  }
}

TEST_CASE("a stated pressure is taken as it is: without wind there is none") {
  const auto stated = plan::windOn(job::StatedPressure{1.2}, true, shipped("us"));
  CHECK(*stated.ultimate_kpa == 1.2);
  CHECK_FALSE(stated.serviceability_kpa.has_value());
  CHECK(stated.how == "1.2 kPa, as the job states");
  const auto none = plan::windOn(std::nullopt, false, shipped("au"));
  CHECK_FALSE(none.ultimate_kpa.has_value());
  CHECK_FALSE(none.how.empty());
  const auto unknown = plan::windOn(job::Wind{std::string("Z9")}, false, shipped("au"));
  CHECK_FALSE(unknown.ultimate_kpa.has_value());
}

TEST_CASE("the plan carries the wind of each opening's own place") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, "au");
  job.wind = job::Wind{std::string("N2")};
  job.openings.push_back(job.openings[0]);
  job.openings[1].left = 300;
  const auto plan = plan::makePlan(job, shipped("au"));
  CHECK_FALSE(plan.openings[0].wind.near_corner);
  CHECK(plan.openings[1].wind.near_corner);
  for (std::size_t i = 0; i < 2; ++i) {
    const auto alone = plan::windOn(job.wind, plan.openings[i].wind.near_corner, shipped("au"));
    CHECK(alone.ultimate_kpa == plan.openings[i].wind.ultimate_kpa);
    CHECK(testing::planAlone(job, i, shipped("au")).wind.how == plan.openings[i].wind.how);
  }
}
