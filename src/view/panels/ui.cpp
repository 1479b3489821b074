#include "view/panels/ui.h"

#include <algorithm>
#include <cmath>

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

float beginPage(const Ui& ui, const char* name, ImVec2 size, float widest, float top) {
  const float width = std::min(ui.px(widest), size.x - ui.px(48.0F));
  ui.focus->now.clear();
  if (!ImGui::IsAnyItemActive()) ImGui::SetNextWindowFocus();  // a list that is open over it keeps its button
  beginFittedPanel(ui, name, {std::round((size.x - width) * 0.5F), top}, width, size.y - top - ui.px(24.0F));
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
  if (focused && focus.activate) response.pressed = true;
  response.hovered = ImGui::IsItemHovered() || focused;

  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImVec2 grow{ui.px(4.0F), ui.px(2.0F)};
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
  ImGui::PushTextWrapPos(0.0F);
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
  const float y = std::round(at.y) + 0.5F;
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

}  // namespace sillwright::view
