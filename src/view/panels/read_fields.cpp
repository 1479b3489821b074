// The sheet's group of readings: a field for each, in the order in which a person reads them off a tape.

#include <algorithm>
#include <cmath>
#include <string>

#include "plan/survey/planned_readings.h"
#include "view/panels/panels.h"
#include "view/values/words.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

constexpr std::size_t kMostAcross = 3;

/// One row of fields: the readings from `first` on that share a group.
std::size_t countOf(std::size_t first) {
  std::size_t count = 1;
  const std::string group = infoOf(static_cast<TapeReading>(first)).group;
  while (first + count < job::kTapeReadings && group == infoOf(static_cast<TapeReading>(first + count)).group) ++count;
  return count;
}

struct FieldRow {
  float label = 0.0F;
  float field = 0.0F;
  float gap = 0.0F;
  float caption = 0.0F;
  float height = 0.0F;
};

FieldRow rowSizes(const Ui& ui) {
  FieldRow row;
  row.label = textSize(ui.fonts.body, "wall depth").x + ui.px(12.0F);
  row.gap = ui.px(9.0F);
  const float width = ImGui::GetContentRegionAvail().x;
  row.field = std::floor((width - row.label) / static_cast<float>(kMostAcross) - row.gap);
  row.caption = ui.fonts.small->FontSize;
  row.height = ui.fonts.body->FontSize + ui.px(6.0F);
  return row;
}

void explain(const Panel& panel, std::size_t opening, TapeReading reading, const Response& response) {
  Card card{response.low, response.high, infoOf(reading).name, infoOf(reading).how, {}};
  if (panel.typing.isTyped(panel.document.job, opening, reading)) {
    const job::Opening* in_file = panel.typing.inFile(panel.document.job, opening);
    const auto value = in_file != nullptr ? valueOf(in_file->measured, reading) : std::nullopt;
    card.body += ". Typed, not in the file: ";
    card.body += value ? "the file has " + figure(*value, panel.document.practice->display) : "the file has none";
  }
  card.source = boundsWords(boundsOf(reading), panel.document.practice->display) + "; empty where it wasn't read";
  panel.cards.push_back(card);
}

void drawField(const Panel& panel, std::size_t opening, TapeReading reading, const FieldRow& row) {
  const auto value = valueOf(panel.document.job.openings[opening].measured, reading);
  const std::string words = value ? figure(*value, panel.document.practice->display) : std::string{};
  const bool typed = panel.typing.isTyped(panel.document.job, opening, reading);
  const Response response = fieldItem(panel, panel.typing, std::string("read ") + infoOf(reading).name,
                                      {row.field, row.height}, words, ReadingOf{opening, reading}, typed);
  if (response.hovered) explain(panel, opening, reading, response);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  if (typed) {  // a pen's stroke down the left edge: typed, not in the file
    const float x = response.low.x + panel.px(3.5F);
    list.AddLine({x, response.low.y + panel.px(4.0F)}, {x, response.high.y - panel.px(4.0F)}, toU32(panel.colours->ink),
                 std::max(2.0F, panel.px(2.5F)));
  }
  if (plan::isSuspect(panel.document.plan.openings[opening].as_built, reading)) {
    drawRing(list, {response.low.x + panel.px(13.0F), (response.low.y + response.high.y) * 0.5F}, panel.px(4.5F));
  }
}

void drawRow(const Panel& panel, std::size_t opening, std::size_t first, std::size_t count) {
  const FieldRow row = rowSizes(panel);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const bool captions = infoOf(static_cast<TapeReading>(first)).caption[0] != '\0';
  const float top = at.y + (captions ? row.caption + panel.px(1.0F) : 0.0F);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, panel.fonts.body, {at.x, top + (row.height - panel.fonts.body->FontSize) * 0.5F}, panel.colours->quiet,
           infoOf(static_cast<TapeReading>(first)).group);
  for (std::size_t i = 0; i < count; ++i) {
    const auto reading = static_cast<TapeReading>(first + i);
    const float x = at.x + row.label + static_cast<float>(i) * (row.field + row.gap);
    drawText(list, panel.fonts.small, {x, at.y}, panel.colours->quiet, infoOf(reading).caption);
    ImGui::SetCursorScreenPos({x, top});
    drawField(panel, opening, reading, row);
  }
  ImGui::SetCursorScreenPos({at.x, top + row.height + panel.px(3.0F)});
}

}  // namespace

void readFields(const Panel& panel, std::size_t opening) {
  groupHeading(panel, "Measurements");
  text(panel.fonts.small, panel.colours->quiet,
       std::string("type ") + howToType(panel.document.practice->display) +
           "; Enter or Tab goes on, Delete empties, Escape leaves");
  for (std::size_t first = 0; first < job::kTapeReadings;) {
    const std::size_t count = countOf(first);
    drawRow(panel, opening, first, count);
    first += count;
  }
  keyRows(panel, job::TableKind::Measured, opening, {"by"});
}

void lastEdit(const Panel& panel) {
  if (!panel.history.canUndo()) return;
  if (wordItem(panel, "undo", "Ctrl Z")) panel.wishes.push_back(TakeBack{});
  const std::string last = "the last: " + panel.history.name(panel.history.place() - 1);
  text(panel.fonts.small, panel.colours->quiet, last);
}

void deviationSlider(const Panel& panel) {
  const double times = panel.document.deviation;
  const float width = ImGui::GetContentRegionAvail().x;
  const std::string value = "×" + words::number(times, 1);
  const float label = textSize(panel.fonts.body, "deviation drawn").x + panel.px(12.0F);
  const float figure_room = textSize(panel.fonts.body, "×20").x + textSize(panel.fonts.small, "M").x + panel.px(24.0F);
  const Response response = item(panel, "deviation", {width, panel.fonts.body->FontSize + panel.px(4.0F)});
  const bool held = ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left);
  const float from = response.low.x + label;
  const float to = response.high.x - figure_room;
  if (held) {
    const float share = std::clamp((ImGui::GetIO().MousePos.x - from) / std::max(to - from, 1.0F), 0.0F, 1.0F);
    const double wanted = 1.0 + std::round(static_cast<double>(share) * 19.0);
    if (wanted != times) panel.wishes.push_back(Magnify{wanted});
  } else if (response.pressed && !ImGui::IsMouseReleased(ImGuiMouseButton_Left)) {
    panel.wishes.push_back(Magnify{0.0});
  }
  if (response.hovered) {
    panel.cards.push_back({response.low,
                           response.high,
                           "deviation drawn " + value,
                           "out-of-square, gaps and packers are drawn so many times as large as they are, and the unit "
                           "smaller to make room; every figure stays true",
                           {}});
  }
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float y = std::round((response.low.y + response.high.y) * 0.5F);
  const auto share = static_cast<float>((std::clamp(times, 1.0, 20.0) - 1.0) / 19.0);
  drawText(list, panel.fonts.body, {response.low.x, response.low.y + panel.px(2.0F)}, panel.colours->quiet,
           "deviation drawn");
  list.AddLine({from, y}, {to, y}, toU32(panel.colours->quiet), std::max(1.0F, panel.px(1.5F)));
  list.AddCircleFilled({from + share * (to - from), y}, panel.px(5.5F), toU32(panel.colours->ink), 20);
  drawText(list, panel.fonts.body, {to + panel.px(12.0F), response.low.y + panel.px(2.0F)}, panel.colours->ink, value);
  const ImVec2 key = textSize(panel.fonts.small, "M");
  drawText(list, panel.fonts.small, {response.high.x - key.x, response.high.y - key.y - panel.px(2.0F)},
           panel.colours->quiet, "M");
}

}  // namespace sillwright::view
