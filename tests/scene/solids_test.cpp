#include <set>

#include "measure.h"
#include "scene/solids.h"
#include "support/catch.h"

using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

Scene onBench(double x, double y, double turn, void (*put)(const Bench&)) {
  Scene scene;
  const Bench bench = makeBench(scene, x, y, turn, 0);
  put(bench);
  return scene;
}

void oneBox(const Bench& bench) { addBoxPart(bench, {}, {100, 400}, {0, 90}, {10, 2010}, Grain::AlongZ); }

}  // namespace

TEST_CASE("the edges and faces of a hexahedron are each other's") {
  // Every edge lies in two faces, which walk it in opposite directions; edges 0–3 are along u, 4–7 v, 8–11 w.
  for (std::size_t e = 0; e < 12; ++e) {
    const auto [a, b] = kEdges[e];
    CHECK((a ^ b) == (1 << (e / 4)));
    int forth = 0, back = 0;
    for (const auto& face : kFaces) {
      for (std::size_t k = 0; k < 4; ++k) {
        forth += face[k] == a && face[(k + 1) % 4] == b;
        back += face[k] == b && face[(k + 1) % 4] == a;
      }
    }
    CHECK(forth == 1);
    CHECK(back == 1);
  }
}

TEST_CASE("the names of edges are those of the sides they lie on") {
  const auto edgesWith = [](auto holds) {
    std::uint16_t mask = 0;
    for (std::size_t e = 0; e < 12; ++e) {
      if (holds(kEdges[e][0]) && holds(kEdges[e][1])) mask = static_cast<std::uint16_t>(mask | 1U << e);
    }
    return mask;
  };
  CHECK(kLeftFace == edgesWith([](std::uint8_t c) { return (c & 1U) == 0; }));
  CHECK(kRightFace == edgesWith([](std::uint8_t c) { return (c & 1U) != 0; }));
  CHECK((kBottomLong | kDeepBottomLeft | kDeepBottomRight) == edgesWith([](std::uint8_t c) { return (c & 4U) == 0; }));
  CHECK((kTopLong | kDeepTopLeft | kDeepTopRight) == edgesWith([](std::uint8_t c) { return (c & 4U) != 0; }));
}

TEST_CASE("a box is where and as large as it was said to be") {
  const Scene scene = onBench(0, 0, 0, oneBox);
  REQUIRE(scene.solids.size() == 1);
  const Box box = measure::box(scene.solids[0]);
  CHECK(box.low == glm::vec3(100, 0, 10));
  CHECK(box.high == glm::vec3(400, 90, 2010));
  CHECK(measure::volume(scene.solids[0]) == Approx(300.0 * 90 * 2000));
  CHECK(scene.parts[0].size == glm::vec3(300, 90, 2000));
}

TEST_CASE("quarter turns are exact, whichever way they are counted") {
  for (const double turn : {90.0, -270.0, 450.0}) {
    const Scene scene = onBench(7200, 90, turn, oneBox);
    const Box box = measure::box(scene.solids[0]);
    CHECK(box.low == glm::vec3(7110, 190, 10));
    CHECK(box.high == glm::vec3(7200, 490, 2010));
    CHECK(measure::volume(scene.solids[0]) > 0);
  }
}

TEST_CASE("a mitred ring has the area between its rectangles, cut at 45° where its faces are alike") {
  const Rect outer{0, 0, 1000, 600};
  const std::array<Quad, 4> ring = mitredRing(outer, outer.inset(50));
  double area = 0;
  for (const Quad& quad : ring) {
    double twice = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      twice += quad[i].x * quad[(i + 1) % 4].y - quad[(i + 1) % 4].x * quad[i].y;
    }
    CHECK(twice > 0);  // BL, BR, TR, TL: anticlockwise
    area += twice / 2;
  }
  CHECK(area == Approx(1000.0 * 600 - 900.0 * 500));
  CHECK(ring[0][3].x - ring[0][0].x == Approx(ring[0][3].y - ring[0][0].y));
}

TEST_CASE("a butted ring runs its sill through, or its jambs") {
  const Rect outer{0, 0, 1000, 600};
  const std::array<Quad, 4> sills = buttedRing(outer, outer.inset(18), false);
  CHECK(sills[0][1].x - sills[0][0].x == Approx(1000));
  CHECK(sills[1][3].y - sills[1][0].y == Approx(564));
  const std::array<Quad, 4> jambs = buttedRing(outer, outer.inset(18), true);
  CHECK(jambs[0][1].x - jambs[0][0].x == Approx(964));
  CHECK(jambs[1][3].y - jambs[1][0].y == Approx(600));
}

TEST_CASE("the measure of overlap itself tells solids that stand in each other from those that touch") {
  Scene scene;
  const Bench bench = makeBench(scene, 0, 0, 0, 0);
  addBoxPart(bench, {}, {0, 100}, {0, 100}, {0, 100}, Grain::AlongX);
  addBoxPart(bench, {}, {100, 200}, {0, 100}, {0, 100}, Grain::AlongX);
  addBoxPart(bench, {}, {90, 200}, {20, 30}, {120, 130}, Grain::AlongX);
  CHECK(measure::overlaps(
            scene, [](const Part&) { return true; }, 0.01)
            .empty());
  addBoxPart(bench, {}, {95, 99}, {50, 60}, {97, 200}, Grain::AlongX);
  CHECK(measure::overlaps(
            scene, [](const Part&) { return true; }, 0.01)
            .size() == 1);
  CHECK(measure::overlap(scene.solids[0], scene.solids[3]) == Approx(3));
}
