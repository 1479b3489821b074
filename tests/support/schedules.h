/// A window schedule read from the bytes of a CSV.
#pragma once

#include "exchange/schedule.h"

namespace sillwright::testing {

inline base::Result<exchange::Schedule> readSchedule(std::string_view text, const std::string& file,
                                                     const exchange::ScheduleFor& target = {}) {
  const auto grid = exchange::gridOf(std::string(text), file, exchange::scheduleNames(target.map));
  if (!grid.ok()) return {std::nullopt, grid.errors};
  return exchange::readSchedule(*grid.value, target).schedule;
}

}  // namespace sillwright::testing
