#include "render/camera.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>

#include "support/catch.h"

using namespace sillwright;
using render::Camera;

namespace {

/// Near and far set tight around `bounds`, as they are round what is drawn.
glm::mat4 projectionOf(const Camera& camera, float aspect, const scene::Box& bounds) {
  const auto corners = bounds.corners();
  const auto depth = [&](const glm::vec3& corner) { return glm::dot(corner - camera.eye(), camera.forward()); };
  const auto [nearest, farthest] = std::minmax_element(
      corners.begin(), corners.end(), [&](const auto& a, const auto& b) { return depth(a) < depth(b); });
  const float slack = 1.0F + 1e-4F * (depth(*farthest) - depth(*nearest));
  return camera.projectionBetween(aspect, depth(*nearest) - slack, depth(*farthest) + slack);
}

/// Even numbers from raw generator output, the same on every platform.
struct Dice {
  std::mt19937_64 engine{20240229};
  float between(float low, float high) {
    return low + (high - low) * static_cast<float>(static_cast<double>(engine() >> 11U) / 9007199254740992.0);
  }
};

Camera anyCamera(Dice& dice) {
  Camera c;
  c.target = {dice.between(-5000, 5000), dice.between(-5000, 5000), dice.between(0, 3000)};
  c.yaw_degrees = dice.between(-180, 180);
  c.pitch_degrees = dice.between(-89, 89);
  c.distance = dice.between(300, 20000);
  c.fov_degrees = dice.between(15, 70);
  c.parallel = dice.between(0, 1) > 0.5F;
  return c;
}

}  // namespace

TEST_CASE("a camera that isn't turned looks into the wall, with x to the right and z up") {
  Camera c;
  c.pitch_degrees = 0.0F;
  c.distance = 1000.0F;
  CHECK(glm::length(c.forward() - glm::vec3(0, 1, 0)) < 1e-6F);
  CHECK(glm::length(c.right() - glm::vec3(1, 0, 0)) < 1e-6F);
  CHECK(glm::length(c.up() - glm::vec3(0, 0, 1)) < 1e-6F);
  CHECK(glm::length(c.eye() - glm::vec3(0, -1000, 0)) < 1e-3F);
  c.yaw_degrees = 90.0F;  // Anticlockwise on plan from +Y is −X.
  CHECK(glm::length(c.forward() - glm::vec3(-1, 0, 0)) < 1e-6F);
  c.pitch_degrees = 90.0F;
  CHECK(glm::length(c.forward() - glm::vec3(0, 0, -1)) < 1e-6F);
}

TEST_CASE("a point seen by hand: 45 degrees off the axis lies at the edge of a 90 degree view") {
  Camera c;
  c.target = {0, 0, 0};
  c.pitch_degrees = 0.0F;
  c.distance = 1000.0F;
  c.fov_degrees = 90.0F;
  const glm::vec3 top = render::project(c, {0, 0, 1000}, 800, 600);
  CHECK(top.x == Approx(400.0F).margin(1e-3));
  CHECK(top.y == Approx(0.0F).margin(1e-2));
  CHECK(top.z == Approx(1000.0F));
  CHECK(render::project(c, {0, -1500, 0}, 800, 600).z < 0.0F);
}

TEST_CASE("a ray through where a point is seen passes through the point") {
  Dice dice;
  for (int i = 0; i < 500; ++i) {
    const Camera c = anyCamera(dice);
    const float width = dice.between(100, 3000);
    const float height = dice.between(100, 2000);
    const render::Ray ray = render::rayThrough(c, dice.between(0, width), dice.between(0, height), width, height);
    CHECK(glm::length(ray.direction) == Approx(1.0F).margin(1e-5));
    const float along = dice.between(0.3F, 2.0F) * c.distance;
    const glm::vec3 point = ray.from + ray.direction * along;
    const glm::vec3 seen = render::project(c, point, width, height);
    const render::Ray again = render::rayThrough(c, seen.x, seen.y, width, height);
    const glm::vec3 to = point - again.from;
    const float off = glm::length(to - again.direction * glm::dot(to, again.direction));
    CHECK(off < 0.002F * c.distance);
  }
}

TEST_CASE("the matrices put a point where project says") {
  Dice dice;
  const scene::Box bounds{{-8000, -8000, -500}, {8000, 8000, 4000}};
  for (int i = 0; i < 500; ++i) {
    const Camera c = anyCamera(dice);
    const glm::vec3 point{dice.between(-6000, 6000), dice.between(-6000, 6000), dice.between(0, 3000)};
    const glm::vec3 seen = render::project(c, point, 1600, 1000);
    if (seen.z < 100.0F || std::abs(seen.x) > 5000 || std::abs(seen.y) > 5000) continue;
    const glm::vec4 clip = projectionOf(c, 1.6F, bounds) * c.view() * glm::vec4(point, 1.0F);
    CHECK((clip.x / clip.w * 0.5F + 0.5F) * 1600.0F == Approx(seen.x).margin(0.3));
    CHECK((0.5F - clip.y / clip.w * 0.5F) * 1000.0F == Approx(seen.y).margin(0.3));
    CHECK(clip.z / clip.w <= 1.0001F);
  }
}

TEST_CASE("near and far lie tight around the bounds, and a millimetre at eight metres is many depth steps") {
  Camera c;
  c.target = {1800, 0, 1200};
  c.distance = 8000.0F;
  const scene::Box bounds{{0, -900, 0}, {3600, 1500, 2400}};
  const glm::mat4 m = projectionOf(c, 1.6F, bounds) * c.view();
  const auto depth = [&](glm::vec3 p) {
    const glm::vec4 clip = m * glm::vec4(p, 1.0F);
    return clip.z / clip.w * 0.5 + 0.5;
  };
  const double step = depth({1800, 1, 1200}) - depth({1800, 0, 1200});
  CHECK(step * 16777216.0 > 100.0);  // Steps of a 24-bit depth buffer.
}

TEST_CASE("framing a box fills the view and leaves the margin, from anywhere") {
  Dice dice;
  for (int i = 0; i < 300; ++i) {
    Camera c = anyCamera(dice);
    c.pitch_degrees = dice.between(-60, 89);
    scene::Box box;
    box.low = {dice.between(-5000, 5000), dice.between(-5000, 5000), dice.between(0, 500)};
    box.high = box.low + glm::vec3(dice.between(50, 12000), dice.between(50, 9000), dice.between(50, 3000));
    const float width = 1600.0F;
    const float height = dice.between(500, 2000);
    constexpr float kMargin = 1.1F;
    const float yaw = c.yaw_degrees;
    render::framePoints(c, box.corners(), width / height, kMargin);
    CHECK(c.yaw_degrees == yaw);
    float most = 0.0F;
    for (unsigned int k = 0; k < 8; ++k) {
      const glm::vec3 corner{(k & 1U) != 0 ? box.high.x : box.low.x, (k & 2U) != 0 ? box.high.y : box.low.y,
                             (k & 4U) != 0 ? box.high.z : box.low.z};
      const glm::vec3 seen = render::project(c, corner, width, height);
      if (!c.parallel) REQUIRE(seen.z > 0.0F);
      most = std::max({most, std::abs(seen.x / width - 0.5F) * 2.0F, std::abs(seen.y / height - 0.5F) * 2.0F});
    }
    CHECK(most == Approx(1.0F / kMargin).epsilon(0.01));
  }
}
