/// Lists for a terminal.
#pragma once

#include <string>

#include "practice/practice.h"
#include "takeoff/table.h"

namespace sillwright::cli {

/// Title, columns in line, notes. A table that is wider than `columns` characters is set row by row instead, each value
/// after its column's name. Lengths in the practice's units.
[[nodiscard]] std::string listText(const takeoff::Table& table, practice::Display display, int columns);

}  // namespace sillwright::cli
