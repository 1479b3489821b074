#include "plan/survey/asked_readings.h"

#include <algorithm>
#include <cmath>

namespace sillwright::plan {
namespace {

constexpr double kAlike = 1e-6;  // of redundancies: left and right differ by rounding, and the first is taken

using Planned = std::array<std::optional<double>, job::kTapeReadings>;

/// What the readings would check of each other if they were as planned.
AskedReadings checkedBy(std::uint32_t readings, const Planned& planned, const job::Opening& opening,
                        const practice::Survey& errors) {
  std::optional<job::Measured> measured;
  if (opening.measured && opening.measured->by) measured.emplace().by = opening.measured->by;
  for (std::size_t i = 0; i < kReadings; ++i) {
    const job::TapeReading reading = tapeReadingOf(static_cast<Reading>(i));
    if ((readings >> i & 1U) != 0) job::setValue(measured, reading, planned[static_cast<std::size_t>(reading)]);
  }
  AskedReadings asked{readings, 1, Reading::WidthBottom, 0};
  const AsBuilt built = survey(headLineOf(opening), measured, errors);
  if (built.turned_free) asked.shows = HUGE_VAL;  // without a level or a plumb nothing tells how it leans
  for (const AdjustedReading& each : built.readings) {
    if (!each.read) continue;
    asked.shows =
        std::max(asked.shows, kStandsOut * each.sigma / std::sqrt(std::max(each.redundancy, kLeastRedundancy)));
    if (each.redundancy >= asked.least - kAlike) continue;
    asked.least = each.redundancy;
    asked.weakest = each.reading;
  }
  return asked;
}

}  // namespace

AskedReadings askedReadings(const job::Opening& opening, const practice::Survey& errors) {
  const Planned planned = plannedReadings(opening);
  std::uint32_t all = 0;
  for (std::size_t i = 0; i < kReadings; ++i) {
    if (planned[static_cast<std::size_t>(tapeReadingOf(static_cast<Reading>(i)))]) all |= 1U << i;
  }
  AskedReadings asked = checkedBy(all, planned, opening, errors);
  while (true) {
    AskedReadings best;
    for (std::size_t i = 0; i < kReadings; ++i) {
      if ((asked.readings >> i & 1U) == 0) continue;  // it was left out already
      const AskedReadings fewer = checkedBy(asked.readings & ~(1U << i), planned, opening, errors);
      if (fewer.shows <= kLeastSlip && fewer.least > best.least + kAlike) best = fewer;
    }
    if (best.readings == 0) return asked;  // none can be spared
    asked = best;
  }
}

}  // namespace sillwright::plan
