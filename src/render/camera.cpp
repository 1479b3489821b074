#include "render/camera.h"

#include <algorithm>
#include <cmath>
#include <limits>

#define GLM_ENABLE_EXPERIMENTAL
#include <glm/gtc/matrix_transform.hpp>

namespace sillwright::render {
namespace {

/// Nearest that anything is drawn in perspective, mm: a lens held against the timber still shows it.
constexpr float kNearest = 20.0F;
/// Far over near at most. With 24 bits of depth this leaves steps below 0.2 mm at the middle of a house.
constexpr float kMostDepthRatio = 4000.0F;

float tanHalf(const Camera& camera) { return std::tan(glm::radians(camera.fov_degrees) * 0.5F); }

/// Where the eye may stand on one axis across the view. In a frame of (across, depth), every point must lie between two
/// lines through the eye at slopes ±t; `left` and `right` are the tightest of them.
struct Wedge {
  float left = std::numeric_limits<float>::max();
  float right = std::numeric_limits<float>::max();
  void hold(float across, float depth, float t) {  // t: half the width of view at a depth of 1
    left = std::min(left, t * depth + across);
    right = std::min(right, t * depth - across);
  }
  [[nodiscard]] float depth(float t) const { return (left + right) / (2.0F * t); }  // where the two lines meet
  [[nodiscard]] float across() const { return (left - right) * 0.5F; }
};

}  // namespace

glm::vec3 Camera::forward() const {
  const float yaw = glm::radians(yaw_degrees);
  const float pitch = glm::radians(pitch_degrees);
  return {-std::sin(yaw) * std::cos(pitch), std::cos(yaw) * std::cos(pitch), -std::sin(pitch)};
}

glm::vec3 Camera::right() const {
  const float yaw = glm::radians(yaw_degrees);
  return {std::cos(yaw), std::sin(yaw), 0.0F};  // From yaw alone, so that looking straight down still has a right.
}

glm::vec3 Camera::up() const { return glm::cross(right(), forward()); }

glm::vec3 Camera::eye() const { return target - forward() * distance; }

float Camera::halfHeight() const { return distance * tanHalf(*this); }

glm::mat4 Camera::view() const {
  const glm::vec3 r = right();
  const glm::vec3 u = up();
  const glm::vec3 f = forward();
  const glm::vec3 e = eye();
  glm::mat4 m(glm::transpose(glm::mat3(r, u, -f)));                 // OpenGL looks along −z
  m[3] = {-glm::dot(r, e), -glm::dot(u, e), glm::dot(f, e), 1.0F};  // the eye becomes the origin
  return m;
}

glm::mat4 Camera::projectionBetween(float aspect, float near_depth, float far_depth) const {
  far_depth = std::max(far_depth, near_depth + 1.0F);  // a flat scene has no depth
  if (parallel) {
    const float half = halfHeight();
    return glm::ortho(-half * aspect, half * aspect, -half, half, near_depth, far_depth);
  }
  far_depth = std::max(far_depth, 2.0F * kNearest);  // all may lie nearer than kNearest, or behind the eye
  near_depth = std::max({near_depth, kNearest, far_depth / kMostDepthRatio});
  return glm::perspective(glm::radians(fov_degrees), aspect, near_depth, far_depth);
}

Ray rayThrough(const Camera& camera, float x, float y, float width, float height) {
  const float half = camera.halfHeight();
  const float pixel = 2.0F * half / height;  // Millimetres a pixel in the plane through the target.
  const glm::vec3 across = camera.right() * ((x - width * 0.5F) * pixel) - camera.up() * ((y - height * 0.5F) * pixel);
  if (camera.parallel) return {camera.eye() + across, camera.forward()};  // rays run side by side
  return {camera.eye(), glm::normalize(camera.forward() * camera.distance + across)};
}

Projection::Projection(const Camera& camera, float width, float height)
    : eye_(camera.eye()),
      right_(camera.right()),
      up_(camera.up()),
      forward_(camera.forward()),
      half_{width * 0.5F, height * 0.5F},
      scale_(half_.y / tanHalf(camera)),  // pixels that a slope of 1 takes
      distance_(camera.distance),
      parallel_(camera.parallel) {}

glm::vec3 Projection::operator()(glm::vec3 world) const {
  const glm::vec3 to = world - eye_;
  const float depth = glm::dot(to, forward_);
  const float away = parallel_ ? distance_ : std::max(std::abs(depth), 1e-3F);  // nothing is divided by 0
  const float pixels = scale_ / away;
  return {half_.x + glm::dot(to, right_) * pixels, half_.y - glm::dot(to, up_) * pixels, depth};  // y grows downwards
}

float Projection::reach(glm::vec3 seen, float radius) const {
  if (parallel_) return radius * scale_ / distance_;
  if (seen.z <= radius) return std::numeric_limits<float>::max();  // the eye is in the ball, which may be all round it
  const float off = std::max(std::abs(seen.x - half_.x), std::abs(seen.y - half_.y));  // seen aslant it is longer
  return radius * (scale_ + off) / (seen.z - radius);  // an upper bound: as far aside and as near as the ball goes
}

glm::vec3 project(const Camera& camera, glm::vec3 world, float width, float height) {
  return Projection(camera, width, height)(world);
}

void framePoints(Camera& camera, std::span<const glm::vec3> points, float aspect, float margin) {
  if (points.empty()) return;
  const scene::Box box = scene::boxRound(points);
  const glm::vec3 middle = (box.low + box.high) * 0.5F;
  const glm::vec3 r = camera.right();
  const glm::vec3 u = camera.up();
  const glm::vec3 f = camera.forward();
  const float tall = tanHalf(camera) / margin;  // slopes of the view's edges, drawn in by the margin
  const float wide = tall * aspect;

  Wedge sideways;
  Wedge upright;
  glm::vec2 least{std::numeric_limits<float>::max()};
  glm::vec2 most{std::numeric_limits<float>::lowest()};
  for (const glm::vec3& point : points) {
    const glm::vec3 to = point - middle;
    const glm::vec2 across{glm::dot(to, r), glm::dot(to, u)};
    const float depth = glm::dot(to, f);
    sideways.hold(across.x, depth, wide);
    upright.hold(across.y, depth, tall);
    least = glm::min(least, across);
    most = glm::max(most, across);
  }

  if (camera.parallel) {
    const glm::vec2 centre = (least + most) * 0.5F;
    const glm::vec2 half = (most - least) * 0.5F;
    camera.target = middle + r * centre.x + u * centre.y;
    camera.distance = std::max(1.0F, std::max(half.y / tall, half.x / wide));  // a point has no size
    return;
  }
  camera.target = middle + r * sideways.across() + u * upright.across();
  camera.distance = std::max(1.0F, -std::min(sideways.depth(wide), upright.depth(tall)));  // the further back of both
}

}  // namespace sillwright::render
