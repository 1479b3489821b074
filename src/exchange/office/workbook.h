/// The cells of a workbook (Office Open XML, .xlsx) as rows of texts.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/error.h"
#include "exchange/csv.h"

namespace sillwright::exchange {

struct BookSheet {
  std::string name;
  std::vector<CsvRow> rows;  ///< `at` of a field: its row and column in the sheet.
};

/// The sheets in their order. A formula counts as the value that was last worked out for it; a number as the shortest
/// text that reads back, to a millionth. What unpacks to more than kLargestCsv, or holds more cells than a schedule,
/// is an error, and so is a zip that is no workbook.
[[nodiscard]] base::Result<std::vector<BookSheet>> readWorkbook(const std::filesystem::path& path);

}  // namespace sillwright::exchange
