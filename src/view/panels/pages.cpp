#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"
#include "view/values/readings.h"

namespace sillwright::view {

namespace {

constexpr ImGuiWindowFlags kPanelFlags =
    ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoCollapse |
    ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoNav | ImGuiWindowFlags_NoFocusOnAppearing;

void keepPlace(const Ui& ui) {
  const ImVec2 at = ImGui::GetWindowPos();
  if (ui.panels != nullptr) ui.panels->push_back({at, at + ImGui::GetWindowSize()});
}

/// Scrolls only where the item isn't wholly seen, and no further: a panel must not move under the pointer.
void bringIntoSight(const Response& item) {
  const float top = ImGui::GetWindowPos().y;
  if (item.low.y < top) ImGui::SetScrollHereY(0.0F);
  if (item.high.y > top + ImGui::GetWindowHeight()) ImGui::SetScrollHereY(1.0F);
}

struct KeyGroup {
  const char* heading;
  std::vector<std::pair<const char*, const char*>> lines;  ///< A key, and what it does.
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
       {{"Space", "play; any key pauses"},
        {"Page Down, Up", "a card on, a card back: a clicker's keys"},
        {"Backspace", "put everything right again"},
        {"Enter", "exercise: answer for what lies there"}}},
      {"Other",
       {{"Tab", "next thing that can be picked; with Shift the previous"},
        {"Enter", "pick it"},
        {"Escape", "cancel, deselect"},
        {"1 … 9, 0, G", "a layer, outside to inside, floor"},
        {"F2", "while held: the job as it was saved last"},
        {"Ctrl 0", "usual text size"},
        {"Ctrl Q", "close"}}},
  };
  const std::size_t work = 1;  // of these
  const std::size_t first = groups.size();
  for (const char* each : kCommandGroups) groups.push_back({each, {}});
  for (const Command& each : commands()) {
    if (each.key[0] == 0 || each.word[0] == 0) continue;  // second keys have no word, and some words no key
    groups[each.group == kLessonKeys ? work : first + each.group].lines.emplace_back(each.key, each.word);
  }
  return groups;
}

/// A group as two columns; answers where it ends.
float drawKeyGroup(const Ui& ui, ImVec2 at, float width, const KeyGroup& group) {
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float key_width = ui.px(104.0F);
  const float wrap = width - key_width;
  drawText(list, ui.fonts.strong, at, ui.colours->ink, group.heading);
  at.y += ui.fonts.body->FontSize + ui.px(6.0F);
  for (const auto& [key, does] : group.lines) {
    drawText(list, ui.fonts.body, at, ui.colours->ink, key);
    drawText(list, ui.fonts.body, {at.x + key_width, at.y}, ui.colours->quiet, does, wrap);
    at.y += textSize(ui.fonts.body, does, wrap).y + ui.px(6.0F);
  }
  return at.y;
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
  saySmall(ui, placeOf(error));
  say(ui, error.key.empty() ? error.say : error.key + ": " + error.say);
  if (error.file == file && error.at.line > 0 && error.at.line <= lines.size()) {  // the practice has its own
    quoteLine(ui, std::to_string(error.at.line) + "   " + lines[error.at.line - 1]);
  }
  room(ui, 8.0F);
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
  const auto found = std::ranges::find_if(assumed, [&](const auto& one) { return key == one.key; });
  return found == assumed.end() ? std::string{} : ": " + practice::cite(*found->figure);
}

void keyRow(const Panel& panel, const job::KeyText& key, const job::KeyText& settled) {
  const bool said = !key.text.empty();
  const std::string label = labelOf(key.place, panel.document.practice->words);
  const std::string value = shownText(said ? key : settled, panel.display);
  const Response field = typedRow(panel, label, value, key.place, !said);
  if (field.pressed && !choicesOf(panel.document, key).empty()) panel.wishes.push_back(OpenList{.key = key.place});
  if (!ImGui::IsItemHovered()) return;
  const std::string source = said ? ""
                             : settled.text.empty()
                                 ? "left out"
                                 : "not in the job: what the rule set has" + sourceOf(panel, key.place);
  panel.cards.push_back({field.low, field.high, label, std::string(key.rule->about), source});
}

}  // namespace

void applyStyle(float scale, const Palette& colours) {
  ImGuiStyle style;
  style.WindowPadding = ImVec2(14.0F, 12.0F);
  style.WindowRounding = 2.0F;
  style.WindowBorderSize = 1.0F;
  style.DisabledAlpha = 1.0F;  // what lies behind a page looks as it does
  style.WindowMinSize = ImVec2(32.0F, 16.0F);
  style.ItemSpacing = ImVec2(8.0F, 5.0F);
  style.ScrollbarSize = 9.0F;
  style.ScrollbarRounding = 4.0F;
  style.AntiAliasedLinesUseTex = false;
  style.ScaleAllSizes(scale);
  style.WindowBorderSize = 1.0F;
  for (ImVec4& colour : style.Colors) colour = toVec4(colours.paper);  // nothing of the library's own colours is left
  style.Colors[ImGuiCol_Text] = toVec4(colours.ink);
  style.Colors[ImGuiCol_TextDisabled] = toVec4(colours.quiet);
  style.Colors[ImGuiCol_Border] = toVec4(colours.rule);
  style.Colors[ImGuiCol_BorderShadow] = ImVec4(0.0F, 0.0F, 0.0F, 0.0F);
  style.Colors[ImGuiCol_ScrollbarBg] = ImVec4(0.0F, 0.0F, 0.0F, 0.0F);
  style.Colors[ImGuiCol_ScrollbarGrab] = toVec4(colours.rule);
  style.Colors[ImGuiCol_ScrollbarGrabHovered] = toVec4(colours.quiet);
  style.Colors[ImGuiCol_ScrollbarGrabActive] = toVec4(colours.ink);
  ImGui::GetStyle() = style;
}

void beginPanel(const Ui& ui, const char* name, ImVec2 at, ImVec2 size, bool scrolls) {
  ImGui::SetNextWindowPos(at);
  ImGui::SetNextWindowSize(size);
  const ImGuiWindowFlags still = ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
  ImGui::Begin(name, nullptr, kPanelFlags | (scrolls ? 0 : still));
  keepPlace(ui);
}

void beginFittedPanel(const Ui& ui, const char* name, ImVec2 at, float width, float most_height) {
  ImGui::SetNextWindowPos(at);
  ImGui::SetNextWindowSizeConstraints({width, 0.0F}, {width, most_height});
  ImGui::Begin(name, nullptr, kPanelFlags | ImGuiWindowFlags_AlwaysAutoResize);
  keepPlace(ui);
}

float beginPage(const Ui& ui, const char* name, ImVec2 size, float widest, std::optional<float> top) {
  const float width = std::min(ui.px(widest), size.x - ui.px(48.0F));
  ui.focus->now.clear();                                       // what lies behind can't be reached by Tab
  if (!ImGui::IsAnyItemActive()) ImGui::SetNextWindowFocus();  // a list that is open over it keeps its button
  const float edge = ui.px(24.0F);
  const ImVec2 at{std::round((size.x - width) * 0.5F), top.value_or(edge)};
  beginFittedPanel(ui, name, at, width, size.y - at.y - edge);
  return width;
}

Response item(const Ui& ui, std::string_view name, ImVec2 size, bool picked) {
  const std::string id{name};
  Focus& focus = *ui.focus;
  Response response;
  response.pressed = ImGui::InvisibleButton(id.c_str(), size);
  response.low = ImGui::GetItemRectMin();
  response.high = ImGui::GetItemRectMax();
  const ImGuiID own = ImGui::GetID(id.c_str());
  focus.now.push_back({own, id, response.low, response.high, std::nullopt});
  const bool focused = focus.at == own;
  if (focused && focus.arrived) bringIntoSight(response);
  if (focused && focus.activate) response.pressed = true;  // keys work as the pointer does
  response.hovered = ImGui::IsItemHovered() || focused;

  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImVec2 grow{ui.px(4.0F), ui.px(2.0F)};  // round its words, into the spacing beside it
  if (picked || response.hovered) {
    const Colour ground = picked ? ui.colours->picked : ui.colours->hovered;
    list.AddRectFilled(response.low - grow, response.high + grow, toU32(ground), ui.px(2.0F));
  }
  if (focused) {
    list.AddRect(response.low - grow, response.high + grow, toU32(ui.colours->ink), ui.px(2.0F), 0,
                 std::max(1.5F, ui.px(1.5F)));
  }
  return response;
}

Response markedRow(const Ui& ui, std::string_view name, const RowMark& mark, std::string_view words, bool picked,
                   bool quiet, std::string_view at_right) {
  ImFont* const font = ui.fonts.body;
  const float radius = font->FontSize * 0.32F;
  const float indent = radius * 2.4F + ui.px(8.0F);
  const float width = ImGui::GetContentRegionAvail().x;
  const float wrap = at_right.empty() ? width - indent : 0.0F;  // words at the right are on the first line
  const Response row = item(ui, name, {width, textSize(font, words, wrap).y}, picked);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  mark(list, {row.low.x + radius * 1.2F, row.low.y + font->FontSize * 0.55F}, radius);
  const float right = row.high.x - textSize(font, at_right).x;
  list.PushClipRect(row.low, {at_right.empty() ? right : right - ui.px(6.0F), row.high.y + ui.px(2.0F)}, true);
  drawText(list, font, {row.low.x + indent, row.low.y}, quiet ? ui.colours->quiet : ui.colours->ink, words, wrap);
  list.PopClipRect();
  drawText(list, font, {right, row.low.y}, ui.colours->quiet, at_right);
  return row;
}

RowMark tickBox(const Ui& ui, bool ticked) {
  return [&ui, ticked](ImDrawList& list, ImVec2 centre, float radius) {
    const ImU32 ink = toU32(ui.colours->ink);
    const ImVec2 half{std::round(radius * 1.1F), std::round(radius * 1.1F)};
    const ImVec2 box{std::round(centre.x), std::round(centre.y)};
    list.AddRect(box - half, box + half, ink);
    if (!ticked) return;
    const ImVec2 tick[] = {{box.x - half.x * 0.64F, box.y},
                           {box.x - half.x * 0.16F, box.y + half.y * 0.56F},
                           {box.x + half.x * 1.04F, box.y - half.y * 0.96F}};
    list.AddPolyline(tick, 3, ink, 0, std::max(1.5F, ui.px(1.8F)));
  };
}

std::optional<float> slider(const Ui& ui, std::string_view name, float width, float share) {
  const Response bar = item(ui, name, {width, ui.fonts.body->FontSize});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float from = bar.low.x;
  const float to = bar.high.x;
  const float y = std::round((bar.low.y + bar.high.y) * 0.5F);
  list.AddLine({from, y}, {to, y}, toU32(ui.colours->quiet), std::max(1.0F, ui.px(1.5F)));
  list.AddCircleFilled({from + std::clamp(share, 0.0F, 1.0F) * (to - from), y}, ui.px(5.5F), toU32(ui.colours->ink),
                       20);
  if (!ImGui::IsItemActive() || !ImGui::IsMouseDown(ImGuiMouseButton_Left)) return std::nullopt;
  return std::clamp((ImGui::GetIO().MousePos.x - from) / std::max(to - from, 1.0F), 0.0F, 1.0F);
}

ImVec2 wordItemSize(const Ui& ui, std::string_view word, std::string_view key, bool strong) {
  ImVec2 size = textSize(strong ? ui.fonts.strong : ui.fonts.body, word);
  if (!key.empty()) size.x += ui.px(5.0F) + textSize(ui.fonts.small, key).x;
  return size;
}

bool wordItem(const Ui& ui, std::string_view word, std::string_view key, bool picked, bool strong) {
  const Response response = item(ui, word, wordItemSize(ui, word, key, strong), picked);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, strong ? ui.fonts.strong : ui.fonts.body, response.low, ui.colours->ink, word);
  if (!key.empty()) {
    const ImVec2 key_size = textSize(ui.fonts.small, key);
    const ImVec2 at{response.high.x - key_size.x, response.high.y - key_size.y - ui.px(1.0F)};
    drawText(list, ui.fonts.small, at, ui.colours->quiet, key);
  }
  return response.pressed;
}

void text(ImFont* font, Colour colour, std::string_view words) {
  ImGui::PushFont(font);
  ImGui::PushStyleColor(ImGuiCol_Text, toVec4(colour));
  ImGui::PushTextWrapPos(0.0F);  // a single word that is too wide is broken by the library
  const std::string lines = inLines(font, words, ImGui::GetContentRegionAvail().x);
  ImGui::TextUnformatted(lines.data(), lines.data() + lines.size());
  ImGui::PopTextWrapPos();
  ImGui::PopStyleColor();
  ImGui::PopFont();
}

void room(const Ui& ui, float height) { ImGui::Dummy(ImVec2(0.0F, ui.px(height))); }

void rule(const Ui& ui) {
  room(ui, 1.0F);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;
  const float y = std::round(at.y) + 0.5F;  // a line one pixel wide lies in a pixel's middle
  ImGui::GetWindowDrawList()->AddLine(ImVec2(at.x, y), ImVec2(at.x + width, y), toU32(ui.colours->rule));
  room(ui, 4.0F);
}

void groupHeading(const Ui& ui, std::string_view words) {
  room(ui, 6.0F);
  rule(ui);
  text(ui.fonts.strong, ui.colours->ink, words);
}

void markedText(const Ui& ui, check::Verdict verdict, ImFont* font, std::string_view words, check::Basis basis) {
  const float radius = font->FontSize * 0.34F;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  drawMark(*ImGui::GetWindowDrawList(), {at.x + radius * 1.1F, at.y + font->FontSize * 0.52F}, radius, verdict,
           *ui.colours, basis);
  ImGui::SetCursorScreenPos({at.x + radius * 2.2F + ui.px(7.0F), at.y});
  text(font, ui.colours->ink, words);
}

void endPage(const Page& page, const Wish& close) {
  page.offer("close this page", "Escape", close);
  ImGui::End();
}

void keysPage(const Page& page, ImVec2 size) {
  const std::size_t columns = beginPage(page, "keys page", size, 820.0F) >= page.px(640.0F) ? 2 : 1;
  title(page, "Keys");
  rule(page);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float all = ImGui::GetContentRegionAvail().x;
  const float column = all / static_cast<float>(columns);
  float top = at.y;
  const std::vector<KeyGroup> groups = keyGroups();
  for (std::size_t first = 0; first < groups.size(); first += columns) {  // a row of groups
    float foot = top;
    for (std::size_t i = 0; i < columns && first + i < groups.size(); ++i) {
      const ImVec2 low{at.x + static_cast<float>(i) * column, top};
      foot = std::max(foot, drawKeyGroup(page, low, column - page.px(14.0F), groups[first + i]));
    }
    top = foot + page.px(12.0F);
  }
  ImGui::Dummy({all, top - at.y});  // what was drawn by hand has its room in the page
  endPage(page, Toggle{&Shown::keys_open});
}

void tourPanel(const Panel& panel, const Layout& layout) {
  const TourWords words = tourWords(panel.shown.tour);
  const float gap = panel.px(12.0F), height = panel.px(130.0F);
  const float width = std::min(panel.px(380.0F), layout.canvas.freeWidth() - 2.0F * gap);
  ImVec2 at{std::round(layout.canvas.left + (layout.canvas.freeWidth() - width) * 0.5F), layout.strip_at.y};
  for (const Rect& other : *panel.panels) {  // below those that lie there
    if (overlap(other, {at, at + ImVec2{width, height}})) at.y = other.high.y + gap;
  }
  at.y = std::min(at.y, layout.foot_at.y - height - gap);
  beginFittedPanel(panel, "tour", at, width, layout.foot_at.y - gap - at.y);
  text(panel.fonts.strong, panel.colours->ink,
       std::to_string(panel.shown.tour + 1) + " of " + std::to_string(kTourStops) + ": " + words.what);
  say(panel, words.how);
  panel.offer("skip the tour", "", SkipTour{});
  ImGui::End();
}

void errorPage(const Page& page, ImVec2 size, const std::filesystem::path& path, const std::vector<base::Error>& errors,
               const std::vector<std::string>& lines) {
  beginPage(page, "errors", size, 900.0F);
  title(page, "This job can't be read yet");
  sayQuietly(page, path.string());
  room(page, 2.0F);
  page.offer("reload", "F5", ReadAgain{});
  page.offerBeside("other jobs", "Ctrl O", ToggleJobsPage{});
  page.offerBeside("close", "Ctrl Q", Close{});
  rule(page);
  for (const base::Error& error : errors) errorEntry(page, error, path.string(), lines);
  ImGui::End();
}

void errorsBeside(const Panel& panel, const Layout& layout, const std::vector<base::Error>& errors,
                  const std::vector<std::string>& lines) {
  const float gap = panel.px(10.0F);
  const float width = std::min(panel.px(470.0F), layout.canvas.freeWidth() - 2.0F * gap);
  const float left = layout.canvas.left + gap;
  beginFittedPanel(panel, "errors beside", {left, layout.strip_at.y}, width, layout.most_height * 0.6F);
  markedText(panel, check::Verdict::Stop, panel.fonts.strong, "The job file can't be read as it is now");
  sayQuietly(panel, "The drawing shows the job as last loaded; nothing is lost.");
  panel.offer("reload", "F5", ReadAgain{});
  rule(panel);
  for (const base::Error& error : errors) errorEntry(panel, error, panel.document.path.string(), lines);
  ImGui::End();
}

// Rows for the keys of the job: each a field to type in, and a list that opens where there is something to choose from.

void keyRows(const Panel& panel, job::TableKind table, std::size_t of, std::initializer_list<std::string_view> keys,
             bool all_but) {
  const std::vector<job::KeyText> now = job::keysOf(panel.document.job, table, of);
  const std::vector<job::KeyText> settled = job::keysOf(settledAt(panel.document, table, of), table, of);
  for (std::size_t i = 0; i < now.size(); ++i) {
    const bool named = std::ranges::find(keys, now[i].place.key) != keys.end();
    if (named != all_but) keyRow(panel, now[i], settled[i]);
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
  const std::size_t first = panel.focus->now.size();  // its first offer's place among the items
  for (const Offer& each : menu.offers) {
    if (!wordItem(panel, each.word, each.key)) continue;
    panel.wishes.insert(panel.wishes.end(), each.wishes.begin(), each.wishes.end());
  }
  const bool over = ImGui::IsWindowHovered(ImGuiHoveredFlags_AllowWhenBlockedByActiveItem);
  if (ImGui::IsMouseClicked(ImGuiMouseButton_Left) && !over) panel.wishes.push_back(Stay{});  // a press beside closes
  // The keys go from the item into its list.
  if (panel.focus->at == menu.from && !panel.typing.field) panel.focus->at = panel.focus->now[first].id;
  ImGui::End();
}

void jobPage(const Panel& panel, ImVec2 size) {
  beginPage(panel, "job page", size, 560.0F);
  title(panel, "This job");
  sayQuietly(panel, panel.document.path.string());
  keyRows(panel, job::TableKind::Job, 0, {}, true);
  groupHeading(panel, "Stock");
  saySmall(panel, "What the crew has at hand, with commas between; empty: the rule set's usual.");
  keyRows(panel, job::TableKind::Stock, 0, {}, true);
  rule(panel);
  endPage(panel, Toggle{&Shown::job_open});
}

}  // namespace sillwright::view
