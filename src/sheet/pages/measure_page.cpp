// The measure sheet: where each reading is taken, in which order, and a blank line for every opening of the job.

#include <cmath>

#include "base/words.h"
#include "plan/survey/asked_readings.h"
#include "sheet/pages/readings.h"
#include "sheet/paper/dimension.h"

namespace sillwright::sheet {

namespace {

constexpr double kSketchHigh = 84;  // mm, of the instructions beside it as well

std::vector<std::string> instructions(const practice::Words& words) {  // numbered as in the sketch
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
  Table table(width, {left("", 16), left("wall", 17), left("planned", 27)});
  const double cell = (width - table.width()) / static_cast<double>(kReadingLines);  // the readings share the rest
  for (std::size_t i = 0; i < kReadingLines; ++i) table.columns.push_back({std::to_string(i + 1), cell, Align::Centre});
  constexpr double kHead = 4.6, kLeast = 8.5, kMost = 14;  // mm: what a pencil needs, and what it can use
  table.least_row = std::clamp(                            // a job without openings would divide by 0
      (room - kHead) / static_cast<double>(std::max<std::size_t>(subject.job.openings.size(), 1)), kLeast, kMost);
  const Cell blank = written({});
  for (const auto& opening : subject.job.openings) {
    Cells row{bold(opening.name), subject.job.walls[opening.wall].name, subject.figures(opening)};
    row.insert(row.end(), kReadingLines, blank);
    table.rows.push_back(std::move(row));
  }
  // A job without openings gets lines on which to name them.
  constexpr std::size_t kUnnamed = 5;
  if (table.rows.empty()) table.rows.assign(kUnnamed, Cells(3 + kReadingLines, blank));
  return table;
}

/// To the next whole millimetre or sixteenth of an inch, so that what is said to stand out does.
double upwards(double mm, practice::Display display) {
  const double step = display == practice::Display::InchFractions ? practice::kInch / 16 : 1;
  return std::ceil(mm / step) * step;
}

/// Which of the readings find one that is misread, opening by opening, and from what mistake on.
std::string findsMisreading(const Subject& subject) {
  std::vector<std::pair<std::string, std::string>> said;  // what is said, of which openings
  for (const job::Opening& opening : subject.job.openings) {
    const plan::AskedReadings asked = plan::askedReadings(opening, subject.practice.survey);
    std::vector<std::string> numbers;
    for (std::size_t i = 0; i < plan::kReadings; ++i) {
      if ((asked.readings >> i & 1U) == 0) continue;  // each reading has a bit
      const auto line = static_cast<std::size_t>(plan::tapeReadingOf(static_cast<plan::Reading>(i)));
      numbers.push_back(std::to_string(line + 1));
    }
    std::string say = base::joined(numbers);
    if (opening.head && opening.head->peaked()) say += " and from each corner to the peak";
    say += asked.shows > plan::kLeastSlip
               ? " (which don't all check each other: a misread one may not stand out)"
               : " (one that is wrong by more than " +
                     words::length(upwards(asked.shows, subject.display()), subject.display()) +
                     " stands out; least redundancy " + words::number(asked.least, 2) + ", " +
                     plan::wordsFor(asked.weakest) + ")";
    const auto same = std::ranges::find(said, say, &std::pair<std::string, std::string>::first);
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

constexpr double kStud = 4.5;  // drawn width of the timber, mm of paper: a sketch, not to scale

struct Sketch {
  Painter& painter;
  Box hole;  // the opening on paper

  [[nodiscard]] Vec at(double x, double z) const { return {hole.x0 + x * hole.width(), hole.y1 - z * hole.height()}; }
  void number(Vec middle, int reading) const { drawBalloon(painter, middle, std::to_string(reading)); }
};

void drawTimber(const Sketch& sketch) {
  Painter& painter = sketch.painter;
  const Box& hole = sketch.hole;
  for (const double x : {hole.x0 - kStud, hole.x1}) {
    const Box stud{x, hole.y0 - 2 * kStud, x + kStud, hole.y1 + 2 * kStud};
    painter.shape(stud.corners(), grey(0.95), {pen::kMedium});
    for (const double y : {stud.y0, stud.y1}) drawBreak(painter, {x, y}, {stud.x1, y});
  }
  painter.shape(Box{hole.x0, hole.y0 - 1.6 * kStud, hole.x1, hole.y0}.corners(), grey(0.86), {pen::kMedium});
  painter.shape(Box{hole.x0, hole.y1, hole.x1, hole.y1 + kStud}.corners(), grey(0.95), {pen::kMedium});
}

void drawLines(const Sketch& sketch) {
  Painter& painter = sketch.painter;
  constexpr double kIn = 0.07;  // a share of the opening, off its edges
  constexpr std::array<double, 3> kRows{kIn, 0.5, 1 - kIn}, kWidthAt{0.40, 0.30, 0.40}, kHeightAt{0.33, 0.66, 0.33};
  // Diagonals first, so that the numbers of the others lie over them.
  drawDoubleArrow(painter, sketch.at(0, 0), sketch.at(1, 1), {pen::kFine, Dash::Chain});
  drawDoubleArrow(painter, sketch.at(0, 1), sketch.at(1, 0), {pen::kFine, Dash::Chain});
  for (const double row : kRows) {
    drawDoubleArrow(painter, sketch.at(0, row), sketch.at(1, row));
    drawDoubleArrow(painter, sketch.at(row, 0), sketch.at(row, 1));
  }
  for (std::size_t i = 0; i < kRows.size(); ++i) {
    sketch.number(sketch.at(kWidthAt[i], kRows[i]), static_cast<int>(i) + 1);  // no two lines cross there
    sketch.number(sketch.at(kRows[i], kHeightAt[i]), static_cast<int>(i) + 4);
  }
  sketch.number(sketch.at(0.75, 0.75), 7);  // off the lines through the middle
  sketch.number(sketch.at(0.25, 0.75), 8);
}

/// The level on the sill, and the plumb lines beside the studs.
void drawLevels(const Sketch& sketch) {
  Painter& painter = sketch.painter;
  const Box& hole = sketch.hole;
  const double y = hole.y1 + 2 * kStud + 3;
  const Box level{hole.middle().x - 12, y, hole.middle().x + 12, y + 4};
  painter.box(level, {pen::kMedium});
  painter.circle(level.middle(), 1.2, {pen::kFine});
  sketch.number({level.x1 + 4.5, level.middle().y}, 9);
  for (int side = 0; side < 2; ++side) {
    const double way = side == 0 ? -1 : 1;  // points away from the opening
    const double x = (side == 0 ? hole.x0 - kStud : hole.x1 + kStud) + way * 5;
    painter.line({x, hole.y0 - kStud}, {x, hole.y1 - 3}, {pen::kFine, Dash::Dashed});
    painter.fill(std::array{Vec{x - 1, hole.y1 - 4}, Vec{x + 1, hole.y1 - 4}, Vec{x, hole.y1 - 0.5}}, kBlack);
    drawDoubleArrow(painter, {x - way * 5, hole.y0 + 3}, {x, hole.y0 + 3});
    sketch.number({x + way * 4, hole.y0 + 3}, 10 + side);
  }
}

/// A stud from its side, outside at the left: its tilt, and the wall's depth with its lining.
void drawSide(Painter& painter, const Box& room) {
  constexpr double kDepth = 13, kLining = 2.5;  // mm of paper
  const double x = room.middle().x - (kDepth + kLining) / 2;
  const Box timber{x, room.y0 + 8, x + kDepth, room.y1 - 9};
  painter.shape(timber.corners(), grey(0.95), {pen::kMedium});
  const Box board{timber.x1, timber.y0, timber.x1 + kLining, timber.y1};
  painter.hatch(board.corners(), 60, 1.2);
  painter.box(board, {pen::kFine});
  for (const double y : {timber.y0, timber.y1}) drawBreak(painter, {timber.x0, y}, {board.x1, y});
  const double line = timber.x0 - 4;
  painter.line({line, timber.y0 + 2}, {line, timber.y1 - 4}, {pen::kFine, Dash::Dashed});
  drawDoubleArrow(painter, {line, timber.y0 + 6}, {timber.x0, timber.y0 + 6});
  drawBalloon(painter, {line - 4, timber.y0 + 3.2}, "12");
  drawBalloon(painter, {line - 4, timber.y0 + 8.8}, "13");
  const double depth = timber.y0 + timber.height() * 0.62;
  drawDoubleArrow(painter, {timber.x0, depth}, {board.x1, depth});
  drawBalloon(painter, {board.x1 + 4, depth - 2.8}, "14");
  drawBalloon(painter, {board.x1 + 4, depth + 2.8}, "15");
  painter.text({timber.x0 - 1, room.y1 - 4}, "outside", {.align = Align::Right});
  painter.text({timber.x1 - 4, room.y1 - 4}, "inside");
}

/// Where each reading is taken: the framed opening seen from outside, and a stud seen from its side.
void drawReadingSketch(Painter& painter, const Box& room) {
  constexpr double kSide = 40, kWide = 1.5;  // times its height
  const Box left{room.x0 + 16, room.y0 + 2.2 * kStud, room.x1 - kSide - 16, room.y1 - 2 * kStud - 9};
  const double high = std::min(left.width() / kWide, left.height());
  const double half = high * kWide / 2;
  const double middle = left.middle().x;
  const Sketch sketch{painter, {middle - half, left.y1 - high, middle + half, left.y1}};
  drawTimber(sketch);
  drawLines(sketch);
  drawLevels(sketch);
  drawSide(painter, {room.x1 - kSide, room.y0, room.x1, room.y1});
}

}  // namespace

void drawMeasureSheet(Book& book) {
  const Subject& subject = book.subject;
  const PageTitle title{.drawing = "Measure sheet", .read = "date:", .landscape = true};  // to be written in
  Box room = book.begin(title);
  Painter& painter = book.painter();
  const Lettering head{.capitals = letter::kLarge, .weight = Weight::Bold};
  painter.text({room.x0, room.y0 + head.capitals}, "Measure sheet: what to measure, in this order", head);
  const Box sketch{room.x0, room.y0 + 8, room.x0 + 158, room.y0 + kSketchHigh};
  drawReadingSketch(painter, sketch);
  double y = room.y0 + 9;
  const double x = sketch.x1 + 6;
  for (const auto& line : instructions(subject.practice.words)) y = painter.paragraph({x, y}, room.x1 - x, line) + 1.1;
  for (const auto& [aside, tool] : {std::pair{0.0, "tape"}, std::pair{18.0, "laser"}}) {
    drawTickBox(painter, {x + aside, y + 1.4});
    painter.text({x + aside + 4.6, y + 4}, tool);
  }
  painter.text({x + 38, y + 4}, "measured by", {});
  painter.line({x + 50, y + 4.4}, {room.x1, y + 4.4}, {pen::kHair});
  room.y0 += kSketchHigh + 3;
  room = drawOnPages(book, blanks(book, room.width(), room.height()), room, title, "Measure sheet, continued");
  if (!subject.job.openings.empty()) {
    const std::string finds = findsMisreading(subject);
    constexpr double kRemarks = 14;  // mm that stay for handwriting
    if (room.y0 + 3 + book.painter().heightOf(finds, room.width()) + kRemarks < room.y1) {
      room.y0 = book.painter().paragraph({room.x0, room.y0 + 3}, room.width(), finds);
    }
  }
  room.y0 += 4;
  drawRemarks(book.painter(), room);
}

}  // namespace sillwright::sheet
