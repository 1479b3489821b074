// Deviation drawn larger: what is drawn grows by the factor, what is said about the parts does not change.

#include "scene/build/magnify.h"

#include "made.h"

using namespace sillwright;
using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

constexpr double kExact = 1e-9;

/// The gap between an as-built edge and the unit's side at a height of the unit or a place along it, worked from the
/// drawn places alone.
double gapAtFoot(const plan::Edge& left, const plan::OpeningPlan& drawn) { return drawn.stand.x - left[0].x; }

}  // namespace

TEST_CASE("a point stands off its planned place so many times as far") {
  const plan::Point drawn = magnified(plan::Point{103.5, -2}, plan::Point{100, 0}, 10);
  CHECK_THAT(drawn.x, WithinAbs(135, kExact));
  CHECK_THAT(drawn.z, WithinAbs(-20, kExact));
}

TEST_CASE("gaps, packers and out-of-square grow alike, and the planned opening stays") {
  const Made made = makeFile("boatshed.toml");
  const double times = GENERATE(2.0, 5.0, 20.0);
  for (std::size_t i = 0; i < made.job.openings.size(); ++i) {
    const job::Opening& opening = made.job.openings[i];
    const plan::OpeningPlan& planned = made.plan.openings[i];
    const plan::OpeningPlan drawn = magnified(planned, opening, times);
    const plan::OpeningShape& shape = planned.as_built.shape;
    INFO(opening.name);
    // Left: the edge's foot is the origin of both figures, so the drawn gap there is the true one times the factor.
    const plan::Edge left = magnifiedEdge(shape, plan::Side::Left, opening, times);
    CHECK_THAT(gapAtFoot(left, drawn), WithinAbs(times * planned.stand.x, 1e-6));
    // Right: at the foot of the edge.
    const plan::Edge right = magnifiedEdge(shape, plan::Side::Right, opening, times);
    const double true_right = shape.corner[1].x - planned.stand.x - planned.unit.width;
    CHECK_THAT(right[0].x - drawn.stand.x - drawn.unit.width, WithinAbs(times * true_right, 1e-6));
    // Out of square, by the top corners' lean against the bottom ones.
    const double lean = (shape.corner[3].x - shape.corner[0].x);
    CHECK_THAT(left[2].x - left[0].x, WithinAbs(times * lean, 1e-6));
    REQUIRE(drawn.packing.points.size() == planned.packing.points.size());
    for (std::size_t p = 0; p < drawn.packing.points.size(); ++p) {
      const plan::PackingPoint& a = planned.packing.points[p];
      const plan::PackingPoint& b = drawn.packing.points[p];
      CHECK_THAT(b.gap, WithinAbs(times * a.gap, 1e-6));
      CHECK_THAT(b.stack.total, WithinAbs(times * a.stack.total, 1e-6));
      CHECK(b.stack.pieces == a.stack.pieces);
      CHECK(b.stack.total <= b.gap + times * plan::kTimberGives + 1e-6);
    }
  }
}

TEST_CASE("at 1 the drawn plan is the plan") {
  const Made made = makeFile("boatshed.toml");
  const plan::OpeningPlan drawn = magnified(made.plan.openings[0], made.job.openings[0], 1);
  CHECK(drawn.unit.width == made.plan.openings[0].unit.width);
  CHECK(drawn.stand.x == made.plan.openings[0].stand.x);
  CHECK(drawn.fixings.screws.size() == made.plan.openings[0].fixings.screws.size());
}

TEST_CASE("a magnified scene holds the same parts with their true sizes") {
  const char* file = GENERATE("boatshed.toml", "not-yet.toml", "raking-studio.toml", "garage-header.toml",
                              "stair-pair.toml", "brick-no-fin.toml", "misread-middle.toml");
  const Made made = makeFile(file);
  const Scene scene = build(made.job, australia(), made.plan, ownMeshes(), 20);
  INFO(file);
  REQUIRE(scene.parts.size() == made.scene.parts.size());
  bool moved = false;
  for (std::size_t i = 0; i < scene.parts.size(); ++i) {
    const Part& a = made.scene.parts[i];
    const Part& b = scene.parts[i];
    CHECK(a.kind == b.kind);
    CHECK(a.opening == b.opening);
    CHECK(a.size == b.size);
  }
  REQUIRE(scene.solids.size() == made.scene.solids.size());
  for (std::size_t i = 0; i < scene.solids.size(); ++i)
    moved = moved || scene.solids[i].corner != made.scene.solids[i].corner;
  CHECK(moved);
}

TEST_CASE("no unit is drawn at less than two fifths of its size") {
  // 1530 × 1060 for 1130 × 1040: gaps of 400 across. (1530 − 0.4 · 1130) / 400 = 2.695.
  job::Opening opening;
  opening.width = 1530;
  opening.height = 1060;
  plan::OpeningPlan planned;
  planned.unit.width = 1130;
  planned.unit.height = 1040;
  job::Job job;
  job.openings = {opening};
  plan::Plan plan;
  plan.openings = {planned};
  const double most = mostDeviation(job, plan);
  CHECK_THAT(most, WithinAbs(2.695, kExact));
  CHECK_THAT(magnified(planned, opening, most).unit.width, WithinAbs(0.4 * 1130, 1e-6));
  plan.openings[0].unit.width = 1510;
  plan.openings[0].unit.height = 1050;
  CHECK(mostDeviation(job, plan) == kMostDeviation);
  plan.openings[0].unit.width = 1600;  // does not fit: its overlap is drawn larger, without a limit
  CHECK(mostDeviation(job, plan) == kMostDeviation);
}
