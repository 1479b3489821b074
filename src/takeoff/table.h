/// A list as rows and columns, before it is printed, written as CSV or put into a workbook.
///
/// Numbers stay numbers. Lengths are in millimetres and areas in square metres, masses in kilograms, and marked as
/// such; whoever shows or writes them puts them into the practice's units, one a column, which its heading says: those,
/// or inches, feet, square feet and pounds.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "practice/practice.h"
#include "takeoff/takeoff.h"

namespace sillwright::takeoff {

enum class Holds : std::uint8_t {
  Text,
  Number,
  Length,   ///< In inches where the practice is.
  Run,      ///< A length that is bought or adds up: in feet there.
  Lengths,  ///< Text of lengths, in the practice's units already.
  Area,
  Mass,  ///< Kilograms; in pounds there.
  Share  ///< Of one; in per cent for a person.
};

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
  std::vector<std::vector<Cell>> rows{};  ///< Each as long as `columns`.
  std::vector<std::string> notes{};       ///< Sentences below it.
};

/// "length mm", "stock length ft", "frame sq ft", "screw".
[[nodiscard]] std::string headingOf(const Column& column, practice::Display display);
/// A column's number in the unit that its heading says, to what means anything in it.
[[nodiscard]] double inUnit(double value, const Column& column, practice::Display display);

/// A cell as a person reads it; empty where it is.
[[nodiscard]] std::string cellText(const Cell& cell, const Column& column, practice::Display display);

/// The names that tables can have: what a folder of lists may hold of an earlier job.
[[nodiscard]] std::vector<std::string> listNames();

/// The take-off as tables, those without rows left out.
[[nodiscard]] std::vector<Table> tablesOf(const Takeoff& takeoff, const job::Job& job,
                                          const practice::Practice& practice);

}  // namespace sillwright::takeoff
