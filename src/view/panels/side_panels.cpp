// Panels that are opened beside the drawing: layers, history, the cutting plane.

#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"
#include "view/values/readings.h"

namespace sillwright::view {

namespace {

/// A tick box and a word: the box is drawn as a carpenter ticks a list.
void layerRow(const Panel& panel, scene::Layer layer, float width) {
  const bool hidden = (panel.shown.look.hidden_layers >> static_cast<unsigned>(layer) & 1U) != 0;
  const std::string word = wordFor(layer, panel.document.practice->words);
  const Response row = item(panel, "layer " + word, {width, panel.fonts.body->FontSize + panel.px(3.0F)});
  if (row.pressed) panel.wishes.push_back(ToggleLayer{layer});

  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float side = std::round(panel.fonts.body->FontSize * 0.72F);
  const ImVec2 box{std::round(row.low.x), std::round((row.low.y + row.high.y - side) * 0.5F)};
  list.AddRect(box, {box.x + side, box.y + side}, toU32(panel.colours->ink));
  if (!hidden) {
    const float line = std::max(1.5F, panel.px(1.8F));
    const ImVec2 low{box.x + side * 0.42F, box.y + side * 0.78F};
    list.AddLine({box.x + side * 0.18F, box.y + side * 0.5F}, low, toU32(panel.colours->ink), line);
    list.AddLine(low, {box.x + side * 1.02F, box.y + side * 0.02F}, toU32(panel.colours->ink), line);
  }
  drawText(list, panel.fonts.body, {box.x + side + panel.px(9.0F), row.low.y + panel.px(1.0F)},
           hidden ? panel.colours->quiet : panel.colours->ink, word);
  const std::string key(1, keyFor(layer));
  drawText(list, panel.fonts.small, {row.high.x - textSize(panel.fonts.small, key).x, row.low.y + panel.px(3.0F)},
           panel.colours->quiet, key);
}

void stepRow(const Panel& panel, std::size_t place, const std::string& words, float width) {
  const bool here = panel.history.place() == place;
  const bool undone = place > panel.history.place();
  const float indent = panel.px(14.0F);
  const ImVec2 size{width, textSize(panel.fonts.body, words, width - indent).y};
  const Response row = item(panel, "done " + std::to_string(place) + " " + words, size, here);
  if (row.pressed && !here) panel.wishes.push_back(GoInHistory{place});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float r = panel.px(3.0F);
  const ImVec2 dot{row.low.x + r, row.low.y + panel.fonts.body->FontSize * 0.55F};
  if (undone) {
    list.AddCircle(dot, r, toU32(panel.colours->quiet), 12, panel.px(1.2F));
  } else {
    list.AddCircleFilled(dot, r, toU32(panel.colours->ink), 12);
  }
  drawText(list, panel.fonts.body, {row.low.x + indent, row.low.y}, undone ? panel.colours->quiet : panel.colours->ink,
           words, width - indent);
}

/// A word that can be picked, with a card that explains it.
bool explained(const Panel& panel, const std::string& word, const char* key, bool picked, const char* title,
               const char* body) {
  const bool pressed = wordItem(panel, word, key, picked);
  if (ImGui::IsItemHovered() || panel.focus->at == ImGui::GetID(word.c_str())) {
    // All that is to the right of it is kept clear: the card goes to the left, over the drawing.
    const ImVec2 low = ImGui::GetItemRectMin();
    panel.cards.push_back({low, {ImGui::GetIO().DisplaySize.x, low.y}, title, body, {}});
  }
  return pressed;
}

const char* whyOf(CutAxis axis, bool of_wall) {
  if (!of_wall) return "No wall is picked: the axes of the floor plan. Pick an opening or a wall to cut square to it.";
  switch (axis) {
    case CutAxis::X:
      return "An upright cut across the wall, from its left end as seen from outside: head and sill.";
    case CutAxis::Y:
      return "An upright cut in the wall's plane, from the outside face of the studs inwards: packers all round.";
    case CutAxis::Z:
      break;
  }
  return "A level cut, from the underside of the bottom plate: the jambs.";
}

}  // namespace

void layersPanel(const Panel& panel, const Layout& layout) {
  const float width = std::round(panel.px(206.0F));
  const float row = panel.fonts.body->FontSize + panel.px(3.0F) + ImGui::GetStyle().ItemSpacing.y;
  const float wanted = static_cast<float>(scene::kLayers + 2) * row + panel.px(30.0F);
  const float height = std::min(wanted, layout.most_height);
  const float left = layout.strip_at.x + layout.strip_width + panel.px(10.0F);
  beginPanel(panel, "layers", {left, layout.foot_at.y - panel.px(10.0F) - height}, {width, height});
  text(panel.fonts.strong, panel.colours->ink, "From outside inwards");
  const float inner = ImGui::GetContentRegionAvail().x;
  for (std::size_t i = 0; i < scene::kLayers; ++i) layerRow(panel, static_cast<scene::Layer>(i), inner);
  if (wordItem(panel, "show all", "")) panel.wishes.push_back(ShowAllLayers{});
  ImGui::End();
}

void historyPanel(const Panel& panel, const Layout& layout) {
  const float width = std::round(panel.px(290.0F));
  const float left = layout.strip_at.x + layout.strip_width + panel.px(10.0F);
  beginFittedPanel(panel, "history", {left, layout.strip_at.y}, width, layout.most_height);
  text(panel.fonts.strong, panel.colours->ink, "Edits since the file was loaded");
  if (wordItem(panel, "undo", "Ctrl Z")) panel.wishes.push_back(TakeBack{});
  ImGui::SameLine(0.0F, panel.px(16.0F));
  if (wordItem(panel, "do again", "Ctrl Y")) panel.wishes.push_back(DoAgain{});
  rule(panel);
  const float inner = ImGui::GetContentRegionAvail().x;
  stepRow(panel, 0, "as the file has it", inner);
  for (std::size_t i = 0; i < panel.history.size(); ++i) stepRow(panel, i + 1, panel.history.name(i), inner);
  ImGui::End();
}

void cutPanel(const Panel& panel, const Layout& layout) {
  const Cutting& cutting = panel.shown.cutting;
  const bool of_wall = cutting.wall >= 0;
  const float width = std::round(panel.px(186.0F));
  const float left = layout.canvas.width - layout.canvas.right - width - panel.px(12.0F);
  // Below the plate that says how much larger deviations are drawn.
  const float top = layout.strip_at.y + (panel.document.drawn_deviation > 1 ? panel.px(46.0F) : 0.0F);
  beginFittedPanel(panel, "cut", {left, top}, width, layout.most_height);
  const std::string of =
      of_wall ? "Cut at " + panel.document.job.walls[static_cast<std::size_t>(cutting.wall)].name : "Cut of the plan";
  text(panel.fonts.strong, panel.colours->ink, of);
  for (std::size_t i = 0; i < kCutAxes; ++i) {
    const auto axis = static_cast<CutAxis>(i);
    const std::string word = std::string(1, letterOf(axis)) + "  " + wordsFor(axis, of_wall);
    if (explained(panel, word, i == 0 ? "K" : "", cutting.axis == axis, wordsFor(axis, of_wall),
                  whyOf(axis, of_wall))) {
      panel.wishes.push_back(CutWish{CutAct::Along, axis});
    }
  }
  rule(panel);
  const std::string place = "at " + figure(cutting.at, panel.document.practice->display);
  if (explained(panel, place, "", false, "Where it cuts",
                "Drag its handle in the drawing: whole millimetres, with Shift tenths. Or pick this and type a figure, "
                "or nudge with the arrows; Enter takes it, Escape puts it back.")) {
    panel.wishes.push_back(CutWish{CutAct::Hold});
  }
  if (explained(panel, "other side", "Shift K", false, "The other side", "Shows the other half.")) {
    panel.wishes.push_back(CutWish{CutAct::Turn});
  }
  if (wordItem(panel, "no cut", "Escape")) panel.wishes.push_back(CutWish{CutAct::Off});
  ImGui::End();
}

namespace {

/// Groups are parted by a wider room.
struct Flow {
  float word_gap;
  float group_gap;
  float width;
  float x = 0.0F;
  int line = 0;

  /// Where the next word starts; on a new line where it doesn't fit.
  float place(float needed, bool starts_group) {
    const float start = x == 0.0F ? 0.0F : x + (starts_group ? group_gap : word_gap);
    if (start > 0.0F && start + needed > width) {
      ++line;
      x = needed;
      return 0.0F;
    }
    x = start + needed;
    return start;
  }
};

Flow flowFor(const Ui& ui, float width) {
  return {.word_gap = ui.px(12.0F), .group_gap = ui.px(24.0F), .width = width - 2.0F * ui.px(14.0F)};
}

bool isOn(const Wish& wish, const Shown& shown) {
  if (const auto* toggle = std::get_if<Toggle>(&wish)) return shown.*toggle->what;
  if (std::holds_alternative<LessonWish>(wish)) return shown.lesson.on();
  if (std::holds_alternative<ToggleMeasuring>(wish)) return shown.measuring.on;
  if (std::holds_alternative<CutWish>(wish)) return shown.cutting.axis.has_value();
  if (std::holds_alternative<NextLens>(wish)) return shown.lens.has_value();
  if (std::holds_alternative<ToggleJobsPage>(wish)) return shown.jobs_open;
  return std::holds_alternative<ToggleDark>(wish) && shown.look.dark;
}

/// Calls `put` with each word of the foot and where it starts in its line: of each group its name, which opens its
/// list, then the most used of it. Answers the number of lines.
template <class Put>
int eachWord(const Ui& ui, float width, const Put& put) {
  Flow flow = flowFor(ui, width);
  for (std::size_t group = 0; group < kCommandGroups.size(); ++group) {
    const auto place = [&](const Command& each, bool heading) {
      const float x = flow.place(wordItemSize(ui, each.word, each.key, heading).x, heading);
      put(each, x, flow.line);
    };
    place({"", kCommandGroups[group], OpenList{.group = group}, group, true}, true);
    for (const Command& each : commands()) {
      if (each.group == group && each.common) place(each, false);
    }
  }
  return flow.line + 1;
}

}  // namespace

int footLines(const Ui& ui, float width) {
  return eachWord(ui, width, [](const Command&, float, int) {});
}

void footLine(const Panel& panel, const Layout& layout) {
  beginPanel(panel, "foot", layout.foot_at, layout.foot_size, false);
  const float step = panel.fonts.body->FontSize + panel.px(9.0F);
  const ImVec2 origin{layout.foot_at.x + panel.px(14.0F), layout.foot_at.y + panel.px(9.0F)};
  eachWord(panel, layout.foot_size.x, [&](const Command& each, float x, int line) {
    ImGui::SetCursorScreenPos({origin.x + x, origin.y + static_cast<float>(line) * step});
    const bool group = std::holds_alternative<OpenList>(each.wish);
    if (!wordItem(panel, each.word, each.key, isOn(each.wish, panel.shown), group)) return;
    const glm::vec2 above{origin.x + x, layout.foot_at.y - panel.px(4.0F)};
    panel.wishes.push_back(group ? Wish{OpenList{.at = above, .group = each.group}} : each.wish);
  });
  ImGui::End();
}

Layout layOut(const Ui& ui, ImVec2 size, bool with_sheet, bool with_lesson, bool with_cards, bool folded) {
  const float margin = ui.px(12.0F);
  Layout layout;
  layout.scale = ui.scale;
  const float foot_width = size.x - 2.0F * margin;
  const float line = ui.fonts.body->FontSize + ui.px(9.0F);
  const float foot_height = static_cast<float>(footLines(ui, foot_width)) * line + ui.px(9.0F);
  layout.foot_at = {margin, std::round(size.y - margin - foot_height)};
  layout.foot_size = {foot_width, foot_height};

  layout.strip_at = {margin, margin};
  layout.folded = folded;
  layout.strip_width = folded ? 0.0F : std::round(std::min(ui.px(206.0F), size.x * 0.25F));
  layout.sheet_width = folded ? 0.0F : std::round(std::min(ui.px(356.0F), size.x * 0.37F));
  layout.sheet_at = {size.x - margin - layout.sheet_width, margin};
  layout.lesson_size = {foot_width, lessonHeight(ui, foot_width, with_cards)};
  layout.lesson_at = {margin, std::round(layout.foot_at.y - ui.px(6.0F) - layout.lesson_size.y)};
  const float bottom = with_lesson ? layout.lesson_at.y : layout.foot_at.y;
  layout.most_height = bottom - 2.0F * margin;

  layout.canvas = {.width = size.x,
                   .height = size.y,
                   .left = margin + layout.strip_width,
                   .right = with_sheet ? margin + layout.sheet_width : 0.0F,
                   .top = 0.0F,
                   .bottom = size.y - bottom};
  return layout;
}

void drawCard(const Ui& ui, const Card& card, ImVec2 size) {
  const Palette& colours = *ui.colours;
  Plate plate{{ui.px(11.0F), ui.px(8.0F)}, std::min(ui.px(320.0F), size.x * 0.4F), colours.quiet};
  plate.lines = {{ui.fonts.strong, colours.ink, card.title},
                 {ui.fonts.body, colours.ink, card.body, card.stop, ui.px(4.0F)},
                 {ui.fonts.small, colours.quiet, card.source, false, ui.px(6.0F)}};
  std::erase_if(plate.lines, [](const PlateLine& line) { return line.words.empty(); });
  const ImVec2 outer = sizeOf(ui, plate);
  const float away = ui.px(14.0F);
  ImVec2 at{card.high.x + away, card.low.y};
  if (at.x + outer.x > size.x) at.x = card.low.x - away - outer.x;
  at.x = std::round(std::clamp(at.x, 0.0F, std::max(0.0F, size.x - outer.x)));
  at.y = std::round(std::clamp(at.y, 0.0F, std::max(0.0F, size.y - outer.y)));
  drawPlate(ui, *ImGui::GetForegroundDrawList(), at, plate);
}

}  // namespace sillwright::view
