// The measure sheet: where each reading is taken, in which order, and a blank line for every opening of the job; and
// the record of a unit that is set, which takes them again.

#include <cmath>

#include "base/words.h"
#include "plan/survey/asked_readings.h"
#include "sheet/pages/readings.h"
#include "sheet/paper/dimension.h"

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
  Table table(width, {left("", 16), left("wall", 17), left("planned", 27)});
  const double cell = (width - table.width()) / static_cast<double>(kReadingLines);
  for (std::size_t i = 0; i < kReadingLines; ++i) table.columns.push_back({std::to_string(i + 1), cell, Align::Centre});
  constexpr double kHead = 4.6, kLeast = 8.5, kMost = 14;
  table.least_row = std::clamp(
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
               : " (one that is wrong by more than " + words::length(std::ceil(asked.shows), subject.display()) +
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

/// A value against the practice's limit; either may be missing.
struct Judged {
  std::optional<double> value, limit;
  const practice::Rule* rule = nullptr;  ///< Of the limit; null: it is not asked.
};
/// What is judged of the readings: before setting and, where it is read again, after.
struct LimitLine {
  std::string name;
  std::string readings;  ///< Numbers of the readings it is made from.
  Judged before;
  Judged after{};
};

std::optional<double> differenceOf(const std::array<std::optional<double>, 2>& values) {
  return values[0] && values[1] ? std::optional<double>(*values[0] - *values[1]) : std::nullopt;
}

using Value = std::optional<double>;

/// Against a limit in millimetres.
Judged flat(const Value& value, const practice::Rule& rule) {
  return {value, rule ? Value(rule->value) : std::nullopt, &rule};
}

/// Against so many millimetres over a length.
Judged over(const Value& value, const practice::Rule& mm, const practice::Rule& length, double size) {
  const bool known = mm && length && length->value > 0;
  return {value, known ? Value(mm->value * size / length->value) : std::nullopt, &mm};
}

std::vector<LimitLine> limitsOf(const job::Opening& opening, const plan::OpeningPlan& planned,
                                const practice::Practice& practice) {
  const job::Measured read = opening.measured.value_or(job::Measured{});
  const job::Installed set = opening.installed.value_or(job::Installed{});
  const auto& before = practice.opening_tolerance;
  const auto& after = practice.installed_tolerance;
  const plan::UnitSpec& unit = planned.unit;
  const bool large = after.large_from_area_m2 && unit.width * unit.height * 1e-6 > after.large_from_area_m2->value;
  const practice::Rule& square = large ? after.diagonals_large : after.diagonals_small;
  const auto level = [&](const std::optional<double>& value) { return opening.head ? std::nullopt : value; };
  const auto twist = differenceOf({read.out_of_plumb_in[1], read.out_of_plumb_in[0]});
  const auto plumb = [&](const auto& reading, const auto& rules, double high) {
    return over(reading, rules.plumb_mm, rules.plumb_over, high);
  };
  return {
      {"widths, largest less smallest", "1–3", flat(level(job::spreadOf(read.widths)), before.width_spread)},
      {"heights, largest less smallest", "4–6", flat(level(job::spreadOf(read.heights)), before.height_spread)},
      {"diagonals, from bottom left less from top left", "7, 8",
       flat(level(differenceOf(read.diagonals)), before.diagonals), flat(level(differenceOf(set.diagonals)), square)},
      {"sill out of level", "9", flat(read.out_of_level, before.sill_level),
       over(set.out_of_level, after.level_mm, after.level_over, unit.width)},
      {"left stud or jamb out of plumb", "10", plumb(read.out_of_plumb[0], before, opening.height),
       plumb(set.out_of_plumb[0], after, unit.height)},
      {"right stud or jamb out of plumb", "11", plumb(read.out_of_plumb[1], before, opening.height),
       plumb(set.out_of_plumb[1], after, unit.height)},
      {"twist between the studs", "12, 13", flat(twist, before.twist)}};
}

Table limitsTable(const std::vector<LimitLine>& lines, const Subject& subject, double width) {
  Table table(width, {left("judged"), left("no.", 17), right("before", 15), right("limit", 13), left("", 14),
                      right("after", 17), right("limit", 13), left("", 14)});
  table.least_row = 6.0;
  table.under_heading = true;
  const auto add = [&](const Judged& at, bool after) {
    const bool both = at.value && at.limit;
    Cell value{at.value ? subject.figure(*at.value) : ""};
    Cell held{!both ? "" : std::abs(*at.value) <= *at.limit + 1e-9 ? "within" : "over"};
    value.bold = held.bold = after;
    value.blank = after && at.rule != nullptr && !at.value;
    const std::string limit = at.rule == nullptr ? "–" : at.limit ? subject.figure(*at.limit) : "none";
    table.rows.back().insert(table.rows.back().end(), {value, limit, held});
  };
  for (const LimitLine& line : lines) {
    table.rows.push_back({line.name, line.readings});
    add(line.before, false);
    add(line.after, true);
  }
  return table;
}

/// Sources of the limits, each once.
std::string sourcesOf(const std::vector<LimitLine>& lines) {
  std::vector<std::string> sources;
  for (const auto& [name, readings, before, after] : lines) {
    const practice::Rule& rule = after.rule != nullptr && *after.rule ? *after.rule : *before.rule;
    if (rule && std::ranges::count(sources, practice::cite(*rule)) == 0) sources.push_back(practice::cite(*rule));
  }
  if (sources.empty()) return "The rule set has no limits.";
  return "Limits: " + base::joined(sources, "; ") + ". none: the rule set has no limit.";
}

Table readingsRecord(const job::Opening& opening, const plan::OpeningPlan& planned, practice::Display display,
                     double width) {
  Table table(width, {left("", 9), left("measurement"), right("opening, planned", 30), right("opening, measured", 28),
                      right("unit, re-checked", 28)});
  table.least_row = 5.2;
  const auto lines = readingsOf(opening, planned);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto show = [&](const std::optional<double>& value) { return shown(lines[i], value, display); };
    const bool again = i >= 6 && i <= 10;  // diagonals, level and plumb: what shows of a unit's frame when it stands
    Cell after = bold(again ? show(lines[i].after) : "–");
    after.blank = again && !lines[i].after;
    table.rows.push_back(
        {std::to_string(i + 1), lines[i].name, show(lines[i].planned), written(show(lines[i].read)), after});
  }
  return table;
}

double drawYesNo(Painter& painter, Vec at, const std::string& question, const std::optional<bool>& answer) {
  painter.text({at.x, at.y + letter::kSmall}, question, {});
  double x = at.x + 40;
  for (const bool yes : {true, false}) {
    drawTickBox(painter, {x, at.y - 0.4});
    if (answer && *answer == yes) {
      painter.path(std::array{Vec{x + 0.5, at.y + 1.2}, Vec{x + 1.4, at.y + 2.3}, Vec{x + 3.4, at.y - 1.0}},
                   {pen::kHeavy});
    }
    painter.text({x + 4.5, at.y + letter::kSmall}, yes ? "yes" : "no", {});
    x += 16;
  }
  return at.y + 6;
}

void drawSignatures(Painter& painter, Vec at, double width, const std::string& date) {
  const double part = (width - 10) / 3;
  if (!date.empty()) painter.text({at.x + part + 6, at.y + 8}, date, kHeadingLetters);
  for (const char* caption : {"measured by", "date", "seen by"}) {
    painter.line({at.x, at.y + 9}, {at.x + part, at.y + 9}, {pen::kFine});
    painter.text({at.x, at.y + 13}, caption);
    at.x += part + 5;
  }
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
  constexpr double kIn = 0.07;
  constexpr std::array<double, 3> kRows{kIn, 0.5, 1 - kIn}, kWidthAt{0.40, 0.30, 0.40}, kHeightAt{0.33, 0.66, 0.33};
  // Diagonals first, so that the numbers of the others lie over them.
  drawDoubleArrow(painter, sketch.at(0, 0), sketch.at(1, 1), {pen::kFine, Dash::Chain});
  drawDoubleArrow(painter, sketch.at(0, 1), sketch.at(1, 0), {pen::kFine, Dash::Chain});
  for (const double row : kRows) {
    drawDoubleArrow(painter, sketch.at(0, row), sketch.at(1, row));
    drawDoubleArrow(painter, sketch.at(row, 0), sketch.at(row, 1));
  }
  for (std::size_t i = 0; i < kRows.size(); ++i) {
    sketch.number(sketch.at(kWidthAt[i], kRows[i]), static_cast<int>(i) + 1);
    sketch.number(sketch.at(kRows[i], kHeightAt[i]), static_cast<int>(i) + 4);
  }
  sketch.number(sketch.at(0.75, 0.75), 7);
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
    const double way = side == 0 ? -1 : 1;
    const double x = (side == 0 ? hole.x0 - kStud : hole.x1 + kStud) + way * 5;
    painter.line({x, hole.y0 - kStud}, {x, hole.y1 - 3}, {pen::kFine, Dash::Dashed});
    painter.fill(std::array{Vec{x - 1, hole.y1 - 4}, Vec{x + 1, hole.y1 - 4}, Vec{x, hole.y1 - 0.5}}, kBlack);
    drawDoubleArrow(painter, {x - way * 5, hole.y0 + 3}, {x, hole.y0 + 3});
    sketch.number({x + way * 4, hole.y0 + 3}, 10 + side);
  }
}

/// A stud from its side, outside at the left: its tilt, and the wall's depth with its lining.
void drawSide(Painter& painter, const Box& room) {
  constexpr double kDepth = 13, kLining = 2.5;
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
  const PageTitle title{.drawing = "Measure sheet", .read = "date:", .landscape = true};
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
    constexpr double kRemarks = 14;
    if (room.y0 + 3 + book.painter().heightOf(finds, room.width()) + kRemarks < room.y1) {
      room.y0 = book.painter().paragraph({room.x0, room.y0 + 3}, room.width(), finds);
    }
  }
  room.y0 += 4;
  drawRemarks(book.painter(), room);
}

// The record of what was set: readings before and after, against their limits; blank where nothing was measured again.

void drawRecord(Book& book, std::size_t index) {
  const Subject& subject = book.subject;
  const auto& opening = subject.job.openings[index];
  const auto& planned = subject.plan.openings[index];
  const auto display = subject.display();
  const PageTitle title{.drawing = "installation record",
                        .wall = subject.job.walls[opening.wall].name,
                        .opening = opening.name,
                        .read = readingsDate(opening)};
  const Box room = book.begin(title);
  Painter& painter = book.painter();
  const Lettering head{.capitals = letter::kTitle, .weight = Weight::Bold};
  painter.text({room.x0, room.y0 + head.capitals},
               painter.fitted(opening.name, room.width() - 88, head) + ": installation record", head);
  double y = room.y0 + head.capitals + 4;
  y = painter.paragraph({room.x0, y}, room.width(),
                        words::unitName(planned.unit.kind, planned.unit.lights) + " " + figures(planned.unit, display) +
                            " in the " + subject.practice.words.opening + " " + figures(opening, display) + ", wall " +
                            title.wall + ". Opening " + readBy(opening) + ".") +
      2;
  y = drawTable(painter, {room.x0, y}, room.y1, readingsRecord(opening, planned, display, room.width())).y + 5;
  y = drawHeading(painter, {room.x0, y}, room.width(), "Against the limits of the rule set");
  const auto limits = limitsOf(opening, planned, subject.practice);
  y = drawTable(painter, {room.x0, y}, room.y1, limitsTable(limits, subject, room.width())).y + 1.5;
  y = painter.paragraph({room.x0, y}, room.width(), sourcesOf(limits)) + 4;
  const job::Installed set = opening.installed.value_or(job::Installed{});
  y = drawYesNo(painter, {room.x0, y}, "opens and shuts freely", set.opens);
  y = drawYesNo(painter, {room.x0, y}, "locks", set.locks);
  const double foot = room.y1 - 18;
  drawRemarks(painter, {room.x0, y + 2, room.x1, foot - 4});
  const std::string date = set.date ? dateWords(*set.date) : std::string{};
  drawSignatures(painter, {room.x0, foot}, room.width(), date);
}

}  // namespace sillwright::sheet
