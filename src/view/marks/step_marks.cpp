#include "view/marks/marks.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sillwright::view {
namespace {

void drawStepLine(Lettering& on, const document::StepLine& line) {
  const auto ends = on.projectLine(line.from, line.to);
  if (!ends) return;
  const auto [from, to] = *ends;
  const Ui& ui = on.ui;
  if (line.words.empty()) {
    drawDashes(on.list, from, to, ui.px(7.0F), ui.px(5.0F), toU32(ui.colours->ink), std::max(1.0F, ui.px(1.3F)));
    return;
  }
  drawInkLine(on, from, to);
  for (const ImVec2 end : {from, to}) on.list.AddCircleFilled(end, ui.px(3.0F), toU32(ui.colours->ink), 12);
  const Plate plate{
      {ui.px(4.0F), ui.px(1.0F)}, 0.0F, ui.colours->rule, {{ui.fonts.strong, ui.colours->ink, line.words}}};
  const ImVec2 size = sizeOf(ui, plate);
  const ImVec2 low = from + times(to - from, line.words_at) - times(size, 0.5F);
  drawPlate(ui, on.list, {std::round(low.x), std::round(low.y)}, plate);
  on.write("tape", line.words, {low, low + size});
}

/// A plate with a line to each of its places.
void drawNote(Lettering& on, const Plate& plate, const std::vector<ImVec2>& at, const Rect& room) {
  const Ui& ui = on.ui;
  for (const ImVec2 place : at) {
    drawInkLine(on, {std::clamp(place.x, room.low.x, room.high.x), (room.low.y + room.high.y) * 0.5F}, place);
    on.list.AddCircleFilled(place, ui.px(4.5F), toU32(ui.colours->paper), 16);
    on.list.AddCircleFilled(place, ui.px(3.0F), toU32(ui.colours->ink), 16);
  }
  drawPlate(ui, on.list, room.low, plate);
  on.write("note", plate.lines.front().words, room);
}

}  // namespace

std::vector<ImVec2> placeNotes(const std::vector<ImVec2>& about, const std::vector<ImVec2>& sizes, const Rect& room) {
  constexpr float kGap = 0.35F;  // of a note's height, to the next
  std::vector<std::size_t> order(about.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return about[a].y < about[b].y; });
  const auto isRight = [&](std::size_t i) { return about[i].x > (room.low.x + room.high.x) * 0.5F; };
  std::vector<ImVec2> places(about.size());
  std::array<float, 2> next{room.low.y, room.low.y};
  for (const std::size_t i : order) {
    float& y = next[isRight(i) ? 1 : 0];
    places[i] = {isRight(i) ? room.high.x - sizes[i].x : room.low.x, std::max(y, about[i].y - sizes[i].y * 0.5F)};
    y = places[i].y + sizes[i].y * (1.0F + kGap);
  }
  next = {room.high.y, room.high.y};  // a column that is too long moves up
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    float& foot = next[isRight(*i) ? 1 : 0];
    places[*i].y = std::min(places[*i].y, foot - sizes[*i].y);
    foot = places[*i].y - sizes[*i].y * kGap;
  }
  return places;
}

void drawStepMarks(Lettering& on, const document::StepView& step) {
  const Ui& ui = on.ui;
  for (const document::StepLine& line : step.lines) drawStepLine(on, line);
  const ImVec2 margin{ui.px(12.0F), ui.px(12.0F)};
  const Rect room{ImVec2{on.canvas.left, on.canvas.top} + margin,
                  ImVec2{on.canvas.width - on.canvas.right, on.canvas.height - on.canvas.bottom} - margin};
  std::vector<Plate> plates;
  std::vector<std::vector<ImVec2>> at;
  std::vector<ImVec2> about;
  std::vector<ImVec2> sizes;
  for (const document::StepNote& note : step.notes) {
    plates.push_back({{ui.px(6.0F), ui.px(3.0F)},
                      (room.high.x - room.low.x) * 0.3F,
                      ui.colours->ink,
                      {{ui.fonts.strong, ui.colours->ink, note.words}}});
    sizes.push_back(sizeOf(ui, plates.back()));
    std::vector<ImVec2>& places = at.emplace_back();
    for (const glm::vec3& place : note.at) {
      if (const auto seen = on.project(place)) places.push_back(*seen);
    }
    ImVec2 sum{0.0F, 0.0F};
    for (const ImVec2 place : places) sum = sum + place;
    about.push_back(places.empty() ? ImVec2{room.low.x, room.high.y}
                                   : times(sum, 1.0F / static_cast<float>(places.size())));
  }
  const std::vector<ImVec2> places = placeNotes(about, sizes, room);
  for (std::size_t i = 0; i < plates.size(); ++i) {
    drawNote(on, plates[i], at[i], {places[i], places[i] + sizes[i]});
  }
}

}  // namespace sillwright::view
