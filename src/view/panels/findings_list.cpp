#include <vector>

#include "view/panels/panels.h"
#include "view/values/words.h"
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

}  // namespace sillwright::view
