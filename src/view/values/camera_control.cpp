#include "view/values/camera_control.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sillwright::view {
namespace {

constexpr float kDegreesPerPixel = 0.3F;
constexpr float kSteepest = 89.0F;   // short of straight down, where right and left lose their meaning
constexpr float kNearest = 40.0F;    // mm: closer than a corner lens needs
constexpr float kFurthest = 2.0e6F;  // mm: a terrace of the longest walls is still seen whole

/// A vector told in the camera's own directions, so that it can be told again in another's.
glm::vec3 toOwn(const render::Camera& camera, glm::vec3 vector) {
  return {glm::dot(vector, camera.right()), glm::dot(vector, camera.forward()), glm::dot(vector, camera.up())};
}
glm::vec3 fromOwn(const render::Camera& camera, glm::vec3 own) {
  return camera.right() * own.x + camera.forward() * own.y + camera.up() * own.z;
}

float depthOf(const render::Camera& camera, glm::vec3 point) {
  return glm::dot(point - camera.eye(), camera.forward());
}

/// Millimetres that one pixel covers at a depth along the view.
float perPixel(const render::Camera& camera, float depth, float height) {
  const float at = camera.parallel ? camera.distance : std::max(depth, kNearest);
  return 2.0F * at * std::tan(glm::radians(camera.fov_degrees) / 2.0F) / height;
}

/// How a wall is turned on plan, degrees anticlockwise.
float turnOf(const scene::WallFrame& wall) { return glm::degrees(std::atan2(wall.along.y, wall.along.x)); }

scene::Box boxOf(const scene::WallFrame& wall) {
  const glm::vec3 start = wall.toWorld({0.0F, 0.0F, 0.0F});
  scene::Box box{start, start};
  for (const float x : {0.0F, wall.length}) {
    for (const float y : {-50.0F, wall.depth}) {
      for (const float z : {0.0F, wall.height}) box.hold(wall.toWorld({x, y, z}));
    }
  }
  return box;
}

/// A box round a point of an opening, `half` to each side along the wall and up.
scene::Box boxRound(const scene::WallFrame& wall, glm::vec3 middle, float half_along, float half_up) {
  const glm::vec3 side = wall.along * half_along;
  const glm::vec3 up{0.0F, 0.0F, half_up};
  return scene::boxRound(std::array{middle - side - up, middle + side + up, middle + side - up, middle - side + up});
}

struct Angles {
  float yaw = 0.0F;    // from looking square at the wall from outside
  float pitch = 0.0F;  // + looks down
};

/// Where one stands for each view. The close-ups look a little from the side, so that depth can be read.
Angles anglesOf(StandingView view, const check::Spot& spot) {
  constexpr std::array<Angles, kStandingViews> kAngles{{{26.0F, 24.0F},
                                                        {0.0F, 4.0F},
                                                        {180.0F, 4.0F},
                                                        {0.0F, kSteepest},
                                                        {-90.0F, 4.0F},
                                                        {90.0F, 4.0F},
                                                        {18.0F, -16.0F},
                                                        {18.0F, 26.0F},
                                                        {24.0F, 8.0F},
                                                        {24.0F, 22.0F}}};
  Angles angles = kAngles[static_cast<std::size_t>(view)];
  const bool at_right = spot.side == plan::Side::Right || (spot.corner && plan::isRight(*spot.corner));
  if (at_right && (view == StandingView::Jamb || view == StandingView::Corner)) angles.yaw = -angles.yaw;
  if (view == StandingView::Corner && spot.corner && plan::isTop(*spot.corner)) angles.pitch = -16.0F;
  return angles;
}

scene::Box boxFor(const scene::Scene& scene, StandingView view, const Subject& subject) {
  if (view == StandingView::House || (subject.opening < 0 && subject.wall < 0)) return scene.bounds;
  if (subject.opening < 0) return boxOf(scene.walls[static_cast<std::size_t>(subject.wall)]);
  const scene::OpeningFrame& opening = scene.openings[static_cast<std::size_t>(subject.opening)];
  const scene::WallFrame& wall = scene.walls[opening.wall];
  if (isCloseUp(view)) return boxRound(wall, closeUpPoint(opening, wall, view, subject.spot), 230.0F, 150.0F);
  // Room round the opening for its studs, its flashings and its dimensions.
  return boxRound(wall, opening.centre, opening.width * 0.5F + 420.0F, opening.height * 0.5F + 380.0F);
}

/// From the middle of the picture to that of the canvas's free part, at the target's depth.
glm::vec3 asideOf(const render::Camera& camera, const Canvas& canvas) {
  const float per_pixel = perPixel(camera, camera.distance, canvas.height);
  const glm::vec2 aside{(canvas.left - canvas.right) * 0.5F, (canvas.top - canvas.bottom) * 0.5F};
  return camera.right() * (aside.x * per_pixel) - camera.up() * (aside.y * per_pixel);
}

/// framePoints for the free part of the canvas: framed as if that were all, then moved aside.
void frameFree(render::Camera& camera, std::span<const glm::vec3> points, const Canvas& canvas) {
  const float free_width = std::max(canvas.freeWidth(), canvas.width * 0.2F);
  const float free_height = std::max(canvas.freeHeight(), canvas.height * 0.2F);
  render::framePoints(camera, points, free_width / free_height);
  camera.distance *= canvas.height / free_height;
  camera.target -= asideOf(camera, canvas);
}

float eased(float t) { return t * t * (3.0F - 2.0F * t); }

}  // namespace

render::Camera orbit(const render::Camera& camera, glm::vec3 about, float drag_x, float drag_y) {
  render::Camera turned = camera;
  turned.yaw_degrees = std::remainder(camera.yaw_degrees - drag_x * kDegreesPerPixel, 360.0F);
  turned.pitch_degrees = std::clamp(camera.pitch_degrees + drag_y * kDegreesPerPixel, -kSteepest, kSteepest);
  turned.target = about + fromOwn(turned, toOwn(camera, camera.target - about));
  return turned;
}

render::Camera framed(render::Camera camera, std::span<const glm::vec3> points, const Canvas& canvas) {
  frameFree(camera, points, canvas);
  return camera;
}

render::Camera refitted(const render::Camera& camera, const Canvas& from, const Canvas& to) {
  render::Camera fitted = camera;
  constexpr float kLeast = 0.2F;  // of a side, however much the panels cover
  const auto least = [](const Canvas& canvas) {
    return std::min(std::max(canvas.freeWidth(), canvas.width * kLeast),
                    std::max(canvas.freeHeight(), canvas.height * kLeast));
  };
  fitted.distance *= to.height / from.height * least(from) / least(to);
  fitted.target += asideOf(camera, from) - asideOf(fitted, to);
  return fitted;
}

render::Camera pan(const render::Camera& camera, glm::vec3 held, float drag_x, float drag_y, float height) {
  const float per_pixel = perPixel(camera, depthOf(camera, held), height);
  render::Camera moved = camera;
  moved.target += camera.right() * (-drag_x * per_pixel) + camera.up() * (drag_y * per_pixel);
  return moved;
}

render::Camera zoom(const render::Camera& camera, glm::vec3 towards, float factor) {
  const float distance = std::clamp(camera.distance * factor, kNearest, kFurthest);
  const float real_factor = distance / camera.distance;
  render::Camera moved = camera;
  moved.distance = distance;
  moved.target = towards + (camera.target - towards) * real_factor;
  return moved;
}

glm::vec3 pointAtTarget(const render::Camera& camera, float x, float y, float width, float height) {
  const render::Ray ray = render::rayThrough(camera, x, y, width, height);
  const float slope = glm::dot(ray.direction, camera.forward());
  const float depth = glm::dot(camera.target - ray.from, camera.forward());
  return ray.from + ray.direction * (depth / std::max(slope, 1e-4F));
}

const char* wordFor(StandingView view) {
  constexpr std::array<const char*, kStandingViews> kWords{"house",     "outside", "inside", "above", "left end",
                                                           "right end", "head",    "sill",   "jamb",  "corner"};
  return kWords[static_cast<std::size_t>(view)];
}

std::optional<StandingView> standingView(std::string_view word) {
  for (std::size_t i = 0; i < kStandingViews; ++i) {
    const auto view = static_cast<StandingView>(i);
    if (word == wordFor(view)) return view;
  }
  return std::nullopt;
}

bool isCloseUp(StandingView view) { return view >= StandingView::Head; }

glm::vec3 closeUpPoint(const scene::OpeningFrame& opening, const scene::WallFrame& wall, StandingView view,
                       const check::Spot& spot) {
  float along = 0.0F;
  float up = 0.0F;
  if (view == StandingView::Head) up = 0.5F;
  if (view == StandingView::Sill) up = -0.5F;
  if (view == StandingView::Jamb) along = spot.side == plan::Side::Right ? 0.5F : -0.5F;
  if (view == StandingView::Corner) {
    const plan::Corner corner = spot.corner.value_or(plan::Corner::BL);
    along = plan::isRight(corner) ? 0.5F : -0.5F;
    up = plan::isTop(corner) ? 0.5F : -0.5F;
  }
  return opening.centre + wall.along * (along * opening.width) + glm::vec3{0.0F, 0.0F, up * opening.height};
}

render::Camera standAt(const scene::Scene& scene, StandingView view, const Subject& subject, const Canvas& canvas) {
  Subject at = subject;
  if (at.opening >= 0) at.wall = static_cast<std::int32_t>(scene.openings[static_cast<std::size_t>(at.opening)].wall);
  if (isCloseUp(view) && at.opening < 0) view = StandingView::Outside;
  const std::size_t wall = at.wall >= 0 ? static_cast<std::size_t>(at.wall) : 0;
  const float turn = wall < scene.walls.size() ? turnOf(scene.walls[wall]) : 0.0F;

  const Angles angles = anglesOf(view, at.spot);
  render::Camera camera;
  camera.yaw_degrees = std::remainder(turn + angles.yaw, 360.0F);
  camera.pitch_degrees = angles.pitch;
  frameFree(camera, boxFor(scene, view, at).corners(), canvas);
  return camera;
}

render::Camera standAt(const document::StepView& step, const Canvas& canvas) {
  render::Camera camera;
  camera.yaw_degrees = step.yaw_degrees;
  camera.pitch_degrees = step.pitch_degrees;
  Canvas inner = canvas;
  const float notes = canvas.freeWidth() * 0.1F;  // beside the work, where its names stand
  inner.left += notes;
  inner.right += notes;
  frameFree(camera, step.focus, inner);
  return camera;
}

StandingView viewOf(const check::Spot& spot) {
  if (spot.corner) return StandingView::Corner;
  if (!spot.side) return StandingView::Outside;
  if (!plan::isLevel(*spot.side)) return StandingView::Jamb;
  return *spot.side == plan::Side::Sill ? StandingView::Sill : StandingView::Head;
}

render::Camera fly(Flight& flight, float seconds) {
  flight.passed = std::min(flight.passed + seconds / flight.seconds, 1.0F);
  if (flight.passed >= 1.0F) return flight.to;
  const float t = eased(flight.passed);
  render::Camera camera = flight.to;
  camera.target = glm::mix(flight.from.target, flight.to.target, t);
  camera.yaw_degrees =
      flight.from.yaw_degrees + std::remainder(flight.to.yaw_degrees - flight.from.yaw_degrees, 360.0F) * t;
  camera.pitch_degrees = glm::mix(flight.from.pitch_degrees, flight.to.pitch_degrees, t);
  // Distances are passed by their ratio: nearing looks even then.
  camera.distance = flight.from.distance * std::pow(flight.to.distance / flight.from.distance, t);
  return camera;
}

}  // namespace sillwright::view
