#include "view/panels/panels.h"
#include "view/values/readings.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

/// The largest face in which words fit into a box; the smallest where none does.
ImFont* fitting(const Ui& ui, const std::string& words, ImVec2 box) {
  for (ImFont* font : {ui.fonts.heading, ui.fonts.strong, ui.fonts.body}) {
    if (textSize(font, words, box.x).y <= box.y) return font;
  }
  return ui.fonts.small;
}

/// What stands against the opening, one thing at a time and large, and the way to the next. It takes the same room
/// whatever it says: the fields below never move under the pointer.
void headline(const Panel& panel, std::size_t index) {
  const std::vector<check::Finding>& all = panel.document.findings.openings[index];
  const auto troubles = troublesOf(all);
  const std::size_t at = troubles.empty() ? 0 : panel.shown.trouble % troubles.size();
  const std::string sentence =
      sentenceFor(panel.document.findings.verdicts[index], panel.document.findings.bases[index], all);
  const ImVec2 box{ImGui::GetContentRegionAvail().x, panel.px(94.0F)};
  const float line = panel.fonts.small->FontSize + panel.px(3.0F);
  const Response response = item(panel, "worst finding", {box.x, line + box.y});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  list.PushClipRect(response.low, response.high, true);
  drawText(list, panel.fonts.small, response.low, panel.colours->quiet, sentence);
  if (!troubles.empty()) {
    const check::Finding& one = *troubles[at];
    drawText(list, fitting(panel, one.say, box), {response.low.x, response.low.y + line}, panel.colours->ink, one.say,
             box.x);
    if (response.pressed) panel.wishes.push_back(SeeSpot{one.spot});
    if (response.hovered) findingCard(panel, response, one);
  }
  list.PopClipRect();
  const ImVec2 below = ImGui::GetCursorScreenPos();
  if (troubles.size() > 1) {
    text(panel.fonts.body, panel.colours->ink, std::to_string(at + 1) + " of " + std::to_string(troubles.size()));
    for (const auto& [word, key, by] : {std::tuple("next", "Shift N", 1), std::tuple("previous", "Shift B", -1)}) {
      ImGui::SameLine(0.0F, panel.px(16.0F));
      if (wordItem(panel, word, key)) panel.wishes.push_back(NextTrouble{by});
    }
  }
  ImGui::SetCursorScreenPos({below.x, below.y + panel.fonts.body->FontSize + panel.px(7.0F)});
}

void heading(const Panel& panel, std::size_t index) {
  const job::Opening& opening = panel.document.job.openings[index];
  const check::Verdict verdict = panel.document.findings.verdicts[index];
  text(panel.fonts.heading, panel.colours->ink, opening.name);
  const std::string what =
      words::unitName(opening.unit.kind, opening.unit.lights) + ", wall " + panel.document.job.walls[opening.wall].name;
  text(panel.fonts.body, panel.colours->quiet, what);
  room(panel, 2.0F);
  const check::Basis basis = panel.document.findings.bases[index];
  markedText(panel, verdict, panel.fonts.strong, std::string(check::wordsFor(verdict)) + ", " + check::wordsFor(basis),
             basis);
  headline(panel, index);
}

/// "2.4 to spare, ± 0.8"
void spareRow(const Panel& panel, const plan::OpeningPlan& planned) {
  const practice::Display display = panel.document.practice->display;
  const plan::Stand& stand = planned.stand;
  RowNote note;
  note.title = words::number(stand.chance * 100.0, 1) + " % likely to fit";
  note.body = "counted from the least gaps: left " + figure(stand.least.left, display) + ", right " +
              figure(stand.least.right, display) + ", sill " + figure(stand.least.sill, display) + ", head " +
              figure(stand.least.head, display);
  const std::string sigma = stand.spare_sigma > 0.0 ? " ± " + figure(stand.spare_sigma, display) : "";
  if (stand.spare >= 0.0) {
    row(panel, "clearance to spare", figure(stand.spare, display) + sigma, note);
  } else {
    row(panel, "does not fit by", figure(-stand.spare, display) + sigma, note);
  }
}

void topRows(const Panel& panel, std::size_t index) {
  const job::Wall& wall = panel.document.job.walls[index];
  if (isLevel(wall)) {
    dimensionRow(panel, "top of the plate", {DimensionKind::WallTop, index});
    return;
  }
  for (std::size_t i = 0; i < wall.top.size(); ++i) {
    const std::string corner = "top corner " + std::to_string(i + 1);
    const bool end = i == 0 || i + 1 == wall.top.size();
    if (!end) dimensionRow(panel, corner + ", from the left", {DimensionKind::TopX, index, i});
    dimensionRow(panel, corner + ", height", {DimensionKind::TopZ, index, i});
  }
}

}  // namespace

void setOut(const Panel& panel, std::size_t index) {
  const job::Opening& opening = panel.document.job.openings[index];
  const plan::OpeningPlan& planned = panel.document.plan.openings[index];
  groupHeading(panel, "Set-out");
  typedRow(panel, panel.typing, "name", opening.name, NameOf{false, index});
  dimensionRow(panel, "left edge from the wall's left end", {DimensionKind::Left, index});
  dimensionRow(panel, "sill above the plate's underside", {DimensionKind::Sill, index});
  dimensionRow(panel, "framed width", {DimensionKind::Width, index});
  if (opening.head) {
    dimensionRow(panel, "head above the sill, left", {DimensionKind::HeadLeft, index});
    dimensionRow(panel, "head above the sill, right", {DimensionKind::HeadRight, index});
    if (opening.head->peaked()) dimensionRow(panel, "peak above the sill", {DimensionKind::HeadPeakZ, index});
  } else {
    dimensionRow(panel, "framed height", {DimensionKind::Height, index});
  }
  dimensionRow(panel, "unit width", {DimensionKind::UnitWidth, index});
  if (!opening.head) dimensionRow(panel, "unit height", {DimensionKind::UnitHeight, index});
  keyRows(panel, job::TableKind::Unit, index, {"kind", "hand"});
  keyRows(panel, job::TableKind::Opening, index, {"room", "outside", "tag", "lintel"});
  spareRow(panel, planned);
  groupHeading(panel, "Unit");
  if (wordItem(panel, panel.shown.unit_open ? "less of it" : "frame, glass, lights and the rest of it", ""))
    panel.wishes.push_back(Toggle{&Shown::unit_open});
  if (panel.shown.unit_open) keyRows(panel, job::TableKind::Unit, index, {"kind", "width", "height", "hand"}, true);
  const auto press = [&](const char* word, EditAct act) {
    if (wordItem(panel, word, "")) panel.wishes.push_back(EditWish{.act = act, .of = index});
  };
  press("copy", EditAct::CopyOpening);
  ImGui::SameLine(0.0F, panel.px(16.0F));
  press("remove", EditAct::RemoveOpening);
}

void packing(const Panel& panel, std::size_t index) {
  const plan::Packing& packed = panel.document.plan.openings[index].packing;
  const practice::Practice& practice = *panel.document.practice;
  groupHeading(panel, "Packing");
  const std::string first = std::string("the ") + plan::toWord(packed.first_jamb) + " jamb is packed plumb first";
  text(panel.fonts.small, panel.colours->quiet, first);
  if (packed.points.empty()) text(panel.fonts.body, panel.colours->quiet, "none");
  for (const plan::PackingPoint& point : packed.points) {
    std::string stack;
    for (int i = 0; i < point.stack.pieces; ++i) {
      if (i > 0) stack += " + ";
      stack += figure(static_cast<double>(point.stack.piece[static_cast<std::size_t>(i)]), practice.display);
    }
    if (stack.empty()) stack = "none";
    if (point.backing > 0.0) stack += ", backing " + figure(point.backing, practice.display);
    const std::string where = std::string(plan::toWord(point.side)) + " at " + figure(point.at, practice.display);
    RowNote note;
    note.title = "gap " + figure(point.gap, practice.display);
    const RowNote left_over = noteOf(practice.packing.most_left_over, practice.display);
    note.body = "the stack leaves " + figure(point.left_over, practice.display) + " open; " + left_over.title;
    note.source = left_over.source;
    row(panel, where, stack, note);
  }
}

void openingSheet(const Panel& panel, const Layout& layout) {
  if (panel.shown.opening < 0) return;
  const auto index = static_cast<std::size_t>(panel.shown.opening);
  beginFittedPanel(panel, "opening", layout.sheet_at, layout.sheet_width, layout.most_height);
  // Each opening's sheet starts at its top; while it is the same one's, its drawing keeps its height.
  ImGuiStorage& kept = *ImGui::GetStateStorage();
  const ImGuiID key = ImGui::GetID("opening shown");
  float& slope = *kept.GetFloatRef(ImGui::GetID("height of the drawing"));
  if (kept.GetInt(key, -1) != panel.shown.opening) {
    ImGui::SetScrollY(0.0F);
    const job::Unit& unit = panel.document.job.openings[index].unit;
    slope = static_cast<float>(unit.height / unit.width);
  }
  kept.SetInt(key, panel.shown.opening);
  heading(panel, index);
  openingDrawing(panel, index, slope);
  deviationSlider(panel);
  readFields(panel, index);
  setOut(panel, index);
  asMeasured(panel, index);
  packing(panel, index);
  fixing(panel, index);
  findings(panel, index);
  lastEdit(panel);
  ImGui::End();
}

void wallSheet(const Panel& panel, const Layout& layout) {
  if (panel.shown.opening >= 0 || panel.shown.wall < 0) return;
  const auto index = static_cast<std::size_t>(panel.shown.wall);
  const job::Wall& wall = panel.document.job.walls[index];
  beginFittedPanel(panel, "wall", layout.sheet_at, layout.sheet_width, layout.most_height);
  text(panel.fonts.heading, panel.colours->ink, wall.name);
  text(panel.fonts.body, panel.colours->quiet, "wall, seen from outside");
  groupHeading(panel, "Set-out");
  typedRow(panel, panel.typing, "name", wall.name, NameOf{true, index});
  dimensionRow(panel, "length", {DimensionKind::WallLength, index});
  topRows(panel, index);
  keyRows(panel, job::TableKind::Wall, index, {"name", "length", "top"}, true);
  groupHeading(panel, "Change");
  if (wordItem(panel, "add an opening", "")) panel.wishes.push_back(EditWish{.act = EditAct::AddOpening, .of = index});
  if (wordItem(panel, "add a wall after it", ""))
    panel.wishes.push_back(EditWish{.act = EditAct::AddWall, .of = index});
  if (panel.document.job.walls.size() > 1 && wordItem(panel, "remove it with its openings", "")) {
    panel.wishes.push_back(EditWish{.act = EditAct::RemoveWall, .of = index});
  }
  ImGui::End();
}

}  // namespace sillwright::view
