#include "view/values/cutting.h"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>

namespace sillwright::view {
namespace {

constexpr float kPast = 60.0F;       // mm: the plane goes a little past what it cuts
constexpr float kRound = 260.0F;     // mm: its outline stands so far off an opening
constexpr float kHalfSeen = 170.0F;  // mm: half the height that a close-up of a section shows
constexpr double kFurthest = 1e6;    // mm

/// The axes that a cut's figures are told in, as a wall has them.
scene::WallFrame frameOf(const scene::Scene& scene, const Cutting& cutting) {
  if (cutting.wall >= 0) return scene.walls[static_cast<std::size_t>(cutting.wall)];
  return {};
}

glm::vec3 directionOf(const scene::WallFrame& frame, CutAxis axis) {
  const std::array<glm::vec3, kCutAxes> axes{frame.along, frame.inward, {0.0F, 0.0F, 1.0F}};
  return axes[static_cast<std::size_t>(axis)];
}

/// What stands of a wall, or of everything, in a frame's own axes.
scene::Box boundsIn(const scene::WallFrame& frame, const scene::Scene& scene, std::int32_t wall) {
  if (wall < 0) return scene.bounds;  // the plan's axes are the world's
  scene::Box box{glm::vec3(std::numeric_limits<float>::max()), glm::vec3(std::numeric_limits<float>::lowest())};
  for (const scene::Solid& solid : scene.solids) {
    const scene::Part& part = scene.parts[solid.part];
    if (part.wall != wall || part.layer == scene::Layer::Ground) continue;
    for (const glm::vec3& corner : solid.corner) box.hold(frame.toLocal(corner));
  }
  if (box.low.x > box.high.x) return {};
  return box;
}

/// The box that a cut's outline stands round.
scene::Box outlinedBox(const scene::Scene& scene, const Cutting& cutting, std::int32_t opening) {
  const scene::WallFrame frame = frameOf(scene, cutting);
  const bool picked = opening >= 0 && opening < static_cast<std::int32_t>(scene.openings.size());
  const scene::OpeningFrame* round = picked ? &scene.openings[static_cast<std::size_t>(opening)] : nullptr;
  if (round == nullptr || static_cast<std::int32_t>(round->wall) != cutting.wall) {
    const scene::Box box = boundsIn(frame, scene, cutting.wall);
    return {box.low - kPast, box.high + kPast};
  }
  const glm::vec3 middle = frame.toLocal(round->centre);
  const glm::vec3 half{round->width * 0.5F + kRound, kRound, round->height * 0.5F + kRound};
  return {middle - half, middle + half};
}

/// Turns the eye to look upon the plane from its free side: a little from the outside and from above, so that what lies
/// beyond the cut tells its depth.
void turnUpon(render::Camera& camera, const scene::Cut& plane, const scene::WallFrame& frame, CutAxis axis) {
  const glm::vec3 up{0.0F, 0.0F, 1.0F};
  const glm::vec3 aside = axis == CutAxis::Y ? frame.along * 0.25F : frame.inward * -0.25F;
  const glm::vec3 back = plane.normal + aside + (axis == CutAxis::Z ? glm::vec3(0.0F) : up * 0.18F);
  const glm::vec3 forward = glm::normalize(-back);
  camera.yaw_degrees = glm::degrees(std::atan2(-forward.x, forward.y));
  camera.pitch_degrees = glm::degrees(std::asin(-forward.z));
}

}  // namespace

char letterOf(CutAxis axis) { return "xyz"[static_cast<std::size_t>(axis)]; }

const char* wordsFor(CutAxis axis, bool of_wall) {
  static constexpr std::array<const char*, kCutAxes> kWall{"along the wall", "into the building", "up"};
  static constexpr std::array<const char*, kCutAxes> kPlan{"across the plan", "up the plan", "up"};
  return (of_wall ? kWall : kPlan)[static_cast<std::size_t>(axis)];
}

bool isGone(const std::optional<scene::Cut>& cut, const scene::WallFrame& wall, glm::vec3 place) {
  constexpr float kInPlane = 1.0F;  // mm
  if (!cut) return false;
  const float through = glm::dot(place - wall.origin, wall.inward);
  const glm::vec3 outer = place - wall.inward * through;
  return cut->beyond(outer) > kInPlane && cut->beyond(outer + wall.inward * wall.depth) > kInPlane;
}

std::optional<scene::Cut> planeOf(const scene::Scene& scene, const Cutting& cutting) {
  if (!cutting.axis || cutting.wall >= static_cast<std::int32_t>(scene.walls.size())) return std::nullopt;
  const scene::WallFrame frame = frameOf(scene, cutting);
  const glm::vec3 direction = directionOf(frame, *cutting.axis);
  const auto at = static_cast<float>(cutting.at) + glm::dot(direction, frame.origin);
  return cutting.larger ? scene::Cut{direction, at} : scene::Cut{-direction, -at};
}

scene::Range rangeOf(const scene::Scene& scene, const Cutting& cutting) {
  const scene::Box box = boundsIn(frameOf(scene, cutting), scene, cutting.wall);
  const auto axis = static_cast<glm::length_t>(cutting.axis.value_or(CutAxis::X));
  return {std::floor(static_cast<double>(box.low[axis] - kPast)),
          std::ceil(static_cast<double>(box.high[axis] + kPast))};
}

Cutting cutFrom(const scene::Scene& scene, Cutting cutting, std::int32_t wall, std::int32_t opening,
                const render::Camera& camera) {
  const bool of_opening = opening >= 0 && opening < static_cast<std::int32_t>(scene.openings.size());
  cutting.wall = of_opening ? static_cast<std::int32_t>(scene.openings[static_cast<std::size_t>(opening)].wall) : wall;
  const auto plane = planeOf(scene, cutting);
  if (plane) cutting.larger = plane->faces(camera.eye()) == cutting.larger;
  return cutting;
}

Cutting cutThroughMiddle(const scene::Scene& scene, CutAxis axis, std::int32_t wall, std::int32_t opening,
                         const render::Camera& camera) {
  Cutting cutting = cutFrom(scene, {}, wall, opening, camera);
  const scene::WallFrame frame = frameOf(scene, cutting);
  const scene::Box box = boundsIn(frame, scene, cutting.wall);
  glm::vec3 middle = (box.low + box.high) * 0.5F;
  if (opening >= 0 && opening < static_cast<std::int32_t>(scene.openings.size())) {
    middle = frame.toLocal(scene.openings[static_cast<std::size_t>(opening)].centre);
  } else if (cutting.wall >= 0) {
    middle = {frame.length * 0.5F, frame.depth * 0.5F, frame.height * 0.5F};
  }
  cutting.axis = axis;
  cutting.at = std::round(static_cast<double>(middle[static_cast<glm::length_t>(axis)]));
  return cutFrom(scene, cutting, wall, opening, camera);
}

render::Camera facingCut(const scene::Scene& scene, const Cutting& cutting, StandingView view, const Subject& subject,
                         const Canvas& canvas, const render::Camera& camera) {
  const auto plane = planeOf(scene, cutting);
  if (!plane || subject.opening < 0 || !isCloseUp(view)) return camera;
  const scene::OpeningFrame& opening = scene.openings[static_cast<std::size_t>(subject.opening)];
  if (static_cast<std::int32_t>(opening.wall) != cutting.wall) return camera;
  const scene::WallFrame& frame = scene.walls[opening.wall];

  render::Camera facing = camera;
  facing.target = closeUpPoint(opening, frame, view, subject.spot);
  facing.target -= plane->normal * plane->beyond(facing.target);
  turnUpon(facing, *plane, frame, *cutting.axis);
  facing.distance = kHalfSeen / std::tan(glm::radians(facing.fov_degrees * 0.5F));
  return pan(facing, facing.target, (canvas.left - canvas.right) * 0.5F, (canvas.top - canvas.bottom) * 0.5F,
             canvas.height);
}

render::Camera uponCut(const scene::Scene& scene, const Cutting& cutting, std::int32_t opening, const Canvas& canvas,
                       const render::Camera& camera) {
  const auto plane = planeOf(scene, cutting);
  if (!plane) return camera;
  render::Camera upon = camera;
  turnUpon(upon, *plane, frameOf(scene, cutting), *cutting.axis);
  return framed(upon, outlineOf(scene, cutting, opening), canvas);
}

std::vector<glm::vec3> outlineOf(const scene::Scene& scene, const Cutting& cutting, std::int32_t opening) {
  if (!planeOf(scene, cutting)) return {};
  const scene::WallFrame frame = frameOf(scene, cutting);
  const scene::Box box = outlinedBox(scene, cutting, opening);
  const auto axis = static_cast<glm::length_t>(*cutting.axis);
  const glm::length_t level = axis == 0 ? 1 : 0;
  const glm::length_t steep = axis == 2 ? 1 : 2;
  std::vector<glm::vec3> corners;
  for (const auto& [a, b] :
       {std::pair(false, false), std::pair(true, false), std::pair(true, true), std::pair(false, true)}) {
    glm::vec3 local;
    local[axis] = static_cast<float>(cutting.at);
    local[level] = a ? box.high[level] : box.low[level];
    local[steep] = b ? box.high[steep] : box.low[steep];
    corners.push_back(frame.toWorld(local));
  }
  return corners;
}

base::Result<Cutting> parseCut(std::string_view text) {
  base::Result<Cutting> result;
  const auto refuse = [&](std::string say) {
    result.errors.push_back({{}, {}, "cut", std::move(say) + "; found '" + std::string(text) + "'"});
    return result;
  };
  if (text.size() < 2 || text[1] != '=' || text[0] < 'x' || text[0] > 'z') {
    return refuse("a cut is an axis and a place, x=1200 say: x along the wall, y into the building, z up");
  }
  const std::string_view number = text.substr(2);
  double at = 0;
  const auto read = std::from_chars(number.data(), number.data() + number.size(), at);
  if (read.ec != std::errc{} || read.ptr != number.data() + number.size() || !std::isfinite(at)) {
    return refuse("the place of a cut is a number of millimetres");
  }
  if (std::abs(at) > kFurthest) return refuse("the place of a cut is within 1000000 mm of the wall's left end");
  Cutting cutting;
  cutting.axis = static_cast<CutAxis>(text[0] - 'x');
  cutting.at = at;
  result.value = cutting;
  return result;
}

}  // namespace sillwright::view
