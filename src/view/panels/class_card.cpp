#include <algorithm>
#include <cmath>
#include <string>

#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

/// "6 of 14", and what is not as usual of the playing.
std::string placeWords(const document::Lesson& lesson, std::size_t cards) {
  std::string words = std::to_string(lesson.place) + " of " + std::to_string(cards);
  if (lesson.pace != 1.0F) words += ", " + std::to_string(static_cast<int>(std::lround(lesson.pace * 100.0F))) + " %";
  return words;
}

}  // namespace

void classCard(const Panel& panel, const Layout& layout, const LessonCard& card) {
  const Canvas& canvas = layout.canvas;
  const ImVec2 low{0.0F, canvas.height - canvas.bottom};
  const ImVec2 pad{panel.px(20.0F), panel.px(8.0F)};
  const float width = canvas.width - 2.0F * pad.x;
  const Colour ink = panel.colours->ink;
  beginPanel(panel, "class card", low, {canvas.width, canvas.bottom}, false);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const std::string place = placeWords(panel.shown.lesson, panel.taught->cards.size());
  drawText(list, panel.fonts.heading, low + pad, ink, card.title);
  drawText(list, panel.fonts.body, {low.x + pad.x + width - textSize(panel.fonts.body, place).x, low.y + pad.y},
           panel.colours->quiet, place);
  const float top = low.y + pad.y + panel.fonts.heading->FontSize + panel.px(3.0F);
  const auto height = [&](ImFont* what, ImFont* why) {
    return textSize(what, card.what, width).y + textSize(why, card.why, width).y;
  };
  const bool fits = height(panel.fonts.body, panel.fonts.strong) < canvas.height - pad.y - top;
  ImFont* const font = fits ? panel.fonts.body : panel.fonts.small;
  drawText(list, font, {low.x + pad.x, top}, ink, card.what, width);
  drawText(list, fits ? panel.fonts.strong : font, {low.x + pad.x, top + textSize(font, card.what, width).y}, ink,
           card.why, width);
  ImGui::End();
}

}  // namespace sillwright::view
