// The record of what was set: readings before and after, against their limits; blank where nothing was measured again.

#include <array>
#include <cmath>

#include "base/words.h"
#include "check/judge.h"
#include "sheet/pages/readings.h"

namespace sillwright::sheet {
namespace {

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

/// Against so many millimetres over a length; a set unit's limit grows no further past that length, an opening's does.
Judged over(const Value& value, const practice::Rule& mm, const practice::Rule& length, double size, bool set) {
  const bool known = mm && length && length->value > 0;
  if (!known) return {value, std::nullopt, &mm};
  return {value, set ? check::scaled(*mm, length->value, size) : mm->value * size / length->value, &mm};
}

std::vector<LimitLine> limitsOf(const job::Opening& opening, const plan::OpeningPlan& planned,
                                const practice::Practice& practice) {
  const job::Measured read = opening.measured.value_or(job::Measured{});
  const job::Installed set = opening.installed.value_or(job::Installed{});
  const auto& before = practice.opening_tolerance;
  const auto& after = practice.installed_tolerance;
  const plan::UnitSpec& unit = planned.unit;
  const bool large = after.large_from_area_m2 && unit.width * unit.height * 1e-6 > after.large_from_area_m2->value;
  const practice::Rule& square = large ? after.diagonals_large : after.diagonals_small;  // each size has its limits
  // Under a head that follows the roof widths, heights and diagonals differ as planned.
  const auto level = [&](const std::optional<double>& value) { return opening.head ? std::nullopt : value; };
  const auto twist = differenceOf({read.out_of_plumb_in[1], read.out_of_plumb_in[0]});
  const auto plumb = [&](const auto& reading, const auto& rules, double high) {
    return over(reading, rules.plumb_mm, rules.plumb_over, high, &rules.plumb_mm == &after.plumb_mm);
  };
  return {
      {"widths, largest less smallest", "1–3", flat(level(job::spreadOf(read.widths)), before.width_spread)},
      {"heights, largest less smallest", "4–6", flat(level(job::spreadOf(read.heights)), before.height_spread)},
      {"diagonals, from bottom left less from top left", "7, 8",
       flat(level(differenceOf(read.diagonals)), before.diagonals), flat(level(differenceOf(set.diagonals)), square)},
      {"sill out of level", "9", flat(read.out_of_level, before.sill_level),
       over(set.out_of_level, after.level_mm, after.level_over, unit.width, true)},
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
    Cell held{!both ? "" : check::above(std::abs(*at.value), *at.limit) ? "over" : "within"};
    value.bold = held.bold = after;
    value.blank = after && at.rule != nullptr && !at.value;  // it is filled in on site
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
  for (const LimitLine& line : lines) {
    for (const practice::Rule* rule : {line.before.rule, line.after.rule}) {
      if (rule == nullptr || !*rule) continue;  // it isn't asked then, or the practice has no limit
      if (std::ranges::count(sources, practice::cite(**rule)) == 0) sources.push_back(practice::cite(**rule));
    }
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

}  // namespace

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
  const double foot = room.y1 - 18;  // leaves 18 mm for the signatures
  drawRemarks(painter, {room.x0, y + 2, room.x1, foot - 4});
  drawSignatures(painter, {room.x0, foot}, room.width(), set.date ? dateWords(*set.date) : std::string{});
}

}  // namespace sillwright::sheet
