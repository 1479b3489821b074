/// A window schedule: openings and their units as an office or the order list writes them, read into openings of a job.
///
/// CSV or a workbook, with a header row somewhere near the top. Columns in any order, under the names of
/// takeoff/order.h or usual ones (office/schedule_terms.h), or as a person answers; lengths with or without their unit
/// (office/figures.h). Sizes of the unit, of the framed opening, or both: one follows from the other by the practice's
/// usual gaps where there is a practice. A row with a quantity is as many openings. An empty field is a key left out.
/// Bounds as in the job file. Whatever isn't understood is asked about (an error) or told as passed over (a note).
#pragma once

#include <string>
#include <vector>

#include "base/error.h"
#include "exchange/office/columns.h"
#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::exchange {

struct Schedule {
  std::vector<std::string> walls;      ///< In the order they are first named.
  std::vector<job::Opening> openings;  ///< `wall` is an index in `walls`.
  std::vector<std::string> notes;      ///< What was passed over, a sentence each.
  std::vector<std::string> taken;      ///< What was taken where the schedule says nothing; remarks in the job file.
};

/// What a schedule is read for, and a person's answers.
struct ScheduleFor {
  std::string wall;               ///< Of every opening whose row names none; empty: each must name one.
  const job::Job* job = nullptr;  ///< That the openings are to join: their walls must be its, their names not taken.
  const practice::Practice* practice = nullptr;  ///< Whose usual gaps tell the size that isn't told.
  std::vector<Answer> map = {};                  ///< What a heading, or a word in a field, means.
  std::vector<Answer> all = {};                  ///< By a column of ours: what holds where a row says nothing.
  std::optional<LengthUnit> unit = {};           ///< Of positions and sizes that name none.
  bool side_by_side = false;                     ///< Openings whose place isn't told stand one after the other.
};

/// A schedule and how it was understood, which is there although the schedule can't be read.
struct ScheduleReading {
  std::optional<Heading> heading;
  std::vector<std::string> samples;  ///< The first text of each column.
  base::Result<Schedule> schedule;
};

/// The columns in a few sentences, for a person who writes one.
[[nodiscard]] std::string describeColumns();

/// For readGrid.
[[nodiscard]] CountNames scheduleNames(const std::vector<Answer>& map);

/// All errors come together, at their line and column (of a workbook: row and column), with the row and the heading as
/// key: `row 3, unit width`.
[[nodiscard]] ScheduleReading readSchedule(const Grid& grid, ScheduleFor target);

/// The openings as they stand in a job file: `[[opening]]` tables.
[[nodiscard]] std::string openingsToml(const Schedule& schedule);

}  // namespace sillwright::exchange
