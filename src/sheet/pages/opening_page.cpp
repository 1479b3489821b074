// An opening's sheet, front: the opening as built, the unit in it, its packers and screws, readings and findings.
#include <algorithm>

#include "base/words.h"
#include "plan/panes.h"
#include "sheet/drawing/elevation.h"
#include "sheet/drawing/section.h"
#include "sheet/pages/opening_back.h"
#include "sheet/pages/readings.h"
#include "sheet/paper/dimension.h"
#include "sheet/paper/marks.h"
#include "sheet/words.h"
#include "words/length.h"

namespace sillwright::sheet {
namespace {

constexpr double kHeader = 14;
constexpr double kGap = 5;
constexpr double kLeftColumn = 100;

struct Front {
  Book& book;
  std::size_t index;
  const job::Opening& opening;
  const plan::OpeningPlan& planned;

  [[nodiscard]] const Subject& subject() const { return book.subject; }
  [[nodiscard]] practice::Display display() const { return book.subject.practice.display; }
  [[nodiscard]] std::string figure(double mm) const { return sheet::figure(mm, display()); }
};

/// Size and place of the opening.
std::string whereWords(const Front& front, bool shortly) {
  return front.subject().practice.words.opening + " " + figures(front.opening, front.display()) +
         (front.opening.sill > 0 ? ", sill " + front.figure(front.opening.sill) : ", on the floor") + ", left edge " +
         front.figure(front.opening.left) + (shortly ? "" : " from the wall's left end");
}

void drawHeader(const Front& front, const Box& room) {
  Painter& painter = front.book.painter();
  const std::string kind = words::unitName(front.planned.unit.kind, front.planned.unit.lights) + " " +
                           figures(front.planned.unit, front.display());
  const std::string where = whereWords(front, false);
  Lettering small{.align = Align::Right};
  Lettering strong{.capitals = letter::kBody, .weight = Weight::Bold};
  Lettering name{.capitals = letter::kTitle, .weight = Weight::Bold};
  const double second = room.y0 + name.capitals;
  const auto verdict = front.subject().findings.verdicts[front.index];
  const auto basis = front.subject().findings.bases[front.index];
  const Lettering large{.capitals = letter::kLarge, .weight = Weight::Bold, .align = Align::Right};
  const Box word = painter.text({room.x1, room.y0 + large.capitals},
                                std::string(check::wordsFor(verdict)) + ", " + check::wordsFor(basis), large);
  const Vec sign{word.x0 - 5.8, room.y0 + large.capitals / 2};
  drawVerdict(painter, sign, 4.2, verdict, basis);
  const double to_spare = front.planned.stand.spare;
  const std::string clearance =
      basis == check::Basis::Disputed
          ? std::string{}
          : (to_spare < 0 ? "does not fit by " : "clearance to spare ") + front.figure(std::abs(to_spare));
  const Box spare = painter.text({room.x1, second}, clearance, small);
  small.align = Align::Left;
  // As far as the two lines go beside those.
  const double first_end = sign.x - 3;
  const double second_end = spare.x0 - 3;
  if (room.x0 + painter.widthOf(front.opening.name, name) + 4 + painter.widthOf(where, small) <= second_end) {
    const Box box = painter.text({room.x0, second}, front.opening.name, name);
    painter.text({box.x1 + 4, room.y0 + strong.capitals + 0.4}, painter.fitted(kind, first_end - box.x1 - 4, strong),
                 strong);
    painter.text({box.x1 + 4, second}, where, small);
  } else {
    // A long name gets the first line to itself.
    name.capitals = letter::kLarge;
    painter.text({room.x0, room.y0 + name.capitals}, painter.fitted(front.opening.name, first_end - room.x0, name),
                 name);
    strong.capitals = letter::kSmall;
    const Box box = painter.text({room.x0, second + 0.6}, kind, strong);
    painter.text({box.x1 + 3, second + 0.6}, painter.fitted(whereWords(front, true), second_end - box.x1 - 3, small),
                 small);
  }
  painter.line({room.x0, room.y0 + kHeader - 4}, {room.x1, room.y0 + kHeader - 4}, {pen::kBold});
}

std::string massWords(const Front& front) {
  const auto& mass = front.planned.mass;
  std::string said = words::number(mass.total_kg, 0) + " kg" + (mass.stated ? "" : ", calculated from sizes");
  if (mass.people) said += ": " + plan::liftedBy(mass);
  return said;
}

Table unitFacts(const Front& front, double width) {
  const auto& unit = front.planned.unit;
  Table table(width, {{"unit", 17}, {""}});
  table.least_row = 4.0;
  const auto add = [&](const char* what, const std::string& value) { table.rows.push_back({what, value}); };
  add("to lift", massWords(front));
  const plan::UnitParts parts = plan::partsOf(unit);
  if (const std::string lights = plan::lightsWords(unit); !lights.empty()) add("lights", lights);
  std::vector<std::string> ways;
  for (const plan::LightParts& light : parts.light) {
    const std::string way = plan::opensWords(parts, light);
    if (!way.empty() && std::find(ways.begin(), ways.end(), way) == ways.end()) ways.push_back(way);
  }
  if (!ways.empty()) add("opens", base::joined(ways, "; ") + ", seen from outside");
  if (const std::string clear = plan::clearWords(parts, front.display()); !clear.empty()) add("clear", clear);
  if (!front.planned.mass.leaf_kg.empty()) add("leaves", plan::leavesWords(front.planned.mass));
  add("glass", plan::glassWords(unit.glass, front.display()));
  if (unit.coupled > 0)
    add("parts", plan::partsWords(unit, front.display()) +
                     ", made apart and coupled on site: " + plan::partsLifted(front.planned.mass));
  if (!unit.glass_of.empty()) add("glass by light", plan::glassByLight(unit, front.display()));
  const auto& words = front.subject().practice.words;
  if (unit.reveal) {
    add("reveal",
        words.reveal + " " + front.figure(unit.reveal->thickness) + ", " + front.figure(unit.reveal->depth) + " deep");
  } else {
    add("reveal", "none: bare frame");
  }
  add("stands", front.figure(front.planned.stand.x) + " from the left stud's foot, " +
                    front.figure(front.planned.stand.z) + " over the sill's left end");
  if (!front.planned.wind.how.empty()) add("wind", front.planned.wind.how);
  return table;
}

Table gapsTable(const Front& front, double width) {
  const auto& gaps = front.planned.stand.gaps;
  const auto& least = front.planned.stand.least;
  Table table(
      width,
      {{"gap"}, {"foot, left", 17, Align::Right}, {"head, right", 19, Align::Right}, {"least", 14, Align::Right}});
  table.least_row = 4.0;
  const auto add = [&](const char* side, const std::array<double, 2>& at, double wanted) {
    table.rows.push_back({side, front.figure(at[0]), front.figure(at[1]), front.figure(wanted)});
  };
  add("left jamb", gaps.left, least.left);
  add("right jamb", gaps.right, least.right);
  add("sill", gaps.sill, least.sill);
  add("head", gaps.head, least.head);
  return table;
}

/// Draws readings with room to write them again, facts of the unit, and findings from `next` on.
void drawLower(const Front& front, const Box& room, const std::vector<Item>& items, std::size_t& next) {
  Painter& painter = front.book.painter();
  double y = drawHeading(painter, {room.x0, room.y0}, kLeftColumn, "Opening, " + readBy(front.opening));
  const Table readings = readingsTable(front.opening, front.planned, front.display(), kLeftColumn);
  y = drawTable(painter, {room.x0, y}, room.y1, readings).y + 1.2;
  y = painter.paragraph({room.x0, y}, kLeftColumn,
                        front.opening.measured
                            ? "off by: from what all the measurements together give; ?: measure it again."
                            : "Not measured: all sizes here are as planned. Measure before the unit is lifted.");

  const double x = room.x0 + kLeftColumn + kGap;
  const double width = room.x1 - x;
  double right = drawTable(painter, {x, room.y0}, room.y1, unitFacts(front, width)).y + 2;
  right = drawTable(painter, {x, right}, room.y1, gapsTable(front, width)).y + 3;
  drawItemsUnder(painter, "Findings", items, next, {x, right, room.x1, room.y1});
  // Remaining findings go under the readings.
  drawItemsUnder(painter, next == 0 ? "Findings" : "Findings, continued", items, next,
                 {room.x0, y + 1.5, room.x0 + kLeftColumn, room.y1});
}

/// What the drawing shows: measurements that disagree make no opening, and the planned one is drawn.
std::string drawnWords(const check::Findings& findings, std::size_t index) {
  const bool measured = findings.bases[index] == check::Basis::Measured;
  const std::string drawn = measured ? "As built" : "As planned";
  return findings.verdicts[index] == check::Verdict::Stop ? "HOLD. " + drawn : drawn;
}

}  // namespace

void drawOpening(Book& book, std::size_t index) {
  const Subject& subject = book.subject;
  Front front{book, index, subject.job.openings[index], subject.plan.openings[index]};
  PageTitle title{.kind = PageKind::Opening,
                  .subject = index,
                  .drawing = "set-out and packing, front",
                  .wall = subject.job.walls[front.opening.wall].name,
                  .opening = front.opening.name,
                  .read = readingsDate(front.opening)};

  constexpr double kRoomWidth = 181, kMostElevation = 132;
  const AsBuiltSize size = asBuiltSize(subject, index, {0, 0, kRoomWidth, kMostElevation});
  title.scale = size.scale.name;
  const Box room = book.begin(title);
  drawHeader(front, room);
  Painter& painter = book.painter();
  const double top = room.y0 + kHeader - 2.5;
  const double end = drawAsBuilt(book, index, {room.x0, top, room.x1, top + kMostElevation}, size.scale);
  drawScaleBar(painter, {room.x1 - 48, top + 3.6}, size.scale,
               subject.practice.display == practice::Display::InchFractions);
  painter.text({room.x0, top + 2.6}, drawnWords(subject.findings, index) + ", seen from outside, fin and cladding off",
               {});
  const std::vector<Item> items = itemsOf(subject, index);
  std::size_t next = 0;
  drawLower(front, {room.x0, end + 1, room.x1, room.y1}, items, next);

  title.deeper = true;
  PageTitle back = title;
  back.drawing = "sections and weathering, back";
  back.scale = sectionScale(book, index).name;
  drawBack(book, index, back, items, next);

  while (next < items.size()) {
    PageTitle more = title;
    more.drawing = "findings, continued";
    more.scale.clear();
    const Box rest = book.begin(more);
    const double y = drawHeading(book.painter(), {rest.x0, rest.y0}, rest.width(), "Findings of " + title.opening);
    const std::size_t before = next;
    const double low = drawItems(book.painter(), items, next, {rest.x0, y, rest.x1, rest.y1});
    if (next == before) break;  // one that is longer than a page
    drawRemarks(book.painter(), {rest.x0, low + 4, rest.x1, rest.y1});
  }
}

}  // namespace sillwright::sheet
