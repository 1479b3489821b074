#include <cmath>
#include <string>

#include "view/panels/panels.h"
#include "view/values/words.h"

namespace sillwright::view {
namespace {

/// A word that can be picked, with a card that explains it.
bool explained(const Panel& panel, const std::string& word, const char* key, bool picked, const char* title,
               const char* body) {
  const bool pressed = wordItem(panel.ui, word, key, picked);
  if (ImGui::IsItemHovered() || panel.ui.focus->at == ImGui::GetID(word.c_str())) {
    // All that is to the right of it is kept clear: the card goes to the left, over the drawing.
    const ImVec2 low = ImGui::GetItemRectMin();
    panel.cards.push_back({low, {ImGui::GetIO().DisplaySize.x, low.y}, title, body, {}});
  }
  return pressed;
}

const char* whyOf(CutAxis axis, bool of_wall) {
  if (!of_wall) return "No wall is picked: the axes of the floor plan. Pick an opening or a wall to cut square to it.";
  switch (axis) {
    case CutAxis::X:
      return "An upright cut across the wall, from its left end as seen from outside: head and sill.";
    case CutAxis::Y:
      return "An upright cut in the wall's plane, from the outside face of the studs inwards: packers all round.";
    case CutAxis::Z:
      break;
  }
  return "A level cut, from the underside of the bottom plate: the jambs.";
}

}  // namespace

void cutPanel(const Panel& panel, const Layout& layout) {
  const Ui& ui = panel.ui;
  const Cutting& cutting = panel.shown.cutting;
  const bool of_wall = cutting.wall >= 0;
  const float width = std::round(ui.px(186.0F));
  const float left = layout.canvas.width - layout.canvas.right - width - ui.px(12.0F);
  // Below the plate that says how much larger deviations are drawn.
  const float top = layout.strip_at.y + (panel.document.drawn_deviation > 1 ? ui.px(46.0F) : 0.0F);
  beginFittedPanel(ui, "cut", {left, top}, width, layout.most_height);
  const std::string of =
      of_wall ? "Cut at " + panel.document.job.walls[static_cast<std::size_t>(cutting.wall)].name : "Cut of the plan";
  text(ui.fonts.strong, ui.colours->ink, of);
  for (std::size_t i = 0; i < kCutAxes; ++i) {
    const auto axis = static_cast<CutAxis>(i);
    const std::string word = std::string(1, letterOf(axis)) + "  " + wordsFor(axis, of_wall);
    if (explained(panel, word, i == 0 ? "K" : "", cutting.axis == axis, wordsFor(axis, of_wall),
                  whyOf(axis, of_wall))) {
      panel.wishes.push_back(CutWish{CutAct::Along, axis});
    }
  }
  rule(ui);
  const std::string place = "at " + figure(cutting.at, panel.document.practice->display);
  if (explained(panel, place, "", false, "Where it cuts",
                "Drag its handle in the drawing: whole millimetres, with Shift tenths. Or pick this and type a figure, "
                "or nudge with the arrows; Enter takes it, Escape puts it back.")) {
    panel.wishes.push_back(CutWish{CutAct::Hold});
  }
  if (explained(panel, "other side", "Shift K", false, "The other side", "Shows the other half.")) {
    panel.wishes.push_back(CutWish{CutAct::Turn});
  }
  if (wordItem(ui, "no cut", "Escape")) panel.wishes.push_back(CutWish{CutAct::Off});
  ImGui::End();
}

}  // namespace sillwright::view
