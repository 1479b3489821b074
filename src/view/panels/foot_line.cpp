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

/// Calls `put` with each word of the foot and where it starts in its line. Answers the number of lines.
template <class Put>
int eachWord(const Ui& ui, float width, const Put& put) {
  Flow flow = flowFor(ui, width);
  for (const Command& each : commands()) {
    if (each.word[0] == '\0') continue;
    const float x = flow.place(wordItemSize(ui, each.word, each.key).x, each.starts_group);
    put(each, x, flow.line);
  }
  return flow.line + 1;
}

}  // namespace

int footLines(const Ui& ui, float width) {
  return eachWord(ui, width, [](const Command&, float, int) {});
}

void footLine(const Panel& panel, const Layout& layout) {
  const Ui& ui = panel.ui;
  beginPanel(ui, "foot", layout.foot_at, layout.foot_size, false);
  const float step = ui.fonts.body->FontSize + ui.px(9.0F);
  const ImVec2 origin{layout.foot_at.x + ui.px(14.0F), layout.foot_at.y + ui.px(9.0F)};
  eachWord(ui, layout.foot_size.x, [&](const Command& each, float x, int line) {
    ImGui::SetCursorScreenPos({origin.x + x, origin.y + static_cast<float>(line) * step});
    if (wordItem(ui, each.word, each.key, isOn(each.wish, panel.shown))) panel.wishes.push_back(each.wish);
  });
  ImGui::End();
}

}  // namespace sillwright::view
