// What is asked before typed readings would be lost.

#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"

namespace sillwright::view {

void askPage(const Panel& panel, ImVec2 size) {
  const Ui& ui = panel.ui;
  const bool close = panel.shown.asking == Asking::Close;
  const float width = std::min(ui.px(520.0F), size.x - ui.px(48.0F));
  ImGui::SetNextWindowFocus();
  beginFittedPanel("ask", {std::round((size.x - width) * 0.5F), std::round(size.y * 0.2F)}, width, size.y * 0.7F);
  text(ui.fonts.heading, ui.colours->ink, "These readings are typed, not in the file");
  room(ui, 2.0F);
  for (const auto& line : panel.typing.notInFile(panel.document.job, panel.document.practice->display)) {
    text(ui.fonts.body, ui.colours->ink, line);
  }
  room(ui, 4.0F);
  text(ui.fonts.body, ui.colours->ink,
       close ? "Closing loses them. Write them into the job file first if they are to stay."
             : "Reading the file again loses them. Write them into the job file first if they are to stay.");
  rule(ui);
  if (wordItem(ui, "keep them", "Escape")) panel.wishes.push_back(Stay{});
  ImGui::SameLine(0.0F, ui.px(24.0F));
  if (close) {
    if (wordItem(ui, "lose them and close", "Ctrl Q")) panel.wishes.push_back(Close{});
  } else if (wordItem(ui, "lose them and read again", "F5")) {
    panel.wishes.push_back(ReadAgain{});
  }
  ImGui::End();
}

}  // namespace sillwright::view
