#include "view/values/camera_control.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace sillwright::view {

namespace {

constexpr float kDegreesPerPixel = 0.3F;
constexpr float kSteepest = 89.0F;   // short of straight down, where right and left lose their meaning
constexpr float kNearest = 40.0F;    // mm: closer than a corner lens needs
constexpr float kFurthest = 2.0e6F;  // mm: a terrace of the longest walls is still seen whole

/// The camera's own directions: `vector * axes` is told in them, `axes * own` in the world's again.
glm::mat3 axesOf(const render::Camera& camera) { return {camera.right(), camera.forward(), camera.up()}; }

/// Millimetres that one pixel covers at a depth along the view.
float perPixel(const render::Camera& camera, float depth, float height) {
  const float at = camera.parallel ? camera.distance : std::max(depth, kNearest);
  return 2.0F * at * std::tan(glm::radians(camera.fov_degrees) / 2.0F) / height;
}

scene::Box boxOf(const scene::WallFrame& wall) {  // in the world
  auto corners = scene::Box{{0.0F, -50.0F, 0.0F}, {wall.length, wall.depth, wall.height}}.corners();
  for (glm::vec3& corner : corners) corner = wall.toWorld(corner);
  return scene::boxRound(corners);
}

/// A box round a point of an opening, `half` to each side along the wall and up.
scene::Box boxRound(const scene::WallFrame& wall, glm::vec3 middle, float half_along, float half_up) {
  const glm::vec3 half = glm::abs(wall.along * half_along) + glm::vec3{0.0F, 0.0F, half_up};  // in the world's axes
  return {middle - half, middle + half};
}

/// As StandingView: its word, and where one stands for it.
struct Standing {
  const char* word;
  float yaw;    // from looking square at the wall from outside
  float pitch;  // + looks down
};
constexpr std::array<Standing, kStandingViews> kStanding{{{"house", 26.0F, 24.0F},
                                                          {"outside", 0.0F, 4.0F},
                                                          {"inside", 180.0F, 4.0F},
                                                          {"above", 0.0F, kSteepest},
                                                          {"left end", -90.0F, 4.0F},
                                                          {"right end", 90.0F, 4.0F},
                                                          {"head", 18.0F, -16.0F},
                                                          {"sill", 18.0F, 26.0F},
                                                          {"jamb", 24.0F, 8.0F},
                                                          {"corner", 24.0F, 22.0F}}};

/// Where one stands for each view. The close-ups look a little from the side, so that depth can be read.
Standing anglesOf(StandingView view, const check::Spot& spot) {
  Standing angles = kStanding[static_cast<std::size_t>(view)];
  const bool at_right = spot.side == plan::Side::Right || (spot.corner && plan::isRight(*spot.corner));
  if (at_right && (view == StandingView::Jamb || view == StandingView::Corner)) angles.yaw = -angles.yaw;
  if (view == StandingView::Corner && spot.corner && plan::isTop(*spot.corner)) angles.pitch = -16.0F;  // as a head
  return angles;
}

/// The place of an opening that a close-up looks at: the middle of an edge, or a corner (bottom left where the spot
/// names none). World.
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

scene::Box boxFor(const scene::Scene& scene, StandingView view, const Subject& subject) {  // what the view is about
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
  return camera.right() * (aside.x * per_pixel) - camera.up() * (aside.y * per_pixel);  // pixels count downwards
}

constexpr float kPast = 60.0F;        // mm: the plane goes a little past what it cuts
constexpr float kRound = 260.0F;      // mm: its outline stands so far off an opening
constexpr float kHalfSeen = 170.0F;   // mm: half the height that a close-up of a section shows
constexpr double kFurthestCut = 1e6;  // mm

/// The axes that a cut's figures are told in, as a wall has them.
scene::WallFrame frameOf(const scene::Scene& scene, const Cutting& cutting) {
  if (cutting.wall >= 0) return scene.walls[static_cast<std::size_t>(cutting.wall)];
  return {};
}

/// What stands of a wall, or of everything, in a frame's own axes.
scene::Box boundsIn(const scene::WallFrame& frame, const scene::Scene& scene, std::int32_t wall) {
  if (wall < 0) return scene.bounds;  // the plan's axes are the world's
  std::vector<glm::vec3> corners;
  for (const scene::Solid& solid : scene.solids) {
    const scene::Part& part = scene.parts[solid.part];
    if (part.wall != wall || part.layer == scene::Layer::Ground) continue;
    for (const glm::vec3& corner : solid.corner) corners.push_back(frame.toLocal(corner));
  }
  return scene::boxRound(corners);
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

render::Camera orbit(const render::Camera& camera, glm::vec3 about, float drag_x, float drag_y) {
  render::Camera turned = camera;
  turned.yaw_degrees = std::remainder(camera.yaw_degrees - drag_x * kDegreesPerPixel, 360.0F);  // turns don't add up
  turned.pitch_degrees = std::clamp(camera.pitch_degrees + drag_y * kDegreesPerPixel, -kSteepest, kSteepest);
  turned.target = about + axesOf(turned) * ((camera.target - about) * axesOf(camera));
  return turned;
}

render::Camera framed(render::Camera camera, std::span<const glm::vec3> points, const Canvas& canvas) {
  const float free_width = std::max(canvas.freeWidth(), canvas.width * 0.2F);  // however much the panels cover
  const float free_height = std::max(canvas.freeHeight(), canvas.height * 0.2F);
  render::framePoints(camera, points, free_width / free_height);  // as if that were all,
  camera.distance *= canvas.height / free_height;                 // the whole picture is so much higher
  camera.target -= asideOf(camera, canvas);                       // then moved aside
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
  const float per_pixel = perPixel(camera, glm::dot(held - camera.eye(), camera.forward()), height);
  render::Camera moved = camera;
  moved.target += camera.right() * (-drag_x * per_pixel) + camera.up() * (drag_y * per_pixel);  // the eye goes back
  return moved;
}

render::Camera zoom(const render::Camera& camera, glm::vec3 towards, float factor) {
  const float distance = std::clamp(camera.distance * factor, kNearest, kFurthest);
  const float real_factor = distance / camera.distance;  // what the bounds have left of it
  render::Camera moved = camera;
  moved.distance = distance;
  moved.target = towards + (camera.target - towards) * real_factor;
  return moved;
}

glm::vec3 pointAtTarget(const render::Camera& camera, float x, float y, float width, float height) {
  const render::Ray ray = render::rayThrough(camera, x, y, width, height);
  const float slope = glm::dot(ray.direction, camera.forward());  // 1 in the middle of the picture
  const float depth = glm::dot(camera.target - ray.from, camera.forward());
  return ray.from + ray.direction * (depth / std::max(slope, 1e-4F));
}

const char* wordFor(StandingView view) { return kStanding[static_cast<std::size_t>(view)].word; }

std::optional<StandingView> standingView(std::string_view word) {
  const auto found =
      std::find_if(kStanding.begin(), kStanding.end(), [&](const Standing& view) { return view.word == word; });
  return found == kStanding.end() ? std::nullopt : std::optional(static_cast<StandingView>(found - kStanding.begin()));
}

bool isCloseUp(StandingView view) { return view >= StandingView::Head; }

render::Camera standAt(const scene::Scene& scene, StandingView view, Subject at, const Canvas& canvas) {
  if (at.opening >= 0) at.wall = static_cast<std::int32_t>(scene.openings[static_cast<std::size_t>(at.opening)].wall);
  if (isCloseUp(view) && at.opening < 0) view = StandingView::Outside;
  const std::size_t wall = at.wall >= 0 ? static_cast<std::size_t>(at.wall) : 0;
  const glm::vec3 along = wall < scene.walls.size() ? scene.walls[wall].along : scene::WallFrame{}.along;
  const float turn = glm::degrees(std::atan2(along.y, along.x));  // on plan, anticlockwise

  const Standing angles = anglesOf(view, at.spot);
  render::Camera camera;
  camera.yaw_degrees = std::remainder(turn + angles.yaw, 360.0F);
  camera.pitch_degrees = angles.pitch;
  return framed(camera, boxFor(scene, view, at).corners(), canvas);
}

render::Camera standAt(const document::StepView& step, const Canvas& canvas) {
  render::Camera camera;
  camera.yaw_degrees = step.yaw_degrees;
  camera.pitch_degrees = step.pitch_degrees;
  Canvas inner = canvas;
  const float notes = canvas.freeWidth() * 0.1F;  // beside the work, where its names stand
  inner.left += notes;
  inner.right += notes;
  return framed(camera, step.focus, inner);
}

StandingView viewOf(const check::Spot& spot) {
  if (spot.corner) return StandingView::Corner;
  if (!spot.side) return StandingView::Outside;
  if (!plan::isLevel(*spot.side)) return StandingView::Jamb;
  return *spot.side == plan::Side::Sill ? StandingView::Sill : StandingView::Head;
}

render::Camera fly(Flight& flight, float seconds) {
  flight.passed = std::min(flight.passed + seconds / flight.seconds, 1.0F);
  if (flight.passed >= 1.0F) return flight.to;                                    // to the last digit
  const float t = flight.passed * flight.passed * (3.0F - 2.0F * flight.passed);  // it sets out and arrives gently
  render::Camera camera = flight.to;  // projection and angle of view don't fly
  camera.target = glm::mix(flight.from.target, flight.to.target, t);
  camera.yaw_degrees =  // the shorter way round
      flight.from.yaw_degrees + std::remainder(flight.to.yaw_degrees - flight.from.yaw_degrees, 360.0F) * t;
  camera.pitch_degrees = glm::mix(flight.from.pitch_degrees, flight.to.pitch_degrees, t);
  // Distances are passed by their ratio: nearing looks even then.
  camera.distance = flight.from.distance * std::pow(flight.to.distance / flight.from.distance, t);
  return camera;
}

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
  const glm::vec3 outer = place - wall.inward * through;  // on the outside face of the studs
  return cut->beyond(outer) > kInPlane && cut->beyond(outer + wall.inward * wall.depth) > kInPlane;
}

std::optional<scene::Cut> planeOf(const scene::Scene& scene, const Cutting& cutting) {
  if (!cutting.axis || cutting.wall >= static_cast<std::int32_t>(scene.walls.size())) return std::nullopt;
  const scene::WallFrame frame = frameOf(scene, cutting);
  const std::array<glm::vec3, kCutAxes> axes{frame.along, frame.inward, {0.0F, 0.0F, 1.0F}};
  const glm::vec3 direction = axes[static_cast<std::size_t>(*cutting.axis)];
  const auto at = static_cast<float>(cutting.at) + glm::dot(direction, frame.origin);  // figures count from there
  return cutting.larger ? scene::Cut{direction, at} : scene::Cut{-direction, -at};     // the normal points to what goes
}

scene::Range rangeOf(const scene::Scene& scene, const Cutting& cutting) {
  const scene::Box box = boundsIn(frameOf(scene, cutting), scene, cutting.wall);
  const auto axis = static_cast<glm::length_t>(cutting.axis.value_or(CutAxis::X));
  return {std::floor(static_cast<double>(box.low[axis] - kPast)),
          std::ceil(static_cast<double>(box.high[axis] + kPast))};  // whole millimetres, outwards
}

Cutting cutFrom(const scene::Scene& scene, Cutting cutting, std::int32_t wall, std::int32_t opening,
                const render::Camera& camera) {
  const bool of_opening = opening >= 0 && opening < static_cast<std::int32_t>(scene.openings.size());
  cutting.wall = of_opening ? static_cast<std::int32_t>(scene.openings[static_cast<std::size_t>(opening)].wall) : wall;
  const auto plane = planeOf(scene, cutting);
  if (plane) cutting.larger = plane->faces(camera.eye()) == cutting.larger;  // the eye's side goes
  return cutting;
}

Cutting cutThroughMiddle(const scene::Scene& scene, CutAxis axis, std::int32_t wall, std::int32_t opening,
                         const render::Camera& camera) {
  Cutting cutting = cutFrom(scene, {}, wall, opening, camera);  // for its wall; without an axis it has no side
  const scene::WallFrame frame = frameOf(scene, cutting);
  const scene::Box box = boundsIn(frame, scene, cutting.wall);
  glm::vec3 middle = (box.low + box.high) * 0.5F;
  if (opening >= 0 && opening < static_cast<std::int32_t>(scene.openings.size())) {
    middle = frame.toLocal(scene.openings[static_cast<std::size_t>(opening)].centre);
  } else if (cutting.wall >= 0) {
    middle = {frame.length * 0.5F, frame.depth * 0.5F, frame.height * 0.5F};
  }
  cutting.axis = axis;
  cutting.at = std::round(static_cast<double>(middle[static_cast<glm::length_t>(axis)]));  // whole millimetres
  return cutFrom(scene, cutting, wall, opening, camera);                                   // once more, for its side
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
  facing.target -= plane->normal * plane->beyond(facing.target);  // on to the plane
  turnUpon(facing, *plane, frame, *cutting.axis);
  facing.distance = kHalfSeen / std::tan(glm::radians(facing.fov_degrees * 0.5F));  // as near as shows that much
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
  scene::Box box = outlinedBox(scene, cutting, opening);
  const auto axis = static_cast<glm::length_t>(*cutting.axis);
  box.low[axis] = box.high[axis] = static_cast<float>(cutting.at);
  glm::vec3 right = box.low;  // corners in a ring, which hand.cpp counts on: low, right, high, left
  glm::vec3 left = box.high;
  std::swap(right[axis == 0 ? 1 : 0], left[axis == 0 ? 1 : 0]);  // along the level axis that the plane keeps
  return {frame.toWorld(box.low), frame.toWorld(right), frame.toWorld(box.high), frame.toWorld(left)};
}

base::Result<Cutting> parseCut(std::string_view text) {
  base::Result<Cutting> result;
  const auto refuse = [&](std::string say) {
    result.errors.push_back({{}, {}, "cut", std::move(say) + "; found '" + std::string(text) + "'"});
    return result;
  };
  if (text.size() < 2 || text[1] != '=' || text[0] < 'x' || text[0] > 'z')
    return refuse("a cut is an axis and a place, x=1200 say: x along the wall, y into the building, z up");
  const std::string_view number = text.substr(2);
  double at = 0;
  const auto read = std::from_chars(number.data(), number.data() + number.size(), at);  // a point, whatever the locale
  if (read.ec != std::errc{} || read.ptr != number.data() + number.size() || !std::isfinite(at))  // it reads inf too
    return refuse("the place of a cut is a number of millimetres");
  if (std::abs(at) > kFurthestCut) return refuse("the place of a cut is within 1000000 mm of the wall's left end");
  result.value = Cutting{.axis = static_cast<CutAxis>(text[0] - 'x'), .at = at};
  return result;
}

}  // namespace sillwright::view
