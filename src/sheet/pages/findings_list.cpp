#include "sheet/pages/findings_list.h"

#include "sheet/paper/marks.h"
#include "sheet/paper/table.h"

namespace sillwright::sheet {
namespace {

constexpr double kIndent = 5;

}  // namespace

std::vector<Item> itemsOf(const Subject& subject, std::size_t opening) {
  std::vector<Item> items;
  const auto& findings = subject.findings.openings[opening];
  for (const auto& finding : findings) {
    if (finding.severity == check::Severity::Note) continue;
    std::string text = finding.say;
    if (!finding.remedy.empty()) text += " → " + finding.remedy;
    items.push_back({finding.severity, text});
    if (!finding.caution.empty()) items.push_back({std::nullopt, finding.caution});
  }
  if (items.empty()) items.push_back({check::Severity::Note, "Nothing against setting it."});
  for (const auto& finding : findings) {
    if (finding.severity == check::Severity::Note) items.push_back({finding.severity, finding.say});
  }
  return items;
}

double drawItemsUnder(Painter& painter, const std::string& heading, const std::vector<Item>& items, std::size_t& next,
                      const Box& room) {
  constexpr double kHeading = 5.3;
  if (next >= items.size()) return room.y0;
  const double first = painter.heightOf(items[next].text, room.width() - kIndent);
  if (room.y0 + kHeading + first > room.y1) return room.y0;
  const double y = drawHeading(painter, {room.x0, room.y0}, room.width(), heading);
  return drawItems(painter, items, next, {room.x0, y, room.x1, room.y1});
}

double drawItems(Painter& painter, const std::vector<Item>& items, std::size_t& next, const Box& room) {
  double y = room.y0;
  for (; next < items.size(); ++next) {
    const double high = painter.heightOf(items[next].text, room.width() - kIndent);
    if (y + high > room.y1) break;
    if (items[next].severity) {
      drawSeverity(painter, {room.x0, y + 1.2}, 2.8, *items[next].severity);
    } else {
      painter.text({room.x0 + 1, y + kBoldLetters.capitals}, "!", kBoldLetters);
    }
    y = painter.paragraph({room.x0 + kIndent, y}, room.width() - kIndent, items[next].text) + 0.8;
  }
  return y;
}

}  // namespace sillwright::sheet
