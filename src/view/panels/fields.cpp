#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"
#include "view/values/words.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

/// The box of a field with its text, and where the next character comes.
void drawFieldBox(const Ui& ui, const Response& at, const std::string& words, bool focused, bool typing, bool strong,
                  bool quiet) {
  ImDrawList& list = *ImGui::GetWindowDrawList();
  list.AddRectFilled(at.low, at.high, toU32(focused ? ui.colours->paper : ui.colours->hovered), ui.px(2.0F));
  list.AddRect(at.low, at.high, toU32(focused ? ui.colours->ink : ui.colours->quiet), ui.px(2.0F), 0,
               focused ? std::max(1.5F, ui.px(1.6F)) : 1.0F);
  ImFont* font = strong || typing ? ui.fonts.strong : ui.fonts.body;
  const ImVec2 size = textSize(font, words);
  const float right = at.high.x - ui.px(6.0F);
  const float top = at.low.y + (at.high.y - at.low.y - font->FontSize) * 0.5F;
  list.PushClipRect(at.low, at.high, true);
  drawText(list, font, {right - size.x, top}, quiet ? ui.colours->quiet : ui.colours->ink, words);
  list.PopClipRect();
  if (!typing && !(focused && words.empty())) return;
  const float x = right + ui.px(1.5F);
  list.AddLine({x, at.low.y + ui.px(3.0F)}, {x, at.high.y - ui.px(3.0F)}, toU32(ui.colours->ink),
               std::max(1.0F, ui.px(1.2F)));
}

}  // namespace

Response fieldItem(const Ui& ui, const Typing& typing, std::string_view name, ImVec2 size, const std::string& value,
                   const FieldOf& what, bool strong, bool quiet) {
  const Response response = item(ui, name, size);
  Item& own = ui.focus->now.back();
  own.field = what;
  if (response.pressed) ui.focus->at = own.id;
  const bool typed = typing.field && typing.field->what == what;
  drawFieldBox(ui, response, typed ? typing.field->text : value, ui.focus->at == own.id, typed, strong,
               quiet && !typed);
  return response;
}

bool typedRow(const Ui& ui, const Typing& typing, std::string_view label, const std::string& value, const FieldOf& what,
              bool quiet) {
  const float width = ImGui::GetContentRegionAvail().x;
  const bool name = std::holds_alternative<NameOf>(what) || std::holds_alternative<job::KeyPlace>(what);
  const bool path = std::holds_alternative<PathOf>(what);
  const float wanted = path ? width : ui.px(name ? 170.0F : 104.0F);
  const float field_width = std::round(std::min(wanted, width * (path ? 0.78F : 0.55F)));
  const float height = ui.fonts.body->FontSize + ui.px(6.0F);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float wrap = width - field_width - ui.px(8.0F);
  const float label_height = textSize(ui.fonts.body, label, wrap).y;
  const float row_height = std::max(height, label_height);
  drawText(*ImGui::GetWindowDrawList(), ui.fonts.body, {at.x, at.y + (row_height - label_height) * 0.5F},
           ui.colours->quiet, label, wrap);
  ImGui::SetCursorScreenPos({at.x + width - field_width, at.y + (row_height - height) * 0.5F});
  const bool pressed =
      fieldItem(ui, typing, "set " + std::string(label), {field_width, height}, value, what, false, quiet).pressed;
  ImGui::SetCursorScreenPos({at.x, at.y + row_height + ui.px(3.0F)});
  return pressed;
}

void dimensionRow(const Panel& panel, std::string_view label, const Dimension& dimension) {
  const job::Job& job = panel.document.job;
  const practice::Display display = panel.document.practice->display;
  typedRow(panel, panel.typing, label, figure(valueOf(job, dimension), display), dimension);
  const Item& own = panel.focus->now.back();
  if (ImGui::IsItemHovered()) {
    panel.cards.push_back({own.low, own.high, nameOf(job, dimension),
                           std::string("type it ") + howToType(display) + "; Enter takes it",
                           boundsWords(boundsOf(job, dimension), display)});
  }
}

std::string amount(double value, const std::string& unit, int decimals, practice::Display display) {
  const std::string number = unit == "mm" ? words::length(value, display) : words::number(value, decimals);
  return withMinus(number) + (unit.empty() || unit == "1" || unit == "mm" ? "" : " " + unit);
}

RowNote noteOf(const practice::Rule& rule, practice::Display display) {
  if (!rule) return {"no limit", "the rule set has no value", ""};
  return {"limit " + amount(rule->value, rule->unit, 3, display), rule->note, practice::cite(*rule)};
}

void row(const Panel& panel, std::string_view label, std::string_view value, const std::optional<RowNote>& note) {
  const float width = ImGui::GetContentRegionAvail().x;
  const ImVec2 label_size = textSize(panel.fonts.body, label);
  ImVec2 value_size = textSize(panel.fonts.body, value);
  const bool beside = label_size.x + panel.px(14.0F) + value_size.x <= width;
  const float indent = beside ? 0.0F : panel.px(12.0F);
  if (!beside) value_size = textSize(panel.fonts.body, value, width - indent);
  const ImVec2 size{width, beside ? std::max(label_size.y, value_size.y) : label_size.y + value_size.y};

  ImVec2 at = ImGui::GetCursorScreenPos();
  if (note) {
    const Response response = item(panel, label, size);
    at = response.low;
    if (response.hovered) panel.cards.push_back({response.low, response.high, note->title, note->body, note->source});
  } else {
    ImGui::Dummy(size);
  }
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, panel.fonts.body, at, panel.colours->quiet, label);
  const ImVec2 value_at =
      beside ? ImVec2{at.x + width - value_size.x, at.y} : ImVec2{at.x + indent, at.y + label_size.y};
  drawText(list, panel.fonts.body, value_at, panel.colours->ink, value, beside ? 0.0F : width - indent);
  if (note) {  // a dotted line under the value: there is more to read
    const float y = value_at.y + value_size.y - 1.0F;
    for (float x = value_at.x; x < value_at.x + value_size.x; x += panel.px(4.0F)) {
      list.AddLine({x, y}, {x + panel.px(1.5F), y}, toU32(panel.colours->quiet));
    }
  }
}

}  // namespace sillwright::view
