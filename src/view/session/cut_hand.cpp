#include "view/session/cut_hand.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "view/session/hand.h"
#include "view/values/readings.h"

namespace sillwright::view {
namespace {

constexpr float kNearEnough = 12.0F;  // pixels at scale 1 from the handle's middle

/// Whether a place of the world is seen where the handle and the plate beside it have room.
bool isFree(const render::Camera& camera, const Layout& layout, glm::vec3 world) {
  const glm::vec3 seen = render::project(camera, world, layout.canvas.width, layout.canvas.height);
  return seen.z > 0.0F && layout.canvas.isFree(seen.x, seen.y, 26.0F * layout.scale);
}

/// The place of the plane under a pixel; empty where it is seen end on or lies behind the eye.
std::optional<glm::vec3> onPlane(const render::Ray& ray, const scene::Cut& cut) {
  const float closing = -glm::dot(ray.direction, cut.normal);
  if (std::abs(closing) < 0.02F) return std::nullopt;
  const float distance = cut.beyond(ray.from) / closing;
  if (distance <= 0.0F) return std::nullopt;
  return ray.from + ray.direction * distance;
}

/// On the plane's outline: the top edge, else a side, else the bottom. Where none of that is in the picture, high in
/// its middle.
std::optional<glm::vec3> placeOfHandle(const Shown& shown, const scene::Scene& scene, const Layout& layout) {
  const std::vector<glm::vec3> corner = outlineOf(scene, shown.cutting, shown.opening);
  constexpr std::array<std::size_t, 4> kEdges{2, 1, 3, 0};  // from corner i to the next: top, right, left, bottom
  for (const std::size_t edge : kEdges) {
    for (const float t : {0.5F, 0.25F, 0.75F, 0.05F, 0.95F}) {
      const glm::vec3 place = glm::mix(corner[edge], corner[(edge + 1) % 4], t);
      if (isFree(shown.camera, layout, place)) return place;
    }
  }
  const Canvas& canvas = layout.canvas;
  const ImVec2 high{canvas.left + canvas.freeWidth() * 0.5F, canvas.top + canvas.freeHeight() * 0.14F};
  return onPlane(rayAt(shown.camera, layout, high), *shown.look.cut);
}

void moveTo(CutHand& hand, Shown& shown, const scene::Scene& scene, double at) {
  const scene::Range range = rangeOf(scene, shown.cutting);
  shown.cutting.at = std::clamp(at, range.low, range.high);
  followCut(hand, shown, scene);
}

/// Takes what was typed; a refusal stays until something else is typed.
bool takeTyped(CutHand& hand, Shown& shown, const scene::Scene& scene) {
  const scene::Range range = rangeOf(scene, shown.cutting);
  job::Holds bounds;
  bounds.from = range.low;
  bounds.to = range.high;
  const ParsedReading parsed = parseLength("the cut", bounds, hand.held->typed, shown.display);
  hand.held->refusal = parsed.refusal;
  if (parsed.good && parsed.value) moveTo(hand, shown, scene, *parsed.value);
  return parsed.good;
}

/// Arrows move a held plane by a step: right and up to larger figures.
void nudge(CutHand& hand, Shown& shown, const scene::Scene& scene, const InputStep& step, double by) {
  for (const auto& [key, way] :
       {std::pair(Key::Right, 1.0), std::pair(Key::Up, 1.0), std::pair(Key::Left, -1.0), std::pair(Key::Down, -1.0)}) {
    if (!step.wentDown(key)) continue;
    hand.held->typed.clear();
    hand.held->refusal.clear();
    moveTo(hand, shown, scene, snapped(shown.cutting.at + way * by, by));
  }
}

CutHand::Held held(const Cutting& before, double grabbed, bool by_keys) {
  return {.before = before, .grabbed = grabbed, .by_keys = by_keys, .typed = {}, .refusal = {}};
}

}  // namespace

std::string nameOfCut(const Cutting& cutting) {
  return std::string("cut, ") + letterOf(*cutting.axis) + " " + wordsFor(*cutting.axis, cutting.wall >= 0);
}

void grantCut(CutHand& hand, Shown& shown, const scene::Scene& scene, const CutWish& wish) {
  Cutting& cutting = shown.cutting;
  if (wish.act == CutAct::Hold) {
    if (cutting.axis && hand.handle) hand.held = held(cutting, 0, true);
    return;
  }
  hand = {};
  const auto through = [&](CutAxis axis) {
    return cutThroughMiddle(scene, axis, shown.wall, shown.opening, shown.camera);
  };
  switch (wish.act) {
    case CutAct::Next: {
      const std::size_t next = cutting.axis ? static_cast<std::size_t>(*cutting.axis) + 1 : 0;
      cutting = next < kCutAxes ? through(static_cast<CutAxis>(next)) : Cutting{};
      break;
    }
    case CutAct::Along:
      cutting = through(wish.axis);
      break;
    case CutAct::Turn:
      cutting.larger = !cutting.larger;
      break;
    default:
      cutting = {};
      break;
  }
  followCut(hand, shown, scene);
}

void followCut(CutHand& hand, Shown& shown, const scene::Scene& scene) {
  shown.look.cut = planeOf(scene, shown.cutting);
  if (shown.look.cut) return;
  shown.cutting = {};
  hand = {};
}

void placeCutHandle(CutHand& hand, const Shown& shown, const scene::Scene& scene, const Layout& layout) {
  if (!shown.look.cut) hand = {};
  if (!shown.look.cut || hand.held) return;
  hand.handle.reset();
  const auto place = placeOfHandle(shown, scene, layout);
  if (!place) return;
  Handle handle;
  handle.name = nameOfCut(shown.cutting);
  handle.at = *place;
  handle.along = shown.cutting.larger ? shown.look.cut->normal : -shown.look.cut->normal;
  handle.of_cut = true;
  hand.handle = handle;
}

bool beginCutPull(CutHand& hand, const Shown& shown, const Layout& layout, ImVec2 at) {
  hoverCut(hand, shown, layout, at);
  if (!hand.hovered) return false;
  const auto grabbed = reach(*hand.handle, rayAt(shown.camera, layout, at));
  if (!grabbed) return false;
  hand.held = held(shown.cutting, grabbed->x, false);
  return true;
}

void moveCutPull(CutHand& hand, Shown& shown, const scene::Scene& scene, const Layout& layout, ImVec2 at, double step) {
  if (hand.held->by_keys || !hand.held->typed.empty()) return;
  const auto now = reach(*hand.handle, rayAt(shown.camera, layout, at));
  if (!now) return;
  const double by = now->x - hand.held->grabbed;
  const double before = hand.held->before.at;
  moveTo(hand, shown, scene, std::abs(by) >= step / 2 ? snapped(before + by, step) : before);
}

void endCutPull(CutHand& hand, Shown& shown, const scene::Scene& scene) {
  if (!hand.held->typed.empty() && !takeTyped(hand, shown, scene)) {
    dropCutPull(hand, shown, scene);
    return;
  }
  hand = {};
}

void dropCutPull(CutHand& hand, Shown& shown, const scene::Scene& scene) {
  shown.cutting = hand.held->before;
  hand = {};
  followCut(hand, shown, scene);
}

void followCutKeys(CutHand& hand, Shown& shown, const scene::Scene& scene, const InputStep& step, double step_mm) {
  if (step.wentDown(Key::Escape)) {
    dropCutPull(hand, shown, scene);
    return;
  }
  nudge(hand, shown, scene, step, step_mm);
  if (typeFigure(hand.held->typed, step)) takeTyped(hand, shown, scene);
  if (step.enter() && (hand.held->typed.empty() || takeTyped(hand, shown, scene))) endCutPull(hand, shown, scene);
}

void hoverCut(CutHand& hand, const Shown& shown, const Layout& layout, ImVec2 at) {
  hand.hovered = false;
  if (!hand.handle) return;
  const auto away = pixelsFrom(shown.camera, layout, hand.handle->at, at);
  hand.hovered = away && *away < kNearEnough * layout.scale;
}

}  // namespace sillwright::view
