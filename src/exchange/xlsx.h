/// Tables as a workbook (Office Open XML): a sheet a table, numbers as numbers.
#pragma once

#include <filesystem>
#include <span>
#include <string>

#include "takeoff/table.h"

namespace sillwright::exchange {

/// Writes the workbook; the same tables give the same bytes. Returns what went wrong, empty: nothing. Sheets are named
/// as their tables, whose names must differ in their first 31 characters.
[[nodiscard]] std::string writeXlsx(const std::filesystem::path& path, std::span<const takeoff::Table> tables);

}  // namespace sillwright::exchange
