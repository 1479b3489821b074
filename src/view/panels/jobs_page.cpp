// The page of jobs: what was opened last, what lies beside, and new ones.

#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"

namespace sillwright::view {

namespace {

/// A title with where its file lies, in small quiet words below it, and the job's picture before them.
bool choiceRow(const JobsPanel& panel, const char* group, const document::JobChoice& choice, const std::string& where,
               bool pictured = false) {
  const float width = ImGui::GetContentRegionAvail().x;
  const ImVec2 small{pictured ? panel.px(96.0F) : 0.0F, pictured ? panel.px(60.0F) : 0.0F};
  const ImVec2 aside{pictured ? small.x + panel.px(12.0F) : 0.0F, 0.0F};
  Plate plate{.wrap = width - aside.x};
  plate.lines = {{panel.fonts.body, panel.colours->ink, choice.title}};
  if (!where.empty()) plate.lines.push_back({panel.fonts.small, panel.colours->quiet, where});
  const float height = std::max(sizeOf(panel, plate).y, small.y);
  const Response row = item(panel, std::string(group) + " " + choice.title, {width, height});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  if (const ImTextureID picture = pictured ? panel.picture(choice.file) : ImTextureID{})  // there may be none
    list.AddImage(picture, row.low, row.low + small);
  drawLines(panel, list, row.low + aside, plate);
  return row.pressed;
}

void jobGroup(const JobsPanel& panel, const char* heading, const char* group,
              const std::vector<document::JobChoice>& choices, bool with_folder) {
  if (choices.empty()) return;
  groupHeading(panel, heading);
  for (const document::JobChoice& each : choices) {
    const std::string where = with_folder ? each.when + "  " + each.file.string() : each.file.filename().string();
    ImGui::PushID(each.file.c_str());  // two jobs may have one title
    if (choiceRow(panel, group, each, where, with_folder)) panel.wishes.push_back(OpenJob{each.file});
    ImGui::PopID();
  }
}

/// Starters, and whose rules the new job is to follow.
void newGroup(const JobsPanel& panel) {
  groupHeading(panel, "A new job");
  sayQuietly(panel, "by the rules of");
  for (const document::JobChoice& each : panel.choices.practices) {
    const std::string name = each.file.string();
    panel.offer(each.title, "", ChoosePractice{name}, name == panel.practice);
  }
  room(panel, 4.0F);
  typedRow(panel, "written as", panel.choices.fresh.string(), PathUse::Begin);
  sayQuietly(panel, "begun with");
  for (const document::JobChoice& each : panel.choices.starters) {
    if (choiceRow(panel, "begin", each, ""))
      panel.wishes.push_back(OpenJob{panel.choices.fresh, each.file, panel.practice});
  }
}

/// What of the history isn't in the file; the last few.
void listUnsaved(const Panel& panel) {
  constexpr std::size_t kMost = 12;
  const std::size_t done = panel.history.place();
  for (std::size_t i = done > kMost ? done - kMost : 0; i < done; ++i) say(panel, panel.history.name(i));
  if (done > kMost) saySmall(panel, "and " + std::to_string(done - kMost) + " earlier");
}

/// What is asked, and its answers side by side; the last one is the one that loses something.
struct Question {
  const char* heading;
  std::string says;
  std::vector<Offer> answers;
  bool lists_unsaved = false;
};

/// Of losing what isn't in the file.
Question questionToLose(const char* says, Offer loses) {
  const Offer stay{"keep on working", "Escape", {Stay{}}};
  return {"This is not in the file yet", says, {{"save it", "Ctrl S", {Save{}}}, stay, std::move(loses)}, true};
}

Question questionOf(Asking asking, const std::string& found) {
  switch (asking) {
    case Asking::Close:
      return questionToLose("Closing loses it.", {"lose it and close", "Ctrl Q", {Close{}}});
    case Asking::OpenOther:
      return questionToLose("Opening the other job loses it.", {"lose it and open the other", "", {GoOn{}}});
    case Asking::SaveOver:
      return {
          "Another program has changed the file",
          "Another program has written the job file since it was loaded. Saving now puts this job in its place; what "
          "the other one wrote is kept beside it, under a name of its own.",
          {{"keep on working", "Escape", {Stay{}}},
           {"save, keep the other beside it", "Ctrl Shift S", {Save{true}}},
           {"lose this and reload", "F5", {ReadAgain{}}}}};
    case Asking::LeaveExercise:
      return {"Leave the exercise?",
              "What was answered so far is lost, and the score with it.",
              {{"go on with it", "Escape", {Stay{}}}, {"leave it", "", {LessonWish{LessonAct::Exercise}}}}};
    case Asking::Recover:
      return {"Unsaved edits from last time",
              "This job was changed and not saved when the program last ended. What was changed: " + found + ".",
              {{"restore them", "", {Recover{true}}}, {"forget them", "", {Recover{false}}}}};
    default:  // ReadAgain; nothing else is left to be asked
      return questionToLose("Reloading the file loses it.", {"lose it and reload", "F5", {ReadAgain{}}});
  }
}

void pictures(const Panel& panel, const Layout& layout) {
  const int width = static_cast<int>(layout.canvas.width);
  const int height = static_cast<int>(layout.canvas.height);
  groupHeading(panel, "A picture of this view");
  const auto offer = [&](const std::string& words, int w, int h) {
    const std::string size = std::to_string(w) + " × " + std::to_string(h);
    if (std::max(w, h) <= kLargestPicture) panel.offer(words + ", " + size, "", TakePicture{w, h});
  };
  offer("as large as the window", width, height);
  offer("twice as large", 2 * width, 2 * height);
  offer("for a sheet of A4 at 300 dots an inch", 3508, 2480);  // 297 × 210 mm
  room(panel, 4.0F);
  const PictureSize& size = panel.shown.picture_size;
  typedRow(panel, "width in pixels", std::to_string(size.width), &PictureSize::width);
  typedRow(panel, "height in pixels", std::to_string(size.height), &PictureSize::height);
  panel.offer("of that size", "", TakePicture{size.width, size.height});
}

void sheets(const Panel& panel) {
  const job::Job& job = panel.document.job;
  groupHeading(panel, "Sheets for the printer (PDF)");
  if (panel.shown.opening >= 0) {
    const std::string& name = job.openings[static_cast<std::size_t>(panel.shown.opening)].name;
    panel.offer("the sheets of " + name, "", TakeSheets{.opening = panel.shown.opening});
  }
  if (panel.shown.wall >= 0) {
    const std::string& name = job.walls[static_cast<std::size_t>(panel.shown.wall)].name;
    panel.offer("the elevation of " + name, "", TakeSheets{.wall = panel.shown.wall});
  }
  panel.offer("all of the job", "", TakeSheets{});
  panel.offer("all, with blank record sheets", "", TakeSheets{.records = true});
  groupHeading(panel, "For lists, phones and other programs");
  for (const auto& [words, kind] : {std::pair("the lists as a workbook", FileKind::Lists),
                                    std::pair("the whole job as a page for a phone (.html)", FileKind::Page),
                                    std::pair("the model in 3D (.glb)", FileKind::Model),
                                    std::pair("the building model (.ifc)", FileKind::Building)}) {
    panel.offer(words, "", TakeFile{kind});
  }
}

/// Where a plate of a size begins in the middle above the foot.
ImVec2 overFoot(const Ui& ui, const Layout& layout, ImVec2 size) {
  const float middle = (layout.canvas.left + layout.canvas.width - layout.canvas.right) * 0.5F;
  return rounded({middle - size.x * 0.5F, layout.canvas.height - layout.canvas.bottom - ui.px(12.0F) - size.y});
}

}  // namespace

void jobsPage(const JobsPanel& panel, ImVec2 size) {
  beginPage(panel, "jobs page", size, 640.0F);
  title(panel, "Jobs");
  sayQuietly(panel, "A job file can also be dropped on this window.");
  sayQuietly(panel, "A guide to read in a browser: " + panel.choices.guide.string());
  jobGroup(panel, "Opened last", "open", panel.choices.recent, true);
  if (panel.with_job) {
    groupHeading(panel, "This job under another name");
    typedRow(panel, "save as", panel.choices.folder.string() + "/", PathUse::SaveAs);
  }
  groupHeading(panel, "Any other");
  typedRow(panel, "path", panel.choices.folder.string() + "/", PathUse::Open);
  newGroup(panel);
  jobGroup(panel, "In this folder", "beside", panel.choices.beside, false);
  jobGroup(panel, "Exercises for trainees", "exercise", panel.choices.exercises, false);
  rule(panel);
  endPage(panel, ToggleJobsPage{});
}

// What is asked before something would be lost, what can be taken away (pictures, sheets, lists), and what is said of
// it.

void askPage(const Panel& panel, ImVec2 size, const std::string& found) {
  beginPage(panel, "ask", size, 600.0F, std::round(size.y * 0.2F));
  const Question question = questionOf(panel.shown.asking, found);
  title(panel, question.heading);
  room(panel, 2.0F);
  if (question.lists_unsaved) listUnsaved(panel);
  say(panel, question.says);
  rule(panel);
  for (const Offer& each : question.answers) {
    panel.offer(each.word, each.key, each.wishes.front());
    ImGui::SameLine(0.0F, panel.px(24.0F));  // also after the last one, where nothing follows
  }
  ImGui::End();
}

void paperPage(const Panel& panel, const Layout& layout, ImVec2 size) {
  beginPage(panel, "paper page", size, 460.0F);
  title(panel, "Print and export");
  sayQuietly(
      panel,
      "Written beside the job file, under new names. All results are indicative: local codes and licensed trades "
      "come first.");
  pictures(panel, layout);
  sheets(panel);
  rule(panel);
  endPage(panel, Toggle{&Shown::paper_open});
}

void workPlate(const Ui& ui, const Layout& layout, const std::string& words, float share) {
  const float bar = ui.px(5.0F);
  Plate plate{{ui.px(12.0F), ui.px(7.0F)}, 0.0F, ui.colours->ink, {{ui.fonts.body, ui.colours->ink, words}}};
  plate.foot = bar + ui.px(4.0F);  // room for the bar, whether or not it is known
  const ImVec2 size = sizeOf(ui, plate);
  const ImVec2 low = overFoot(ui, layout, size);
  ImDrawList& list = *ImGui::GetForegroundDrawList();
  drawPlate(ui, list, low, plate);
  if (share < 0.0F) return;  // how much there is isn't known
  const ImVec2 from{low.x + plate.pad.x, low.y + size.y - plate.pad.y - bar};
  const float whole = size.x - 2.0F * plate.pad.x;
  list.AddRectFilled(from, {from.x + whole, from.y + bar}, toU32(ui.colours->hovered));
  list.AddRectFilled(from, {from.x + whole * std::min(share, 1.0F), from.y + bar}, toU32(ui.colours->ink));
}

void noticePlate(const Page& page, const Layout& layout, const std::string& words, bool stops,
                 const std::filesystem::path& file) {
  const Colour ink = page.colours->ink;
  const Plate plate{{page.px(12.0F), page.px(7.0F)}, page.px(560.0F), ink, {{page.fonts.body, ink, words, stops}}};
  const ImVec2 low = overFoot(page, layout, sizeOf(page, plate));
  drawPlate(page, *ImGui::GetForegroundDrawList(), low, plate);
  if (file.empty()) return;
  const ImVec2 size = wordItemSize(page, "open it", "") + times(ImGui::GetStyle().WindowPadding, 2.0F);
  beginPanel(page, "written", {low.x, low.y - size.y - page.px(4.0F)}, size, false);  // a plate can't be picked
  page.offer("open it", "", OpenFile{file});
  ImGui::End();
}

}  // namespace sillwright::view
