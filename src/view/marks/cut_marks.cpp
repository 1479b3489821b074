#include "view/marks/cut_marks.h"

#include <algorithm>

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

void drawFigure(const Lettering& on, const CutHand& hand, const HandlesShown& shown, const Handle& handle) {
  const Ui& ui = on.ui;
  const Cutting& cutting = on.shown.cutting;
  std::vector<PlateLine> lines{{ui.fonts.small, nameOfCut(cutting), false}};
  const bool typing = hand.held && !hand.held->typed.empty();
  const std::string place = figure(cutting.at, on.document.practice->display);
  lines.push_back({ui.fonts.strong, typing ? hand.held->typed + "|" : place, false});
  if (hand.held && !hand.held->refusal.empty()) lines.push_back({ui.fonts.body, hand.held->refusal, true});
  ImVec2 at = ImGui::GetIO().MousePos;
  if (hand.held && hand.held->by_keys) {
    const glm::vec3 seen = render::project(on.shown.camera, handle.at, on.canvas.width, on.canvas.height);
    at = {seen.x, seen.y};
  }
  drawPlate(ui, shown, at, lines);
}

}  // namespace

void drawCut(const Ui& ui, const document::Document& document, const Shown& shown, const Layout& layout,
             const CutHand& hand) {
  if (!shown.look.cut) return;
  ImDrawList& list = *ImGui::GetBackgroundDrawList();
  const Lettering on{ui, list, document, shown, layout.canvas, {}, {}};
  drawOutline(on);
  if (!hand.handle) return;
  const std::vector<Handle> none;
  const HandlesShown handles{document, shown, layout.canvas, none, std::nullopt, nullptr, {}, {}};
  const Handle handle = movedHandle(shown, hand);
  drawHandle(ui, list, handles, handle, hand.hot());
  if (hand.hot()) drawFigure(on, hand, handles, handle);
}

}  // namespace sillwright::view
