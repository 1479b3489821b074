
#include "view/panels/fields.h"
#include "view/panels/sheet_parts.h"
#include "view/values/words.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

void heading(const Panel& panel, std::size_t index) {
  const Ui& ui = panel.ui;
  const job::Opening& opening = panel.document.job.openings[index];
  const check::Verdict verdict = panel.document.findings.verdicts[index];
  const std::vector<check::Finding>& all = panel.document.findings.openings[index];
  text(ui.fonts.heading, ui.colours->ink, opening.name);
  const std::string what =
      words::unitName(opening.unit.kind, opening.unit.lights) + ", wall " + panel.document.job.walls[opening.wall].name;
  text(ui.fonts.body, ui.colours->quiet, what);
  room(ui, 2.0F);
  const check::Basis basis = panel.document.findings.bases[index];
  markedText(ui, verdict, ui.fonts.strong, std::string(check::wordsFor(verdict)) + ", " + check::wordsFor(basis),
             basis);
  text(ui.fonts.body, ui.colours->ink, sentenceFor(verdict, basis, all));
  if (const check::Finding* worst = check::worstOf(all)) finding(panel, *worst, "worst finding", false);
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

/// What else can be changed about an opening, by one press each.
void changes(const Panel& panel, std::size_t index) {
  const Ui& ui = panel.ui;
  const job::Opening& opening = panel.document.job.openings[index];
  const auto press = [&](const std::string& word, EditAct act) {
    if (wordItem(ui, word, "")) panel.wishes.push_back(EditWish{.act = act, .of = index});
  };
  const auto beside = [&] { ImGui::SameLine(0.0F, ui.px(16.0F)); };
  const std::string reveal = panel.document.practice->words.reveal;
  press(std::string("kind: ") + words::nameOf(opening.unit.kind), EditAct::NextKind);
  press("room: " + std::string(opening.room ? job::kRoomWords[static_cast<std::size_t>(*opening.room)] : "not said"),
        EditAct::NextRoom);
  beside();
  press(opening.unit.reveal ? reveal + ": on" : reveal + ": none, bare frame", EditAct::TurnReveal);
  press("copy", EditAct::CopyOpening);
  beside();
  press("remove", EditAct::RemoveOpening);
  room(ui, 2.0F);
}

}  // namespace

void setOut(const Panel& panel, std::size_t index) {
  const job::Opening& opening = panel.document.job.openings[index];
  const plan::OpeningPlan& planned = panel.document.plan.openings[index];
  const practice::Display display = panel.document.practice->display;
  groupHeading(panel.ui, "Set-out");
  typedRow(panel, "name", opening.name, NameOf{false, index});
  dimensionRow(panel, "left edge from the wall's left end", {DimensionKind::Left, index});
  dimensionRow(panel, "sill above the plate's underside", {DimensionKind::Sill, index});
  dimensionRow(panel, "framed width", {DimensionKind::Width, index});
  dimensionRow(panel, "framed height", {DimensionKind::Height, index});
  dimensionRow(panel, "unit width", {DimensionKind::UnitWidth, index});
  dimensionRow(panel, "unit height", {DimensionKind::UnitHeight, index});
  changes(panel, index);
  const auto& assumed = planned.unit.assumed;
  row(panel, "frame, depth × face", figures(planned.unit.frame.depth, planned.unit.frame.face, display),
      assumedFrom(assumed, "unit.frame", display));
  if (planned.unit.reveal) {
    row(panel, panel.document.practice->words.reveal + ", thickness × depth",
        figures(planned.unit.reveal->thickness, planned.unit.reveal->depth, display));
  } else {
    row(panel, panel.document.practice->words.reveal, "none: bare frame");
  }
  row(panel, panel.document.practice->words.fin, figure(planned.unit.fin, display),
      assumedFrom(assumed, "unit.fin", display));
  if (planned.lintel) {
    const std::string plies = planned.lintel->plies > 1 ? std::to_string(planned.lintel->plies) + " / " : "";
    row(panel, panel.document.practice->words.lintel,
        plies + figures(planned.lintel->depth, planned.lintel->thickness, display),
        assumedFrom(planned.assumed, "lintel", display));
  }
  spareRow(panel, planned);
}

void packing(const Panel& panel, std::size_t index) {
  const plan::Packing& packed = panel.document.plan.openings[index].packing;
  const practice::Practice& practice = *panel.document.practice;
  groupHeading(panel.ui, "Packing");
  const std::string first = std::string("the ") + plan::toWord(packed.first_jamb) + " jamb is packed plumb first";
  text(panel.ui.fonts.small, panel.ui.colours->quiet, first);
  if (packed.points.empty()) text(panel.ui.fonts.body, panel.ui.colours->quiet, "none");
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
  beginFittedPanel(panel.ui, "opening", layout.sheet_at, layout.sheet_width, layout.most_height);
  // Each opening's sheet starts at its top.
  ImGuiStorage& kept = *ImGui::GetStateStorage();
  const ImGuiID key = ImGui::GetID("opening shown");
  if (kept.GetInt(key, -1) != panel.shown.opening) ImGui::SetScrollY(0.0F);
  kept.SetInt(key, panel.shown.opening);
  heading(panel, index);
  openingDrawing(panel, index);
  deviationSlider(panel);
  readFields(panel, index);
  setOut(panel, index);
  asMeasured(panel, index);
  packing(panel, index);
  fixing(panel, index);
  findings(panel, index);
  ImGui::End();
}

}  // namespace sillwright::view
