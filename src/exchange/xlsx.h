/// Tables as a workbook (Office Open XML): a sheet a table, numbers as numbers.
#pragma once

#include <span>
#include <string>

#include "base/error.h"
#include "takeoff/table.h"

namespace sillwright::exchange {

/// The workbook's bytes, the same for the same tables; or one error, words that go on after "could not be written: ".
/// Sheets are named as their tables, whose names must differ in their first 31 characters.
[[nodiscard]] base::Result<std::string> xlsx(std::span<const takeoff::Table> tables);

}  // namespace sillwright::exchange
