#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

struct KeyLine {
  const char* key;
  const char* does;
};

struct KeyGroup {
  const char* heading;
  std::vector<KeyLine> lines;
};

/// What is done by hand, and keys that are no commands; then the commands.
std::vector<KeyGroup> keyGroups() {
  std::vector<KeyGroup> groups{
      {"By hand",
       {{"click", "pick an opening or a wall; twice: look at it"},
        {"right click", "what can be done with what lies there"},
        {"drag", "orbit about the point held; a handle: its size"},
        {"right drag", "pan (or Shift and drag)"},
        {"wheel", "zoom to the pointer"},
        {"arrows", "orbit; with Shift pan"},
        {"figures", "while dragging: that size exactly; Escape puts it back"},
        {"Shift   Ctrl", "while dragging: tenths; the step that sizes come in"}}},
      {"Order of work",
       {{",   .", "a card back, a card on"},
        {"Space", "play; any key pauses"},
        {"<   >", "play slower, faster"},
        {"Page Down, Up", "a card on, a card back: a clicker's keys"},
        {"Q", "mistakes to try; a flashing picked: its own"},
        {"Backspace", "put everything right again"},
        {"X", "exercise: put the cards in order"},
        {"Enter", "exercise: answer for what lies there"}}},
      {"Other",
       {{"Tab", "next thing that can be picked; with Shift the previous"},
        {"Enter", "pick it"},
        {"Escape", "cancel, deselect"},
        {"1 … 9, 0, G", "a layer, outside to inside, floor"},
        {"Ctrl 0", "usual text size"},
        {"Ctrl Q", "close"}}},
  };
  for (std::size_t group = 0; group < kCommandGroups.size(); ++group) {
    KeyGroup& lines = groups.emplace_back();
    lines.heading = kCommandGroups[group];
    for (const Command& each : commands()) {
      if (each.group == group && each.key[0] != 0 && each.word[0] != 0) lines.lines.push_back({each.key, each.word});
    }
  }
  return groups;
}

/// A group as two columns; answers the height it took.
float drawKeyGroup(const Ui& ui, ImDrawList& list, ImVec2 at, float width, const KeyGroup& group) {
  const float line = ui.fonts.body->FontSize + ui.px(6.0F);
  const float key_width = ui.px(104.0F);
  drawText(list, ui.fonts.strong, at, ui.colours->ink, group.heading);
  float y = at.y + line;
  for (const KeyLine& each : group.lines) {
    drawText(list, ui.fonts.body, {at.x, y}, ui.colours->ink, each.key);
    const float wrap = width - key_width;
    drawText(list, ui.fonts.body, {at.x + key_width, y}, ui.colours->quiet, each.does, wrap);
    y += std::max(line, textSize(ui.fonts.body, each.does, wrap).y + ui.px(6.0F));
  }
  return y - at.y;
}

std::string placeOf(const base::Error& error) {
  std::string place = error.file;
  if (error.at.line > 0) {
    place += ", line " + std::to_string(error.at.line);
    if (error.at.column > 0) place += ", column " + std::to_string(error.at.column);
  }
  return place;
}

/// The line of the file that an error is about, with its number as in an editor.
void quoteLine(const Ui& ui, const std::string& line) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  const float indent = ui.px(12.0F);
  const ImVec2 size = textSize(ui.fonts.body, line, width - 2.0F * indent);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  list.AddRectFilled(at, {at.x + width, at.y + size.y + ui.px(8.0F)}, toU32(ui.colours->hovered), ui.px(2.0F));
  drawText(list, ui.fonts.body, {at.x + indent, at.y + ui.px(4.0F)}, ui.colours->ink, line, width - 2.0F * indent);
  ImGui::Dummy({width, size.y + ui.px(8.0F)});
}

void errorEntry(const Ui& ui, const base::Error& error, const std::string& file,
                const std::vector<std::string>& lines) {
  text(ui.fonts.small, ui.colours->quiet, placeOf(error));
  const std::string words = error.key.empty() ? error.say : error.key + ": " + error.say;
  text(ui.fonts.body, ui.colours->ink, words);
  if (error.file == file && error.at.line > 0 && error.at.line <= lines.size()) {
    quoteLine(ui, std::to_string(error.at.line) + "   " + lines[error.at.line - 1]);
  }
  room(ui, 8.0F);
}

}  // namespace

void endPage(const Ui& ui, Wishes& wishes, const Wish& close) {
  if (wordItem(ui, "close this page", "Escape")) wishes.push_back(close);
  ImGui::End();
}

void keysPage(const Ui& ui, ImVec2 size, Wishes& wishes) {
  const bool two_columns = beginPage(ui, "keys page", size, 820.0F) >= ui.px(640.0F);
  text(ui.fonts.heading, ui.colours->ink, "Keys");
  rule(ui);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float all = ImGui::GetContentRegionAvail().x;
  const float gap = ui.px(28.0F);
  const float column = two_columns ? (all - gap) * 0.5F : all;
  std::array<float, 2> y{at.y, at.y};
  const std::vector<KeyGroup> groups = keyGroups();
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const std::size_t in = two_columns ? i % 2 : 0;
    const float x = at.x + static_cast<float>(in) * (column + gap);
    y[in] += drawKeyGroup(ui, list, {x, y[in]}, column, groups[i]) + ui.px(12.0F);
    if (two_columns && in == 1) y[0] = y[1] = std::max(y[0], y[1]);
  }
  ImGui::Dummy({all, std::max(y[0], y[1]) - at.y});
  endPage(ui, wishes, Toggle{&Shown::keys_open});
}

void tourPanel(const Panel& panel, const Layout& layout) {
  const TourWords words = tourWords(panel.shown.tour);
  const float width = std::min(panel.px(380.0F), layout.canvas.freeWidth() - panel.px(24.0F));
  const float left = layout.canvas.left + (layout.canvas.freeWidth() - width) * 0.5F;
  beginFittedPanel(panel, "tour", {std::round(left), layout.strip_at.y}, width, layout.most_height);
  text(panel.fonts.strong, panel.colours->ink,
       std::to_string(panel.shown.tour + 1) + " of " + std::to_string(kTourStops) + ": " + words.what);
  text(panel.fonts.body, panel.colours->ink, words.how);
  if (wordItem(panel, "skip the tour", "")) panel.wishes.push_back(SkipTour{});
  ImGui::End();
}

void errorPage(const Ui& ui, ImVec2 size, const std::filesystem::path& path, const std::vector<base::Error>& errors,
               const std::vector<std::string>& lines, Wishes& wishes) {
  beginPage(ui, "errors", size, 900.0F);
  text(ui.fonts.heading, ui.colours->ink, "This job can't be read yet");
  text(ui.fonts.body, ui.colours->quiet, path.string());
  room(ui, 2.0F);
  if (wordItem(ui, "reload", "F5")) wishes.push_back(ReadAgain{});
  ImGui::SameLine(0.0F, ui.px(24.0F));
  if (wordItem(ui, "other jobs", "Ctrl O")) wishes.push_back(ToggleJobsPage{});
  ImGui::SameLine(0.0F, ui.px(24.0F));
  if (wordItem(ui, "close", "Ctrl Q")) wishes.push_back(Close{});
  rule(ui);
  for (const base::Error& error : errors) errorEntry(ui, error, path.string(), lines);
  ImGui::End();
}

void errorsBeside(const Panel& panel, const Layout& layout, const std::vector<base::Error>& errors,
                  const std::vector<std::string>& lines) {
  const float gap = panel.px(10.0F);
  const float width = std::min(panel.px(470.0F), layout.canvas.freeWidth() - 2.0F * gap);
  const float left = layout.canvas.left + gap;
  beginFittedPanel(panel, "errors beside", {left, layout.strip_at.y}, width, layout.most_height * 0.6F);
  markedText(panel, check::Verdict::Stop, panel.fonts.strong, "The job file can't be read as it is now");
  text(panel.fonts.body, panel.colours->quiet, "The drawing shows the job as last loaded; nothing is lost.");
  if (wordItem(panel, "reload", "F5")) panel.wishes.push_back(ReadAgain{});
  rule(panel);
  for (const base::Error& error : errors) errorEntry(panel, error, panel.document.path.string(), lines);
  ImGui::End();
}

}  // namespace sillwright::view
