// The page of jobs: what was opened last, what lies beside, and new ones.

#include <algorithm>
#include <cmath>
#include <string>

#include "view/panels/panels.h"

namespace sillwright::view {

namespace {

/// A title with where its file lies, in quiet words behind it; on a second line where the two don't fit.
bool choiceRow(const JobsPanel& panel, const char* group, const document::JobChoice& choice, const std::string& where) {
  const float width = ImGui::GetContentRegionAvail().x;
  const float gap = panel.px(12.0F);
  const ImVec2 title = textSize(panel.fonts.body, choice.title, width);
  const ImVec2 place = textSize(panel.fonts.small, where);
  const bool one_line = title.x + gap + place.x <= width;
  const float height = title.y + (one_line ? 0.0F : textSize(panel.fonts.small, where, width).y);
  const Response row = item(panel, std::string(group) + " " + choice.title, {width, height});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, panel.fonts.body, row.low, panel.colours->ink, choice.title, width);
  const float sunk = panel.fonts.body->FontSize - panel.fonts.small->FontSize;
  const ImVec2 at =
      one_line ? ImVec2{row.low.x + title.x + gap, row.low.y + sunk} : ImVec2{row.low.x, row.low.y + title.y};
  drawText(list, panel.fonts.small, at, panel.colours->quiet, where, one_line ? 0.0F : width);
  return row.pressed;
}

void jobGroup(const JobsPanel& panel, const char* heading, const char* group,
              const std::vector<document::JobChoice>& choices, bool with_folder) {
  if (choices.empty()) return;
  groupHeading(panel, heading);
  for (const document::JobChoice& each : choices) {
    const std::string where = with_folder ? each.when + "  " + each.file.string() : each.file.filename().string();
    ImGui::PushID(each.file.c_str());
    if (choiceRow(panel, group, each, where)) panel.wishes.push_back(OpenJob{each.file});
    ImGui::PopID();
  }
}

/// Starters, and whose rules the new job is to follow.
void newGroup(const JobsPanel& panel) {
  groupHeading(panel, "A new job");
  text(panel.fonts.body, panel.colours->quiet, "by the rules of");
  for (const document::JobChoice& each : panel.choices.practices) {
    const std::string name = each.file.string();
    if (wordItem(panel, each.title, "", name == panel.practice)) panel.wishes.push_back(ChoosePractice{name});
  }
  room(panel, 4.0F);
  typedRow(panel, panel.typing, "written as", panel.choices.fresh.string(), PathOf{PathUse::Begin});
  text(panel.fonts.body, panel.colours->quiet, "begun with");
  for (const document::JobChoice& each : panel.choices.starters) {
    if (choiceRow(panel, "begin", each, ""))
      panel.wishes.push_back(OpenJob{panel.choices.fresh, each.file, panel.practice});
  }
}

}  // namespace

void jobsPage(const JobsPanel& panel, ImVec2 size) {
  beginPage(panel, "jobs page", size, 640.0F);
  text(panel.fonts.heading, panel.colours->ink, "Jobs");
  text(panel.fonts.body, panel.colours->quiet, "A job file can also be dropped on this window.");
  text(panel.fonts.body, panel.colours->quiet, "A guide to read in a browser: " + panel.choices.guide.string());
  jobGroup(panel, "Opened last", "open", panel.choices.recent, true);
  if (panel.with_job) {
    groupHeading(panel, "This job under another name");
    typedRow(panel, panel.typing, "save as", panel.choices.folder.string() + "/", PathOf{PathUse::SaveAs});
  }
  groupHeading(panel, "Any other");
  typedRow(panel, panel.typing, "path", panel.choices.folder.string() + "/", PathOf{});
  newGroup(panel);
  jobGroup(panel, "In this folder", "beside", panel.choices.beside, false);
  jobGroup(panel, "Exercises for trainees", "exercise", panel.choices.exercises, false);
  rule(panel);
  endPage(panel, panel.wishes, ToggleJobsPage{});
}

// What is asked before something would be lost, what can be taken away (pictures, sheets, lists), and what is said of
// it.

namespace {

/// What of the history isn't in the file; the last few.
void listUnsaved(const Panel& panel) {
  constexpr std::size_t kMost = 12;
  const std::size_t done = panel.history.place();
  for (std::size_t i = done > kMost ? done - kMost : 0; i < done; ++i) {
    text(panel.fonts.body, panel.colours->ink, panel.history.name(i));
  }
  if (done > kMost) text(panel.fonts.small, panel.colours->quiet, "and " + std::to_string(done - kMost) + " earlier");
}

/// The answers, side by side; the last one is the one that loses something.
void answer(const Panel& panel, const char* words, const char* key, const Wish& wish, bool first) {
  if (!first) ImGui::SameLine(0.0F, panel.px(24.0F));
  if (wordItem(panel, words, key)) panel.wishes.push_back(wish);
}

void heading(const Panel& panel, const char* words) {
  text(panel.fonts.heading, panel.colours->ink, words);
  room(panel, 2.0F);
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
  heading(panel, "This is not in the file yet");
  listUnsaved(panel);
  room(panel, 4.0F);
  text(panel.fonts.body, panel.colours->ink, loss.says);
  rule(panel);
  answer(panel, "save it", "Ctrl S", Save{}, true);
  answer(panel, "keep on working", "Escape", Stay{}, false);
  answer(panel, loss.words, loss.key, loss.wish, false);
}

void askToSaveOver(const Panel& panel) {
  heading(panel, "Another program has changed the file");
  text(panel.fonts.body, panel.colours->ink,
       "Another program has written the job file since it was loaded. Saving now puts this job in its place; what "
       "the other one wrote is kept beside it, under a name of its own.");
  rule(panel);
  answer(panel, "keep on working", "Escape", Stay{}, true);
  answer(panel, "save, keep the other beside it", "Ctrl Shift S", Save{true}, false);
  answer(panel, "lose this and reload", "F5", ReadAgain{}, false);
}

void askToRecover(const Panel& panel, const std::string& says) {
  heading(panel, "Unsaved edits from last time");
  text(panel.fonts.body, panel.colours->ink,
       "This job was changed and not saved when the program last ended. What was changed: " + says + ".");
  rule(panel);
  answer(panel, "restore them", "", Recover{true}, true);
  answer(panel, "forget them", "", Recover{false}, false);
}

std::string sizeWords(int width, int height) { return std::to_string(width) + " × " + std::to_string(height); }

void pictures(const Panel& panel, const Layout& layout) {
  const int width = static_cast<int>(layout.canvas.width);
  const int height = static_cast<int>(layout.canvas.height);
  groupHeading(panel, "A picture of this view");
  const auto offer = [&](const std::string& words, int w, int h) {
    if (w > kLargestPicture || h > kLargestPicture) return;
    if (wordItem(panel, words + ", " + sizeWords(w, h), "")) panel.wishes.push_back(TakePicture{w, h});
  };
  offer("as large as the window", width, height);
  offer("twice as large", 2 * width, 2 * height);
  offer("for a sheet of A4 at 300 dots an inch", 3508, 2480);
  room(panel, 4.0F);
  const PictureSize& size = panel.shown.picture_size;
  typedRow(panel, panel.typing, "width in pixels", std::to_string(size.width), PictureSide{false});
  typedRow(panel, panel.typing, "height in pixels", std::to_string(size.height), PictureSide{true});
  if (wordItem(panel, "of that size", "")) panel.wishes.push_back(TakePicture{size.width, size.height});
}

void sheets(const Panel& panel) {
  const job::Job& job = panel.document.job;
  groupHeading(panel, "Sheets for the printer (PDF)");
  if (panel.shown.opening >= 0) {
    const std::string& name = job.openings[static_cast<std::size_t>(panel.shown.opening)].name;
    if (wordItem(panel, "the sheets of " + name, ""))
      panel.wishes.push_back(TakeSheets{.opening = panel.shown.opening});
  }
  if (panel.shown.wall >= 0) {
    const std::string& name = job.walls[static_cast<std::size_t>(panel.shown.wall)].name;
    if (wordItem(panel, "the elevation of " + name, "")) panel.wishes.push_back(TakeSheets{.wall = panel.shown.wall});
  }
  if (wordItem(panel, "all of the job", "")) panel.wishes.push_back(TakeSheets{});
  if (wordItem(panel, "all, with blank record sheets", "")) panel.wishes.push_back(TakeSheets{.records = true});
  groupHeading(panel, "For lists, phones and other programs");
  for (const auto& [words, kind] : {std::pair("the lists as a workbook", FileKind::Lists),
                                    std::pair("the whole job as a page for a phone (.html)", FileKind::Page),
                                    std::pair("the model in 3D (.glb)", FileKind::Model),
                                    std::pair("the building model (.ifc)", FileKind::Building)}) {
    if (wordItem(panel, words, "")) panel.wishes.push_back(TakeFile{kind});
  }
}

/// Where a plate of a size begins in the middle above the foot.
ImVec2 overFoot(const Ui& ui, const Layout& layout, ImVec2 size) {
  const float middle = (layout.canvas.left + layout.canvas.width - layout.canvas.right) * 0.5F;
  return {std::round(middle - size.x * 0.5F),
          std::round(layout.canvas.height - layout.canvas.bottom - ui.px(12.0F) - size.y)};
}

}  // namespace

void askPage(const Panel& panel, ImVec2 size, const std::string& found) {
  beginPage(panel, "ask", size, 560.0F, std::round(size.y * 0.2F));
  switch (panel.shown.asking) {
    case Asking::SaveOver:
      askToSaveOver(panel);
      break;
    case Asking::Recover:
      askToRecover(panel, found);
      break;
    default:
      askToLose(panel);
      break;
  }
  ImGui::End();
}

void paperPage(const Panel& panel, const Layout& layout, ImVec2 size) {
  beginPage(panel, "paper page", size, 460.0F);
  text(panel.fonts.heading, panel.colours->ink, "Print and export");
  text(panel.fonts.body, panel.colours->quiet,
       "Written beside the job file, under new names. All results are indicative: local codes and "
       "licensed trades come first.");
  pictures(panel, layout);
  sheets(panel);
  rule(panel);
  endPage(panel, panel.wishes, Toggle{&Shown::paper_open});
}

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
