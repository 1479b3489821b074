#include <algorithm>

#include "view/panels/sheet_parts.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

std::string valueOf(const practice::Figure& figure, practice::Display display) {
  if (figure.unit == "mm") return words::length(figure.value, display);
  const std::string number = words::number(figure.value, 3);
  return figure.unit.empty() || figure.unit == "1" ? number : number + " " + figure.unit;
}

}  // namespace

RowNote noteOf(const practice::Rule& rule, practice::Display display) {
  if (!rule) return {"no limit", "the rule set has no value", ""};
  return {"limit " + valueOf(*rule, display), rule->note, practice::cite(*rule)};
}

void row(const Panel& panel, std::string_view label, std::string_view value, const std::optional<RowNote>& note) {
  const Ui& ui = panel.ui;
  const float width = ImGui::GetContentRegionAvail().x;
  const ImVec2 label_size = textSize(ui.fonts.body, label);
  ImVec2 value_size = textSize(ui.fonts.body, value);
  const bool beside = label_size.x + ui.px(14.0F) + value_size.x <= width;
  const float indent = beside ? 0.0F : ui.px(12.0F);
  if (!beside) value_size = textSize(ui.fonts.body, value, width - indent);
  const ImVec2 size{width, beside ? std::max(label_size.y, value_size.y) : label_size.y + value_size.y};

  ImVec2 at = ImGui::GetCursorScreenPos();
  if (note) {
    const Response response = item(ui, label, size);
    at = response.low;
    if (response.hovered) panel.cards.push_back({response.low, response.high, note->title, note->body, note->source});
  } else {
    ImGui::Dummy(size);
  }
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, ui.fonts.body, at, ui.colours->quiet, label);
  const ImVec2 value_at =
      beside ? ImVec2{at.x + width - value_size.x, at.y} : ImVec2{at.x + indent, at.y + label_size.y};
  drawText(list, ui.fonts.body, value_at, ui.colours->ink, value, beside ? 0.0F : width - indent);
  if (note) {  // a dotted line under the value: there is more to read
    const float y = value_at.y + value_size.y - 1.0F;
    for (float x = value_at.x; x < value_at.x + value_size.x; x += ui.px(4.0F)) {
      list.AddLine({x, y}, {x + ui.px(1.5F), y}, toU32(ui.colours->quiet));
    }
  }
}

}  // namespace sillwright::view
