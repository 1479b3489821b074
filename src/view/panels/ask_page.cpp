// What is asked before something would be lost.

#include <algorithm>
#include <cmath>
#include <string>

#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

/// What of the history isn't in the file; the last few.
void listUnsaved(const Panel& panel) {
  const Ui& ui = panel.ui;
  constexpr std::size_t kMost = 12;
  const std::size_t done = panel.history.place();
  for (std::size_t i = done > kMost ? done - kMost : 0; i < done; ++i) {
    text(ui.fonts.body, ui.colours->ink, panel.history.name(i));
  }
  if (done > kMost) text(ui.fonts.small, ui.colours->quiet, "and " + std::to_string(done - kMost) + " earlier");
}

/// The answers, side by side; the last one is the one that loses something.
void answer(const Panel& panel, const char* words, const char* key, const Wish& wish, bool first) {
  if (!first) ImGui::SameLine(0.0F, panel.ui.px(24.0F));
  if (wordItem(panel.ui, words, key)) panel.wishes.push_back(wish);
}

void heading(const Panel& panel, const char* words) {
  text(panel.ui.fonts.heading, panel.ui.colours->ink, words);
  room(panel.ui, 2.0F);
}

void askToLose(const Panel& panel) {
  struct Loss {
    const char* says;
    const char* words;
    const char* key;
    Wish wish;
  };
  const Asking by = panel.shown.asking;
  const Loss loss = by == Asking::Close ? Loss{"Closing loses it.", "lose it and close", "Ctrl Q", Close{}}
                    : by == Asking::OpenOther
                        ? Loss{"Opening the other job loses it.", "lose it and open the other", "", GoOn{}}
                        : Loss{"Reloading the file loses it.", "lose it and reload", "F5", ReadAgain{}};
  const Ui& ui = panel.ui;
  heading(panel, "This is not in the file yet");
  listUnsaved(panel);
  room(ui, 4.0F);
  text(ui.fonts.body, ui.colours->ink, loss.says);
  rule(ui);
  answer(panel, "save it", "Ctrl S", Save{}, true);
  answer(panel, "keep on working", "Escape", Stay{}, false);
  answer(panel, loss.words, loss.key, loss.wish, false);
}

void askToSaveOver(const Panel& panel) {
  const Ui& ui = panel.ui;
  heading(panel, "Another program has changed the file");
  text(ui.fonts.body, ui.colours->ink,
       "Another program has written the job file since it was loaded. Saving now puts this job in its place; what "
       "the other one wrote is kept beside it, under a name of its own.");
  rule(ui);
  answer(panel, "keep on working", "Escape", Stay{}, true);
  answer(panel, "save, keep the other beside it", "Ctrl Shift S", Save{true}, false);
  answer(panel, "lose this and reload", "F5", ReadAgain{}, false);
}

void askToRecover(const Panel& panel) {
  const Ui& ui = panel.ui;
  heading(panel, "Unsaved edits from last time");
  text(ui.fonts.body, ui.colours->ink,
       "This job was changed and not saved when the program last ended. The changes were kept.");
  rule(ui);
  answer(panel, "restore them", "", Recover{true}, true);
  answer(panel, "forget them", "", Recover{false}, false);
}

}  // namespace

void askPage(const Panel& panel, ImVec2 size) {
  beginPage(panel.ui, "ask", size, 560.0F, std::round(size.y * 0.2F));
  switch (panel.shown.asking) {
    case Asking::SaveOver:
      askToSaveOver(panel);
      break;
    case Asking::Recover:
      askToRecover(panel);
      break;
    default:
      askToLose(panel);
      break;
  }
  ImGui::End();
}

namespace {

/// Where a plate of a size begins in the middle above the foot.
ImVec2 overFoot(const Ui& ui, const Layout& layout, ImVec2 size) {
  const float middle = (layout.canvas.left + layout.canvas.width - layout.canvas.right) * 0.5F;
  return {std::round(middle - size.x * 0.5F),
          std::round(layout.canvas.height - layout.canvas.bottom - ui.px(12.0F) - size.y)};
}

}  // namespace

void workPlate(const Ui& ui, const Layout& layout, const Work& work) {
  const std::string words = wordsFor(work) + (work.can_stop ? "   Escape stops it" : "");
  const float bar = ui.px(5.0F);
  Plate plate{{ui.px(12.0F), ui.px(7.0F)}, 0.0F, ui.colours->ink, {{ui.fonts.body, ui.colours->ink, words}}};
  plate.foot = bar + ui.px(4.0F);
  const ImVec2 size = sizeOf(ui, plate);
  const ImVec2 low = overFoot(ui, layout, size);
  ImDrawList& list = *ImGui::GetForegroundDrawList();
  drawPlate(ui, list, low, plate);
  const std::size_t of = work.steps->of;
  if (of == 0) return;
  const ImVec2 from{low.x + plate.pad.x, low.y + size.y - plate.pad.y - bar};
  const float whole = size.x - 2.0F * plate.pad.x;
  const float share = static_cast<float>(work.steps->done) / static_cast<float>(of);
  list.AddRectFilled(from, {from.x + whole, from.y + bar}, toU32(ui.colours->hovered));
  list.AddRectFilled(from, {from.x + whole * std::min(share, 1.0F), from.y + bar}, toU32(ui.colours->ink));
}

void noticePlate(const Ui& ui, const Layout& layout, const std::string& words, bool stops) {
  const Colour ink = ui.colours->ink;
  const Plate plate{{ui.px(12.0F), ui.px(7.0F)}, ui.px(560.0F), ink, {{ui.fonts.body, ink, words, stops}}};
  drawPlate(ui, *ImGui::GetForegroundDrawList(), overFoot(ui, layout, sizeOf(ui, plate)), plate);
}

}  // namespace sillwright::view
