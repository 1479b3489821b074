#include "scene/build/corners.h"
#include "made.h"
#include "measure.h"

using namespace sillwright;
using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

std::string wall(const std::string& name, double length, double x, double y, double turn,
                 const std::string& more = "") {
  const auto text = [](double value) { return std::to_string(static_cast<int>(value)); };
  return "[[wall]]\nname = \"" + name + "\"\nlength = " + text(length) +
         "\ntop = 2440\nstud = { depth = 90, thickness = 45 }\nspacing = 600\nplates = { top = 2, bottom = 1 }\n"
         "lining = 10\ncladding = { thickness = 16, cavity = 0 }\nat = [" +
         text(x) + ", " + text(y) + "]\nturn = " + text(turn) + "\n" + more;
}

const std::string kHead = "[job]\ntitle = \"t\"\npractice = \"au\"\n";

bool isSolid(const Part& part) {
  return part.kind != PartKind::MembraneFold && part.kind != PartKind::SillFlashing && part.kind != PartKind::Tape;
}

void requireClear(const Made& made) {
  const std::vector<std::string> found = measure::overlaps(made.scene, isSolid, 0.01);
  for (const std::string& line : found) UNSCOPED_INFO(line);
  CHECK(found.empty());
}

/// Whether some solid of the kind holds the point.
bool covered(const Scene& scene, PartKind kind, const glm::dvec3& point) {
  for (const Solid& solid : scene.solids) {
    if (scene.parts[solid.part].kind != kind) continue;
    bool in = true;
    for (std::size_t f = 0; f < 6 && in; ++f) {
      in = glm::dot(point - glm::dvec3(solid.corner[kFaces[f][0]]), measure::normal(solid, f)) < 1e-3;
    }
    if (in) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("a house of four walls closes at its corners, and nothing stands in anything else") {
  const std::string eave = "eave = { soffit = 2300, overhang = 450 }\n";
  for (const std::string& on_ends : {std::string(), eave}) {
    const Made made = make(kHead + wall("s", 7200, 0, 0, 0, eave) + wall("e", 4620, 7200, 90, 90, on_ends) +
                           wall("n", 7200, 7200, 4800, 180, eave) + wall("w", 4620, 0, 4710, 270, on_ends));
    requireClear(made);
    // Just outside the studs at each corner, on both faces, there is cladding right up to the outer corner.
    for (const glm::dvec3& point :
         {glm::dvec3{7190, -8, 1000}, glm::dvec3{7208, -8, 1000}, glm::dvec3{7208, 50, 1000}, glm::dvec3{-8, -8, 1000},
          glm::dvec3{-8, 4808, 1000}, glm::dvec3{7208, 4808, 1000}}) {
      INFO(point.x << ", " << point.y);
      CHECK(covered(made.scene, PartKind::CladdingBoard, point));
    }
    // The lining closes inside, and runs into no stud.
    CHECK(covered(made.scene, PartKind::Lining, {7105, 95, 1000}));
    CHECK(covered(made.scene, PartKind::Lining, {7105, 105, 1000}));
    // One floor under all of it, to the studs' outside faces.
    const Box floor = measure::boxOf(made.scene, measure::kindIs(PartKind::FloorSlab));
    CHECK_THAT(floor.low.x, WithinAbs(0, 1e-3));
    CHECK_THAT(floor.high.x, WithinAbs(7200, 1e-3));
    CHECK_THAT(floor.high.y, WithinAbs(4800, 1e-3));
    CHECK_THAT(floor.high.z, WithinAbs(0, 1e-3));
    CHECK_THAT(measure::volumeOf(made.scene, measure::kindIs(PartKind::FloorSlab)) / 100, WithinAbs(7200.0 * 4800, 10));
  }
}

TEST_CASE("eaves that meet are mitred to their common outer corner") {
  const std::string eave = "eave = { soffit = 2300, overhang = 450 }\n";
  const Made made = make(kHead + wall("s", 7200, 0, 0, 0, eave) + wall("e", 4620, 7200, 90, 90, eave));
  const Box fascia = measure::boxOf(made.scene, measure::kindIs(PartKind::EaveFascia));
  CHECK_THAT(fascia.high.x, WithinAbs(7650, 1e-3));
  CHECK_THAT(fascia.low.y, WithinAbs(-450, 1e-3));
}

TEST_CASE("an L on plan closes at its inner corner too") {
  // South arm 6000 long; the east face steps in at y = 3000 and goes on at x = 4000.
  const Made made =
      make(kHead + wall("s", 6000, 0, 0, 0) + wall("e", 2820, 6000, 90, 90) + wall("step", 2090, 6000, 3000, 180) +
           wall("e2", 3000, 4000, 3000, 90) + wall("n", 4000, 4000, 6090, 180) + wall("w", 5910, 0, 6000, 270));
  const std::vector<WallEnds> ends = findEnds(made.job, made.plan);
  for (std::size_t i = 0; i < ends.size(); ++i) {
    INFO("wall " << i);
    CHECK(ends[i][0].other == static_cast<int>((i + 5) % 6));
    CHECK(ends[i][1].other == static_cast<int>((i + 1) % 6));
  }
  CHECK_FALSE(ends[2][1].outer);
  requireClear(made);
  CHECK_THAT(measure::volumeOf(made.scene, measure::kindIs(PartKind::FloorSlab)) / 100,
             WithinAbs(6000.0 * 3000 + 4000.0 * 3090, 10));
}

TEST_CASE("walls that don't meet at a right angle are cut flush") {
  const Made made =
      make(kHead + wall("a", 3000, 0, 0, 0) + wall("b", 3000, 3000, 0, 30) + wall("c", 3000, 20000, 0, 90));
  for (const WallEnds& ends : findEnds(made.job, made.plan)) {
    CHECK(ends[0].other == -1);
    CHECK(ends[1].other == -1);
  }
}

TEST_CASE("a turned wall is the same wall, turned") {
  const Made plain = make(kHead + wall("a", 3000, 0, 0, 0));
  const Made turned = make(kHead + wall("a", 3000, 500, 700, 37));
  REQUIRE(plain.scene.solids.size() == turned.scene.solids.size());
  const WallFrame& frame = turned.scene.walls[0];
  for (std::size_t i = 0; i < plain.scene.solids.size(); ++i) {
    for (std::size_t c = 0; c < 8; ++c) {
      const glm::vec3 expected = frame.toWorld(plain.scene.solids[i].corner[c]);
      CHECK(glm::distance(expected, turned.scene.solids[i].corner[c]) < 0.01F);
    }
  }
}
