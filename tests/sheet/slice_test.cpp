#include "sheet/drawing/slice.h"

#include "drawn.h"

using namespace sillwright;
using sheet::areaOf;
using sheet::Box;
using sheet::clipped;
using sheet::Cut;
using sheet::Vec;

namespace {

/// One box of 40 × 90 × 2000 in a wall that stands turned by a right angle.
scene::Scene oneBox() {
  scene::Scene made;
  scene::WallFrame wall;
  wall.origin = {1000, 500, 0};
  wall.along = {0, 1, 0};
  wall.inward = {-1, 0, 0};
  made.walls.push_back(wall);
  scene::Part part;
  part.wall = 0;
  made.parts.push_back(part);
  scene::Solid solid;
  solid.grain = 2;
  for (unsigned i = 0; i < 8; ++i) {
    solid.corner[i] =
        wall.toWorld({(i & 1U) != 0 ? 340.0F : 300.0F, (i & 2U) != 0 ? 90.0F : 0.0F, (i & 4U) != 0 ? 2000.0F : 0.0F});
  }
  made.solids.push_back(solid);
  return made;
}

}  // namespace

TEST_CASE("a plane across the wall cuts a stud along its length") {
  const auto cuts = sheet::slice(oneBox(), 0, -1, Cut::AcrossWall, 320);
  REQUIRE(cuts.size() == 1);
  CHECK(areaOf(cuts[0].outline) == Approx(90.0 * 2000));
  CHECK_FALSE(cuts[0].end_grain);
}

TEST_CASE("a level plane cuts it through its end grain") {
  const auto cuts = sheet::slice(oneBox(), 0, -1, Cut::Level, 1000);
  REQUIRE(cuts.size() == 1);
  CHECK(areaOf(cuts[0].outline) == Approx(40.0 * 90));
  CHECK(cuts[0].end_grain);
  const Vec middle = sheet::centroidOf(cuts[0].outline);
  CHECK(middle.x == Approx(320));
  CHECK(middle.y == Approx(45));
}

TEST_CASE("a plane beside it cuts nothing") {
  CHECK(sheet::slice(oneBox(), 0, -1, Cut::AcrossWall, 341).empty());
  CHECK(sheet::slice(oneBox(), 0, -1, Cut::Level, 2001).empty());
}

TEST_CASE("clipping keeps what is inside") {
  const std::vector<Vec> square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  CHECK(areaOf(clipped(square, Box{2, 3, 7, 9})) == Approx(5 * 6));
  CHECK(areaOf(clipped(square, Box{-5, -5, 50, 50})) == Approx(100));
  CHECK(clipped(square, Box{20, 20, 30, 30}).empty());
  const std::vector<Vec> triangle{{0, 0}, {10, 0}, {0, 10}};
  // The half of the square below its diagonal.
  CHECK(areaOf(clipped(triangle, Box{0, 0, 5, 5})) == Approx(25));
}

TEST_CASE("slices through a wall add up to its timber") {
  // Cavalieri: areas of level cuts times their distance. Against the members' own sections and lengths.
  const auto made = testing::drawnFile("workshop-window.toml");
  const auto& frame = made.demo.plan.walls[0].frame;
  double timber = 0;
  for (const auto& member : frame.members) {
    if (member.part == plan::MemberPart::CommonStud) timber += member.width * member.depth * member.length;
  }
  constexpr double kStep = 10;
  double sum = 0;
  for (double z = kStep / 2; z < 2500; z += kStep) {
    for (const auto& cut : sheet::slice(made.scene, 0, -1, Cut::Level, z)) {
      if (made.scene.parts[cut.part].kind == scene::PartKind::CommonStud) sum += areaOf(cut.outline) * kStep;
    }
  }
  CHECK(timber > 1e7);
  CHECK(sum == Approx(timber).epsilon(0.005));
}
