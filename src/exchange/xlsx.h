/// Tables as a workbook (Office Open XML): a sheet a table, numbers as numbers, each sheet ready to be printed.
#pragma once

#include <span>
#include <string>

#include "base/error.h"
#include "job/job.h"
#include "takeoff/table.h"

namespace sillwright::exchange {

/// The workbook's bytes in the practice's units, the same for the same tables; or one error, words that go on after
/// "could not be written: ". Each sheet prints across the page, as wide as it, with its head on every page and under it
/// the job, its date and the page's number. Sheets are named as their tables, whose names must differ in their first 31
/// characters.
[[nodiscard]] base::Result<std::string> xlsx(std::span<const takeoff::Table> tables, const job::Job& job,
                                             practice::Display display);

}  // namespace sillwright::exchange
