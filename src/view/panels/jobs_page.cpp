// The page of jobs: what was opened last, what lies beside, and new ones.

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

}  // namespace sillwright::view
