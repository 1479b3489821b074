#include <vector>

#include "view/panels/sheet_parts.h"
#include "view/values/words.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

struct Line {
  ImFont* font;
  Colour colour;
  std::string words;
};

std::string amount(double value, const std::string& unit, practice::Display display) {
  if (unit == "mm") return withMinus(words::length(value, display));
  const std::string number = withMinus(words::number(value, 2));
  return unit.empty() || unit == "1" ? number : number + " " + unit;
}

/// "measured 4 mm, limit 3 mm"
std::string numbersOf(const check::Finding& finding, practice::Display display) {
  std::string words;
  if (finding.measured) words = "measured " + amount(*finding.measured, finding.unit, display);
  if (finding.limit) {
    if (!words.empty()) words += ", ";
    words += "limit " + amount(*finding.limit, finding.unit, display);
  }
  return words;
}

std::vector<Line> linesOf(const Panel& panel, const check::Finding& finding) {
  const Ui& ui = panel.ui;
  std::vector<Line> lines{{ui.fonts.body, ui.colours->ink, finding.say}};
  const std::string numbers = numbersOf(finding, panel.document.practice->display);
  if (!numbers.empty()) lines.push_back({ui.fonts.small, ui.colours->quiet, numbers});
  if (!finding.remedy.empty()) lines.push_back({ui.fonts.small, ui.colours->ink, "To do: " + finding.remedy});
  if (!finding.caution.empty()) lines.push_back({ui.fonts.small, ui.colours->ink, "Take care: " + finding.caution});
  return lines;
}

std::string sourceOf(const check::Finding& finding) {
  if (!finding.source.empty()) return finding.source;
  return finding.severity == check::Severity::Note ? "" : "follows from the geometry";
}

/// One finding as an item; picked, it flies to its spot. `name` tells it from its neighbours.
void entry(const Panel& panel, const check::Finding& finding, const std::string& name) {
  const Ui& ui = panel.ui;
  const float width = ImGui::GetContentRegionAvail().x;
  const float radius = ui.fonts.body->FontSize * 0.32F;
  const float indent = radius * 2.4F + ui.px(8.0F);
  const float wrap = width - indent;
  const std::vector<Line> lines = linesOf(panel, finding);
  float height = 0.0F;
  for (const Line& line : lines) height += textSize(line.font, line.words, wrap).y + ui.px(2.0F);

  const Response response = item(ui, name, {width, height});
  if (response.pressed) panel.wishes.push_back(SeeSpot{finding.spot});
  if (response.hovered) findingCard(panel, response, finding);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawMark(list, {response.low.x + radius * 1.2F, response.low.y + ui.fonts.body->FontSize * 0.55F}, radius,
           finding.severity, *ui.colours);
  float y = response.low.y;
  for (const Line& line : lines) {
    drawText(list, line.font, {response.low.x + indent, y}, line.colour, line.words, wrap);
    y += textSize(line.font, line.words, wrap).y + ui.px(2.0F);
  }
  room(ui, 3.0F);
}

}  // namespace

void findingCard(const Panel& panel, const Response& beside, const check::Finding& finding) {
  std::string body = numbersOf(finding, panel.document.practice->display);
  if (!finding.remedy.empty()) body += (body.empty() ? "To do: " : "\nTo do: ") + finding.remedy;
  panel.cards.push_back({beside.low, beside.high, finding.about, body, sourceOf(finding)});
}

void findings(const Panel& panel, std::size_t opening) {
  const std::vector<check::Finding>& all = panel.document.findings.openings[opening];
  groupHeading(panel.ui, "Findings");
  if (all.empty()) text(panel.ui.fonts.body, panel.ui.colours->quiet, "none");
  for (const check::Severity severity : {check::Severity::Stop, check::Severity::Attend, check::Severity::Note}) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (all[i].severity != severity) continue;
      entry(panel, all[i], "finding " + std::to_string(i) + " " + all[i].about);
    }
  }
}

}  // namespace sillwright::view
