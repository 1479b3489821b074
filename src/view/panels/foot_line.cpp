#include <array>

#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

/// One word of the foot. Groups are parted by a wider room.
struct Word {
  const char* word;
  const char* key;
  Wish wish;
  bool starts_group = false;
};

const std::array<Word, 27>& words() {
  static const std::array<Word, 27> kWords{{
      {"house", "F", Stand{StandingView::House}, true},
      {"outside", "O", Stand{StandingView::Outside}},
      {"inside", "I", Stand{StandingView::Inside}},
      {"above", "A", Stand{StandingView::Above}},
      {"left end", "L", Stand{StandingView::LeftEnd}},
      {"right end", "R", Stand{StandingView::RightEnd}},
      {"head", "H", Stand{StandingView::Head}, true},
      {"sill", "S", Stand{StandingView::Sill}},
      {"jamb", "J", Stand{StandingView::Jamb}},
      {"corner", "C", Stand{StandingView::Corner}},
      {"previous", "B", PickNeighbour{true}, true},
      {"next", "N", PickNeighbour{false}},
      {"order of work", "W", LessonWish{LessonAct::OpenOrClose, 0, {}}, true},
      {"distance", "D", ToggleMeasuring{}},
      {"cut", "K", CutWish{CutAct::Next}},
      {"history", "Z", ToggleHistory{}},
      {"layers", "Y", ToggleLayersPanel{}, true},
      {"labels", "T", ToggleLabels{}},
      {"corner detail", "U", NextLens{}},
      {"dark", "E", ToggleDark{}},
      {"text −", "", ScaleText{1.0F / 1.1F}, true},
      {"text +", "", ScaleText{1.1F}},
      {"jobs", "Ctrl O", ToggleJobsPage{}, true},
      {"print/export", "P", TogglePaperPage{}},
      {"save", "Ctrl S", Save{}},
      {"reload", "F5", ReadAgain{}},
      {"keys", "?", ToggleKeysPage{}},
  }};
  return kWords;
}

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

bool isOn(const Word& word, const Shown& shown) {
  if (std::holds_alternative<ToggleLayersPanel>(word.wish)) return shown.layers_open;
  if (std::holds_alternative<LessonWish>(word.wish)) return shown.lesson.on();
  if (std::holds_alternative<ToggleMeasuring>(word.wish)) return shown.measuring.on;
  if (std::holds_alternative<CutWish>(word.wish)) return shown.cutting.axis.has_value();
  if (std::holds_alternative<ToggleHistory>(word.wish)) return shown.history_open;
  if (std::holds_alternative<NextLens>(word.wish)) return shown.lens.has_value();
  if (std::holds_alternative<ToggleJobsPage>(word.wish)) return shown.jobs_open;
  if (std::holds_alternative<TogglePaperPage>(word.wish)) return shown.paper_open;
  if (std::holds_alternative<ToggleLabels>(word.wish)) return shown.labels;
  if (std::holds_alternative<ToggleDark>(word.wish)) return shown.look.dark;
  if (std::holds_alternative<ToggleKeysPage>(word.wish)) return shown.keys_open;
  return false;
}

}  // namespace

int footLines(const Ui& ui, float width) {
  Flow flow = flowFor(ui, width);
  for (const Word& word : words()) flow.place(wordItemSize(ui, word.word, word.key).x, word.starts_group);
  return flow.line + 1;
}

void footLine(const Panel& panel, const Layout& layout) {
  const Ui& ui = panel.ui;
  beginPanel(ui, "foot", layout.foot_at, layout.foot_size, false);
  const float step = ui.fonts.body->FontSize + ui.px(9.0F);
  const ImVec2 origin{layout.foot_at.x + ui.px(14.0F), layout.foot_at.y + ui.px(9.0F)};
  Flow flow = flowFor(ui, layout.foot_size.x);
  for (const Word& word : words()) {
    const float x = flow.place(wordItemSize(ui, word.word, word.key).x, word.starts_group);
    ImGui::SetCursorScreenPos({origin.x + x, origin.y + static_cast<float>(flow.line) * step});
    if (wordItem(ui, word.word, word.key, isOn(word, panel.shown))) panel.wishes.push_back(word.wish);
  }
  ImGui::End();
}

}  // namespace sillwright::view
