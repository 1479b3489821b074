#include "plan/settle.h"

#include <string>

#include "plan/frame_walls.h"
#include "plan/shape.h"
#include "support/catch.h"

using namespace sillwright;
using test::figure;

namespace {

practice::Practice numbered() {
  practice::Practice practice;
  practice::Framing& framing = practice.framing;
  framing.stud_depth = figure(90);
  framing.stud_thickness = figure(45);
  framing.spacing = figure(450);
  framing.top_plates = figure(2);
  framing.bottom_plates = figure(1);
  framing.lining = figure(10);
  framing.cladding_thickness = figure(16);
  framing.cavity = figure(20);
  framing.lintels = {{1200, figure(140), figure(45), figure(2)}, {2400, figure(240), figure(35), figure(3)}};
  practice.unit.frame_depth = figure(100);
  practice.unit.frame_face = figure(50);
  practice.unit.fin = figure(30);
  practice.unit.glass_thickness = figure(5);
  practice.unit.glass_panes = figure(2);
  return practice;
}

std::vector<std::string> keys(const std::vector<plan::Assumption>& assumed) {
  std::vector<std::string> made;
  for (const auto& each : assumed) made.emplace_back(each.key);
  return made;
}

}  // namespace

TEST_CASE("a wall that names nothing takes every size from the practice, and says so") {
  const practice::Practice practice = numbered();
  job::Wall wall;
  wall.length = 3000;
  wall.top = {{0, 2400}, {3000, 2400}};
  const plan::WallSpec spec = plan::settleWall(wall, practice);
  CHECK(spec.stud == job::StudSection{90, 45});
  CHECK(spec.spacing == 450);
  CHECK(spec.plates == job::PlateCount{2, 1});
  CHECK(spec.lining == 10);
  CHECK(spec.cladding == job::Cladding{16, 20});
  CHECK(spec.depth() == 100);
  CHECK(keys(spec.assumed) == std::vector<std::string>{"stud.depth", "stud.thickness", "spacing", "plates.top",
                                                       "plates.bottom", "lining", "cladding.thickness",
                                                       "cladding.cavity"});
  for (const auto& each : spec.assumed) CHECK(each.figure != nullptr);
  CHECK(spec.assumed[2].figure == &practice.framing.spacing);
}

TEST_CASE("what the job names stands, and nothing is said") {
  const practice::Practice practice = numbered();
  job::Wall wall;
  wall.stud = job::StudSection{140, 35};
  wall.spacing = 600;
  wall.plates = job::PlateCount{1, 2};
  wall.lining = 0;
  wall.cladding = job::Cladding{9, 0};
  const plan::WallSpec spec = plan::settleWall(wall, practice);
  CHECK(spec.stud == job::StudSection{140, 35});
  CHECK(spec.spacing == 600);
  CHECK(spec.plates == job::PlateCount{1, 2});
  CHECK(spec.lining == 0);
  CHECK(spec.cladding == job::Cladding{9, 0});
  CHECK(spec.assumed.empty());
}

TEST_CASE("a unit's parts come from the job, else from the practice") {
  const practice::Practice practice = numbered();
  job::Unit unit;
  unit.kind = job::UnitKind::SlidingDoor;
  unit.width = 1800;
  unit.height = 2100;
  const plan::UnitSpec bare = plan::settleUnit(unit, practice);
  CHECK(bare.isDoor());
  CHECK(bare.frame == job::FrameSection{100, 50});
  CHECK_FALSE(bare.reveal.has_value());
  CHECK(bare.fin == 30);
  CHECK(bare.glass.thickness == 5);
  CHECK(bare.glass.panes == 2);
  CHECK(keys(bare.assumed) == std::vector<std::string>{"unit.frame.depth", "unit.frame.face", "unit.fin",
                                                       "unit.glass.thickness", "unit.glass.panes"});
  unit.frame = job::FrameSection{80, 40};
  unit.reveal = job::Reveal{18, 100};
  unit.fin = 0;
  unit.glass = job::Glass{6, 1, true};
  unit.hand = job::Hand::Right;
  const plan::UnitSpec named = plan::settleUnit(unit, practice);
  CHECK(named.frame == job::FrameSection{80, 40});
  CHECK(named.reveal == job::Reveal{18, 100});
  CHECK(named.fin == 0);
  CHECK(named.glass == job::Glass{6, 1, true});
  CHECK(named.hand == job::Hand::Right);
  CHECK(named.assumed.empty());
}

TEST_CASE("a lintel by the opening's width, up to and including") {
  const practice::Practice practice = numbered();
  job::Opening opening;
  std::vector<plan::Assumption> assumed;
  opening.width = 1200;
  CHECK(plan::settleLintel(opening, practice, assumed) == job::Lintel{140, 45, 2});
  CHECK(keys(assumed) == std::vector<std::string>{"lintel.depth", "lintel.thickness", "lintel.plies"});
  opening.width = 1200.5;
  assumed.clear();
  CHECK(plan::settleLintel(opening, practice, assumed) == job::Lintel{240, 35, 3});
  opening.width = 2401;
  assumed.clear();
  CHECK_FALSE(plan::settleLintel(opening, practice, assumed).has_value());
  CHECK(assumed.empty());
  opening.lintel = job::Lintel{190, 63, 1};
  CHECK(plan::settleLintel(opening, practice, assumed) == job::Lintel{190, 63, 1});
  CHECK(assumed.empty());
}

TEST_CASE("an opening's edges run through their bowed middles, inward is +") {
  plan::OpeningShape shape = plan::plannedShape({1000, 800});
  CHECK(shape.corner[2] == plan::Point{1000, 800});
  shape.bow = {.left = 3, .right = 4, .sill = 5, .head = 6};
  CHECK(shape.edge(plan::Side::Left) == plan::Edge{plan::Point{0, 0}, plan::Point{3, 400}, plan::Point{0, 800}});
  CHECK(shape.edge(plan::Side::Right) ==
        plan::Edge{plan::Point{1000, 0}, plan::Point{996, 400}, plan::Point{1000, 800}});
  CHECK(shape.edge(plan::Side::Sill) == plan::Edge{plan::Point{0, 0}, plan::Point{500, 5}, plan::Point{1000, 0}});
  CHECK(shape.edge(plan::Side::Head) == plan::Edge{plan::Point{0, 800}, plan::Point{500, 794}, plan::Point{1000, 800}});
}
