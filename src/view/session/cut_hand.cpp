// The cutting plane: what is asked of it, where its handle lies.

#include <algorithm>
#include <array>
#include <cmath>

#include "view/session/app.h"

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

void letGoOfCut(App& app) {
  app.cut = {};
  if (isCutPulled(app)) app.pull.reset();
}

}  // namespace

std::string nameOfCut(const Cutting& cutting) {
  return std::string("cut, ") + letterOf(*cutting.axis) + " " + wordsFor(*cutting.axis, cutting.wall >= 0);
}

void grantCut(App& app, const CutWish& wish) {
  Cutting& cutting = app.shown.cutting;
  if (wish.act == CutAct::Hold) {
    if (cutting.axis && app.cut.handle)
      app.pull = Pull{*app.cut.handle, {}, {cutting.at}, {}, app.document->job, {}, {}, cutting, true};
    return;
  }
  letGoOfCut(app);
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
  if (!cutting.axis || app.layout.canvas.width <= 0.0F) return;
  flyTo(app, uponCut(app.document->scene, cutting, app.shown.opening, canvasOf(app), app.shown.camera));
}

void followCut(App& app) {
  app.shown.look.cut = planeOf(app.document->scene, app.shown.cutting);
  if (app.shown.look.cut) return;
  app.shown.cutting = {};
  letGoOfCut(app);
}

void moveCut(App& app, double at) {
  const scene::Range range = rangeOf(app.document->scene, app.shown.cutting);
  app.shown.cutting.at = std::clamp(at, range.low, range.high);
  followCut(app);
}

void placeCutHandle(App& app) {
  const Shown& shown = app.shown;
  if (!shown.look.cut) letGoOfCut(app);
  if (!shown.look.cut || isCutPulled(app)) return;
  app.cut.handle.reset();
  const auto place = placeOfHandle(shown, app.document->scene, app.layout);
  if (!place) return;
  Handle& handle = app.cut.handle.emplace();
  handle.name = nameOfCut(shown.cutting);
  handle.at = *place;
  handle.along = shown.cutting.larger ? shown.look.cut->normal : -shown.look.cut->normal;
  handle.of_cut = true;
}

void hoverCut(App& app, ImVec2 at) {
  app.cut.hovered = false;
  if (!app.cut.handle) return;
  const auto away = pixelsFrom(app.shown.camera, app.layout, app.cut.handle->at, at);
  app.cut.hovered = away && *away < kNearEnough * app.layout.scale;
}

}  // namespace sillwright::view
