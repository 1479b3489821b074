/// Measurements of openings as a laser meter's log or a filled form gives them, and the form: a row a reading.
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

/// The reading that the words name; empty: none, or more than one.
[[nodiscard]] std::optional<job::TapeReading> readingNamed(std::string_view words);

struct MeasuredValue {
  std::size_t opening = 0;
  job::TapeReading reading;
  double value = 0;
};

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

/// The form to be filled in: every reading of every opening, in the order they are read in, with its planned value.
[[nodiscard]] takeoff::Table measurementForm(const job::Job& job, const plan::Plan& plan);

}  // namespace sillwright::exchange
