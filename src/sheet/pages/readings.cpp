#include "sheet/pages/readings.h"

#include "plan/survey/asked_readings.h"

namespace sillwright::sheet {

std::string shown(const ReadingLine& line, const std::optional<double>& value, practice::Display display) {
  if (!value) return {};
  return line.has_sign ? signedFigure(*value, display) : figure(*value, display);
}

std::array<ReadingLine, kReadingLines> readingsOf(const job::Opening& opening, const plan::OpeningPlan& planned) {
  using T = job::TapeReading;
  std::array<ReadingLine, kReadingLines> lines;
  const auto lineOf = [&](T reading, std::size_t on = 0) -> ReadingLine& {
    return lines[static_cast<std::size_t>(reading) + on];
  };
  const auto as_planned = plan::plannedReadings(opening);
  for (std::size_t i = 0; i < kReadingLines; ++i) {
    const auto reading = static_cast<T>(i);
    lines[i].name = job::infoOf(reading).name;
    lines[i].has_sign = reading >= T::OutOfLevel && reading <= T::OutOfPlumbInRight;
    lines[i].planned = as_planned[i];
    if (reading >= T::DepthLeft && planned.unit.reveal) lines[i].planned = planned.unit.reveal->depth;
    lines[i].read = job::valueOf(opening.measured, reading);
  }
  for (std::size_t i = 0; opening.measured && i < plan::kAllReadings; ++i) {  // a residual is adjusted less read
    ReadingLine& line = lineOf(plan::tapeReadingOf(static_cast<plan::Reading>(i)));
    if (i < plan::kReadings && planned.as_built.readings[i].read) line.off = -planned.as_built.readings[i].residual;
    line.suspect = (planned.as_built.suspects >> i & 1U) != 0;  // each reading has a bit
  }
  if (const auto& set = opening.installed) {
    for (const std::size_t side : {0, 1}) {
      lineOf(T::DiagonalFromBottomLeft, side).after = set->diagonals[side];
      lineOf(T::OutOfPlumbLeft, side).after = set->out_of_plumb[side];
    }
    lineOf(T::OutOfLevel).after = set->out_of_level;
  }
  return lines;
}

}  // namespace sillwright::sheet
