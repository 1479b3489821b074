/// A list as rows and columns, before it is printed, written as CSV or put into a workbook.
///
/// Numbers stay numbers; lengths are in millimetres and marked as such, so that whoever shows them to a person can put
/// them in the practice's units.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "practice/practice.h"
#include "takeoff/takeoff.h"

namespace sillwright::takeoff {

enum class Holds : std::uint8_t { Text, Number, Length, Share };  ///< Share: of one; in per cent for a person.

struct Column {
  std::string name;  ///< Unique in its table.
  Holds holds = Holds::Text;
  int decimals = 0;     ///< Most that are shown to a person; files have the number as it is.
  bool detail = false;  ///< In files; too much for a screen.
};

/// Empty, a number, or text.
using Cell = std::variant<std::monostate, double, std::string>;

struct Table {
  std::string name;   ///< Short: a file's or a sheet's name. Lower-case letters and blanks.
  std::string title;  ///< What it is, for people.
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;  ///< Each as long as `columns`.
  std::vector<std::string> notes;       ///< Sentences below it.
};

/// The take-off as tables, those without rows left out.
[[nodiscard]] std::vector<Table> tablesOf(const Takeoff& takeoff, const job::Job& job,
                                          const practice::Practice& practice);

}  // namespace sillwright::takeoff
