#include <algorithm>
#include <cmath>
#include <span>

#include "base/words.h"
#include "view/panels/panels.h"
#include "view/values/readings.h"
#include "words/text.h"

namespace sillwright::view {

namespace {

/// The largest face in which words fit into a box; the smallest where none does.
ImFont* fitting(const Ui& ui, const std::string& words, ImVec2 box) {
  for (ImFont* font : {ui.fonts.heading, ui.fonts.strong, ui.fonts.body}) {
    if (textSize(font, words, box.x).y <= box.y) return font;
  }
  return ui.fonts.small;
}

/// "measured 4 mm, limit 3 mm"
std::string numbersOf(const check::Finding& finding, practice::Display display) {
  std::vector<std::string> said;
  const auto amount = [&](double value) { return withMinus(words::amount(value, finding.unit, 2, display)); };
  if (finding.measured) said.push_back("measured " + amount(*finding.measured));
  if (finding.limit) said.push_back("limit " + amount(*finding.limit));
  return base::joined(said);
}

/// A finding's figures and source, beside what names it.
void findingCard(const Panel& panel, const Response& beside, const check::Finding& finding) {
  std::string body = numbersOf(finding, panel.display);
  if (!finding.remedy.empty()) body += (body.empty() ? "To do: " : "\nTo do: ") + finding.remedy;
  const bool geometry = finding.source.empty() && finding.severity != check::Severity::Note;  // it then has no rule
  const std::string source = geometry ? "follows from the geometry" : finding.source;
  panel.cards.push_back({beside.low, beside.high, finding.about, body, source});
}

/// What stands against the opening, one thing at a time and large, and the way to the next. It takes the same room
/// whatever it says: the fields below never move under the pointer.
void headline(const Panel& panel, std::size_t index) {
  const std::vector<check::Finding>& all = panel.document.findings.openings[index];
  const auto troubles = troublesOf(all);
  const std::size_t at = troubles.empty() ? 0 : panel.shown.trouble % troubles.size();  // an edit may have left fewer
  const std::string sentence =
      sentenceFor(panel.document.findings.verdicts[index], panel.document.findings.bases[index], all);
  const ImVec2 box{ImGui::GetContentRegionAvail().x, panel.px(94.0F)};  // room for four lines in the largest letters
  const float line = panel.fonts.small->FontSize + panel.px(3.0F);
  const Response response = item(panel, "worst finding", {box.x, line + box.y});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  list.PushClipRect(response.low, response.high, true);  // what is too long even in small letters is cut off
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
    say(panel, std::to_string(at + 1) + " of " + std::to_string(troubles.size()));
    constexpr float kGap = 10.0F;  // all three fit the narrowest sheet
    panel.offerBeside("next", "Shift N", NextTrouble{1}, kGap);
    panel.offerBeside("previous", "Shift B", NextTrouble{-1}, kGap);
  }
  ImGui::SetCursorScreenPos({below.x, below.y + panel.fonts.body->FontSize + panel.px(7.0F)});  // kept free without it
}

void heading(const Panel& panel, std::size_t index) {
  const job::Opening& opening = panel.document.job.openings[index];
  const check::Verdict verdict = panel.document.findings.verdicts[index];
  title(panel, opening.name);
  sayQuietly(panel, words::unitName(opening.unit.kind, opening.unit.lights) + ", wall " +
                        panel.document.job.walls[opening.wall].name);
  room(panel, 2.0F);
  const check::Basis basis = panel.document.findings.bases[index];
  markedText(panel, verdict, panel.fonts.strong, std::string(check::wordsFor(verdict)) + ", " + check::wordsFor(basis),
             basis);
  headline(panel, index);
}

/// "2.4 to spare, ± 0.8"
void spareRow(const Panel& panel, const plan::OpeningPlan& planned) {
  const plan::Stand& stand = planned.stand;
  const auto shown = [&](double mm) { return figure(mm, panel.display); };
  const RowNote note{words::number(stand.chance * 100.0, 1) + " % likely to fit",
                     "counted from the least gaps: left " + shown(stand.least.left) + ", right " +
                         shown(stand.least.right) + ", sill " + shown(stand.least.sill) + ", head " +
                         shown(stand.least.head)};
  const std::string sigma = stand.spare_sigma > 0.0 ? " ± " + shown(stand.spare_sigma) : "";  // planned sizes have none
  row(panel, stand.spare >= 0.0 ? "clearance to spare" : "does not fit by", shown(std::abs(stand.spare)) + sigma, note);
}

void topRows(const Panel& panel, std::size_t index) {
  const job::Wall& wall = panel.document.job.walls[index];
  if (isLevel(wall)) return dimensionRow(panel, "top of the plate", {DimensionKind::WallTop, index});
  for (std::size_t i = 0; i < wall.top.size(); ++i) {
    const std::string corner = "top corner " + std::to_string(i + 1);
    const bool end = i == 0 || i + 1 == wall.top.size();  // its place along the wall is the wall's end
    if (!end) dimensionRow(panel, corner + ", from the left", {DimensionKind::TopX, index, i});
    dimensionRow(panel, corner + ", height", {DimensionKind::TopZ, index, i});
  }
}

std::vector<PlateLine> linesOf(const Panel& panel, const check::Finding& finding) {  // its words, figures, remedy
  std::vector<PlateLine> lines{{panel.fonts.body, panel.colours->ink, finding.say}};
  const auto add = [&](Colour colour, const char* label, const std::string& words) {
    if (!words.empty()) lines.push_back({panel.fonts.small, colour, label + words, false, panel.px(2.0F)});
  };
  add(panel.colours->quiet, "", numbersOf(finding, panel.display));
  add(panel.colours->ink, "To do: ", finding.remedy);
  add(panel.colours->ink, "Take care: ", finding.caution);
  return lines;
}

/// One finding as an item; picked, it flies to its spot. `name` tells it from its neighbours.
void entry(const Panel& panel, const check::Finding& finding, const std::string& name) {
  const float width = ImGui::GetContentRegionAvail().x;
  const float radius = panel.fonts.body->FontSize * 0.32F;
  const float indent = radius * 2.4F + panel.px(8.0F);
  const Plate plate{.wrap = width - indent, .lines = linesOf(panel, finding)};
  const Response response = item(panel, name, {width, sizeOf(panel, plate).y});
  if (response.pressed) panel.wishes.push_back(SeeSpot{finding.spot});
  if (response.hovered) findingCard(panel, response, finding);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawMark(list, {response.low.x + radius * 1.2F, response.low.y + panel.fonts.body->FontSize * 0.55F}, radius,
           finding.severity, *panel.colours);
  drawLines(panel, list, {response.low.x + indent, response.low.y}, plate);
  room(panel, 3.0F);
}

std::string newtons(double value) { return words::number(value, 0) + " N"; }

std::string positionRule(const plan::Fixings& fixings) {  // who asks for how many a jamb
  std::string text;
  if (fixings.by_practice > 0) text = "by the rule set " + std::to_string(fixings.by_practice) + " a jamb";
  if (fixings.by_custom > 0) {
    text += (text.empty() ? "by common practice " : ", by common practice ") + std::to_string(fixings.by_custom);
    if (fixings.by_practice == 0) text += " a jamb";  // said once
  }
  return text.empty() ? "the rule set has no rule for their number" : text + ": the stricter holds";
}

RowNote noteOfScrew(const plan::Fixings& fixings, const plan::Fixing& fixing, practice::Display display) {
  if (fixing.screw < 0)
    return {"no screw at hand is long enough", words::length(fixings.length_wanted, display) + " is needed"};
  RowNote note{fixings.screws[static_cast<std::size_t>(fixing.screw)].name + ", " + figure(fixing.embedment, display) +
               " into the stud"};
  if (!fixing.withdrawal) note.body = "across a gap of " + figure(fixing.gap, display) + "; ";
  note.body += fixing.past_stud > 0.0 ? "its point comes out " + figure(fixing.past_stud, display) + " behind"
                                      : "its point stays " + figure(-fixing.past_stud, display) + " inside";
  if (fixing.capacity_n) {
    note.body += fixing.withdrawal ? std::string("; pulled straight out")
                                   : std::string("; gives way where ") + plan::inWords(fixing.mode) + " (mode " +
                                         plan::toWord(fixing.mode) + ")";
  }
  note.source = "indicative: the unit maker's instructions come first";
  return note;
}

void fixingRow(const Panel& panel, const plan::Fixings& fixings, const plan::Fixing& fixing) {
  const std::string where =
      std::string("screw, ") + plan::toWord(fixing.side) + " at " + figure(fixing.at, panel.display);
  std::string value = "none long enough";
  if (fixing.screw >= 0) {
    value = newtons(fixing.demand_n) + (fixing.capacity_n ? " of " + newtons(*fixing.capacity_n) : std::string());
    if (fixing.past_stud > 0.0) value += ", breaks out";
  }
  row(panel, where, value, noteOfScrew(fixings, fixing, panel.display));
}

void windRow(const Panel& panel, const plan::WindLoad& wind) {
  if (!wind.ultimate_kpa) return row(panel, "wind", "not known");  // neither the job nor the rule set tells it
  RowNote note{"ultimate, on the unit", wind.how, wind.source != nullptr ? practice::cite(*wind.source) : ""};
  row(panel, "wind", words::number(*wind.ultimate_kpa, 2) + " kPa", note);
}

void massRow(const Panel& panel, const plan::UnitMass& mass) {
  const std::string who = mass.people ? ", " + plan::liftedBy(mass) : std::string{};
  RowNote note{mass.stated ? "as the job states" : "calculated from sizes"};
  const auto weight = [&](double kg, int decimals) { return words::mass(kg, panel.display, decimals); };
  note.body = "glass " + weight(mass.glass_kg, 1) + ", aluminium " + weight(mass.frame_kg, 1) + ", " +
              panel.document.practice->words.reveal + " " + weight(mass.reveal_kg, 1);
  const practice::Rule& lifting = panel.document.practice->safety.lifting.one_person;
  if (lifting) note.source = practice::cite(*lifting);
  row(panel, "weight", weight(mass.total_kg, 0) + who, note);
}

void findings(const Panel& panel, std::size_t opening) {
  const std::vector<check::Finding>& all = panel.document.findings.openings[opening];
  groupHeading(panel, "Findings");
  if (all.empty()) sayQuietly(panel, "none");
  for (const check::Severity severity : {check::Severity::Stop, check::Severity::Attend, check::Severity::Note}) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (all[i].severity != severity) continue;
      entry(panel, all[i], "finding " + std::to_string(i) + " " + all[i].about);  // two may be about the same
    }
  }
}

/// What holds the unit: each screw with its load beside what it can take, wind, and weight.
void fixing(const Panel& panel, std::size_t index) {
  const plan::OpeningPlan& planned = panel.document.plan.openings[index];
  const plan::Fixings& fixings = planned.fixings;
  groupHeading(panel, "Fixing");
  saySmall(panel, positionRule(fixings));
  windRow(panel, planned.wind);
  for (std::size_t i = 0; i < fixings.screws.size(); ++i) {
    const auto count = std::ranges::count(fixings.points, static_cast<std::int32_t>(i), &plan::Fixing::screw);
    row(panel, "screws", std::to_string(count) + " of " + fixings.screws[i].name);
  }
  for (const plan::Fixing& each : fixings.points) fixingRow(panel, fixings, each);
  massRow(panel, planned.mass);
}

void setOut(const Panel& panel, std::size_t index) {
  const job::Opening& opening = panel.document.job.openings[index];
  const plan::OpeningPlan& planned = panel.document.plan.openings[index];
  groupHeading(panel, "Set-out");
  keyRows(panel, job::TableKind::Opening, index, {"name"});
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
  if (!opening.head) dimensionRow(panel, "unit height", {DimensionKind::UnitHeight, index});  // a sloping head tells it
  keyRows(panel, job::TableKind::Unit, index, {"kind", "hand"});
  keyRows(panel, job::TableKind::Opening, index, {"room", "outside", "tag", "lintel"});
  spareRow(panel, planned);
  groupHeading(panel, "Unit");
  const bool open = panel.shown.unit_open;
  panel.offer(open ? "less of it" : "frame, glass, lights and the rest of it", "", Toggle{&Shown::unit_open});
  if (panel.shown.unit_open) keyRows(panel, job::TableKind::Unit, index, {"kind", "width", "height", "hand"}, true);
  panel.offer("copy", "", EditWish{.act = EditAct::CopyOpening, .of = index});
  panel.offerBeside("remove", "", EditWish{.act = EditAct::RemoveOpening, .of = index});
}

void packing(const Panel& panel, std::size_t index) {
  const plan::Packing& packed = panel.document.plan.openings[index].packing;
  const practice::Practice& practice = *panel.document.practice;
  groupHeading(panel, "Packing");
  saySmall(panel, std::string("the ") + plan::toWord(packed.first_jamb) + " jamb is packed plumb first");
  if (packed.points.empty()) sayQuietly(panel, "none");
  for (const plan::PackingPoint& point : packed.points) {
    const std::span pieces(point.stack.piece.data(), static_cast<std::size_t>(point.stack.pieces));
    std::string stack =
        base::joined(pieces, " + ", [&](auto mm) { return figure(static_cast<double>(mm), practice.display); });
    if (stack.empty()) stack = "none";  // a gap too small for the thinnest piece
    if (point.backing > 0.0) stack += ", backing " + figure(point.backing, practice.display);
    const std::string where = std::string(plan::toWord(point.side)) + " at " + figure(point.at, practice.display);
    const RowNote left_over = noteOf(practice.packing.most_left_over, practice.display);
    row(panel, where, stack,
        RowNote{"gap " + figure(point.gap, practice.display),
                "the stack leaves " + figure(point.left_over, practice.display) + " open; " + left_over.title,
                left_over.source});
  }
}

}  // namespace

void openingSheet(const Panel& panel, const Layout& layout) {
  if (panel.shown.opening < 0) return;
  const auto index = static_cast<std::size_t>(panel.shown.opening);
  beginFittedPanel(panel, "opening", layout.sheet_at, layout.sheet_width, layout.most_height);
  // Each opening's sheet starts at its top; while it is the same one's, its drawing keeps its height.
  ImGuiStorage& kept = *ImGui::GetStateStorage();  // the window's own: panels keep nothing else
  const ImGuiID key = ImGui::GetID("opening shown");
  float& slope = *kept.GetFloatRef(ImGui::GetID("height of the drawing"));
  if (kept.GetInt(key, -1) != panel.shown.opening) {
    ImGui::SetScrollY(0.0F);
    const job::Unit& unit = panel.document.job.openings[index].unit;
    slope = static_cast<float>(unit.height / unit.width);  // while it is dragged, the fields below don't move
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
  title(panel, wall.name);
  sayQuietly(panel, "wall, seen from outside");
  groupHeading(panel, "Set-out");
  keyRows(panel, job::TableKind::Wall, index, {"name"});
  dimensionRow(panel, "length", {DimensionKind::WallLength, index});
  topRows(panel, index);
  keyRows(panel, job::TableKind::Wall, index, {"name", "length", "top"}, true);
  groupHeading(panel, "Change");
  panel.offer("add an opening", "", EditWish{.act = EditAct::AddOpening, .of = index});
  panel.offer("add a wall after it", "", EditWish{.act = EditAct::AddWall, .of = index});
  if (panel.document.job.walls.size() > 1)
    panel.offer("remove it with its openings", "", EditWish{.act = EditAct::RemoveWall, .of = index});
  ImGui::End();
}

}  // namespace sillwright::view
