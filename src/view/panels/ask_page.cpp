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
  text(ui.fonts.heading, ui.colours->ink, "This is not in the file yet");
  room(ui, 2.0F);
  constexpr std::size_t kMost = 12;
  const std::size_t done = panel.history.place();
  for (std::size_t i = done > kMost ? done - kMost : 0; i < done; ++i) {
    text(ui.fonts.body, ui.colours->ink, panel.history.name(i));
  }
  if (done > kMost) text(ui.fonts.small, ui.colours->quiet, "and " + std::to_string(done - kMost) + " more before");
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
