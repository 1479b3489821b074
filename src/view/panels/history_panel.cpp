#include <cmath>

#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

void stepRow(const Panel& panel, std::size_t place, const std::string& words, float width) {
  const Ui& ui = panel.ui;
  const bool here = panel.history.place() == place;
  const bool undone = place > panel.history.place();
  const float indent = ui.px(14.0F);
  const ImVec2 size{width, textSize(ui.fonts.body, words, width - indent).y};
  const Response row = item(ui, "done " + std::to_string(place) + " " + words, size, here);
  if (row.pressed && !here) panel.wishes.push_back(GoInHistory{place});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float r = ui.px(3.0F);
  const ImVec2 dot{row.low.x + r, row.low.y + ui.fonts.body->FontSize * 0.55F};
  if (undone) {
    list.AddCircle(dot, r, toU32(ui.colours->quiet), 12, ui.px(1.2F));
  } else {
    list.AddCircleFilled(dot, r, toU32(ui.colours->ink), 12);
  }
  drawText(list, ui.fonts.body, {row.low.x + indent, row.low.y}, undone ? ui.colours->quiet : ui.colours->ink, words,
           width - indent);
}

}  // namespace

void historyPanel(const Panel& panel, const Layout& layout) {
  const Ui& ui = panel.ui;
  const float width = std::round(ui.px(290.0F));
  const float left = layout.strip_at.x + layout.strip_width + ui.px(10.0F);
  beginFittedPanel(ui, "history", {left, layout.strip_at.y}, width, layout.most_height);
  text(ui.fonts.strong, ui.colours->ink, "Edits since the file was loaded");
  if (wordItem(ui, "undo", "Ctrl Z")) panel.wishes.push_back(TakeBack{});
  ImGui::SameLine(0.0F, ui.px(16.0F));
  if (wordItem(ui, "do again", "Ctrl Y")) panel.wishes.push_back(DoAgain{});
  rule(ui);
  const float inner = ImGui::GetContentRegionAvail().x;
  stepRow(panel, 0, "as the file has it", inner);
  for (std::size_t i = 0; i < panel.history.size(); ++i) stepRow(panel, i + 1, panel.history.name(i), inner);
  ImGui::End();
}

}  // namespace sillwright::view
