#include "view/marks/marks.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "document/edits.h"
#include "render/camera.h"
#include "view/values/readings.h"

namespace sillwright::view {
namespace {

/// Where a place of the world is seen in the free part of the picture; empty where it isn't.
std::optional<ImVec2> place(const Shown& shown, const Canvas& canvas, glm::vec3 world) {
  const glm::vec3 seen = render::project(shown.camera, world, canvas.width, canvas.height);
  const bool free = seen.z > 0.0F && canvas.isFree(seen.x, seen.y);
  return free ? std::optional(ImVec2{seen.x, seen.y}) : std::nullopt;
}

/// A small arrowhead each way that the handle goes.
void drawWays(const Ui& ui, ImDrawList& list, const Shown& shown, const Canvas& canvas, const Handle& handle,
              ImVec2 at) {
  const auto arrow = [&](glm::vec3 way) {
    const auto to = place(shown, canvas, handle.at + way * 60.0F);
    if (!to) return;
    const ImVec2 d{to->x - at.x, to->y - at.y};
    const float size = std::hypot(d.x, d.y);
    if (size < 1.0F) return;
    const ImVec2 u{d.x / size, d.y / size};
    const float from = ui.px(8.0F);
    const float head = ui.px(5.0F);
    const ImVec2 base{at.x + u.x * from, at.y + u.y * from};
    list.AddTriangleFilled({base.x + u.x * head, base.y + u.y * head},
                           {base.x - u.y * head * 0.7F, base.y + u.x * head * 0.7F},
                           {base.x + u.y * head * 0.7F, base.y - u.x * head * 0.7F}, toU32(ui.colours->ink));
  };
  arrow(handle.along);
  arrow(-handle.along);
  if (!handle.movesInPlane()) return;
  arrow(handle.across);
  arrow(-handle.across);
}

/// One handle where it is; larger, and with the ways it goes, where it is hot.
void drawHandle(const Ui& ui, ImDrawList& list, const Shown& shown, const Canvas& canvas, const Handle& handle,
                bool hot) {
  const auto at = place(shown, canvas, handle.at);
  if (!at) return;
  const float r = ui.px(hot ? 6.0F : 4.5F);
  const ImU32 ground = toU32(hot ? ui.colours->picked : ui.colours->paper);
  const float line = std::max(1.2F, ui.px(1.5F));
  if (handle.corner) {
    list.AddCircleFilled(*at, r * 0.9F, ground, 20);
    list.AddCircle(*at, r * 0.9F, toU32(ui.colours->ink), 20, line);
    list.AddCircleFilled(*at, r * 0.35F, toU32(ui.colours->ink), 12);
  } else if (handle.of_unit) {
    list.AddCircleFilled(*at, r, ground, 20);
    list.AddCircle(*at, r, toU32(ui.colours->ink), 20, line);
  } else if (handle.of_cut) {
    const float tip = r * 1.35F;
    const ImVec2 points[] = {{at->x, at->y - tip}, {at->x + tip, at->y}, {at->x, at->y + tip}, {at->x - tip, at->y}};
    list.AddConvexPolyFilled(points, 4, ground);
    list.AddPolyline(points, 4, toU32(ui.colours->ink), ImDrawFlags_Closed, line);
  } else {
    list.AddRectFilled({at->x - r, at->y - r}, {at->x + r, at->y + r}, ground, 1.0F);
    list.AddRect({at->x - r, at->y - r}, {at->x + r, at->y + r}, toU32(ui.colours->ink), 1.0F, 0, line);
  }
  if (hot) drawWays(ui, list, shown, canvas, handle, *at);
}

/// A plate beside the pointer, wholly within the picture.
void drawPlateAt(const Ui& ui, const Canvas& canvas, ImVec2 at, std::vector<PlateLine> lines) {
  const Plate plate{{ui.px(8.0F), ui.px(5.0F)}, ui.px(280.0F), ui.colours->ink, std::move(lines)};
  const ImVec2 size = sizeOf(ui, plate);
  const ImVec2 low{std::max(0.0F, std::min(at.x + ui.px(18.0F), canvas.width - size.x)),
                   std::max(0.0F, std::min(at.y + ui.px(14.0F), canvas.height - size.y))};
  drawPlate(ui, *ImGui::GetForegroundDrawList(), low, plate);
}

/// The words of the first stop; empty: there is none.
std::string stopIn(const std::vector<check::Finding>& findings) {
  const check::Finding* worst = check::worstOf(findings);
  return worst != nullptr && worst->severity == check::Severity::Stop ? worst->say : std::string{};
}

/// The figure by the pointer, and what stands in the way of it.
void drawFigure(const Ui& ui, const HandlesShown& shown, const Pull& pull) {
  const Handle& handle = pull.handle;
  const Colour ink = ui.colours->ink;
  const std::string words = pull.typed.empty() ? figuresOf(shown.document, handle) : pull.typed + "|";
  std::vector<PlateLine> lines{{ui.fonts.small, ink, handle.name}, {ui.fonts.strong, ink, words}};
  if (!pull.refusal.empty()) lines.push_back({ui.fonts.body, ink, pull.refusal, true});
  const auto opening = handle.opening();
  const std::size_t of = opening ? *opening : handle.dimensions.front().of;
  const std::string stop = opening ? stopAt(shown.document, *opening) : stopAtWall(shown.document, of);
  if (!stop.empty()) lines.push_back({ui.fonts.body, ink, stop, true});
  const std::string opened = opening ? "" : document::openedAt(pull.before, shown.document.job, of);
  if (!opened.empty()) lines.push_back({ui.fonts.body, ink, opened});
  drawPlateAt(ui, shown.canvas, ImGui::GetIO().MousePos, std::move(lines));
}

void drawOutline(const Lettering& on) {
  const Ui& ui = on.ui;
  const std::vector<glm::vec3> corner = outlineOf(on.document.scene, on.shown.cutting, on.shown.opening);
  for (std::size_t i = 0; i < corner.size(); ++i) {
    const auto from = on.project(corner[i]);
    const auto to = on.project(corner[(i + 1) % corner.size()]);
    if (!from || !to) continue;
    on.list.AddLine(*from, *to, toU32(ui.colours->paper, 0.6F), ui.px(2.6F));
    on.list.AddLine(*from, *to, toU32(ui.colours->ink, 0.75F), std::max(1.0F, ui.px(1.0F)));
  }
}

void drawCutFigure(const Lettering& on, const Pull* pull, const Handle& handle) {
  const Ui& ui = on.ui;
  const Colour ink = ui.colours->ink;
  const Cutting& cutting = on.shown.cutting;
  const bool typing = pull != nullptr && !pull->typed.empty();
  const std::string place = figure(cutting.at, on.document.practice->display);
  std::vector<PlateLine> lines{{ui.fonts.small, ink, nameOfCut(cutting)},
                               {ui.fonts.strong, ink, typing ? pull->typed + "|" : place}};
  if (pull != nullptr && !pull->refusal.empty()) lines.push_back({ui.fonts.body, ink, pull->refusal, true});
  ImVec2 at = ImGui::GetIO().MousePos;
  if (pull != nullptr && pull->by_keys) {
    const glm::vec3 seen = on.projection(handle.at);
    at = {seen.x, seen.y};
  }
  drawPlateAt(ui, on.canvas, at, std::move(lines));
}

}  // namespace

std::string stopAt(const document::Document& document, std::size_t opening) {
  return opening < document.findings.openings.size() ? stopIn(document.findings.openings[opening]) : std::string{};
}

std::string stopAtWall(const document::Document& document, std::size_t wall) {
  std::string stop = stopIn(document.findings.walls[wall]);
  for (std::size_t i = 0; stop.empty() && i < document.job.openings.size(); ++i) {
    const job::Opening& opening = document.job.openings[i];
    if (opening.wall != wall) continue;
    stop = stopAt(document, i);
    if (!stop.empty()) stop = opening.name + ": " + stop;
  }
  return stop;
}

void drawHandles(const Ui& ui, ImDrawList& list, const HandlesShown& shown) {
  for (std::size_t i = 0; i < shown.handles.size(); ++i) {
    const Handle& handle = shown.handles[i];
    const bool pulled = shown.pull != nullptr && shown.pull->handle.same(handle);
    drawHandle(ui, list, shown.shown, shown.canvas, handle, pulled || (shown.pull == nullptr && shown.hovered == i));
  }
  if (shown.pull != nullptr) {
    drawFigure(ui, shown, *shown.pull);
  } else if (shown.hovered && *shown.hovered < shown.handles.size()) {
    const Handle& handle = shown.handles[*shown.hovered];
    drawPlateAt(ui, shown.canvas, ImGui::GetIO().MousePos,
                {{ui.fonts.small, ui.colours->ink, handle.name},
                 {ui.fonts.strong, ui.colours->ink, figuresOf(shown.document, handle)}});
  }
}

void drawCut(const Ui& ui, const document::Document& document, const Shown& shown, const Layout& layout,
             const CutHandle& cut, const Pull* pull) {
  if (!shown.look.cut) return;
  ImDrawList& list = *ImGui::GetBackgroundDrawList();
  const Lettering on{ui, list, document, shown, layout.canvas, {}, {}};
  drawOutline(on);
  if (!cut.handle) return;
  Handle handle = *cut.handle;
  if (pull != nullptr) handle.at += handle.along * static_cast<float>(shown.cutting.at - pull->cut.at);
  const bool hot = cut.hovered || pull != nullptr;
  drawHandle(ui, list, shown, layout.canvas, handle, hot);
  if (hot) drawCutFigure(on, pull, handle);
}

}  // namespace sillwright::view
