#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "view/panels/panels.h"
#include "view/values/settings.h"

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

// Rows for the keys of the job: each a field to type in, and a list that opens where there is something to choose from.

namespace {

bool isAmong(std::initializer_list<std::string_view> names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// The source of what the rule set gives where the job says nothing; empty: it isn't a figure of the rule set.
std::string sourceOf(const Panel& panel, const job::KeyPlace& place) {
  const plan::Plan& plan = panel.document.plan;
  const bool unit = place.table == job::TableKind::Unit;
  if (!unit && place.table != job::TableKind::Opening && place.table != job::TableKind::Wall) return {};
  const std::string key = (unit ? "unit." : "") + place.key + (place.inner.empty() ? "" : "." + place.inner);
  const auto& assumed = unit                                     ? plan.openings[place.of].unit.assumed
                        : place.table == job::TableKind::Opening ? plan.openings[place.of].assumed
                                                                 : plan.walls[place.of].spec.assumed;
  const auto found = std::find_if(assumed.begin(), assumed.end(), [&](const auto& one) { return key == one.key; });
  return found == assumed.end() ? std::string{} : ": " + practice::cite(*found->figure);
}

void keyRow(const Panel& panel, const job::KeyText& key, const job::KeyText& settled) {
  const bool said = !key.text.empty();
  const std::string label = labelOf(key.place, panel.document.practice->words);
  const bool pressed = typedRow(panel, panel.typing, label,
                                shownText(said ? key : settled, panel.document.practice->display), key.place, !said);
  if (pressed && !choicesOf(panel.document, key).empty()) panel.wishes.push_back(OpenList{.key = key.place});
  const Item& own = panel.focus->now.back();
  if (!ImGui::IsItemHovered()) return;
  const std::string source = said ? ""
                             : settled.text.empty()
                                 ? "left out"
                                 : "not in the job: what the rule set has" + sourceOf(panel, key.place);
  panel.cards.push_back({own.low, own.high, label, std::string(key.rule->about), source});
}

}  // namespace

void keyRows(const Panel& panel, job::TableKind table, std::size_t of, std::initializer_list<std::string_view> keys,
             bool all_but) {
  const std::vector<job::KeyText> now = job::keysOf(panel.document.job, table, of);
  const std::vector<job::KeyText> settled = job::keysOf(settledAt(panel.document, table, of), table, of);
  for (std::size_t i = 0; i < now.size(); ++i) {
    if (isAmong(keys, now[i].place.key) != all_but) keyRow(panel, now[i], settled[i]);
  }
}

void menuList(const Panel& panel, const Menu& menu, ImVec2 size) {
  const float line = panel.fonts.body->FontSize + panel.px(5.0F);
  float width = std::max(menu.least_width, textSize(panel.fonts.strong, menu.title).x + panel.px(30.0F));
  for (const Offer& each : menu.offers) {
    width = std::max(width, wordItemSize(panel, each.word, each.key).x + panel.px(30.0F));
  }
  const float most = size.y - panel.px(24.0F);
  const float lines = static_cast<float>(menu.offers.size() + (menu.title.empty() ? 0 : 1));
  const float height = std::min(lines * line + panel.px(24.0F), most);
  const float edge = panel.px(8.0F);
  const float top = menu.upwards ? menu.at.y - height : menu.at.y;
  ImGui::SetNextWindowFocus();
  beginFittedPanel(panel, "list",
                   {std::max(edge, std::min(menu.at.x, size.x - width - edge)),
                    std::max(edge, std::min(top, size.y - height - edge))},
                   width, most);
  if (!menu.title.empty()) text(panel.fonts.strong, panel.colours->ink, menu.title);
  const std::size_t first = panel.focus->now.size();
  for (const Offer& each : menu.offers) {
    if (!wordItem(panel, each.word, each.key)) continue;
    panel.wishes.insert(panel.wishes.end(), each.wishes.begin(), each.wishes.end());
  }
  const bool over = ImGui::IsWindowHovered(ImGuiHoveredFlags_AllowWhenBlockedByActiveItem);
  if (ImGui::IsMouseClicked(ImGuiMouseButton_Left) && !over) panel.wishes.push_back(Stay{});
  // The keys go from the item into its list.
  if (panel.focus->at == menu.from && !panel.typing.field) panel.focus->at = panel.focus->now[first].id;
  ImGui::End();
}

void jobPage(const Panel& panel, ImVec2 size) {
  beginPage(panel, "job page", size, 560.0F);
  text(panel.fonts.heading, panel.colours->ink, "This job");
  text(panel.fonts.body, panel.colours->quiet, panel.document.path.string());
  keyRows(panel, job::TableKind::Job, 0, {}, true);
  groupHeading(panel, "Stock");
  text(panel.fonts.small, panel.colours->quiet,
       "What the crew has at hand, with commas between; empty: the rule set's usual.");
  keyRows(panel, job::TableKind::Stock, 0, {}, true);
  rule(panel);
  endPage(panel, panel.wishes, Toggle{&Shown::job_open});
}

}  // namespace sillwright::view
