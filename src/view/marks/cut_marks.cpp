#include "view/marks/cut_marks.h"

#include <algorithm>
#include <utility>

#include "view/marks/handle_marks.h"
#include "view/marks/lettering.h"
#include "view/values/words.h"

namespace sillwright::view {
namespace {

/// The handle where the plane now is.
Handle movedHandle(const Shown& shown, const CutHand& hand) {
  Handle handle = *hand.handle;
  if (hand.held) handle.at += handle.along * static_cast<float>(shown.cutting.at - hand.held->before.at);
  return handle;
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

void drawFigure(const Lettering& on, const CutHand& hand, const Handle& handle) {
  const Ui& ui = on.ui;
  const Colour ink = ui.colours->ink;
  const Cutting& cutting = on.shown.cutting;
  const bool typing = hand.held && !hand.held->typed.empty();
  const std::string place = figure(cutting.at, on.document.practice->display);
  std::vector<PlateLine> lines{{ui.fonts.small, ink, nameOfCut(cutting)},
                               {ui.fonts.strong, ink, typing ? hand.held->typed + "|" : place}};
  if (hand.held && !hand.held->refusal.empty()) lines.push_back({ui.fonts.body, ink, hand.held->refusal, true});
  ImVec2 at = ImGui::GetIO().MousePos;
  if (hand.held && hand.held->by_keys) {
    const glm::vec3 seen = on.projection(handle.at);
    at = {seen.x, seen.y};
  }
  drawPlateAt(ui, on.canvas, at, std::move(lines));
}

}  // namespace

void drawCut(const Ui& ui, const document::Document& document, const Shown& shown, const Layout& layout,
             const CutHand& hand) {
  if (!shown.look.cut) return;
  ImDrawList& list = *ImGui::GetBackgroundDrawList();
  const Lettering on{ui, list, document, shown, layout.canvas, {}, {}};
  drawOutline(on);
  if (!hand.handle) return;
  const Handle handle = movedHandle(shown, hand);
  drawHandle(ui, list, shown, layout.canvas, handle, hand.hot());
  if (hand.hot()) drawFigure(on, hand, handle);
}

}  // namespace sillwright::view
