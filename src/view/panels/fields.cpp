#include "view/panels/fields.h"

#include <algorithm>
#include <cmath>

#include "view/values/words.h"

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
  typedRow(panel, label, figure(valueOf(job, dimension), display), dimension);
  const Item& own = panel.ui.focus->now.back();
  if (ImGui::IsItemHovered()) {
    panel.cards.push_back({own.low, own.high, nameOf(job, dimension),
                           std::string("type it ") + howToType(display) + "; Enter takes it",
                           boundsWords(boundsOf(job, dimension), display)});
  }
}

}  // namespace sillwright::view
