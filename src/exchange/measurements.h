/// Measurements of openings as a laser meter's log or a filled form gives them, and the form: a row a reading.
///
/// The record of a unit that is set goes the same way: its readings' names begin with "set".
///
/// Columns opening, reading and value, under these or usual names, in any order; others are passed over. Readings are
/// named as the measure sheet names them, "bottom width", or in other words and another order: "W bottom", "diagonal
/// BL". A value that is empty was not read.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "exchange/office/columns.h"
#include "job/readings.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "takeoff/table.h"

namespace sillwright::exchange {

/// What a row may be of: a reading of the opening; of the unit that is set in it, likewise or whether it works.
struct Asked {
  job::TapeReading reading{};
  bool set = false;
  std::optional<bool> job::Installed::*works = nullptr;
};
/// "bottom width", "set: level of the sill", "set: opens".
[[nodiscard]] std::string nameOf(const Asked& asked);
/// What the words name; empty: nothing, or more than one.
[[nodiscard]] std::optional<Asked> readingNamed(std::string_view words);

struct MeasuredValue {
  std::size_t opening = 0;
  Asked of;
  double value = 0;  ///< mm; whether it works: 1 or 0.
};
/// As the job has it: mm, or 1 and 0; and into the job.
[[nodiscard]] std::optional<double> valueOf(const job::Opening& opening, const Asked& asked);
void setValue(job::Opening& opening, const Asked& asked, double value);

struct MeasuredFor {
  std::vector<Answer> map = {};  ///< "Their name=ours", of columns.
  std::optional<LengthUnit> unit = {};
  practice::Display display = practice::Display::Millimetres;
};

[[nodiscard]] CountNames measurementNames(const std::vector<Answer>& map);

/// The values in the table's order. All errors come together: openings that the job hasn't, readings that aren't
/// understood, values that the job file refuses, a reading that is there twice.
[[nodiscard]] base::Result<std::vector<MeasuredValue>> readMeasurements(const Grid& grid, const job::Job& job,
                                                                        MeasuredFor target);

/// The form to be filled in: every reading of every opening, in the order they are read in, with its planned value; or
/// those of the record, to 0.1 mm or, where inches are shown, to a thousandth.
[[nodiscard]] takeoff::Table measurementForm(const job::Job& job, const plan::Plan& plan, practice::Display display,
                                             bool record);

}  // namespace sillwright::exchange
