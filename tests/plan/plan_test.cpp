#include "plan/plan.h"

#include <string>

#include "plan/frame_walls.h"
#include "practice/read.h"
#include "support/catch.h"
#include "support/simple_job.h"

using namespace sillwright;

namespace {

const practice::Practice& au() {
  static const practice::Practice read = [] {
    auto result = practice::load("au", SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_SOURCE_DIR);
    REQUIRE(result.ok());
    return std::move(*result.value);
  }();
  return read;
}

job::Opening window(std::size_t wall, double left, double sill, double width, double height) {
  job::Opening opening;
  opening.wall = wall;
  opening.left = left;
  opening.sill = sill;
  opening.width = width;
  opening.height = height;
  opening.unit.kind = job::UnitKind::SlidingWindow;
  opening.unit.width = width - 20;
  opening.unit.height = height - 20;
  opening.unit.reveal = job::Reveal{18, 100};
  return opening;
}

job::Job twoWalls() {
  job::Job job;
  job.file = "two.toml";
  job.practice = "au";
  job.wind = job::Wind{std::string("N3")};
  for (const char* name : {"north", "east"}) {
    job::Wall wall;
    wall.name = name;
    wall.length = 9000;
    wall.top = {{0, 2700}, {9000, 2700}};
    job.walls.push_back(wall);
  }
  job.openings = {window(0, 5000, 900, 1530, 1060), window(1, 900, 900, 900, 1060), window(0, 1000, 900, 1200, 1060)};
  return job;
}

double headOf(const job::Job& job, const plan::Plan& plan, std::size_t i) {
  return job.openings[i].sill + plan.openings[i].stand.z + plan.openings[i].unit.height;
}

double sillGap(const plan::OpeningPlan& plan) {
  for (const auto& point : plan.packing.points) {
    if (point.side == plan::Side::Sill) return point.gap;
  }
  return -1;
}

}  // namespace

TEST_CASE("a job is planned: every opening stands, is packed and framed in its own wall") {
  const job::Job job = twoWalls();
  const plan::Plan plan = plan::makePlan(job, au());
  REQUIRE(plan.walls.size() == 2);
  REQUIRE(plan.openings.size() == 3);
  CHECK(plan.walls[0].openings == std::vector<std::int32_t>{2, 0});
  CHECK(plan.walls[1].openings == std::vector<std::int32_t>{1});
  for (std::size_t i = 0; i < 3; ++i) {
    const plan::OpeningPlan& each = plan.openings[i];
    CHECK(each.wall == job.openings[i].wall);
    CHECK(each.stand.fits);
    CHECK(each.remedies.empty());
    CHECK_FALSE(each.packing.points.empty());
    CHECK(each.as_built.trust == plan::Trust::Planned);
    CHECK(each.lintel.has_value());
    CHECK(each.assumed.size() == 3);
    // Alone it is planned the same: an opening depends on itself, its wall and the practice.
    const plan::OpeningPlan alone = testing::planAlone(job, i, au());
    CHECK(alone.stand.x == each.stand.x);
    CHECK(alone.stand.z == each.stand.z);
    CHECK(alone.packing.points.size() == each.packing.points.size());
  }
  for (const plan::WallPlan& wall : plan.walls) {
    CHECK(wall.frame.faults.empty());
    CHECK_FALSE(wall.head_line.has_value());
    CHECK(wall.not_in_line.empty());
    for (const plan::Member& member : wall.frame.members) {
      if (member.opening < 0) continue;
      CHECK(std::count(wall.openings.begin(), wall.openings.end(), member.opening) == 1);
    }
  }
}

TEST_CASE("a unit that doesn't fit brings remedies") {
  job::Job job = twoWalls();
  job.openings[0].unit.width = 1540;
  const plan::Plan plan = plan::makePlan(job, au());
  CHECK_FALSE(plan.openings[0].stand.fits);
  CHECK_FALSE(plan.openings[0].remedies.empty());
}

TEST_CASE("heads in line: each moves half of what they differ by") {
  job::Job job = twoWalls();
  for (job::Opening& opening : job.openings) opening.unit.height = opening.height - 40;
  job.openings[2].sill = 904;
  const plan::Plan apart = plan::makePlan(job, au());
  job.walls[0].align_heads = true;
  const plan::Plan plan = plan::makePlan(job, au());
  REQUIRE(headOf(job, apart, 2) == Approx(headOf(job, apart, 0) + 4));
  REQUIRE(plan.walls[0].head_line.has_value());
  CHECK(plan.walls[0].not_in_line.empty());
  CHECK(*plan.walls[0].head_line == Approx(headOf(job, apart, 0) + 2));
  CHECK(headOf(job, plan, 0) == Approx(*plan.walls[0].head_line));
  CHECK(headOf(job, plan, 2) == Approx(*plan.walls[0].head_line));
  // Packed again for the new height: the one that rose has more under it, the one that sank less.
  CHECK(sillGap(plan.openings[0]) == Approx(sillGap(apart.openings[0]) + 2));
  CHECK(sillGap(plan.openings[2]) == Approx(sillGap(apart.openings[2]) - 2));
  // The other wall asked for nothing.
  CHECK(plan.openings[1].stand.z == apart.openings[1].stand.z);
}

TEST_CASE("heads in line: one that can't rise keeps the line at its own height") {
  // The unit of the first opening stands already as high as its least head gap allows.
  job::Job job = twoWalls();
  job.walls[0].align_heads = true;
  job.openings[2].sill = 904;
  const plan::Plan plan = plan::makePlan(job, au());
  const plan::Stand alone = testing::planAlone(job, 0, au()).stand;
  REQUIRE(alone.z_high == Approx(alone.z));
  REQUIRE(plan.walls[0].head_line.has_value());
  CHECK(plan.openings[0].stand.z == Approx(alone.z));
  CHECK(headOf(job, plan, 2) == Approx(headOf(job, plan, 0)));
  CHECK(plan.openings[2].stand.fits);
}

TEST_CASE("heads in line: a sloping head does not push the unit against a jamb for a hundredth of height") {
  // The lintel falls to the right, so the unit could stand a trifle higher at the far left of its opening.
  job::Job job = twoWalls();
  job.walls[0].align_heads = true;
  job.openings[2].sill = 904;
  job.openings[0].measured = job::Measured{};
  auto& read = *job.openings[0].measured;
  const double w = job.openings[0].width;
  const double h = job.openings[0].height;
  read.widths = {w, w, w};
  read.heights = {h, h - 1, h - 2};
  read.out_of_level = 0;
  read.out_of_plumb = {0, 0};
  read.by = job::Instrument::Tape;
  const plan::Plan plan = plan::makePlan(job, au());
  REQUIRE(plan.walls[0].head_line.has_value());
  const plan::Stand& stand = plan.openings[0].stand;
  const auto closest = [](const std::array<double, 2>& gap) { return std::min(gap[0], gap[1]); };
  CHECK(closest(stand.gaps.left) - stand.least.left ==
        Approx(closest(stand.gaps.right) - stand.least.right).margin(1e-6));
}

TEST_CASE("heads that can't come into line stay where they are, and the one that prevents it is named") {
  job::Job job = twoWalls();
  job.walls[0].align_heads = true;
  job.openings.push_back(window(0, 3000, 900, 900, 1060));
  job.openings[2].sill = 1000;
  const plan::Plan plan = plan::makePlan(job, au());
  CHECK_FALSE(plan.walls[0].head_line.has_value());
  CHECK(plan.walls[0].not_in_line == std::vector<std::int32_t>{2});
  CHECK(plan.openings[0].stand.z == testing::planAlone(job, 0, au()).stand.z);
}

TEST_CASE("packers at hand are the job's, else the practice's") {
  job::Job job = twoWalls();
  CHECK(plan::packersAtHand(job, au()) == au().stock.packers);
  job.stock = job::Stock{};
  CHECK(plan::packersAtHand(job, au()) == au().stock.packers);
  job.stock->packers = {2, 5};
  CHECK(plan::packersAtHand(job, au()) == std::vector<double>{2, 5});
  for (const auto& point : testing::planAlone(job, 0, au()).packing.points) {
    for (int i = 0; i < point.stack.pieces; ++i) {
      const double piece = point.stack.piece[static_cast<std::size_t>(i)];
      CHECK((piece == 2 || piece == 5));
    }
  }
}

TEST_CASE("what a job names and its practice lacks is an error at its place") {
  job::Job job = twoWalls();
  CHECK(plan::disagreements(job, au()).empty());
  job.wind = job::Wind{std::string("N33")};
  job.wind_place = {3, 8};
  job.walls[1].timber = "MPG10";
  job.walls[1].timber_place = {20, 10};
  job.stock = job::Stock{};
  job.stock->screws = {"8g x 75", "8gg x 75", "long ones", "8g x long"};
  job.stock->screws_place = {40, 10};
  job::FixingSchedule schedule;
  schedule.screw = "10gg x 75";
  schedule.screw_place = {50, 12};
  job.openings[0].unit.fixing = schedule;
  const auto errors = plan::disagreements(job, au());
  REQUIRE(errors.size() == 6);
  CHECK(errors[0].key == "job.wind");
  CHECK(errors[0].file == "two.toml");
  CHECK(errors[0].at == base::Place{3, 8});
  CHECK(errors[0].say.find("\"N33\" is no wind class of the practice \"au\": use N1, ") == 0);
  CHECK(errors[0].say.find("did you mean \"N3\"?") != std::string::npos);
  CHECK(errors[1].key == "wall[1].timber");
  CHECK(errors[1].at == base::Place{20, 10});
  CHECK(errors[1].say.find("did you mean \"MGP10\"?") != std::string::npos);
  CHECK(errors[2].key == "stock.screws[1]");
  CHECK(errors[2].say.find("did you mean \"8g\"?") != std::string::npos);
  CHECK(errors[3].key == "stock.screws[2]");
  CHECK(errors[3].say.find("gauge and length, like ") != std::string::npos);
  CHECK(errors[4].key == "stock.screws[3]");
  CHECK(errors[5].key == "opening[0].unit.fixing.screw");
  CHECK(errors[5].at == base::Place{50, 12});
  CHECK(errors[5].say.find("did you mean \"10g\"?") != std::string::npos);
  // A pressure of the job's own and grades that exist are no errors.
  job.wind = job::StatedPressure{1.2};
  job.walls[1].timber = "MGP10";
  job.stock->screws = {"8g x 75"};
  job.openings[0].unit.fixing->screw = "10g x 75";
  CHECK(plan::disagreements(job, au()).empty());
  // A practice without classes says so.
  job.wind = job::Wind{std::string("N3")};
  practice::Practice bare = au();
  bare.strength.wind.classes.clear();
  REQUIRE(plan::disagreements(job, bare).size() == 1);
  CHECK(plan::disagreements(job, bare)[0].say.find("which names none") != std::string::npos);
}

TEST_CASE("a job of a thousand openings is planned") {
  job::Job job;
  for (std::size_t w = 0; w < 50; ++w) {
    job::Wall wall;
    wall.length = 42'000;
    wall.top = {{0, 2700}, {42'000, 2700}};
    wall.align_heads = w % 2 == 0;
    job.walls.push_back(wall);
    for (int i = 0; i < 20; ++i) job.openings.push_back(window(w, 500 + 2000.0 * i, 900 + i % 3, 1200, 1000));
  }
  const plan::Plan plan = plan::makePlan(job, au());
  REQUIRE(plan.openings.size() == 1000);
  for (const auto& wall : plan.walls) {
    CHECK(wall.openings.size() == 20);
    CHECK(wall.frame.faults.empty());
  }
  CHECK(plan.walls[0].head_line.has_value());
}
