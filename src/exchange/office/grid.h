/// A table of another program, CSV or a workbook, as rows of texts, whatever it is parted and encoded by.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "base/error.h"
#include "exchange/csv.h"

namespace sillwright::exchange {

struct Grid {
  std::string file;
  std::string how;           ///< "fields parted by ';', UTF-16, decimal comma"; "sheet \"Windows\"".
  std::vector<CsvRow> rows;  ///< By their place in the file: row 1 first, empty ones too.
  bool decimal_comma = false;
};

/// How many of a row's fields are names of columns: what tells the separator and the sheet.
using CountNames = std::function<std::size_t(const CsvRow&)>;

/// The grid of a CSV's bytes. The separator (, ; tab |) is the one under which a row has the most names.
[[nodiscard]] base::Result<Grid> gridOf(std::string bytes, const std::string& file, const CountNames& names);

/// The grid of a file. Of a workbook the sheet that is named, else the only one that has names; several are asked
/// about.
[[nodiscard]] base::Result<Grid> readGrid(const std::filesystem::path& path, const std::string& sheet,
                                          const CountNames& names);

/// Index of the row that has the most names, among the first 60; the number of rows where none has two.
[[nodiscard]] std::size_t headerIn(const std::vector<CsvRow>& rows, const CountNames& names);

// The cells of a workbook (Office Open XML, .xlsx) as rows of texts.

struct BookSheet {
  std::string name;
  std::vector<CsvRow> rows;  ///< `at` of a field: its row and column in the sheet.
};

/// The sheets in their order. A formula counts as the value that was last worked out for it; a number as the shortest
/// text that reads back, to a millionth. What unpacks to more than kLargestCsv, or holds more cells than a schedule,
/// is an error, and so is a zip that is no workbook.
[[nodiscard]] base::Result<std::vector<BookSheet>> readWorkbook(const std::filesystem::path& path);

}  // namespace sillwright::exchange
