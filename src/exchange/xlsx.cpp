#include "exchange/xlsx.h"

#include <fcntl.h>
#include <stdlib.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "base/words.h"
#include "base/write_file.h"
#include "words/text.h"

namespace sillwright::exchange {
namespace {

constexpr std::size_t kLongestSheetName = 31;                     // of the format (from memory)
constexpr std::uintmax_t kLargestBook = std::uintmax_t{4} << 30;  // the most that a zip of this kind holds
constexpr int kMostDecimals = 4;                                  // that a sixteenth of an inch has
constexpr std::size_t kLongestFooter = 200;                       // of the 255 that a sheet takes, with its codes

/// What all sheets of a book have in common.
struct Book {
  lxw_workbook* workbook;
  practice::Display display;
  std::string footer;
  lxw_format* head = workbook_add_format(workbook);  // the workbook frees its formats
  std::vector<lxw_format*> decimals = {};            ///< By number of decimals.
};

void setUpFormats(Book& book) {
  format_set_bold(book.head);
  format_set_bottom(book.head, LXW_BORDER_THIN);
  for (const char* shown : {"0", "0.0", "0.00", "0.000", "0.0000"}) {  // from none to kMostDecimals
    book.decimals.push_back(workbook_add_format(book.workbook));
    format_set_num_format(book.decimals.back(), shown);
  }
}

/// As many decimals as the number has, but no more than its column shows; one at least where it has any, so that a half
/// millimetre that is there is seen.
std::size_t decimalsOf(double number, int most) {
  double parts = 1;
  most = std::clamp(most, 1, kMostDecimals);  // there are no more formats
  for (int decimals = 0; decimals < most; ++decimals, parts *= 10) {
    // A hair off is what arithmetic left.
    if (std::abs(number * parts - std::round(number * parts)) < 1e-9 * parts) return static_cast<std::size_t>(decimals);
  }
  return static_cast<std::size_t>(most);
}

/// Where & begins a code; the title cut to what a sheet takes.
std::string footerOf(const job::Job& job) {
  std::string title;
  for (const char c : job.title) title += c == '&' ? "&&" : std::string(1, c);
  const std::string date = job.date ? "&C" + words::dateWords(*job.date) : std::string{};
  std::string_view kept = base::shortened(title, kLongestFooter);
  if (std::count(kept.begin(), kept.end(), '&') % 2 != 0) kept.remove_suffix(1);  // half of a doubled one was cut off
  return "&L" + std::string(kept) + date + "&R&P / &N";
}

double widthOf(const takeoff::Table& table, std::size_t column, practice::Display display) {
  std::size_t widest = base::countCharacters(takeoff::headingOf(table.columns[column], display));
  for (const auto& row : table.rows) {
    const auto* text = std::get_if<std::string>(&row[column]);
    if (text != nullptr) widest = std::max(widest, base::countCharacters(*text));
  }
  return std::clamp(static_cast<double>(widest) + 2, 8.0, 60.0);  // in characters, with a margin
}

lxw_error writeCell(const Book& book, lxw_worksheet* sheet, lxw_row_t row, lxw_col_t at, const takeoff::Column& column,
                    const takeoff::Cell& cell) {
  if (const auto* text = std::get_if<std::string>(&cell)) {
    return worksheet_write_string(sheet, row, at, text->c_str(), nullptr);
  }
  const auto* number = std::get_if<double>(&cell);
  if (number == nullptr || !std::isfinite(*number)) return LXW_NO_ERROR;  // a cell without a number stays empty
  const double shown = takeoff::inUnit(*number, column, book.display);
  const bool sixteenths = column.holds == takeoff::Holds::Length && shown != *number;  // inUnit changed it: inches
  lxw_format* format = book.decimals[decimalsOf(shown, sixteenths ? kMostDecimals : column.decimals)];
  return worksheet_write_number(sheet, row, at, shown, format);
}

/// Across the page, as wide as it, its head on every page; a filter over the columns.
void setUpPrinting(const Book& book, lxw_worksheet* sheet, const takeoff::Table& table) {
  constexpr std::uint8_t kA4 = 9, kLetter = 1;  // the format's numbers (from memory)
  worksheet_set_landscape(sheet);
  worksheet_set_paper(sheet, book.display == practice::Display::InchFractions ? kLetter : kA4);
  worksheet_fit_to_pages(sheet, 1, 0);  // one page wide, any number high
  worksheet_repeat_rows(sheet, 0, 0);   // the head stands on every page
  worksheet_set_footer(sheet, book.footer.c_str());
  worksheet_freeze_panes(sheet, 1, 0);
  if (table.rows.empty() || table.columns.empty()) return;  // there is nothing to filter
  worksheet_autofilter(sheet, 0, 0, static_cast<lxw_row_t>(table.rows.size()),
                       static_cast<lxw_col_t>(table.columns.size() - 1));
}

lxw_error writeSheet(const Book& book, const takeoff::Table& table) {
  const std::string name = table.name.substr(0, kLongestSheetName);  // tables' names are ASCII: none is cut apart
  lxw_worksheet* sheet = workbook_add_worksheet(book.workbook, name.c_str());
  if (sheet == nullptr) return LXW_ERROR_SHEETNAME_ALREADY_USED;  // null says nothing; our names fail by that alone
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const auto column = static_cast<lxw_col_t>(i);
    worksheet_set_column(sheet, column, column, widthOf(table, i, book.display), nullptr);
    const std::string heading = takeoff::headingOf(table.columns[i], book.display);
    worksheet_write_string(sheet, 0, column, heading.c_str(), book.head);
  }
  setUpPrinting(book, sheet, table);
  lxw_row_t at = 1;
  for (const auto& row : table.rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      const lxw_error error = writeCell(book, sheet, at, static_cast<lxw_col_t>(i), table.columns[i], row[i]);
      if (error != LXW_NO_ERROR) return error;
    }
    ++at;
  }
  return LXW_NO_ERROR;
}

/// A folder of its own for the library's files, gone with all that is in it.
struct WorkFolder {
  std::filesystem::path path;

  WorkFolder() {
    std::error_code failed;
    std::string name = (std::filesystem::temp_directory_path(failed) / "sillwright-XXXXXX").string();
    if (!failed && ::mkdtemp(name.data()) != nullptr) path = name;  // an empty path tells that there is none
  }
  WorkFolder(const WorkFolder&) = delete;
  WorkFolder& operator=(const WorkFolder&) = delete;
  ~WorkFolder() {
    std::error_code ignored;
    if (!path.empty()) std::filesystem::remove_all(path, ignored);
  }
};

/// While it lives nothing is said on standard error: the library writes its own lines there, beside its answer.
struct Silence {
  int kept = ::dup(STDERR_FILENO);

  Silence() {
    const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (kept >= 0 && nowhere >= 0) ::dup2(nowhere, STDERR_FILENO);
    if (nowhere >= 0) ::close(nowhere);
  }
  Silence(const Silence&) = delete;
  Silence& operator=(const Silence&) = delete;
  ~Silence() {
    if (kept < 0) return;
    ::dup2(kept, STDERR_FILENO);
    ::close(kept);
  }
};

/// The library's error in words that go on after "could not be written: ".
std::string wordsFor(lxw_error error) {
  if (error >= LXW_ERROR_CREATING_XLSX_FILE && error <= LXW_ERROR_ZIP_CLOSE)
    return "the folder for temporary files can't hold it";
  std::string said = lxw_strerror(error);
  if (said.ends_with('.')) said.pop_back();
  return said;
}

/// Builds the book in a file of the work folder.
lxw_error makeBook(const std::string& file, const std::string& folder, std::span<const takeoff::Table> tables,
                   const job::Job& job, practice::Display display) {
  const Silence while_it_works;
  std::string temporary = folder;
  lxw_workbook_options options{};
  options.tmpdir = temporary.data();  // so that its parts of the zip go with the work folder
  lxw_workbook* book = workbook_new_opt(file.c_str(), &options);
  if (book == nullptr) return LXW_ERROR_MEMORY_MALLOC_FAILED;
  lxw_doc_properties properties{};
  properties.created = 946'684'800;  // a fixed day, so that the same lists give the same bytes
  workbook_set_properties(book, &properties);
  Book made{book, display, footerOf(job)};
  setUpFormats(made);
  lxw_error first = LXW_NO_ERROR;
  for (const auto& table : tables) {
    const lxw_error error = writeSheet(made, table);
    if (first == LXW_NO_ERROR) first = error;  // the book must be closed all the same, which frees it
  }
  const lxw_error closed = workbook_close(book);
  return first == LXW_NO_ERROR ? closed : first;
}

}  // namespace

base::Result<std::string> xlsx(std::span<const takeoff::Table> tables, const job::Job& job, practice::Display display) {
  const auto refused = [](std::string reason) {
    return base::Result<std::string>{{}, {{"", {}, "", std::move(reason)}}};
  };
  // The library writes files only: it gets one that is sure to be good. It has more of its own in the folder, so that a
  // signal waits until all are gone.
  const base::SignalsHeld held;
  const WorkFolder work;
  if (work.path.empty()) return refused("there is no folder for temporary files");
  const std::filesystem::path made = work.path / "book.xlsx";
  const lxw_error error = makeBook(made.string(), work.path.string(), tables, job, display);
  if (error != LXW_NO_ERROR) return refused(wordsFor(error));
  auto bytes = base::loadText(made, kLargestBook);
  return bytes.ok() ? std::move(bytes) : refused("the workbook " + bytes.errors.front().say);
}

}  // namespace sillwright::exchange
