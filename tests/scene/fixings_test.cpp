// Screws in the scene: heads sunk in the reveal, points in the studs, each told with its load.

#include <algorithm>
#include <optional>
#include <string>

#include "made.h"
#include "measure.h"
#include "scene/describe.h"

using namespace sillwright;
using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

struct Ends {
  glm::vec3 head{0.0F};
  glm::vec3 point{0.0F};
};

/// Of the mesh's own ends, in the world.
Ends endsOf(const Scene& scene, const MeshUse& use) {
  const Box box = boxRound(scene.meshes[use.mesh].corner);
  return {use.place * glm::vec4(0.0F, 0.0F, 0.0F, 1.0F), use.place * glm::vec4(0.0F, box.high.y, 0.0F, 1.0F)};
}

std::vector<const MeshUse*> screwsOf(const Scene& scene) {
  std::vector<const MeshUse*> screws;
  for (const MeshUse& use : scene.uses) {
    if (scene.parts[use.part].kind == PartKind::Screw) screws.push_back(&use);
  }
  return screws;
}

}  // namespace

TEST_CASE("every fixing of the plan is a screw, at the jambs with its head in the reveal and its point in the stud") {
  const Made made = make(oneOpening("sliding window", kReveal));
  const plan::OpeningPlan& planned = made.plan.openings[0];
  const auto screws = screwsOf(made.scene);
  REQUIRE(screws.size() == planned.fixings.points.size());
  const double left = 1000 + planned.stand.x;  // the unit's outside
  const double right = left + planned.unit.width;
  for (const MeshUse* use : screws) {
    const Part& part = made.scene.parts[use->part];
    REQUIRE(part.item >= 0);
    const plan::Fixing& fixing = planned.fixings.points[static_cast<std::size_t>(part.item)];
    if (plan::isLevel(fixing.side)) continue;  // beside the meeting stile, upright
    const plan::ChosenScrew& screw = planned.fixings.screws[static_cast<std::size_t>(fixing.screw)];
    const Ends ends = endsOf(made.scene, *use);
    CHECK_THAT(static_cast<double>(glm::length(ends.point - ends.head)), WithinAbs(screw.length, 0.01));
    const double sign = fixing.side == plan::Side::Left ? 1 : -1;
    const double outside = fixing.side == plan::Side::Left ? left : right;
    const double into_unit = sign * (static_cast<double>(ends.head.x) - outside);
    CHECK(into_unit > 0);
    CHECK_THAT(into_unit, WithinAbs(18 - planned.fixings.countersink, 0.01));  // sunk below the reveal's face
    const double edge = fixing.side == plan::Side::Left ? 1000.0 : 2530.0;     // of the framed opening
    CHECK_THAT(sign * (edge - static_cast<double>(ends.point.x)), WithinAbs(fixing.embedment, 0.01));
    CHECK(ends.head.y > 0);
    CHECK(ends.head.y < 90);
    CHECK_THAT(static_cast<double>(ends.head.z), WithinAbs(900 + planned.stand.z + fixing.at, 0.01));
    CHECK(part.layer == Layer::Fixing);
    CHECK(part.step != PartStep::FromTheStart);
  }
}

TEST_CASE("a bare frame's screws go in from outside, through the fin and into the framing") {
  const Made made = make(oneOpening("awning window"));
  const auto screws = screwsOf(made.scene);
  REQUIRE_FALSE(screws.empty());
  for (const MeshUse* use : screws) {
    const Ends ends = endsOf(made.scene, *use);
    CHECK(ends.head.y < 0);
    CHECK(ends.point.y > 0);
    CHECK(ends.point.y < 90);
    // In what the fin laps of the framing, at the sides.
    CHECK((ends.head.x < 1000 || ends.head.x > 2530));
  }
}

TEST_CASE("a screw tells its gauge, where it goes and what it carries") {
  const std::string windy = [] {
    std::string text = oneOpening("sliding window", kReveal);
    text.insert(text.find("practice"), "wind = \"N3\"\n");
    return text;
  }();
  const Made made = make(windy);
  const auto screws = screwsOf(made.scene);
  REQUIRE_FALSE(screws.empty());
  const Part& part = made.scene.parts[screws.front()->part];
  CHECK(describe(part, australia()) == "screw 8g × 75");
  const std::string why = reason(part, made.job, australia(), made.plan);
  CHECK(why.find("into the stud") != std::string::npos);
  CHECK(why.find(" N that it can take") != std::string::npos);
  CHECK(why.find("gives way where") != std::string::npos);
  CHECK(why.find("AS 1720.1") != std::string::npos);
  CHECK(why.find("comes out") == std::string::npos);
}

TEST_CASE("a screw that breaks out says so") {
  Made made = make(oneOpening("sliding window", kReveal));
  made.job.stock = job::Stock{};
  made.job.stock->screws = {"14g x 150"};
  const Made longer = make(made.job);
  const auto screws = screwsOf(longer.scene);
  REQUIRE_FALSE(screws.empty());
  const Part& part = longer.scene.parts[screws.front()->part];
  const std::string why = reason(part, longer.job, australia(), longer.plan);
  CHECK(why.find("comes out") != std::string::npos);
  CHECK(part.breaks_out);
  CHECK(describe(part, australia()) == "screw 14g × 150, comes out behind the studs");
  // At sill and head the timber's height, and no stud's thickness, is what a screw is in.
  const auto breaksOut = [](const Made& of, const MeshUse* use) {
    const Part& screw = of.scene.parts[use->part];
    const plan::Fixing& fixing = of.plan.openings[0].fixings.points[static_cast<std::size_t>(screw.item)];
    return plan::isLevel(fixing.side) ? std::nullopt : std::optional(screw.breaks_out);
  };
  for (const MeshUse* use : screws) CHECK(breaksOut(longer, use).value_or(true));
  for (const MeshUse* use : screwsOf(made.scene)) CHECK_FALSE(breaksOut(made, use).value_or(false));
}

TEST_CASE("without a mesh of a screw there are none, and nothing else is lost") {
  const Made with = make(oneOpening("fixed window", kReveal));
  const Made without = make(with.job, MeshLibrary{});
  CHECK(screwsOf(without.scene).empty());
  CHECK(without.scene.solids.size() == with.scene.solids.size());
}
