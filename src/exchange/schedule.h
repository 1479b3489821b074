/// A window schedule: openings and their units as CSV, read into openings of a job.
///
/// RFC 4180, UTF-8, a header row. Columns in any order, named as in takeoff/order.h (capitals and blanks at the ends
/// don't count): opening, wall, left, sill, framed width, framed height, kind, unit width, unit height must be there;
/// room, hand, frame depth, frame face, reveal thickness, reveal depth, fin, glass thickness, glass panes, safety
/// glass, flashing, mass kg may be, and an empty field of theirs is a key left out. Blanks at a field's ends don't
/// count, but in a name that stands in quotes. The other columns of an order list are passed over; "wall" may be left
/// out where a wall is named for all. Millimetres, kilograms, words and bounds as in the job file. What a schedule
/// doesn't tell (lintel, readings, a mesh) is not in its openings.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "job/job.h"

namespace sillwright::exchange {

struct Schedule {
  std::vector<std::string> walls;      ///< In the order they are first named.
  std::vector<job::Opening> openings;  ///< `wall` is an index in `walls`.
};

/// What a schedule is read for.
struct ScheduleFor {
  std::string wall;               ///< Of every opening whose row names none; empty: each must name one.
  const job::Job* job = nullptr;  ///< That the openings are to join: their walls must be its, their names not taken.
};

/// The columns in a few sentences, for a person who writes one.
[[nodiscard]] std::string describeColumns();

/// All errors come together, at their line and column, with the row (the header is row 1) and the column's name as
/// key: `row 3, unit width`. A text that is no CSV is one error.
[[nodiscard]] base::Result<Schedule> readSchedule(std::string_view text, const std::string& file,
                                                  const ScheduleFor& target = {});

/// The openings as they stand in a job file: `[[opening]]` tables.
[[nodiscard]] std::string openingsToml(const Schedule& schedule);

}  // namespace sillwright::exchange
