#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"

namespace sillwright::view {

Layout layOut(const Ui& ui, ImVec2 size, bool with_sheet, bool with_lesson) {
  const float margin = ui.px(12.0F);
  Layout layout;
  layout.scale = ui.scale;
  const float foot_width = size.x - 2.0F * margin;
  const float line = ui.fonts.body->FontSize + ui.px(9.0F);
  const float foot_height = static_cast<float>(footLines(ui, foot_width)) * line + ui.px(9.0F);
  layout.foot_at = {margin, std::round(size.y - margin - foot_height)};
  layout.foot_size = {foot_width, foot_height};

  layout.strip_at = {margin, margin};
  layout.strip_width = std::round(std::min(ui.px(206.0F), size.x * 0.25F));
  layout.sheet_width = std::round(std::min(ui.px(356.0F), size.x * 0.37F));
  layout.sheet_at = {size.x - margin - layout.sheet_width, margin};
  layout.lesson_size = {foot_width, lessonHeight(ui, foot_width)};
  layout.lesson_at = {margin, std::round(layout.foot_at.y - ui.px(6.0F) - layout.lesson_size.y)};
  const float bottom = with_lesson ? layout.lesson_at.y : layout.foot_at.y;
  layout.most_height = bottom - 2.0F * margin;

  layout.canvas = {.width = size.x,
                   .height = size.y,
                   .left = margin + layout.strip_width,
                   .right = with_sheet ? margin + layout.sheet_width : 0.0F,
                   .top = 0.0F,
                   .bottom = size.y - bottom};
  return layout;
}

void drawCard(const Ui& ui, const Card& card, ImVec2 size) {
  const Palette& colours = *ui.colours;
  Plate plate{{ui.px(11.0F), ui.px(8.0F)}, std::min(ui.px(320.0F), size.x * 0.4F), colours.quiet};
  plate.lines = {{ui.fonts.strong, colours.ink, card.title},
                 {ui.fonts.body, colours.ink, card.body, card.stop, ui.px(4.0F)},
                 {ui.fonts.small, colours.quiet, card.source, false, ui.px(6.0F)}};
  std::erase_if(plate.lines, [](const PlateLine& line) { return line.words.empty(); });
  const ImVec2 outer = sizeOf(ui, plate);
  const float away = ui.px(14.0F);
  ImVec2 at{card.high.x + away, card.low.y};
  if (at.x + outer.x > size.x) at.x = card.low.x - away - outer.x;
  at.x = std::round(std::clamp(at.x, 0.0F, std::max(0.0F, size.x - outer.x)));
  at.y = std::round(std::clamp(at.y, 0.0F, std::max(0.0F, size.y - outer.y)));
  drawPlate(ui, *ImGui::GetForegroundDrawList(), at, plate);
}

}  // namespace sillwright::view
