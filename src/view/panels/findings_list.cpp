#include <algorithm>
#include <vector>

#include "view/panels/panels.h"
#include "view/values/readings.h"
#include "words/length.h"

namespace sillwright::view {

namespace {

/// "measured 4 mm, limit 3 mm"
std::string numbersOf(const check::Finding& finding, practice::Display display) {
  std::string words;
  if (finding.measured) words = "measured " + amount(*finding.measured, finding.unit, 2, display);
  if (finding.limit) {
    if (!words.empty()) words += ", ";
    words += "limit " + amount(*finding.limit, finding.unit, 2, display);
  }
  return words;
}

std::vector<PlateLine> linesOf(const Panel& panel, const check::Finding& finding) {
  std::vector<PlateLine> lines{{panel.fonts.body, panel.colours->ink, finding.say}};
  const std::string numbers = numbersOf(finding, panel.document.practice->display);
  if (!numbers.empty()) lines.push_back({panel.fonts.small, panel.colours->quiet, numbers});
  if (!finding.remedy.empty()) lines.push_back({panel.fonts.small, panel.colours->ink, "To do: " + finding.remedy});
  if (!finding.caution.empty())
    lines.push_back({panel.fonts.small, panel.colours->ink, "Take care: " + finding.caution});
  return lines;
}

std::string sourceOf(const check::Finding& finding) {
  if (!finding.source.empty()) return finding.source;
  return finding.severity == check::Severity::Note ? "" : "follows from the geometry";
}

/// One finding as an item; picked, it flies to its spot. `name` tells it from its neighbours.
void entry(const Panel& panel, const check::Finding& finding, const std::string& name) {
  const float width = ImGui::GetContentRegionAvail().x;
  const float radius = panel.fonts.body->FontSize * 0.32F;
  const float indent = radius * 2.4F + panel.px(8.0F);
  const float wrap = width - indent;
  const std::vector<PlateLine> lines = linesOf(panel, finding);
  float height = 0.0F;
  for (const PlateLine& line : lines) height += textSize(line.font, line.words, wrap).y + panel.px(2.0F);

  const Response response = item(panel, name, {width, height});
  if (response.pressed) panel.wishes.push_back(SeeSpot{finding.spot});
  if (response.hovered) findingCard(panel, response, finding);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawMark(list, {response.low.x + radius * 1.2F, response.low.y + panel.fonts.body->FontSize * 0.55F}, radius,
           finding.severity, *panel.colours);
  float y = response.low.y;
  for (const PlateLine& line : lines) {
    drawText(list, line.font, {response.low.x + indent, y}, line.colour, line.words, wrap);
    y += textSize(line.font, line.words, wrap).y + panel.px(2.0F);
  }
  room(panel, 3.0F);
}

}  // namespace

void findingCard(const Panel& panel, const Response& beside, const check::Finding& finding) {
  std::string body = numbersOf(finding, panel.document.practice->display);
  if (!finding.remedy.empty()) body += (body.empty() ? "To do: " : "\nTo do: ") + finding.remedy;
  panel.cards.push_back({beside.low, beside.high, finding.about, body, sourceOf(finding)});
}

void findings(const Panel& panel, std::size_t opening) {
  const std::vector<check::Finding>& all = panel.document.findings.openings[opening];
  groupHeading(panel, "Findings");
  if (all.empty()) text(panel.fonts.body, panel.colours->quiet, "none");
  for (const check::Severity severity : {check::Severity::Stop, check::Severity::Attend, check::Severity::Note}) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (all[i].severity != severity) continue;
      entry(panel, all[i], "finding " + std::to_string(i) + " " + all[i].about);
    }
  }
}

// The sheet's group on what holds the unit: each screw with its load beside what it can take, wind, and weight.

namespace {

std::string newtons(double value) { return words::number(value, 0) + " N"; }

/// A bar of demand over capacity: its frame is the capacity, and what runs past the frame is too much.
void loadBar(const Ui& ui, double ratio) {
  constexpr double kMostShown = 1.5;
  const float height = ui.px(5.0F);
  const float whole = ImGui::GetContentRegionAvail().x / static_cast<float>(kMostShown);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImGui::Dummy({whole * static_cast<float>(kMostShown), height + ui.px(3.0F)});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float filled = whole * static_cast<float>(std::min(ratio, kMostShown));
  const Colour colour = ratio > 1.0 ? colourOf(check::Verdict::Attend) : ui.colours->quiet;
  list.AddRectFilled(at, {at.x + filled, at.y + height}, toU32(colour));
  list.AddRect(at, {at.x + whole, at.y + height}, toU32(ui.colours->ink));
}

std::string positionRule(const plan::Fixings& fixings) {
  std::string text;
  if (fixings.by_practice > 0) text = "by the rule set " + std::to_string(fixings.by_practice) + " a jamb";
  if (fixings.by_custom > 0) {
    text += (text.empty() ? "by common practice " : ", by common practice ") + std::to_string(fixings.by_custom);
    if (fixings.by_practice == 0) text += " a jamb";
  }
  return text.empty() ? "the rule set has no rule for their number" : text + ": the stricter holds";
}

RowNote noteOf(const plan::Fixings& fixings, const plan::Fixing& fixing, practice::Display display) {
  RowNote note;
  if (fixing.screw < 0) {
    note.title = "no screw at hand is long enough";
    note.body = words::length(fixings.length_wanted, display) + " is needed";
    return note;
  }
  note.title = fixings.screws[static_cast<std::size_t>(fixing.screw)].name + ", " + figure(fixing.embedment, display) +
               " into the stud";
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
  const practice::Display display = panel.document.practice->display;
  const std::string where = std::string("screw, ") + plan::toWord(fixing.side) + " at " + figure(fixing.at, display);
  std::string value = "none long enough";
  if (fixing.screw >= 0) {
    value = newtons(fixing.demand_n) + (fixing.capacity_n ? " of " + newtons(*fixing.capacity_n) : std::string());
    if (fixing.past_stud > 0.0) value += ", breaks out";
  }
  row(panel, where, value, noteOf(fixings, fixing, display));
  if (fixing.capacity_n && *fixing.capacity_n > 0.0 && fixing.wind_n > 0.0) {
    loadBar(panel, fixing.demand_n / *fixing.capacity_n);
  }
}

void screwRows(const Panel& panel, const plan::Fixings& fixings) {
  for (std::size_t i = 0; i < fixings.screws.size(); ++i) {
    const auto count = std::count_if(fixings.points.begin(), fixings.points.end(), [&](const plan::Fixing& fixing) {
      return fixing.screw == static_cast<std::int32_t>(i);
    });
    row(panel, "screws", std::to_string(count) + " of " + fixings.screws[i].name);
  }
}

void windRow(const Panel& panel, const plan::WindLoad& wind) {
  if (!wind.ultimate_kpa) {
    row(panel, "wind", "not known");
    return;
  }
  RowNote note{"ultimate, on the unit", wind.how, wind.source != nullptr ? practice::cite(*wind.source) : ""};
  row(panel, "wind", words::number(*wind.ultimate_kpa, 2) + " kPa", note);
}

void massRow(const Panel& panel, const plan::UnitMass& mass) {
  std::string who;
  if (mass.people) who = ", " + plan::liftedBy(mass);
  RowNote note;
  note.title = mass.stated ? "as the job states" : "calculated from sizes";
  note.body = "glass " + words::number(mass.glass_kg, 1) + " kg, aluminium " + words::number(mass.frame_kg, 1) +
              " kg, " + panel.document.practice->words.reveal + " " + words::number(mass.reveal_kg, 1) + " kg";
  const practice::Rule& lifting = panel.document.practice->safety.lifting.one_person;
  if (lifting) note.source = practice::cite(*lifting);
  row(panel, "weight", words::number(mass.total_kg, 0) + " kg" + who, note);
}

}  // namespace

void fixing(const Panel& panel, std::size_t index) {
  const plan::OpeningPlan& planned = panel.document.plan.openings[index];
  groupHeading(panel, "Fixing");
  text(panel.fonts.small, panel.colours->quiet, positionRule(planned.fixings));
  windRow(panel, planned.wind);
  screwRows(panel, planned.fixings);
  for (const plan::Fixing& each : planned.fixings.points) fixingRow(panel, planned.fixings, each);
  massRow(panel, planned.mass);
}

}  // namespace sillwright::view
