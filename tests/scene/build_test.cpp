#include <algorithm>
#include <iterator>
#include <set>

#include "made.h"
#include "measure.h"
#include "plan/work/order_of_work.h"
#include "scene/solids.h"

using namespace sillwright;
using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

bool isFrame(PartKind kind) {
  return kind == PartKind::FrameSill || kind == PartKind::FrameHead || kind == PartKind::FrameJamb;
}

/// Areas by the shoelace formula.
double areaOf(const plan::Member& member) {
  std::vector<plan::Point> ring = {member.corner[0], member.corner[1], member.corner[2]};
  if (member.apex) ring.push_back(*member.apex);
  ring.push_back(member.corner[3]);
  double twice = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const plan::Point& a = ring[i];
    const plan::Point& b = ring[(i + 1) % ring.size()];
    twice += a.x * b.z - b.x * a.z;
  }
  return twice / 2;
}

void requireSound(const Scene& scene) {
  REQUIRE_FALSE(scene.solids.empty());
  std::uint32_t last = 0;
  for (const Solid& solid : scene.solids) {
    INFO("kind " << static_cast<int>(scene.parts.at(solid.part).kind) << " wall " << scene.parts[solid.part].wall);
    const measure::Shape shape = measure::shape(solid);
    CHECK(shape.off_plane < 0.02);
    CHECK(shape.outside < 0.02);
    CHECK(measure::volume(solid) > 0);
    CHECK(solid.part >= last);
    CHECK(solid.grain < 3);
    last = solid.part;
  }
}

/// Sheets are drawn thicker than they are where they are folded into the opening; everything else must keep clear.
bool isSolid(const Part& part) {
  return part.kind != PartKind::MembraneFold && part.kind != PartKind::SillFlashing && part.kind != PartKind::Tape;
}

}  // namespace

TEST_CASE("every kind of unit is built of sound solids that keep out of each other") {
  for (const std::string& kind : unitKinds()) {
    for (const std::string& unit : {kReveal, std::string("hand = \"right\"\n"), kReveal + "hand = \"left\"\n"}) {
      INFO(kind << " " << unit);
      const Made made = make(oneOpening(kind, unit));
      requireSound(made.scene);
      const std::vector<std::string> found = measure::overlaps(made.scene, isSolid, 0.01);
      for (const std::string& line : found) UNSCOPED_INFO(line);
      CHECK(found.empty());
    }
  }
}

TEST_CASE("a pan under a door flat on the floor is turned up behind the door and at both studs") {
  Made made = make(oneOpening("sliding door", kReveal));
  REQUIRE(made.job.openings[0].sill == 0);
  made.plan.openings[0].stand.z = 0;
  made.scene = build(made.job, australia(), made.plan, ownMeshes());
  const Box pan = measure::boxOf(made.scene, measure::kindIs(PartKind::SillFlashing));
  CHECK(pan.high.y > 100);  // behind the reveal, which is as deep
  CHECK(pan.high.z >= 20);
  CHECK(pan.low.z < 0);
}

TEST_CASE("the parts of each kind of unit are those the trade names") {
  const auto count = [](const Scene& scene, PartKind kind) {
    return std::count_if(scene.parts.begin(), scene.parts.end(), [&](const Part& part) { return part.kind == kind; });
  };
  struct Row {
    const char* kind;
    int stiles, glass, beads, handles, hinges, thresholds;
  };
  for (const Row& row : {Row{"sliding window", 4, 2, 0, 1, 0, 0}, Row{"awning window", 2, 1, 0, 1, 0, 0},
                         Row{"casement window", 2, 1, 0, 1, 2, 0}, Row{"fixed window", 0, 1, 8, 0, 0, 0},
                         Row{"sliding door", 4, 2, 0, 1, 0, 1}, Row{"hinged door", 2, 1, 0, 2, 3, 1}}) {
    INFO(row.kind);
    const Scene scene = make(oneOpening(row.kind, kReveal)).scene;
    CHECK(count(scene, PartKind::SashStile) == row.stiles);
    CHECK(count(scene, PartKind::SashRail) == row.stiles);
    CHECK(count(scene, PartKind::GlassPane) == row.glass);
    CHECK(count(scene, PartKind::Bead) == row.beads);
    CHECK(count(scene, PartKind::Handle) == row.handles);
    CHECK(count(scene, PartKind::Hinge) == row.hinges);
    CHECK(count(scene, PartKind::Threshold) == row.thresholds);
    CHECK(count(scene, PartKind::RevealSide) == 2);
    CHECK(count(scene, PartKind::FrameJamb) == 2);
    CHECK(count(scene, PartKind::Fin) == 1);
  }
}

TEST_CASE("a unit's sizes are true") {
  for (const std::string& kind : unitKinds()) {
    INFO(kind);
    const bool door = kind.find("door") != std::string::npos;
    const double height = door ? 2090 : 1040;
    const Made made = make(oneOpening(kind, kReveal));
    const double x = 1000 + made.plan.openings[0].stand.x;
    const double z = (door ? 0 : 900) + made.plan.openings[0].stand.z;

    const Box reveal = measure::boxOf(made.scene, [](const Part& part) {
      return part.kind == PartKind::RevealSide || part.kind == PartKind::RevealSill ||
             part.kind == PartKind::RevealHead;
    });
    CHECK_THAT(reveal.low.x, WithinAbs(x, 1e-3));
    CHECK_THAT(reveal.high.x - reveal.low.x, WithinAbs(1510, 1e-3));
    CHECK_THAT(reveal.low.z, WithinAbs(z, 1e-3));
    CHECK_THAT(reveal.high.z - reveal.low.z, WithinAbs(height, 1e-3));
    CHECK_THAT(reveal.low.y, WithinAbs(0, 1e-3));
    CHECK_THAT(reveal.high.y, WithinAbs(100, 1e-3));

    const Box frame = measure::boxOf(made.scene, [](const Part& part) { return isFrame(part.kind); });
    CHECK_THAT(frame.high.x - frame.low.x, WithinAbs(1510 - 36, 1e-3));
    CHECK_THAT(frame.high.z - frame.low.z, WithinAbs(height - 36, 1e-3));
    CHECK_THAT(frame.low.y, WithinAbs(-35, 1e-3));
    CHECK_THAT(frame.high.y, WithinAbs(65, 1e-3));

    const Box fin = measure::boxOf(made.scene, measure::kindIs(PartKind::Fin));
    CHECK_THAT(fin.low.x, WithinAbs(x - 30, 1e-3));
    CHECK_THAT(fin.high.x, WithinAbs(x + 1510 + 30, 1e-3));
    CHECK_THAT(fin.low.z, WithinAbs(z - 30, 1e-3));
    CHECK_THAT(fin.high.z, WithinAbs(z + height + 30, 1e-3));
    CHECK_THAT(fin.high.y - fin.low.y, WithinAbs(3, 1e-3));

    const Box glass = measure::boxOf(made.scene, measure::kindIs(PartKind::GlassPane));
    const Box clear{frame.low + 45.0F, frame.high - 45.0F};
    CHECK(glass.low.x >= clear.low.x);
    CHECK(glass.high.x <= clear.high.x);
    CHECK(glass.low.z >= clear.low.z);
    CHECK(glass.high.z <= clear.high.z);
    CHECK(glass.low.y > frame.low.y);
    CHECK(glass.high.y < frame.high.y);
  }
}

TEST_CASE("a bare frame is as large as the unit") {
  const Made made = make(oneOpening("awning window"));
  const Box frame = measure::boxOf(made.scene, [](const Part& part) { return isFrame(part.kind); });
  CHECK_THAT(frame.high.x - frame.low.x, WithinAbs(1510, 1e-3));
  CHECK_THAT(frame.high.z - frame.low.z, WithinAbs(1040, 1e-3));
}

TEST_CASE("each pane of glass is as thick as the job says") {
  const Made made = make(oneOpening("casement window", kReveal)
                             .replace(oneOpening("casement window", kReveal).find("thickness = 5, panes = 1"), 24,
                                      "thickness = 4, panes = 2"));
  std::vector<Box> panes;
  for (const Solid& solid : made.scene.solids) {
    if (made.scene.parts[solid.part].kind == PartKind::GlassPane) panes.push_back(measure::box(solid));
  }
  REQUIRE(panes.size() == 2);
  CHECK_THAT(panes[0].high.y - panes[0].low.y, WithinAbs(4, 1e-3));
  CHECK_THAT(panes[1].high.y - panes[1].low.y, WithinAbs(4, 1e-3));
  CHECK_THAT(panes[1].low.y - panes[0].high.y, WithinAbs(12, 1e-3));
}

TEST_CASE("the sash on the hand's side slides, in the inner track") {
  for (const char* hand : {"left", "right"}) {
    INFO(hand);
    const Made made = make(oneOpening("sliding window", kReveal + "hand = \"" + hand + "\"\n"));
    Box left{}, right{};
    for (const Solid& solid : made.scene.solids) {
      if (made.scene.parts[solid.part].kind != PartKind::GlassPane) continue;
      const Box box = measure::box(solid);
      (box.high.x < 1900 ? left : right) = box;
    }
    CHECK((left.low.y > right.low.y) == (std::string(hand) == "left"));
  }
}

TEST_CASE("timber members have the volume of their outline times their depth") {
  for (const char* file : {"boatshed.toml", "raking-studio.toml", "workshop-window.toml", "stair-pair.toml"}) {
    INFO(file);
    const Made made = makeFile(file);
    for (std::size_t wall = 0; wall < made.plan.walls.size(); ++wall) {
      double expected = 0;
      for (const plan::Member& member : made.plan.walls[wall].frame.members) {
        expected += areaOf(member) * (member.y1 - member.y0);
      }
      const double drawn = measure::volumeOf(made.scene, [&](const Part& part) {
        return part.layer == Layer::Frame && part.wall == static_cast<std::int32_t>(wall);
      });
      CHECK(expected > 0);
      CHECK_THAT(drawn / expected, WithinAbs(1, 1e-5));
    }
  }
}

TEST_CASE("the lining is the wall less its opening, times its thickness") {
  const Made level = make(oneOpening("fixed window", kReveal));
  const double drawn = measure::volumeOf(level.scene, measure::kindIs(PartKind::Lining));
  CHECK_THAT(drawn, WithinAbs((3600.0 * 2740 - 1530.0 * 1060) * 10, 10));

  std::string gable = oneOpening("fixed window", kReveal);
  gable.replace(gable.find("top = 2740"), 10, "top = [[0, 2440], [1800, 3440], [3600, 2440]]");
  const Made sloped = make(gable);
  const double of_gable = measure::volumeOf(sloped.scene, measure::kindIs(PartKind::Lining));
  CHECK_THAT(of_gable, WithinAbs((3600.0 * 2440 + 3600.0 * 1000 / 2 - 1530.0 * 1060) * 10, 10));
}

TEST_CASE("the cladding covers the wall but for what it is cut round") {
  const Made made = make(oneOpening("fixed window", kReveal));
  double seen = 0;  // area of the boards' outlines on the wall plane
  for (const Solid& solid : made.scene.solids) {
    if (made.scene.parts[solid.part].kind != PartKind::CladdingBoard) continue;
    const Box box = measure::box(solid);
    seen += static_cast<double>(box.high.x - box.low.x) * static_cast<double>(box.high.z - box.low.z);
  }
  // 40 below the floor. Round the unit, by hand: the board below ends 30 up under a sill flashing that comes 75 down;
  // 2 above it the boards beside begin where the flashing is (150 past the opening), and stand 3 off the unit up to 2
  // below the fin's top; the head flashing (150 past) falls 45 · tan 15° to there, and the boards above begin 5 over
  // it. From 2 above the board below one goes over the flashing's leg up to the unit's foot, as wide as the unit.
  const double foot = made.plan.openings[0].stand.z;
  const double side_top = foot + 1040 + 30 - 2;
  const double notch = foot + 1040 + 30 + 45 * 0.2679492 + 5;
  const double expected = 3600.0 * (2740 + 40) - 1516 * (side_top + 45) - 2 * (1830 - 1516) -
                          1830 * (notch - side_top) + 1510 * (foot + 75 - 30 - 2);
  CHECK_THAT(seen, WithinAbs(expected, 1));
  const Box all = measure::boxOf(made.scene, measure::kindIs(PartKind::CladdingBoard));
  CHECK_THAT(all.low.y, WithinAbs(-16, 1e-3));
  CHECK(all.high.y <= 0);
}

TEST_CASE("membrane runs lap as the practice says, the upper outside the lower") {
  const Made made = make(oneOpening("fixed window", kReveal));
  std::vector<Box> runs;
  std::set<std::uint32_t> parts;
  for (const Solid& solid : made.scene.solids) {
    if (made.scene.parts[solid.part].kind != PartKind::Membrane) continue;
    if (parts.insert(solid.part).second) {
      runs.push_back(measure::box(solid));
    } else {
      measure::grow(runs.back(), measure::box(solid));
    }
  }
  REQUIRE(runs.size() == 3);
  const double lap = australia().weather.membrane.lap.usual.value;
  CHECK_THAT(runs[0].high.z - runs[1].low.z, WithinAbs(lap, 1e-3));
  CHECK_THAT(runs[0].high.z - runs[0].low.z, WithinAbs(1350, 1e-3));
  // At its foot a run stands clear outside the one below, which has come in to the studs there.
  CHECK(runs[1].low.y < -2);
  CHECK(measure::overlaps(made.scene, measure::kindIs(PartKind::Membrane), 1e-3).empty());
}

TEST_CASE("the membrane folds in as deep as the frame, 45° at the corners, with no flap on a floor") {
  const auto folds = [](const Made& made) {
    std::vector<const Part*> all;
    for (const Part& part : made.scene.parts) {
      const bool fold = part.kind == PartKind::MembraneFold && part.step == partStep(plan::StepKind::Membrane);
      if (fold) all.push_back(&part);
    }
    return all;
  };
  const Made window = make(oneOpening("fixed window", kReveal));
  REQUIRE(folds(window).size() == 4);
  for (const Part* part : folds(window)) CHECK(part->size.y == 90);
  CHECK(folds(make(oneOpening("sliding door", kReveal))).size() == 3);
  // A trapezoid of 1530 at the face and 2 · 90 less at the back, 1 thick: sill and head alike.
  const Solid* sill = nullptr;
  for (const Solid& solid : window.scene.solids) {
    if (window.scene.parts[solid.part].kind == PartKind::MembraneFold && sill == nullptr) sill = &solid;
  }
  REQUIRE(sill != nullptr);
  CHECK_THAT(measure::volume(*sill), WithinAbs((1530.0 + 1350.0) / 2 * 90, 1));
}

TEST_CASE("battens stand in the cavity and nowhere else") {
  std::string text = oneOpening("fixed window", kReveal);
  CHECK(measure::volumeOf(make(text).scene, measure::kindIs(PartKind::Batten)) == 0);
  text.replace(text.find("cavity = 0"), 10, "cavity = 20");
  const Made made = make(text);
  requireSound(made.scene);
  const Box battens = measure::boxOf(made.scene, measure::kindIs(PartKind::Batten));
  CHECK_THAT(battens.low.y, WithinAbs(-20, 1e-3));
  const Box boards = measure::boxOf(made.scene, measure::kindIs(PartKind::CladdingBoard));
  CHECK_THAT(boards.high.y, WithinAbs(-20, 1e-3));
  CHECK_THAT(boards.low.y, WithinAbs(-36, 1e-3));
  const std::vector<std::string> found = measure::overlaps(made.scene, isSolid, 0.01);
  for (const std::string& line : found) UNSCOPED_INFO(line);
  CHECK(found.empty());
}

TEST_CASE("packers are as thick as the plan's stacks and stand on the framed sill") {
  const Made made = make(oneOpening("fixed window", kReveal));
  const plan::OpeningPlan& planned = made.plan.openings[0];
  double expected = 0;
  for (const plan::PackingPoint& point : planned.packing.points) expected += point.stack.total;
  double drawn = 0;
  for (const Part& part : made.scene.parts) {
    if (part.kind == PartKind::Packer && part.material == Material::Packer) drawn += static_cast<double>(part.size.z);
  }
  CHECK(expected > 0);
  CHECK_THAT(drawn, WithinAbs(expected, 1e-3));
  const Box all = measure::boxOf(made.scene, measure::kindIs(PartKind::Packer));
  CHECK_THAT(all.low.z, WithinAbs(900, 1e-3));
  CHECK(all.low.x >= 1000 - 1e-3F);
  CHECK(all.high.x <= 2530 + 1e-3F);
}

TEST_CASE("the eave's soffit is where the job says") {
  const Made made = make(oneOpening("fixed window", kReveal, "eave = { soffit = 2400, overhang = 600 }\n"));
  const Box soffit = measure::boxOf(made.scene, measure::kindIs(PartKind::EaveSoffit));
  const Box fascia = measure::boxOf(made.scene, measure::kindIs(PartKind::EaveFascia));
  CHECK_THAT(soffit.low.z, WithinAbs(2400, 1e-3));
  CHECK_THAT(soffit.high.y, WithinAbs(-16, 1e-3));
  CHECK_THAT(fascia.low.y, WithinAbs(-600, 1e-3));
  CHECK_THAT(fascia.high.z - fascia.low.z, WithinAbs(180, 1e-3));
}

TEST_CASE("bounds hold everything but the ground") {
  const Made made = makeFile("boatshed.toml");
  Box all = measure::boxOf(made.scene, [](const Part& part) { return part.layer != Layer::Ground; });
  CHECK(made.scene.bounds.low.x <= all.low.x);
  CHECK(made.scene.bounds.high.z >= all.high.z);
  CHECK_THAT(made.scene.bounds.low.z, WithinAbs(-40, 1e-3));
}

TEST_CASE("a unit's own mesh stands in for its parts, at its lower left outside corner") {
  MeshLibrary library = ownMeshes();
  Mesh mesh;
  // A tetrahedron whose box is 1510 × 80 × 1040, away from its origin.
  const glm::vec3 a{10, 20, 30}, b{1520, 20, 30}, c{10, 100, 30}, d{10, 20, 1070};
  mesh.corner = {a, c, b, a, b, d, a, d, c, b, c, d};
  mesh.box = boxRound(mesh.corner);
  library.mesh["unit.obj"] = mesh;

  const auto job = job::read(oneOpening("fixed window", kReveal + "mesh = \"unit.obj\"\n"), "t.toml");
  REQUIRE(job.ok());
  const Made made = make(*job.value, library);
  std::vector<MeshUse> units;
  std::copy_if(made.scene.uses.begin(), made.scene.uses.end(), std::back_inserter(units),
               [&](const MeshUse& of) { return made.scene.parts[of.part].kind == PartKind::UnitMesh; });
  REQUIRE(units.size() == 1);
  const MeshUse& use = units[0];
  const glm::vec3 placed = use.place * glm::vec4(a, 1.0F);
  CHECK_THAT(placed.x, WithinAbs(1000 + made.plan.openings[0].stand.x, 1e-3));
  CHECK_THAT(placed.y, WithinAbs(-35, 1e-3));
  CHECK_THAT(placed.z, WithinAbs(900 + made.plan.openings[0].stand.z, 1e-3));
  CHECK(measure::volumeOf(made.scene, measure::kindIs(PartKind::GlassPane)) == 0);
  CHECK(measure::volumeOf(made.scene, measure::kindIs(PartKind::Fin)) > 0);
  // Without its mesh the unit is drawn from its sizes.
  CHECK(measure::volumeOf(make(*job.value).scene, measure::kindIs(PartKind::GlassPane)) > 0);
}

TEST_CASE("parts know their step: frame from the start, membrane before the unit, cladding last") {
  const Made made = make(oneOpening("fixed window", kReveal));
  PartStep membrane{}, unit{}, cladding{};
  for (const Part& part : made.scene.parts) {
    if (part.layer == Layer::Frame) CHECK(part.step == PartStep::FromTheStart);
    if (part.kind == PartKind::Membrane) membrane = part.step;
    if (part.layer == Layer::Unit) unit = part.step;
    if (part.kind == PartKind::CladdingBoard) cladding = part.step;
  }
  CHECK(PartStep::FromTheStart < membrane);
  CHECK(membrane < unit);
  CHECK(unit < cladding);
}
