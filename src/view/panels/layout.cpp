#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

/// Groups are parted by a wider room.
struct Flow {
  float word_gap;
  float group_gap;
  float width;
  float x = 0.0F;
  int line = 0;

  /// Where the next word starts; on a new line where it doesn't fit.
  float place(float needed, bool starts_group) {
    const float start = x == 0.0F ? 0.0F : x + (starts_group ? group_gap : word_gap);
    if (start > 0.0F && start + needed > width) {
      ++line;
      x = needed;
      return 0.0F;
    }
    x = start + needed;
    return start;
  }
};

Flow flowFor(const Ui& ui, float width) {
  return {.word_gap = ui.px(12.0F), .group_gap = ui.px(24.0F), .width = width - 2.0F * ui.px(14.0F)};
}

bool isOn(const Wish& wish, const Shown& shown) {
  if (const auto* toggle = std::get_if<Toggle>(&wish)) return shown.*toggle->what;
  if (std::holds_alternative<LessonWish>(wish)) return shown.lesson.on();
  if (std::holds_alternative<ToggleMeasuring>(wish)) return shown.measuring.on;
  if (std::holds_alternative<CutWish>(wish)) return shown.cutting.axis.has_value();
  if (std::holds_alternative<NextLens>(wish)) return shown.lens.has_value();
  if (std::holds_alternative<ToggleJobsPage>(wish)) return shown.jobs_open;
  return std::holds_alternative<ToggleDark>(wish) && shown.look.dark;
}

/// Calls `put` with each word of the foot and where it starts in its line: of each group its name, which opens its
/// list, then the most used of it. Answers the number of lines.
template <class Put>
int eachWord(const Ui& ui, float width, const Put& put) {
  Flow flow = flowFor(ui, width);
  for (std::size_t group = 0; group < kCommandGroups.size(); ++group) {
    const auto place = [&](const Command& each, bool heading) {
      const float x = flow.place(wordItemSize(ui, each.word, each.key, heading).x, heading);
      put(each, x, flow.line);
    };
    place({"", kCommandGroups[group], OpenList{.group = group}, group, true}, true);
    for (const Command& each : commands()) {
      if (each.group == group && each.common) place(each, false);
    }
  }
  return flow.line + 1;
}

}  // namespace

int footLines(const Ui& ui, float width) {
  return eachWord(ui, width, [](const Command&, float, int) {});
}

void footLine(const Panel& panel, const Layout& layout) {
  beginPanel(panel, "foot", layout.foot_at, layout.foot_size, false);
  const float step = panel.fonts.body->FontSize + panel.px(9.0F);
  const ImVec2 origin{layout.foot_at.x + panel.px(14.0F), layout.foot_at.y + panel.px(9.0F)};
  eachWord(panel, layout.foot_size.x, [&](const Command& each, float x, int line) {
    ImGui::SetCursorScreenPos({origin.x + x, origin.y + static_cast<float>(line) * step});
    const bool group = std::holds_alternative<OpenList>(each.wish);
    if (!wordItem(panel, each.word, each.key, isOn(each.wish, panel.shown), group)) return;
    const glm::vec2 above{origin.x + x, layout.foot_at.y - panel.px(4.0F)};
    panel.wishes.push_back(group ? Wish{OpenList{.at = above, .group = each.group}} : each.wish);
  });
  ImGui::End();
}

Layout layOut(const Ui& ui, ImVec2 size, bool with_sheet, bool with_lesson, bool with_cards, bool folded) {
  const float margin = ui.px(12.0F);
  Layout layout;
  layout.scale = ui.scale;
  const float foot_width = size.x - 2.0F * margin;
  const float line = ui.fonts.body->FontSize + ui.px(9.0F);
  const float foot_height = static_cast<float>(footLines(ui, foot_width)) * line + ui.px(9.0F);
  layout.foot_at = {margin, std::round(size.y - margin - foot_height)};
  layout.foot_size = {foot_width, foot_height};

  layout.strip_at = {margin, margin};
  layout.folded = folded;
  layout.strip_width = folded ? 0.0F : std::round(std::min(ui.px(206.0F), size.x * 0.25F));
  layout.sheet_width = folded ? 0.0F : std::round(std::min(ui.px(356.0F), size.x * 0.37F));
  layout.sheet_at = {size.x - margin - layout.sheet_width, margin};
  layout.lesson_size = {foot_width, lessonHeight(ui, foot_width, with_cards)};
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
