#include "view/values/camera_control.h"

#include <cmath>
#include <random>

#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::view;
using Catch::Matchers::WithinAbs;

namespace {

constexpr float kWidth = 1280.0F;
constexpr float kHeight = 800.0F;

/// A source of cameras and of points before them.
class Random {
 public:
  float between(float low, float high) {
    return low + (high - low) * static_cast<float>(generator_() >> 11) / 9007199254740992.0F;
  }
  render::Camera camera() {
    render::Camera camera;
    camera.target = {between(-9000.0F, 9000.0F), between(-9000.0F, 9000.0F), between(0.0F, 4000.0F)};
    camera.yaw_degrees = between(-180.0F, 180.0F);
    camera.pitch_degrees = between(-60.0F, 60.0F);
    camera.distance = between(500.0F, 20000.0F);
    return camera;
  }
  /// A point in the picture, at up to twice the target's distance.
  glm::vec3 before(const render::Camera& camera) {
    const render::Ray ray = render::rayThrough(camera, between(0.0F, kWidth), between(0.0F, kHeight), kWidth, kHeight);
    return ray.from + ray.direction * (camera.distance * between(0.3F, 2.0F));
  }

 private:
  std::mt19937_64 generator_{7};
};

glm::vec3 pixelOf(const render::Camera& camera, glm::vec3 point) {
  return render::project(camera, point, kWidth, kHeight);
}

/// Two walls: one along X, one turned by 90 degrees, each with an opening in its middle.
scene::Scene twoWalls() {
  scene::Scene scene;
  scene.walls.resize(2);
  scene.walls[0].length = 6000.0F;
  scene.walls[1].origin = {6000.0F, 0.0F, 0.0F};
  scene.walls[1].along = {0.0F, 1.0F, 0.0F};
  scene.walls[1].inward = {-1.0F, 0.0F, 0.0F};
  scene.walls[1].length = 4000.0F;
  scene.openings.resize(2);
  for (std::uint32_t i = 0; i < 2; ++i) {
    scene.walls[i].height = 2400.0F;
    scene.walls[i].depth = 90.0F;
    scene.openings[i].wall = i;
    scene.openings[i].width = 1500.0F;
    scene.openings[i].height = 1200.0F;
    scene.openings[i].centre = scene.walls[i].toWorld({scene.walls[i].length * 0.5F, 0.0F, 1500.0F});
  }
  scene.bounds = {{0.0F, -50.0F, 0.0F}, {6090.0F, 4000.0F, 2400.0F}};
  return scene;
}

constexpr Canvas kCanvas{.width = kWidth, .height = kHeight, .left = 220.0F, .right = 370.0F, .bottom = 60.0F};

}  // namespace

TEST_CASE("turning keeps the point that is held on its pixel") {
  Random random;
  for (int i = 0; i < 200; ++i) {
    const render::Camera camera = random.camera();
    const glm::vec3 held = random.before(camera);
    const glm::vec3 before = pixelOf(camera, held);
    const render::Camera turned = orbit(camera, held, random.between(-200.0F, 200.0F), random.between(-60.0F, 60.0F));
    const glm::vec3 after = pixelOf(turned, held);
    CHECK_THAT(after.x, WithinAbs(before.x, 0.5));
    CHECK_THAT(after.y, WithinAbs(before.y, 0.5));
    CHECK(turned.distance == camera.distance);
  }
}

TEST_CASE("a drag to the right pushes the near face to the right") {
  render::Camera camera;
  camera.pitch_degrees = 0.0F;
  const glm::vec3 near_face{0.0F, -1000.0F, 0.0F};  // between the eye and the point it turns about
  const render::Camera turned = orbit(camera, camera.target, 50.0F, 0.0F);
  CHECK(pixelOf(turned, near_face).x > pixelOf(camera, near_face).x + 5.0F);
}

TEST_CASE("a drag down shows more from above, and stops short of straight down") {
  const render::Camera camera;
  CHECK(orbit(camera, camera.target, 0.0F, 50.0F).pitch_degrees > camera.pitch_degrees);
  CHECK(orbit(camera, camera.target, 0.0F, 1.0e5F).pitch_degrees < 90.0F);
  CHECK(orbit(camera, camera.target, 0.0F, -1.0e5F).pitch_degrees > -90.0F);
}

TEST_CASE("sliding takes the held point along with the pointer") {
  Random random;
  for (int i = 0; i < 200; ++i) {
    const render::Camera camera = random.camera();
    const glm::vec3 held = random.before(camera);
    const glm::vec3 before = pixelOf(camera, held);
    const float x = random.between(-300.0F, 300.0F);
    const float y = random.between(-300.0F, 300.0F);
    const glm::vec3 after = pixelOf(pan(camera, held, x, y, kHeight), held);
    CHECK_THAT(after.x - before.x, WithinAbs(x, 0.5));
    CHECK_THAT(after.y - before.y, WithinAbs(y, 0.5));
  }
}

TEST_CASE("nearing keeps the point under the pointer on its pixel") {
  Random random;
  for (int i = 0; i < 200; ++i) {
    const render::Camera camera = random.camera();
    const glm::vec3 towards = random.before(camera);
    const glm::vec3 before = pixelOf(camera, towards);
    const float factor = random.between(0.3F, 3.0F);
    const render::Camera moved = zoom(camera, towards, factor);
    const glm::vec3 after = pixelOf(moved, towards);
    CHECK_THAT(after.x, WithinAbs(before.x, 0.5));
    CHECK_THAT(after.y, WithinAbs(before.y, 0.5));
    CHECK(moved.distance == Approx(camera.distance * factor));
  }
}

TEST_CASE("nearing has an end, and coming back from it is possible") {
  render::Camera camera;
  for (int i = 0; i < 500; ++i) camera = zoom(camera, camera.target, 0.5F);
  CHECK(camera.distance > 1.0F);
  const float nearest = camera.distance;
  camera = zoom(camera, camera.target, 4.0F);
  CHECK(camera.distance == Approx(nearest * 4.0F));
}

TEST_CASE("where nothing is drawn the hand holds the plane of what is looked at") {
  const render::Camera camera;
  const glm::vec3 point = pointAtTarget(camera, 300.0F, 200.0F, kWidth, kHeight);
  CHECK_THAT(glm::dot(point - camera.target, camera.forward()), WithinAbs(0.0, 0.5));
  CHECK_THAT(pixelOf(camera, point).x, WithinAbs(300.0, 0.1));
}

TEST_CASE("outside looks into the building, inside out of it, the ends along the wall") {
  const scene::Scene scene = twoWalls();
  const std::int32_t wall = GENERATE(0, 1);
  const scene::WallFrame& frame = scene.walls[static_cast<std::size_t>(wall)];
  const auto along = [&](StandingView view, glm::vec3 direction) {
    return glm::dot(standAt(scene, view, {wall, -1, {}}, kCanvas).forward(), direction);
  };
  CHECK(along(StandingView::Outside, frame.inward) > 0.99F);
  CHECK(along(StandingView::Inside, -frame.inward) > 0.99F);
  CHECK(along(StandingView::LeftEnd, frame.along) > 0.99F);
  CHECK(along(StandingView::RightEnd, -frame.along) > 0.99F);
  CHECK(along(StandingView::Above, {0.0F, 0.0F, -1.0F}) > 0.99F);
}

TEST_CASE("every view has its subject in the part of the picture that no panel covers") {
  const scene::Scene scene = twoWalls();
  const auto view = static_cast<StandingView>(GENERATE(range(1, static_cast<int>(kStandingViews))));
  if (isCloseUp(view)) return;
  const render::Camera camera = standAt(scene, view, {-1, 1, {}}, kCanvas);
  const glm::vec3 middle = pixelOf(camera, scene.openings[1].centre);
  CHECK(middle.z > 0.0F);
  CHECK_THAT(middle.x, WithinAbs((kCanvas.left + kCanvas.width - kCanvas.right) / 2.0, 30.0));
  CHECK_THAT(middle.y, WithinAbs((kCanvas.height - kCanvas.bottom) / 2.0, 60.0));
}

TEST_CASE("close-ups look at their spot of the opening") {
  const scene::Scene scene = twoWalls();
  const scene::OpeningFrame& opening = scene.openings[0];
  const glm::vec3 side{opening.width * 0.5F, 0.0F, 0.0F};
  const glm::vec3 up{0.0F, 0.0F, opening.height * 0.5F};
  struct Case {
    StandingView view;
    check::Spot spot;
    glm::vec3 point;
  };
  const Case cases[] = {
      {StandingView::Head, {}, opening.centre + up},
      {StandingView::Sill, {}, opening.centre - up},
      {StandingView::Jamb, {}, opening.centre - side},
      {StandingView::Jamb, {plan::Side::Right, std::nullopt}, opening.centre + side},
      {StandingView::Corner, {}, opening.centre - side - up},
      {StandingView::Corner, {std::nullopt, plan::Corner::TR}, opening.centre + side + up},
  };
  for (const Case& each : cases) {
    const render::Camera camera = standAt(scene, each.view, {-1, 0, each.spot}, kCanvas);
    const glm::vec3 seen = pixelOf(camera, each.point);
    CHECK_THAT(seen.x, WithinAbs((kCanvas.left + kCanvas.width - kCanvas.right) / 2.0, 40.0));
    CHECK_THAT(seen.y, WithinAbs((kCanvas.height - kCanvas.bottom) / 2.0, 60.0));
    CHECK(camera.distance < 3000.0F);
  }
}

TEST_CASE("a close-up without an opening stands outside") {
  const scene::Scene scene = twoWalls();
  const render::Camera camera = standAt(scene, StandingView::Head, {1, -1, {}}, kCanvas);
  CHECK(glm::dot(camera.forward(), scene.walls[1].inward) > 0.99F);
}

TEST_CASE("views go by their words, there and back") {
  for (std::size_t i = 0; i < kStandingViews; ++i) {
    const auto view = static_cast<StandingView>(i);
    CHECK(standingView(wordFor(view)) == view);
  }
  CHECK_FALSE(standingView("front"));
  CHECK_FALSE(standingView(""));
}

TEST_CASE("a finding's spot has its view") {
  CHECK(viewOf({}) == StandingView::Outside);
  CHECK(viewOf({plan::Side::Sill, std::nullopt}) == StandingView::Sill);
  CHECK(viewOf({plan::Side::Head, std::nullopt}) == StandingView::Head);
  CHECK(viewOf({plan::Side::Right, std::nullopt}) == StandingView::Jamb);
  CHECK(viewOf({plan::Side::Right, plan::Corner::TL}) == StandingView::Corner);
}

TEST_CASE("a flight arrives, in time, the short way round") {
  render::Camera from;
  from.yaw_degrees = 170.0F;
  render::Camera to;
  to.yaw_degrees = -170.0F;
  to.distance = 400.0F;
  to.target = {100.0F, 200.0F, 300.0F};
  Flight flight = {from, to, 0.0F};
  float passed = 0.0F;
  float last_distance = from.distance;
  while (flight.flying()) {
    const render::Camera camera = fly(flight, 1.0F / 60.0F);
    passed += 1.0F / 60.0F;
    CHECK(camera.distance <= last_distance + 0.01F);
    last_distance = camera.distance;
    CHECK(std::abs(std::remainder(camera.yaw_degrees - 180.0F, 360.0F)) <= 10.01F);
    REQUIRE(passed < 2.0F);
  }
  CHECK(passed == Approx(kFlightSeconds).margin(0.02));
  CHECK(fly(flight, 0.0F).target == to.target);
  CHECK(fly(flight, 0.0F).yaw_degrees == to.yaw_degrees);
}
