#include "view/session/cut_hand.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "view/marks/handle_marks.h"
#include "view/panels/words.h"
#include "view/session/app.h"

namespace sillwright::view {
namespace {

constexpr float kNearEnough = 12.0F;  // pixels at scale 1 from the handle's middle

/// Where the pointer's plate has room; else the world place is of no use for a handle.
bool isFree(const App& app, glm::vec3 world) {
  const Canvas& canvas = app.layout.canvas;
  const float margin = 26.0F * app.shown.text_scale;
  const glm::vec3 seen = render::project(app.shown.camera, world, canvas.width, canvas.height);
  return seen.z > 0.0F && seen.x > canvas.left + margin && seen.x < canvas.width - canvas.right - margin &&
         seen.y > canvas.top + margin && seen.y < canvas.height - canvas.bottom - margin;
}

/// The place of the plane under a pixel; empty where it is seen end on or lies behind the eye.
std::optional<glm::vec3> onPlane(const App& app, const scene::Cut& cut, float x, float y) {
  const Canvas& canvas = app.layout.canvas;
  const render::Ray ray = render::rayThrough(app.shown.camera, x, y, canvas.width, canvas.height);
  const float closing = -glm::dot(ray.direction, cut.normal);
  if (std::abs(closing) < 0.02F) return std::nullopt;
  const float distance = cut.beyond(ray.from) / closing;
  if (distance <= 0.0F) return std::nullopt;
  return ray.from + ray.direction * distance;
}

/// On the plane's outline, above before beside before below; where none of that is in the picture, high in its middle.
std::optional<glm::vec3> placeOfHandle(const App& app, const scene::Cut& cut) {
  const std::vector<glm::vec3> corner = outlineOf(app.document->scene, app.shown.cutting, app.shown.opening);
  constexpr std::array<std::size_t, 4> kEdges{2, 1, 3, 0};  // from corner i to the next: top, right, left, bottom
  for (const std::size_t edge : kEdges) {
    for (const float t : {0.5F, 0.25F, 0.75F, 0.05F, 0.95F}) {
      const glm::vec3 place = glm::mix(corner[edge], corner[(edge + 1) % 4], t);
      if (isFree(app, place)) return place;
    }
  }
  const Canvas& canvas = app.layout.canvas;
  return onPlane(app, cut, canvas.left + canvas.freeWidth() * 0.5F, canvas.top + canvas.freeHeight() * 0.14F);
}

std::string nameOfCut(const Cutting& cutting) {
  return std::string("cut, ") + letterOf(*cutting.axis) + " " + wordsFor(*cutting.axis, cutting.wall >= 0);
}

void moveTo(App& app, double at) {
  const CutRange range = rangeOf(app.document->scene, app.shown.cutting);
  app.shown.cutting.at = std::clamp(at, range.low, range.high);
  followCut(app);
}

/// Takes what was typed; a refusal stays until something else is typed.
bool takeTyped(App& app) {
  CutHand::Held& held = *app.cut.held;
  const CutRange range = rangeOf(app.document->scene, app.shown.cutting);
  job::Holds bounds;
  bounds.from = range.low;
  bounds.to = range.high;
  const ParsedReading parsed = parseLength("the cut", bounds, held.typed);
  held.refusal = parsed.refusal;
  if (parsed.good && parsed.value) moveTo(app, *parsed.value);
  return parsed.good;
}

/// Arrows move a held plane by a step: right and up to larger figures.
void nudge(App& app, const InputStep& step) {
  for (const auto& [key, way] :
       {std::pair(Key::Right, 1.0), std::pair(Key::Up, 1.0), std::pair(Key::Left, -1.0), std::pair(Key::Down, -1.0)}) {
    if (!step.wentDown(key)) continue;
    app.cut.held->typed.clear();
    app.cut.held->refusal.clear();
    const double by = pullStep(app);
    moveTo(app, snapped(app.shown.cutting.at + way * by, by));
  }
}

void hold(App& app, double grabbed, bool by_keys) {
  CutHand::Held held;
  held.before = app.shown.cutting;
  held.grabbed = grabbed;
  held.by_keys = by_keys;
  app.cut.held = std::move(held);
}

/// The handle where the plane now is.
Handle movedHandle(const App& app) {
  Handle handle = *app.cut.handle;
  if (app.cut.held) handle.at += handle.along * static_cast<float>(app.shown.cutting.at - app.cut.held->before.at);
  return handle;
}

void drawOutline(const App& app, const Ui& ui) {
  const Lettering on{ui, *ImGui::GetBackgroundDrawList(), *app.document, app.shown, app.layout.canvas, {}, {}};
  const std::vector<glm::vec3> corner = outlineOf(app.document->scene, app.shown.cutting, app.shown.opening);
  for (std::size_t i = 0; i < corner.size(); ++i) {
    const auto from = on.project(corner[i]);
    const auto to = on.project(corner[(i + 1) % corner.size()]);
    if (!from || !to) continue;
    on.list.AddLine(*from, *to, toU32(ui.colours->paper, 0.6F), ui.px(2.6F));
    on.list.AddLine(*from, *to, toU32(ui.colours->ink, 0.75F), std::max(1.0F, ui.px(1.0F)));
  }
}

void drawFigure(const App& app, const Ui& ui, const HandlesShown& shown, const Handle& handle) {
  std::vector<PlateLine> lines{{ui.fonts.small, nameOfCut(app.shown.cutting), false}};
  const CutHand::Held* held = app.cut.held ? &*app.cut.held : nullptr;
  const bool typing = held != nullptr && !held->typed.empty();
  lines.push_back({ui.fonts.strong,
                   typing ? held->typed + "|" : figure(app.shown.cutting.at, app.document->practice->display), false});
  if (held != nullptr && !held->refusal.empty()) lines.push_back({ui.fonts.body, held->refusal, true});
  ImVec2 at = ImGui::GetIO().MousePos;
  if (held != nullptr && held->by_keys) {
    const glm::vec3 seen = render::project(app.shown.camera, handle.at, shown.canvas.width, shown.canvas.height);
    at = {seen.x, seen.y};
  }
  drawPlate(ui, shown, at, lines);
}

}  // namespace

void grantCut(App& app, const CutWish& wish) {
  Cutting& cutting = app.shown.cutting;
  if (wish.act == CutAct::Hold) {
    if (cutting.axis && app.cut.handle) hold(app, 0, true);
    return;
  }
  app.cut = {};
  const auto through = [&](CutAxis axis) {
    return cutThroughMiddle(app.document->scene, axis, app.shown.wall, app.shown.opening, app.shown.camera);
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
  followCut(app);
}

void followCut(App& app) {
  app.shown.look.cut = planeOf(app.document->scene, app.shown.cutting);
  if (app.shown.look.cut) return;
  app.shown.cutting = {};
  app.cut = {};
}

bool beginCutPull(App& app, ImVec2 at, const Screen& screen) {
  hoverCut(app, at, screen);
  if (!app.cut.hovered) return false;
  const auto grabbed = reach(*app.cut.handle, rayAt(app, at, screen));
  if (!grabbed) return false;
  app.flight.passed = 1.0F;
  hold(app, grabbed->x, false);
  return true;
}

void moveCutPull(App& app, ImVec2 at, const Screen& screen) {
  const CutHand::Held& held = *app.cut.held;
  if (held.by_keys || !held.typed.empty()) return;  // what is typed holds
  const auto now = reach(*app.cut.handle, rayAt(app, at, screen));
  if (!now) return;
  const double by = now->x - held.grabbed;
  const double step = pullStep(app);
  app.moving_seconds = std::max(app.moving_seconds, 0.15F);
  moveTo(app, std::abs(by) >= step / 2 ? snapped(held.before.at + by, step) : held.before.at);
}

void endCutPull(App& app) {
  if (!app.cut.held->typed.empty() && !takeTyped(app)) {
    dropCutPull(app);
    return;
  }
  app.cut = {};
  disturb(app);
}

void dropCutPull(App& app) {
  app.shown.cutting = app.cut.held->before;
  app.cut = {};
  followCut(app);
  disturb(app);
}

void followCutKeys(App& app, const InputStep& step) {
  CutHand::Held& held = *app.cut.held;
  if (step.wentDown(Key::Escape)) {
    dropCutPull(app);
    return;
  }
  nudge(app, step);
  if (typeFigure(held.typed, step)) takeTyped(app);
  const bool enter = step.wentDown(Key::Enter) || step.wentDown(Key::KeypadEnter);
  if (enter && (held.typed.empty() || takeTyped(app))) endCutPull(app);
}

void hoverCut(App& app, ImVec2 at, const Screen& screen) {
  app.cut.hovered = false;
  if (!app.cut.handle || app.hand.button) return;
  const glm::vec3 seen = render::project(app.shown.camera, app.cut.handle->at, static_cast<float>(screen.width),
                                         static_cast<float>(screen.height));
  const float reach = kNearEnough * app.shown.text_scale * screen.scale;
  app.cut.hovered = seen.z > 0.0F && std::hypot(seen.x - at.x, seen.y - at.y) < reach;
}

void drawCut(App& app, const Ui& ui) {
  const auto& cut = app.shown.look.cut;
  if (!cut) {
    app.cut = {};
    return;
  }
  if (!app.cut.held) {
    app.cut.handle.reset();
    const auto place = placeOfHandle(app, *cut);
    if (place) {
      Handle handle;
      handle.name = nameOfCut(app.shown.cutting);
      handle.at = *place;
      handle.along = app.shown.cutting.larger ? cut->normal : -cut->normal;
      handle.of_cut = true;
      app.cut.handle = handle;
    }
  }
  drawOutline(app, ui);
  if (!app.cut.handle) return;
  const std::vector<Handle> none;
  const HandlesShown shown{*app.document, app.shown, app.layout.canvas, none, std::nullopt, nullptr, {}, {}};
  const Handle handle = movedHandle(app);
  drawHandle(ui, *ImGui::GetBackgroundDrawList(), shown, handle, app.cut.hot());
  if (app.cut.hot()) drawFigure(app, ui, shown, handle);
}

}  // namespace sillwright::view
