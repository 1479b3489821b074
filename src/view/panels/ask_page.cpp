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

const char* losing(Asking by) {
  switch (by) {
    case Asking::Close:
      return "Closing loses it.";
    case Asking::OpenOther:
      return "Opening the other job loses it.";
    default:
      return "Reloading the file loses it.";
  }
}

void askToLose(const Panel& panel) {
  const Ui& ui = panel.ui;
  heading(panel, "This is not in the file yet");
  listUnsaved(panel);
  room(ui, 4.0F);
  text(ui.fonts.body, ui.colours->ink, losing(panel.shown.asking));
  rule(ui);
  answer(panel, "save it", "Ctrl S", Save{}, true);
  answer(panel, "keep on working", "Escape", Stay{}, false);
  if (panel.shown.asking == Asking::Close) {
    answer(panel, "lose it and close", "Ctrl Q", Close{}, false);
  } else if (panel.shown.asking == Asking::OpenOther) {
    answer(panel, "lose it and open the other", "", GoOn{}, false);
  } else {
    answer(panel, "lose it and reload", "F5", ReadAgain{}, false);
  }
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
  const Ui& ui = panel.ui;
  const float width = std::min(ui.px(560.0F), size.x - ui.px(48.0F));
  ImGui::SetNextWindowFocus();
  beginFittedPanel(ui, "ask", {std::round((size.x - width) * 0.5F), std::round(size.y * 0.2F)}, width, size.y * 0.7F);
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

/// An empty plate in the middle above the foot, for what is `inner` large. Answers where that begins.
ImVec2 plateOverFoot(const Ui& ui, const Layout& layout, ImVec2 inner) {
  const ImVec2 pad{ui.px(12.0F), ui.px(7.0F)};
  const float middle = (layout.canvas.left + layout.canvas.width - layout.canvas.right) * 0.5F;
  const ImVec2 low{std::round(middle - inner.x * 0.5F - pad.x),
                   std::round(layout.canvas.height - layout.canvas.bottom - ui.px(12.0F) - inner.y - 2.0F * pad.y)};
  const ImVec2 high = low + inner + pad + pad;
  ImDrawList& list = *ImGui::GetForegroundDrawList();
  list.AddRectFilled(low, high, toU32(ui.colours->paper), ui.px(2.0F));
  list.AddRect(low, high, toU32(ui.colours->ink), ui.px(2.0F));
  return low + pad;
}

}  // namespace

void workPlate(const Ui& ui, const Layout& layout, const Work& work) {
  const std::string words = wordsFor(work) + (work.can_stop ? "   Escape stops it" : "");
  const float bar = ui.px(5.0F);
  const ImVec2 size = textSize(ui.fonts.body, words);
  const ImVec2 at = plateOverFoot(ui, layout, {size.x, size.y + bar + ui.px(4.0F)});
  ImDrawList& list = *ImGui::GetForegroundDrawList();
  drawText(list, ui.fonts.body, at, ui.colours->ink, words);
  const std::size_t of = work.steps->of;
  if (of == 0) return;
  const ImVec2 from{at.x, at.y + size.y + ui.px(4.0F)};
  const float share = static_cast<float>(work.steps->done) / static_cast<float>(of);
  list.AddRectFilled(from, {from.x + size.x, from.y + bar}, toU32(ui.colours->hovered));
  list.AddRectFilled(from, {from.x + size.x * std::min(share, 1.0F), from.y + bar}, toU32(ui.colours->ink));
}

void noticePlate(const Ui& ui, const Layout& layout, const std::string& words, bool stops) {
  const float wrap = ui.px(560.0F);
  const ImVec2 size = textSize(ui.fonts.body, words, wrap);
  const float mark = stops ? ui.px(18.0F) : 0.0F;
  const ImVec2 at = plateOverFoot(ui, layout, {size.x + mark, size.y});
  ImDrawList& list = *ImGui::GetForegroundDrawList();
  if (stops) {
    drawMark(list, {at.x + ui.px(6.0F), at.y + ui.fonts.body->FontSize * 0.55F}, ui.px(5.0F), check::Verdict::Stop,
             *ui.colours);
  }
  drawText(list, ui.fonts.body, {at.x + mark, at.y}, ui.colours->ink, words, wrap);
}

}  // namespace sillwright::view
