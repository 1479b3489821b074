/// Lists for a terminal.
#pragma once

#include <string>

#include "practice/practice.h"
#include "takeoff/table.h"

namespace sillwright::cli {

/// Title, columns in line, notes; a last column of text is broken into lines. A table that is still wider than
/// `columns` characters is set row by row instead, each value after its column's name but the first. Columns of detail
/// are left out. In the practice's units, which the headings say.
[[nodiscard]] std::string listText(const takeoff::Table& table, practice::Display display, int columns);

}  // namespace sillwright::cli
