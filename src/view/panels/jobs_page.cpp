// The page of jobs: what was opened last, what lies beside, and new ones.

#include <string>

#include "view/panels/fields.h"
#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

/// A title with where its file lies, in quiet words behind it; on a second line where the two don't fit.
bool choiceRow(const JobsPanel& panel, const char* group, const document::JobChoice& choice, const std::string& where) {
  const Ui& ui = panel.ui;
  const float width = ImGui::GetContentRegionAvail().x;
  const float gap = ui.px(12.0F);
  const ImVec2 title = textSize(ui.fonts.body, choice.title, width);
  const ImVec2 place = textSize(ui.fonts.small, where);
  const bool one_line = title.x + gap + place.x <= width;
  const float height = title.y + (one_line ? 0.0F : textSize(ui.fonts.small, where, width).y);
  const Response row = item(ui, std::string(group) + " " + choice.title, {width, height});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, ui.fonts.body, row.low, ui.colours->ink, choice.title, width);
  const float sunk = ui.fonts.body->FontSize - ui.fonts.small->FontSize;
  const ImVec2 at =
      one_line ? ImVec2{row.low.x + title.x + gap, row.low.y + sunk} : ImVec2{row.low.x, row.low.y + title.y};
  drawText(list, ui.fonts.small, at, ui.colours->quiet, where, one_line ? 0.0F : width);
  return row.pressed;
}

void jobGroup(const JobsPanel& panel, const char* heading, const char* group,
              const std::vector<document::JobChoice>& choices, bool with_folder) {
  if (choices.empty()) return;
  groupHeading(panel.ui, heading);
  for (const document::JobChoice& each : choices) {
    const std::string where = with_folder ? each.file.string() : each.file.filename().string();
    ImGui::PushID(each.file.c_str());
    if (choiceRow(panel, group, each, where)) panel.wishes.push_back(OpenJob{each.file});
    ImGui::PopID();
  }
}

/// Starters, and whose rules the new job is to follow.
void newGroup(const JobsPanel& panel) {
  const Ui& ui = panel.ui;
  groupHeading(ui, "A new job");
  text(ui.fonts.body, ui.colours->quiet, "by the rules of");
  for (const document::JobChoice& each : panel.choices.practices) {
    const std::string name = each.file.string();
    if (wordItem(ui, each.title, "", name == panel.practice)) panel.wishes.push_back(ChoosePractice{name});
  }
  room(ui, 4.0F);
  text(ui.fonts.body, ui.colours->quiet, "begun with (and written as " + panel.choices.fresh.filename().string() + ")");
  for (const document::JobChoice& each : panel.choices.starters) {
    if (choiceRow(panel, "begin", each, ""))
      panel.wishes.push_back(OpenJob{panel.choices.fresh, each.file, panel.practice});
  }
}

}  // namespace

void jobsPage(const JobsPanel& panel, ImVec2 size) {
  const Ui& ui = panel.ui;
  beginPage(ui, "jobs page", size, 640.0F);
  text(ui.fonts.heading, ui.colours->ink, "Jobs");
  text(ui.fonts.body, ui.colours->quiet, "A job file can also be dropped on this window.");
  text(ui.fonts.body, ui.colours->quiet, "A guide to read in a browser: " + panel.choices.guide.string());
  jobGroup(panel, "Opened last", "open", panel.choices.recent, true);
  jobGroup(panel, "In this folder", "beside", panel.choices.beside, false);
  groupHeading(ui, "Any other");
  typedRow(ui, panel.typing, "path", panel.choices.folder.string() + "/", PathOf{});
  newGroup(panel);
  rule(ui);
  endPage(ui, panel.wishes, ToggleJobsPage{});
}

}  // namespace sillwright::view
