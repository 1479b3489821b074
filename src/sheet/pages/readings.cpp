#include "sheet/pages/readings.h"

#include <cmath>

#include "plan/survey/asked_readings.h"
#include "sheet/words.h"

namespace sillwright::sheet {
namespace {

constexpr std::size_t lineOf(job::TapeReading reading) { return static_cast<std::size_t>(reading); }

template <std::size_t N>
std::optional<double> spreadOf(const std::array<std::optional<double>, N>& values) {
  std::optional<double> low, high;
  int count = 0;
  for (const auto& value : values) {
    if (!value) continue;
    ++count;
    low = low ? std::min(*low, *value) : *value;
    high = high ? std::max(*high, *value) : *value;
  }
  return count > 1 ? std::optional<double>(*high - *low) : std::nullopt;
}

std::optional<double> differenceOf(const std::array<std::optional<double>, 2>& values) {
  return values[0] && values[1] ? std::optional<double>(*values[0] - *values[1]) : std::nullopt;
}

std::optional<double> valueOf(const practice::Rule& rule) {
  return rule ? std::optional<double>(rule->value) : std::nullopt;
}

std::optional<double> over(const practice::Rule& mm, const practice::Rule& length, double size) {
  return mm && length && length->value > 0 ? std::optional<double>(mm->value * size / length->value) : std::nullopt;
}

std::string sourceOf(const practice::Rule& rule) { return rule ? practice::cite(*rule) : std::string{}; }

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
  std::vector<LimitLine> lines;
  const auto add = [&](const char* name, const char* readings, std::optional<double> value, std::optional<double> limit,
                       const practice::Rule& source) -> LimitLine& {
    lines.push_back({name, readings, value, limit, {}, {}, true, false, sourceOf(source)});
    return lines.back();
  };
  const auto afterwards = [&](LimitLine& line, std::optional<double> value, std::optional<double> limit,
                              const practice::Rule& source) {
    line.after = value;
    line.limit_after = limit;
    line.judged_after = true;
    if (source) line.source = sourceOf(source);
  };
  const auto level = [&](const std::optional<double>& value) { return opening.head ? std::nullopt : value; };
  add("widths, largest less smallest", "1–3", level(spreadOf(read.widths)), valueOf(before.width_spread),
      before.width_spread);
  add("heights, largest less smallest", "4–6", level(spreadOf(read.heights)), valueOf(before.height_spread),
      before.height_spread);
  const bool large = after.large_from_area_m2 && unit.width * unit.height * 1e-6 > after.large_from_area_m2->value;
  const practice::Rule& square = large ? after.diagonals_large : after.diagonals_small;
  afterwards(add("diagonals, from bottom left less from top left", "7, 8", level(differenceOf(read.diagonals)),
                 valueOf(before.diagonals), before.diagonals),
             level(differenceOf(set.diagonals)), valueOf(square), square);
  afterwards(add("sill out of level", "9", read.out_of_level, valueOf(before.sill_level), before.sill_level),
             set.out_of_level, over(after.level_mm, after.level_over, unit.width), after.level_mm);
  const auto lean_before = over(before.plumb_mm, before.plumb_over, opening.height);
  const auto lean_after = over(after.plumb_mm, after.plumb_over, unit.height);
  afterwards(add("left stud or jamb out of plumb", "10", read.out_of_plumb[0], lean_before, before.plumb_mm),
             set.out_of_plumb[0], lean_after, after.plumb_mm);
  afterwards(add("right stud or jamb out of plumb", "11", read.out_of_plumb[1], lean_before, before.plumb_mm),
             set.out_of_plumb[1], lean_after, after.plumb_mm);
  const auto twist = differenceOf({read.out_of_plumb_in[1], read.out_of_plumb_in[0]});
  add("twist between the studs", "12, 13", twist, valueOf(before.twist), before.twist);
  return lines;
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
