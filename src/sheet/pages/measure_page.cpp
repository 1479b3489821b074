// The measure sheet: where each reading is taken, in which order, and a blank line for every opening of the job.

#include <cmath>

#include "base/words.h"
#include "plan/survey/asked_readings.h"
#include "sheet/pages/readings.h"
#include "sheet/paper/marks.h"
#include "sheet/words.h"
#include "words/length.h"
#include "words/text.h"

namespace sillwright::sheet {
namespace {

constexpr double kSketchHigh = 84;

std::vector<std::string> instructions(const practice::Words& words) {
  return {"1–3  Widths between the studs: at the bottom, the middle, the top.",
          "4–6  Heights from sill to " + words.lintel + ": at the left, the middle, the right.",
          "7  Diagonal from bottom left to top right.",
          "8  Diagonal from top left to bottom right.",
          "9  Sill out of level: right end less left end, + where the right is higher.",
          "10, 11  Left and right stud out of plumb along the wall: + where the top is further right.",
          "12, 13  The same in or out: + where the top is further in.",
          "14, 15  Depth of frame and " + words.lining + " at left and right.",
          "Tape taut, square to the edges, on clean timber. Write each figure down before the next; measure again "
          "whatever surprises you. Left and right are as seen from outside. Guard an open opening above the floor."};
}

/// A line for every opening. The lines share the height of the room, within what a pencil needs.
Table blanks(const Book& book, double width, double room) {
  const Subject& subject = book.subject;
  Table table(width, {{"", 16}, {"wall", 17}, {"planned", 27}});
  const double cell = (width - table.width()) / static_cast<double>(kReadingLines);
  for (std::size_t i = 0; i < kReadingLines; ++i) table.columns.push_back({std::to_string(i + 1), cell, Align::Centre});
  constexpr double kHead = 4.6, kLeast = 8.5, kMost = 14;
  table.least_row = std::clamp(
      (room - kHead) / static_cast<double>(std::max<std::size_t>(subject.job.openings.size(), 1)), kLeast, kMost);
  const Cell blank = written({});
  for (const auto& opening : subject.job.openings) {
    Cells row{bold(opening.name), subject.job.walls[opening.wall].name, figures(opening, subject.practice.display)};
    row.insert(row.end(), kReadingLines, blank);
    table.rows.push_back(std::move(row));
  }
  // A job without openings gets lines on which to name them.
  constexpr std::size_t kUnnamed = 5;
  if (table.rows.empty()) table.rows.assign(kUnnamed, Cells(3 + kReadingLines, blank));
  return table;
}

/// Which of the readings find one that is misread, opening by opening, and from what mistake on.
std::string findsMisreading(const Subject& subject) {
  std::vector<std::pair<std::string, std::string>> said;  // what is said, of which openings
  for (const job::Opening& opening : subject.job.openings) {
    const plan::AskedReadings asked = plan::askedReadings(opening, subject.practice.survey);
    std::vector<std::string> numbers;
    for (std::size_t i = 0; i < plan::kReadings; ++i) {
      if ((asked.readings >> i & 1U) == 0) continue;
      const auto line = static_cast<std::size_t>(plan::tapeReadingOf(static_cast<plan::Reading>(i)));
      numbers.push_back(std::to_string(line + 1));
    }
    std::string say = base::joined(numbers);
    if (opening.head && opening.head->peaked()) say += " and from each corner to the peak";
    say += asked.shows > plan::kLeastSlip
               ? " (which don't all check each other: a misread one may not stand out)"
               : " (one that is wrong by more than " + words::length(std::ceil(asked.shows), subject.practice.display) +
                     " stands out; least redundancy " + words::number(asked.least, 2) + ", " +
                     plan::wordsFor(asked.weakest) + ")";
    const auto same = std::find_if(said.begin(), said.end(), [&](const auto& each) { return each.first == say; });
    if (same != said.end()) {
      same->second += ", " + opening.name;
    } else {
      said.emplace_back(say, opening.name);
    }
  }
  std::string all = "Fewest that find a misreading:";
  for (const auto& [say, names] : said) all += " " + names + ": " + say + ".";
  return all + " The others check these, or tell bow, twist and depth.";
}

}  // namespace

void drawMeasureSheet(Book& book) {
  const Subject& subject = book.subject;
  const PageTitle title{.kind = PageKind::Measure, .drawing = "measure sheet", .read = "date:", .landscape = true};
  Box room = book.begin(title);
  Painter& painter = book.painter();
  const Lettering head{.capitals = letter::kLarge, .weight = Weight::Bold};
  painter.text({room.x0, room.y0 + head.capitals}, "Measure sheet: what to measure, in this order", head);
  const Box sketch{room.x0, room.y0 + 8, room.x0 + 158, room.y0 + kSketchHigh};
  drawReadingSketch(painter, sketch, 1500, 1000, false);
  double y = room.y0 + 9;
  const double x = sketch.x1 + 6;
  for (const auto& line : instructions(subject.practice.words)) {
    y = painter.paragraph({x, y}, room.x1 - x, line) + 1.1;
  }
  drawTickBox(painter, {x, y + 1.4});
  painter.text({x + 4.6, y + 4}, "tape", {});
  drawTickBox(painter, {x + 18, y + 1.4});
  painter.text({x + 22.6, y + 4}, "laser", {});
  painter.text({x + 38, y + 4}, "measured by", {});
  painter.line({x + 50, y + 4.4}, {room.x1, y + 4.4}, {pen::kHair});
  const double top = room.y0 + kSketchHigh + 3;
  Table table = blanks(book, room.width(), room.y1 - top);
  TableEnd end = drawTable(painter, {room.x0, top}, room.y1, table);
  table.under_heading = true;
  while (end.next < table.rows.size()) {
    room = book.begin(title);
    y = drawHeading(book.painter(), {room.x0, room.y0}, room.width(), "Measure sheet, continued");
    end = drawTable(book.painter(), {room.x0, y}, room.y1, table, end.next);
  }
  if (!subject.job.openings.empty()) {
    const std::string finds = findsMisreading(subject);
    constexpr double kRemarks = 14;
    if (end.y + 3 + book.painter().heightOf(finds, room.width()) + kRemarks < room.y1) {
      end.y = book.painter().paragraph({room.x0, end.y + 3}, room.width(), finds);
    }
  }
  drawRemarks(book.painter(), {room.x0, end.y + 4, room.x1, room.y1});
}

}  // namespace sillwright::sheet
