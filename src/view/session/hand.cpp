// The pointer in the drawing: hovering, picking, turning, sliding, nearing.

#include <cmath>

#include "scene/build/build.h"
#include "view/session/app.h"

namespace sillwright::view {
namespace {

constexpr float kClickPixels = 4.0F;     // a hand that moves less means to click
constexpr float kSnapPixels = 12.0F;     // corners and edges draw the pointer from so far
constexpr float kNotch = 0.84F;          // nearing of one notch
constexpr float kMovingSeconds = 0.15F;  // a hand that rests for so long gets its picture at rest

std::optional<scene::Hit> hitUnder(const App& app, ImVec2 at, const Screen& screen) {
  const render::Ray ray = render::rayThrough(app.shown.camera, at.x, at.y, static_cast<float>(screen.width),
                                             static_cast<float>(screen.height));
  return scene::pick(app.document->scene, ray.from, ray.direction, render::shownUnder(app.shown.look));
}

/// What the hand gets hold of: a part, else the plane through what is looked at.
glm::vec3 pointUnder(const App& app, ImVec2 at, const Screen& screen) {
  if (const auto hit = hitUnder(app, at, screen)) return hit->point;
  return pointAtTarget(app.shown.camera, at.x, at.y, static_cast<float>(screen.width),
                       static_cast<float>(screen.height));
}

void take(App& app, const ButtonChanged& change, ImVec2 at, const Screen& screen) {
  app.flight.passed = 1.0F;  // a hand stops a flight where it is
  app.hand = {.button = change.button,
              .sliding = change.button != Button::Left || change.held.shift,
              .dragging = false,
              .start = at,
              .held = pointUnder(app, at, screen),
              .from = app.shown.camera};
}

void drag(App& app, ImVec2 at, const Screen& screen) {
  const ImVec2 moved = at - app.hand.start;
  if (std::abs(moved.x) > kClickPixels || std::abs(moved.y) > kClickPixels) app.hand.dragging = true;
  if (!app.hand.dragging) return;
  app.moving_seconds = kMovingSeconds;
  app.shown.camera = app.hand.sliding
                         ? pan(app.hand.from, app.hand.held, moved.x, moved.y, static_cast<float>(screen.height))
                         : orbit(app.hand.from, app.hand.held, moved.x, moved.y);
}

/// The place that the pointer would measure from, where it is on something.
std::optional<glm::vec3> placeUnder(const App& app, const std::optional<scene::Hit>& hit, ImVec2 at,
                                    const Screen& screen) {
  if (!hit) return std::nullopt;
  const float reach = kSnapPixels * app.shown.text_scale * screen.scale;
  return snappedPlace(app.document->scene, *hit, app.shown.camera, app.shown.look, {at.x, at.y},
                      {static_cast<float>(screen.width), static_cast<float>(screen.height)}, reach);
}

/// The first place, the second, and then a first one again.
void measureAt(App& app, const std::optional<scene::Hit>& hit, ImVec2 at, const Screen& screen) {
  const auto place = placeUnder(app, hit, at, screen);
  if (!place) return;
  Measuring& measuring = app.shown.measuring;
  if (measuring.points.size() >= 2) measuring.points.clear();
  if (measuring.points.empty()) measuring.wall = app.document->scene.parts[hit->part].wall;
  measuring.points.push_back(*place);
}

void click(App& app, ImVec2 at, const Screen& screen, bool twice, std::vector<Wish>& wishes) {
  const auto hit = hitUnder(app, at, screen);
  if (app.shown.measuring.on) {
    measureAt(app, hit, at, screen);
    return;
  }
  app.shown.look.picked_part = hit ? static_cast<std::int64_t>(hit->part) : -1;
  if (!hit) {
    wishes.push_back(PickOpening{-1, false});
    return;
  }
  const scene::Part& part = app.document->scene.parts[hit->part];
  if (part.opening >= 0) {
    wishes.push_back(PickOpening{part.opening, twice});
  } else if (part.wall >= 0) {
    wishes.push_back(PickWall{part.wall, twice});
  }
}

void hover(App& app, ImVec2 at, const Screen& screen) {
  const auto hit = hitUnder(app, at, screen);
  app.hovered_part = hit ? std::optional(hit->part) : std::nullopt;
  app.shown.look.hovered_part = hit ? static_cast<std::int64_t>(hit->part) : -1;
  if (app.shown.measuring.on) app.shown.measuring.hovered = placeUnder(app, hit, at, screen);
}

void leave(App& app) {
  app.hovered_part.reset();
  app.shown.look.hovered_part = -1;
}

}  // namespace

void followPointer(App& app, const InputStep& step, const Screen& screen, std::vector<Wish>& wishes) {
  const ImGuiIO& io = ImGui::GetIO();
  const ImVec2 at = io.MousePos;
  const bool over_panel = io.WantCaptureMouse && !app.hand.button;
  if (step.button && step.button->down) {
    app.focus.at = 0;
    if (app.cut.held && app.cut.held->by_keys) endCutPull(app);  // a hand elsewhere lets go of it
    const bool free = !over_panel && !app.hand.button && !app.pull && !app.cut.held;
    const bool left = step.button->button == Button::Left;
    if (free && !(left && (beginCutPull(app, at, screen) || beginPull(app, at, screen)))) {
      take(app, *step.button, at, screen);
    }
  }
  const bool let_go = step.button && !step.button->down && step.button->button == Button::Left;
  if (app.pull && step.moved) movePull(app, at, screen);
  if (app.pull && let_go) {
    endPull(app);
    return;
  }
  if (app.cut.held && step.moved) moveCutPull(app, at, screen);
  if (app.cut.held && !app.cut.held->by_keys && let_go) {
    endCutPull(app);
    return;
  }
  if (app.hand.button && step.moved) drag(app, at, screen);
  if (step.button && !step.button->down && app.hand.button == step.button->button) {
    const bool clicked = !app.hand.dragging && !app.hand.sliding;
    app.hand = {};
    if (clicked) click(app, at, screen, ImGui::GetMouseClickedCount(ImGuiMouseButton_Left) >= 2, wishes);
  }
  if (step.wheel && !over_panel && !app.hand.button && ImGui::IsMousePosValid()) {
    app.flight.passed = 1.0F;
    app.shown.camera = zoom(app.shown.camera, pointUnder(app, at, screen), std::pow(kNotch, step.wheel->y));
    app.moving_seconds = kMovingSeconds;
  }
  if (over_panel || app.hand.dragging || app.pull || app.cut.held || !ImGui::IsMousePosValid()) {
    leave(app);
    app.hovered_handle.reset();
    app.cut.hovered = false;
  } else if (!step.empty() || app.settle > 0) {
    hoverHandle(app, at, screen);
    hoverCut(app, at, screen);
    hover(app, at, screen);
  }
}

}  // namespace sillwright::view
