// Walls of brick, sheet and render; storeys; walls between rooms; old holes.

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

#include "made.h"
#include "measure.h"
#include "scene/water_lines.h"

using namespace sillwright;
using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

std::string windowIn(const std::string& cladding, const std::string& wall = "", const std::string& opening = "") {
  std::string text = oneOpening("fixed window", kReveal, wall);
  text.replace(text.find("{ thickness = 16, cavity = 0 }"), 30, cladding);
  text.replace(text.find("fin = 30"), 8, "fin = 0");
  text.insert(text.find("[opening.unit]"), opening);
  return text;
}

constexpr const char* kBrick = "{ kind = \"brick veneer\", thickness = 110, cavity = 40 }";

std::size_t count(const Scene& scene, PartKind kind) {
  return static_cast<std::size_t>(
      std::count_if(scene.parts.begin(), scene.parts.end(), [&](const Part& part) { return part.kind == kind; }));
}

bool isSolid(const Part& part) {
  return part.kind != PartKind::MembraneFold && part.kind != PartKind::SillFlashing && part.kind != PartKind::Tape &&
         part.kind != PartKind::HeadFlashing;
}

}  // namespace

TEST_CASE("brick veneer is drawn in courses before a clear cavity, with sloped sill bricks under the unit") {
  const Made made = make(windowIn(kBrick));
  CHECK(count(made.scene, PartKind::Batten) == 0);
  CHECK(count(made.scene, PartKind::CladdingBoard) == 0);
  const Box bricks = measure::boxOf(made.scene, measure::kindIs(PartKind::BrickCourse));
  CHECK_THAT(bricks.low.y, WithinAbs(-150, 1e-3));
  CHECK_THAT(bricks.high.y, WithinAbs(-40, 1e-3));
  // Courses rise by 86: 76 and a joint of 10 (common practice, no source). Those beside the opening are in pieces.
  std::set<long> feet;
  for (const Solid& solid : made.scene.solids) {
    const Box box = measure::box(solid);
    const bool whole = std::abs(box.high.z - box.low.z - 76) < 1e-3F;
    if (made.scene.parts[solid.part].kind == PartKind::BrickCourse && whole) feet.insert(std::lround(box.low.z));
  }
  REQUIRE(feet.size() > 20);
  for (auto foot = std::next(feet.begin()); foot != feet.end(); ++foot) CHECK((*foot - *std::prev(foot)) % 86 == 0);
  const Box sill = measure::boxOf(made.scene, measure::kindIs(PartKind::SillBrick));
  CHECK_THAT(sill.low.y, WithinAbs(-175, 1e-3));  // 25 before the brick's face
  const double foot = 900 + made.plan.openings[0].stand.z;
  CHECK_THAT(sill.high.z, WithinAbs(foot - 5, 1e-2));  // the gap for the frame's shrinkage, from memory
  const std::vector<std::string> found = measure::overlaps(made.scene, isSolid, 0.01);
  for (const std::string& line : found) UNSCOPED_INFO(line);
  CHECK(found.empty());
}

TEST_CASE("sheets are cut at 1200, render is one skin") {
  const Made sheets = make(windowIn("{ kind = \"sheet\", thickness = 16, cavity = 0 }"));
  const Made render = make(windowIn("{ kind = \"render\", thickness = 16, cavity = 0 }"));
  const auto area = [](const Made& made, PartKind kind) {
    return measure::volumeOf(made.scene, measure::kindIs(kind));
  };
  CHECK(area(sheets, PartKind::CladdingSheet) > 0);
  CHECK_THAT(area(sheets, PartKind::CladdingSheet), WithinAbs(area(render, PartKind::Render), 1));
}

TEST_CASE("water on the cladding runs down its outer face, whatever it is made of") {
  for (const char* kind : {"brick veneer", "sheet", "render", "boards"}) {
    CAPTURE(kind);
    const Made made = make(windowIn(std::string("{ kind = \"") + kind + "\", thickness = 16, cavity = 40 }"));
    const plan::Skin& skin = made.plan.openings[0].weather.skin;
    int looked = 0;
    for (const WaterLine& line : waterLines(made.scene, made.job, 0, skin, plan::traceWater(skin))) {
      for (const WaterPoint& point : line.points) {
        if (point.sheet < 0) continue;
        if (skin.sheets[static_cast<std::size_t>(point.sheet)].kind != plan::SheetKind::Cladding) continue;
        const float y = made.scene.walls[0].toLocal(point.at).y;
        CHECK(y < -40);           // before the cavity
        CHECK(y > -40 - 16 - 2);  // and on the face, or a taper or a joint behind it
        ++looked;
      }
    }
    CHECK(looked > 20);
  }
}

TEST_CASE("an upper wall stands at its floor's level, and makes no corner with a lower one") {
  const Made ground = make(windowIn("{ thickness = 16, cavity = 0 }"));
  const Made upper = make(windowIn("{ thickness = 16, cavity = 0 }", "level = 2700\n"));
  const Box low = measure::boxOf(ground.scene, measure::kindIs(PartKind::Lining));
  const Box high = measure::boxOf(upper.scene, measure::kindIs(PartKind::Lining));
  CHECK_THAT(high.low.z - low.low.z, WithinAbs(2700, 1e-2));
  CHECK_THAT(upper.scene.openings[0].centre.z - ground.scene.openings[0].centre.z, WithinAbs(2700, 1e-2));
}

TEST_CASE("a wall between rooms is lined on both sides, with no membrane and no cladding") {
  const Made made = make(windowIn("{ thickness = 16, cavity = 0 }", "inside = true\n"));
  for (const PartKind none : {PartKind::Membrane, PartKind::MembraneFold, PartKind::CladdingBoard,
                              PartKind::SillFlashing, PartKind::JambFlashing}) {
    CHECK(count(made.scene, none) == 0);
  }
  const Box lining = measure::boxOf(made.scene, measure::kindIs(PartKind::Lining));
  CHECK_THAT(lining.low.y, WithinAbs(-10, 1e-3));
  CHECK_THAT(lining.high.y, WithinAbs(100, 1e-3));
}

TEST_CASE("a wall with an old hole has cladding and lining from the start, and nothing is flashed") {
  const Made made = make(windowIn("{ thickness = 16, cavity = 0 }", "", "existing = true\n"));
  for (const Part& part : made.scene.parts) {
    const bool stays = part.kind == PartKind::CladdingBoard || part.kind == PartKind::Lining;
    if (stays) CHECK(part.step == PartStep::FromTheStart);
  }
  CHECK(count(made.scene, PartKind::SillFlashing) == 0);
  CHECK(count(made.scene, PartKind::MembraneFold) == 0);
  // The boards come close to the unit all round.
  const double foot = 900 + made.plan.openings[0].stand.z;
  bool below = false;
  for (const Solid& solid : made.scene.solids) {
    const Box box = measure::box(solid);
    const bool board = made.scene.parts[solid.part].kind == PartKind::CladdingBoard;
    below = below || (board && std::abs(static_cast<double>(box.high.z) - foot) < 6 && box.low.x < 2000);
  }
  CHECK(below);
}

TEST_CASE("a frame of steel is drawn in metal, a steel lintel too") {
  const Made made = make(windowIn("{ thickness = 16, cavity = 0 }", "studs = \"steel\"\n"));
  for (const Part& part : made.scene.parts) {
    if (part.layer == Layer::Frame) CHECK(part.material == Material::FoldedMetal);
  }
  const Made lintel = make(windowIn("{ thickness = 16, cavity = 0 }", "",
                                    "lintel = { material = \"steel\", depth = 100, thickness = 90, plies = 1 }\n"));
  for (const Part& part : lintel.scene.parts) {
    if (part.kind == PartKind::Lintel) CHECK(part.material == Material::FoldedMetal);
    if (part.kind == PartKind::CommonStud) CHECK(part.material == Material::Pine);
  }
}
