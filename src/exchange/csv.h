/// Comma-separated values after RFC 4180: UTF-8, CRLF, fields with commas, quotes or line ends in quotes.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "takeoff/table.h"

namespace sillwright::exchange {

/// A header row and the rows, in the practice's units. Numbers in the shortest form that reads back, a point for the
/// decimals.
[[nodiscard]] std::string csv(const takeoff::Table& table, practice::Display display);

/// One field, in quotes where it needs them: for its commas, quotes and line ends, for a byte order mark or blanks at
/// its ends, which a reader would take off. A text that a spreadsheet would reckon out (it begins with =, +, - or @)
/// has an apostrophe before it; reading takes it off.
[[nodiscard]] std::string csvField(std::string_view text);

struct CsvField {
  std::string text;
  base::Place at;       ///< Line and column (in characters) of its first character in the file.
  bool quoted = false;  ///< It stands in quotes: blanks at its ends are meant.
};
using CsvRow = std::vector<CsvField>;

/// Largest file that is read, bytes; and the most rows, columns and fields that are kept of one, so that a file of
/// commas takes no more memory than a large schedule.
inline constexpr std::size_t kLargestCsv = std::size_t{64} << 20;
inline constexpr std::size_t kMostRows = 1'048'576;  // of a sheet, by the standard's limits (from memory)
inline constexpr std::size_t kMostColumns = 1'000;
inline constexpr std::size_t kMostCells = 3'000'000;

/// How a text is parted into fields.
struct CsvForm {
  char separator = ',';
  /// As people and other programs write it: rows that are empty are kept, so that a row's index tells its place; fields
  /// that are empty at a row's end are not; a quote after a figure (8'0") stands for inches.
  bool loose = false;
};

/// Reads a text: CRLF or LF ends a row, a byte order mark is passed over, rows that are quite empty are left out. A
/// quote that is not closed, text after a closing quote or a quote inside a bare field, bytes that are no UTF-8 and a
/// file that is too large are errors.
[[nodiscard]] base::Result<std::vector<CsvRow>> readCsv(std::string_view text, const std::string& file,
                                                        const CsvForm& form = {});

}  // namespace sillwright::exchange
