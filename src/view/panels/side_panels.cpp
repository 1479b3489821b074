// Panels that are opened beside the drawing: layers, history, the cutting plane.

#include <algorithm>
#include <array>
#include <cmath>

#include "view/panels/panels.h"
#include "view/values/readings.h"
#include "words/text.h"

namespace sillwright::view {

namespace {

void layerRow(const Panel& panel, scene::Layer layer) {
  const bool hidden = (panel.shown.look.hidden_layers >> static_cast<unsigned>(layer) & 1U) != 0;
  const std::string word = wordFor(layer, panel.document.practice->words);
  const std::string key(1, keyFor(layer));
  const Response row = markedRow(panel, "layer " + word, tickBox(panel, !hidden), word, false, hidden, key);
  if (row.pressed) panel.wishes.push_back(ToggleLayer{layer});
}

/// A step of the history with a dot, which is open where it is undone.
void stepRow(const Panel& panel, std::size_t place, const std::string& words) {
  const bool here = panel.history.place() == place;
  const bool undone = place > panel.history.place();
  const RowMark dot = [&](ImDrawList& list, ImVec2 at, float radius) {
    if (undone) return list.AddCircle(at, radius * 0.6F, toU32(panel.colours->quiet), 12, panel.px(1.2F));
    list.AddCircleFilled(at, radius * 0.6F, toU32(panel.colours->ink), 12);
  };
  const Response row = markedRow(panel, "done " + std::to_string(place) + " " + words, dot, words, here, undone);
  if (row.pressed && !here) panel.wishes.push_back(GoInHistory{place});
}

/// Of the word that was offered last: a card that explains it, to the left over the drawing; what is to its right is
/// kept clear.
void explain(const Panel& panel, const char* title, const char* body) {
  if (!ImGui::IsItemHovered() && panel.focus->at != panel.focus->now.back().id) return;  // by pointer or keys
  const ImVec2 low = ImGui::GetItemRectMin();
  panel.cards.push_back({low, {ImGui::GetIO().DisplaySize.x, low.y}, title, body});  // no room at its right
}

const char* whyOf(CutAxis axis, bool of_wall) {
  if (!of_wall) return "No wall is picked: the axes of the floor plan. Pick an opening or a wall to cut square to it.";
  static constexpr std::array<const char*, kCutAxes> kWhy{
      "An upright cut across the wall, from its left end as seen from outside: head and sill.",
      "An upright cut in the wall's plane, from the outside face of the studs inwards: packers all round.",
      "A level cut, from the underside of the bottom plate: the jambs."};
  return kWhy[static_cast<std::size_t>(axis)];
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
/// list, then the most used of it. Groups are parted by a wider room; a word that doesn't fit starts a line. Answers
/// the number of lines.
template <class Put>
int eachWord(const Ui& ui, float width, const Put& put) {
  float end = 0.0F;
  int line = 0;
  const auto place = [&](const Command& each, bool heading) {
    const float needed = wordItemSize(ui, each.word, each.key, heading).x;
    float start = end == 0.0F ? 0.0F : end + ui.px(heading ? 24.0F : 12.0F);
    if (start > 0.0F && start + needed > width - ui.px(28.0F)) {
      ++line;
      start = 0.0F;
    }
    end = start + needed;
    put(each, start, line);
  };
  for (std::size_t group = 0; group < kCommandGroups.size(); ++group) {
    place({"", kCommandGroups[group], OpenList{.group = group}, group, true}, true);
    for (const Command& each : commands()) {
      if (each.group == group && each.common) place(each, false);
    }
  }
  return line + 1;
}

/// Maps a wall's x and z to the small elevation's pixels.
struct Elevation {
  ImVec2 origin;  ///< Of x = 0, z = 0.
  float scale;    ///< Pixels a millimetre.

  [[nodiscard]] ImVec2 at(double x, double z) const {
    return {origin.x + static_cast<float>(x) * scale, origin.y - static_cast<float>(z) * scale};
  }
};

double highest(const job::Wall& wall) { return std::ranges::max(wall.top, {}, &job::TopPoint::z).z; }

/// The mark of an opening's verdict.
RowMark markOf(const Panel& panel, std::int32_t opening) {
  return [&panel, index = static_cast<std::size_t>(opening)](ImDrawList& list, ImVec2 centre, float radius) {
    const check::Findings& all = panel.document.findings;
    drawMark(list, centre, radius, all.verdicts[index], *panel.colours, all.bases[index]);
  };
}

/// The wall's face: under each stretch of the plate a quadrilateral, then its outline.
void drawWall(ImDrawList& list, const job::Wall& wall, const Elevation& elevation, const Palette& colours) {
  const ImU32 fill = toU32(colours.timber, 0.45F);
  for (std::size_t i = 0; i + 1 < wall.top.size(); ++i) {
    const job::TopPoint& a = wall.top[i];
    const job::TopPoint& b = wall.top[i + 1];
    list.AddQuadFilled(elevation.at(a.x, 0.0), elevation.at(a.x, a.z), elevation.at(b.x, b.z), elevation.at(b.x, 0.0),
                       fill);
  }
  list.PathLineTo(elevation.at(0.0, 0.0));
  for (const job::TopPoint& point : wall.top) list.PathLineTo(elevation.at(point.x, point.z));
  list.PathLineTo(elevation.at(wall.length, 0.0));
  list.PathStroke(toU32(colours.ink), ImDrawFlags_Closed, 1.0F);
}

void drawOpening(const Panel& panel, const Elevation& elevation, std::int32_t index) {
  const job::Opening& opening = panel.document.job.openings[static_cast<std::size_t>(index)];
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImVec2 low = elevation.at(opening.left, opening.sill + opening.height);
  const ImVec2 high = elevation.at(opening.left + opening.width, opening.sill);
  const ImVec2 least{std::max(high.x - low.x, 6.0F), std::max(high.y - low.y, 6.0F)};  // pixels

  ImGui::SetCursorScreenPos(low);
  ImGui::PushID(index);
  if (ImGui::InvisibleButton("in elevation", least)) panel.wishes.push_back(PickOpening{index});  // Tab has the rows
  const bool hovered = ImGui::IsItemHovered();
  ImGui::PopID();
  const bool picked = panel.shown.opening == index;
  std::vector<ImVec2> outline;
  for (const plan::Point& point : plan::headLineOf(opening).under({0, 0, opening.width, opening.height})) {
    outline.push_back(elevation.at(opening.left + point.x, opening.sill + point.z));
  }
  const int corners = static_cast<int>(outline.size());
  list.AddConvexPolyFilled(outline.data(), corners,
                           toU32(hovered || picked ? panel.colours->picked : panel.colours->unit));
  list.AddPolyline(outline.data(), corners, toU32(panel.colours->ink), ImDrawFlags_Closed, picked ? 2.0F : 1.0F);
  const float radius = std::clamp(std::min(least.x, least.y) * 0.28F, 2.5F, panel.px(6.0F));
  markOf(panel, index)(list, {(low.x + high.x) * 0.5F, (low.y + high.y) * 0.5F}, radius);
}

/// "● N1   ready": the same openings once more, in words.
void openingRow(const Panel& panel, std::int32_t index) {
  const std::string& name = panel.document.job.openings[static_cast<std::size_t>(index)].name;
  const check::Verdict verdict = panel.document.findings.verdicts[static_cast<std::size_t>(index)];
  ImGui::PushID(index);
  const Response row = markedRow(panel, "opening " + name, markOf(panel, index), name, panel.shown.opening == index,
                                 false, check::wordsFor(verdict));
  ImGui::PopID();
  if (row.pressed) panel.wishes.push_back(PickOpening{index});
}

/// Room that one wall takes in the strip.
float heightOf(const Panel& panel, std::size_t wall, float scale) {
  const float spacing = ImGui::GetStyle().ItemSpacing.y;
  const auto rows = static_cast<float>(panel.document.plan.walls[wall].openings.size() + 1);
  const float drawing = static_cast<float>(highest(panel.document.job.walls[wall])) * scale;
  return rows * (panel.fonts.body->FontSize + spacing) + drawing + panel.px(7.0F) + 2.0F * spacing;  // as in wall()
}

void wall(const Panel& panel, std::size_t index, float width, float scale) {
  const job::Wall& wall = panel.document.job.walls[index];
  const auto number = static_cast<std::int32_t>(index);
  ImGui::PushID(number);
  const Response heading = item(panel, "wall " + wall.name, {width, panel.fonts.body->FontSize},
                                panel.shown.wall == number && panel.shown.opening < 0);
  ImGui::PopID();
  if (heading.pressed) panel.wishes.push_back(PickWall{number});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, panel.fonts.strong, heading.low, panel.colours->ink, wall.name);

  const ImVec2 top = ImGui::GetCursorScreenPos();
  const float height = static_cast<float>(highest(wall)) * scale;
  const Elevation elevation{{std::round(top.x) + 0.5F, std::round(top.y + height) + 0.5F}, scale};
  drawWall(list, wall, elevation, *panel.colours);
  const auto& openings = panel.document.plan.walls[index].openings;
  for (const std::int32_t opening : openings) drawOpening(panel, elevation, opening);
  ImGui::SetCursorScreenPos(top);  // the buttons of the openings have moved it
  ImGui::Dummy({width, height + panel.px(2.0F)});
  for (const std::int32_t opening : openings) openingRow(panel, opening);
  room(panel, 5.0F);
}

void jobHeading(const Panel& panel) {
  const job::Job& job = panel.document.job;
  const std::string title = job.title.empty() ? job.file : job.title;
  const float width = ImGui::GetContentRegionAvail().x;
  const Response heading = item(panel, "this job", textSize(panel.fonts.strong, title, width));
  if (heading.pressed) panel.wishes.push_back(Toggle{&Shown::job_open});
  drawText(*ImGui::GetWindowDrawList(), panel.fonts.strong, heading.low, panel.colours->ink, title, width);
  const check::Findings& all = panel.document.findings;
  markedText(panel, all.verdict, panel.fonts.body,
             std::string(check::wordsFor(all.verdict)) + ", " + check::wordsFor(all.basis), all.basis);
  saySmall(panel, words::count(static_cast<long>(job.walls.size()), "wall") + ", " +
                      words::count(static_cast<long>(job.openings.size()), "opening"));
  if (panel.typing.anyNotInFile(job)) panel.offer("not saved", "Ctrl S", Save{});
  rule(panel);
}

}  // namespace

void layersPanel(const Panel& panel, const Layout& layout) {
  const float width = std::round(panel.px(206.0F));
  const float row = panel.fonts.body->FontSize + ImGui::GetStyle().ItemSpacing.y;
  const float wanted = static_cast<float>(scene::kLayers + 2) * row + panel.px(30.0F);  // heading, "show all"
  const float height = std::min(wanted, layout.most_height);
  const float left = layout.strip_at.x + layout.strip_width + panel.px(10.0F);
  beginPanel(panel, "layers", {left, layout.foot_at.y - panel.px(10.0F) - height}, {width, height});
  text(panel.fonts.strong, panel.colours->ink, "From outside inwards");
  for (std::size_t i = 0; i < scene::kLayers; ++i) layerRow(panel, static_cast<scene::Layer>(i));
  panel.offer("show all", "", ShowAllLayers{});
  ImGui::End();
}

void historyPanel(const Panel& panel, const Layout& layout) {
  const float width = std::round(panel.px(290.0F));
  const float left = layout.strip_at.x + layout.strip_width + panel.px(10.0F);
  beginFittedPanel(panel, "history", {left, layout.strip_at.y}, width, layout.most_height);
  text(panel.fonts.strong, panel.colours->ink, "Edits since the file was loaded");
  panel.offer("undo", "Ctrl Z", TakeBack{});
  panel.offerBeside("do again", "Ctrl Y", DoAgain{}, 16.0F);
  rule(panel);
  stepRow(panel, 0, "as the file has it");
  for (std::size_t i = 0; i < panel.history.size(); ++i) stepRow(panel, i + 1, panel.history.name(i));
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
    panel.offer(word, i == 0 ? "K" : "", CutWish{CutAct::Along, axis}, cutting.axis == axis);
    explain(panel, wordsFor(axis, of_wall), whyOf(axis, of_wall));
  }
  rule(panel);
  panel.offer("at " + figure(cutting.at, panel.display), "", CutWish{CutAct::Hold});
  explain(
      panel, "Where it cuts",
      "Drag its handle in the drawing: whole millimetres, with Shift tenths. Or pick this and type a figure, or nudge "
      "with the arrows; Enter takes it, Escape puts it back.");
  panel.offer("other side", "Shift K", CutWish{CutAct::Turn});
  explain(panel, "The other side", "Shows the other half.");
  panel.offer("no cut", "Escape", CutWish{CutAct::Off});
  ImGui::End();
}

void footLine(const Panel& panel, const Layout& layout) {
  beginPanel(panel, "foot", layout.foot_at, layout.foot_size, false);
  const float step = panel.fonts.body->FontSize + panel.px(9.0F);
  const ImVec2 origin{layout.foot_at.x + panel.px(14.0F), layout.foot_at.y + panel.px(9.0F)};
  eachWord(panel, layout.foot_size.x, [&](const Command& each, float x, int line) {
    ImGui::SetCursorScreenPos({origin.x + x, origin.y + static_cast<float>(line) * step});
    const bool group = std::holds_alternative<OpenList>(each.wish);
    if (!wordItem(panel, each.word, each.key, isOn(each.wish, panel.shown), group)) return;
    const glm::vec2 above{origin.x + x, layout.foot_at.y - panel.px(4.0F)};  // a list opens upwards from there
    panel.wishes.push_back(group ? Wish{OpenList{.at = above, .group = each.group}} : each.wish);
  });
  ImGui::End();
}

Layout layOut(const Ui& ui, ImVec2 size, bool with_sheet, const document::Lesson& lesson, bool folded) {
  const ImVec2 least = {ui.px(780.0F), ui.px(520.0F)};  // in less, a lesson would leave the drawing too little
  const bool with_cards = !lesson.exercise || !lesson.exercise->order.empty();
  const float margin = ui.px(12.0F);
  Layout layout;
  layout.scale = ui.scale;
  // From below: the foot, as high as its words need; over it a lesson's cards; strip and sheet have what is left.
  const float foot_width = size.x - 2.0F * margin;
  const float line = ui.fonts.body->FontSize + ui.px(9.0F);
  const int foot_lines = eachWord(ui, foot_width, [](const Command&, float, int) {});
  const float foot_height = static_cast<float>(foot_lines) * line + ui.px(9.0F);
  layout.foot_at = {margin, std::round(size.y - margin - foot_height)};
  layout.foot_size = {foot_width, foot_height};

  layout.strip_at = {margin, margin};
  layout.folded = folded;
  const bool no_strip = folded || (lesson.on() && size.x < least.x);
  layout.strip_width = no_strip ? 0.0F : std::round(std::min(ui.px(206.0F), size.x * 0.25F));
  layout.sheet_width = folded ? 0.0F : std::round(std::min(ui.px(356.0F), size.x * 0.37F));  // three fields wide
  layout.sheet_at = {size.x - margin - layout.sheet_width, margin};
  layout.with_titles = lesson.exercise || size.y >= least.y;  // who orders cards must read them
  layout.lesson_size = {foot_width, lessonHeight(ui, foot_width, with_cards, layout.with_titles)};
  layout.lesson_at = {margin, std::round(layout.foot_at.y - ui.px(6.0F) - layout.lesson_size.y)};
  const float bottom = lesson.on() ? layout.lesson_at.y : layout.foot_at.y;
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
  if (at.x + outer.x > size.x) at.x = card.low.x - away - outer.x;  // to the left, where the right has no room
  at.x = std::round(std::clamp(at.x, 0.0F, std::max(0.0F, size.x - outer.x)));
  at.y = std::round(std::clamp(at.y, 0.0F, std::max(0.0F, size.y - outer.y)));
  drawPlate(ui, *ImGui::GetForegroundDrawList(), at, plate);  // over all panels
}

void wallStrip(const Panel& panel, const Layout& layout) {
  beginFittedPanel(panel, "walls", layout.strip_at, layout.strip_width, layout.most_height);
  jobHeading(panel);
  const double longest = std::ranges::max(panel.document.job.walls, {}, &job::Wall::length).length;
  // One scale for all walls, and room for the scroll bar whether or not it shows: drawings don't jump.
  const float width =
      layout.strip_width - 2.0F * ImGui::GetStyle().WindowPadding.x - ImGui::GetStyle().ScrollbarSize * 0.5F;
  const float scale = (width - 2.0F) / static_cast<float>(longest);  // a pixel at each side for the outline
  const float see_from = -layout.most_height;  // a panel's height above and below is kept, so that Tab can go on
  const float see_to = 2.0F * layout.most_height;
  for (std::size_t i = 0; i < panel.document.job.walls.size(); ++i) {
    const float y = ImGui::GetCursorScreenPos().y;
    const float height = heightOf(panel, i, scale);
    if (y + height < see_from || y > see_to) {
      ImGui::Dummy({width, height - ImGui::GetStyle().ItemSpacing.y});
    } else {
      wall(panel, i, width, scale);
    }
  }
  ImGui::End();
}

}  // namespace sillwright::view
