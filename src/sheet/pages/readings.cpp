#include "sheet/pages/readings.h"

#include <algorithm>
#include <cmath>

#include "plan/survey/asked_readings.h"
#include "sheet/sheets.h"

namespace sillwright::sheet {
namespace {

constexpr std::size_t lineOf(job::TapeReading reading) { return static_cast<std::size_t>(reading); }

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

}  // namespace

std::string shown(const ReadingLine& line, const std::optional<double>& value, practice::Display display) {
  if (!value) return {};
  return line.has_sign ? signedFigure(*value, display) : figure(*value, display);
}

std::array<ReadingLine, kReadingLines> readingsOf(const job::Opening& opening, const plan::OpeningPlan& planned) {
  std::array<ReadingLine, kReadingLines> lines;
  using T = job::TapeReading;
  const auto as_planned = plan::plannedReadings(opening);
  for (std::size_t i = 0; i < kReadingLines; ++i) {
    const auto reading = static_cast<T>(i);
    lines[i].name = job::infoOf(reading).name;
    lines[i].has_sign = reading >= T::OutOfLevel && reading <= T::OutOfPlumbInRight;
    lines[i].planned = as_planned[i];
    if (reading >= T::DepthLeft && planned.unit.reveal) lines[i].planned = planned.unit.reveal->depth;
    lines[i].read = job::valueOf(opening.measured, reading);
  }
  for (std::size_t i = 0; opening.measured && i < plan::kAllReadings; ++i) {
    ReadingLine& line = lines[lineOf(plan::tapeReadingOf(static_cast<plan::Reading>(i)))];
    if (i < plan::kReadings && planned.as_built.readings[i].read) line.off = -planned.as_built.readings[i].residual;
    line.suspect = (planned.as_built.suspects >> i & 1U) != 0;
  }
  if (const auto& set = opening.installed) {
    for (const std::size_t side : {0, 1}) {
      lines[lineOf(T::DiagonalFromBottomLeft) + side].after = set->diagonals[side];
      lines[lineOf(T::OutOfPlumbLeft) + side].after = set->out_of_plumb[side];
    }
    lines[lineOf(T::OutOfLevel)].after = set->out_of_level;
  }
  return lines;
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

/// The distances to a peak. All four are asked for: with three a wrong one shows, with four it shows which.
static void addPeakRows(Table& table, const job::Opening& opening, practice::Display display) {
  if (!opening.head || !opening.head->peaked()) return;
  constexpr std::array<const char*, 4> kNames{"bottom left to peak", "bottom right to peak", "top right to peak",
                                              "top left to peak"};
  const plan::OpeningShape planned = plan::plannedShape(plan::headLineOf(opening));
  for (std::size_t i = 0; i < kNames.size(); ++i) {
    const double length = std::hypot(planned.peak->x - planned.corner[i].x, planned.peak->z - planned.corner[i].z);
    const auto read = opening.measured ? opening.measured->between[i] : std::nullopt;
    table.rows.push_back({std::to_string(table.rows.size() + 1), kNames[i], figure(length, display),
                          bold(read ? figure(*read, display) : "–"), std::string{}, written({})});
  }
}

Table readingsTable(const job::Opening& opening, const plan::OpeningPlan& planned, practice::Display display,
                    double width) {
  Table table(width, {{"", 6},
                      {"measurement"},
                      {"planned", 14, Align::Right},
                      {"measured", 17, Align::Right},
                      {"off by", 12.5, Align::Right},
                      {"again", 12.5}});
  table.under_heading = true;
  const auto lines = readingsOf(opening, planned);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const ReadingLine& line = lines[i];
    const double off = line.off ? std::round(*line.off * 10) / 10 : 0;
    Cell off_by{line.off ? signedFigure(off, display) : std::string{}};
    if (line.suspect) off_by.text += off_by.text.empty() ? "?" : " ?";
    off_by.bold = line.suspect;
    table.rows.push_back({std::to_string(i + 1), line.name, shown(line, line.planned, display),
                          bold(line.read ? shown(line, line.read, display) : "–"), off_by, written({})});
  }
  addPeakRows(table, opening, display);
  return table;
}

}  // namespace sillwright::sheet
