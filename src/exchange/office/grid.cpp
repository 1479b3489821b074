#include "exchange/office/grid.h"

#include <iconv.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>

#include "base/words.h"
#include "base/write_file.h"

namespace sillwright::exchange {

namespace {

constexpr std::size_t kHeaderWithin = 60;               // rows; letterhead and title stand above it
constexpr std::size_t kLookedForSeparator = 1U << 16U;  // bytes at the begin by which the separator is told

/// The most names that a row has, and the first that has them.
std::pair<std::size_t, std::size_t> mostNames(const std::vector<CsvRow>& rows, const CountNames& names) {
  std::pair<std::size_t, std::size_t> most{0, rows.size()};  // the first of alike rows: pages may repeat their head
  for (std::size_t i = 0; i < std::min(rows.size(), kHeaderWithin); ++i) {
    if (const std::size_t count = names(rows[i]); count > most.first) most = {count, i};
  }
  return most;
}

/// The separator of the text: by the names of columns, and where there are none by what stands there most often.
char separatorOf(std::string_view text, const std::string& file, const CountNames& names) {
  std::string_view head = text.substr(0, kLookedForSeparator);
  if (head.size() < text.size()) head = head.substr(0, head.rfind('\n'));  // no row is cut in two
  char best = ',';
  std::pair<std::size_t, std::ptrdiff_t> most{0, 0};
  for (const char separator : {',', ';', '\t', '|'}) {  // the usual one goes first and wins a tie
    const auto rows = readCsv(head, file, {separator, true});
    const std::pair score{rows.ok() ? mostNames(*rows.value, names).first : 0,  // names count before marks
                          std::count(head.begin(), head.end(), separator)};
    if (score > most) {
      most = score;
      best = separator;
    }
  }
  return best;
}

/// "1,5" or "1.530,25": a comma that can't part thousands.
bool isDecimalComma(std::string_view text) {
  const auto comma = text.find(',');
  if (comma == std::string_view::npos || comma == 0 || text.size() - comma - 1 == 3 || comma + 1 == text.size()) {
    return false;
  }
  return text.find_first_not_of("0123456789.", text[0] == '-' ? 1 : 0) == comma &&
         text.find_first_not_of("0123456789", comma + 1) == std::string_view::npos;
}

base::Result<Grid> refused(const std::string& file, std::string say) { return {{}, {{file, {}, {}, std::move(say)}}}; }

Grid gridFrom(const std::string& file, std::vector<CsvRow> rows, std::string how = {}) {
  const bool decimal_comma = std::any_of(rows.begin(), rows.end(), [](const CsvRow& row) {
    return std::any_of(row.begin(), row.end(), [](const CsvField& field) { return isDecimalComma(field.text); });
  });
  return {file, std::move(how), std::move(rows), decimal_comma};
}

base::Result<Grid> bookGrid(const std::filesystem::path& path, const std::string& wanted, const CountNames& names) {
  const std::string file = path.string();
  auto book = readWorkbook(path);
  if (!book.ok()) return {{}, std::move(book.errors)};
  std::vector<BookSheet> likely;
  const auto quoted = [](const BookSheet& sheet) { return base::quote(sheet.name); };
  const std::string all = base::joined(*book.value, ", ", quoted);
  for (BookSheet& sheet : *book.value) {
    const bool fits = wanted.empty() ? mostNames(sheet.rows, names).first > 1 : sheet.name == wanted;
    if (fits) likely.push_back(std::move(sheet));  // `all` was made before names are moved away
  }
  if (likely.size() == 1)
    return {gridFrom(file, std::move(likely.front().rows), "sheet " + quoted(likely.front())), {}};
  if (!wanted.empty()) return refused(file, "has no sheet " + base::quote(wanted) + "; it has " + all);
  if (likely.empty()) return refused(file, "has no sheet with a header row; its sheets are " + all);
  return refused(file,
                 "has several sheets that may be it, name one with --sheet: " + base::joined(likely, ", ", quoted));
}

constexpr std::size_t kLooked = 4096;  // bytes at the begin by which an encoding is told

/// As UTF-8; nothing where it can't be. What is cut short at its end is left out.
std::optional<std::string> converted(std::string bytes, const char* from) {
  const iconv_t converter = ::iconv_open("UTF-8", from);
  if (converter == reinterpret_cast<iconv_t>(std::intptr_t{-1})) return std::nullopt;  // this system lacks the table
  constexpr std::size_t kMost = 3;                                                     // bytes that one byte becomes
  std::string text(kMost * bytes.size(), '\0');
  char *in = bytes.data(), *out = text.data();
  std::size_t left = bytes.size(), room = text.size();
  const bool failed = ::iconv(converter, &in, &left, &out, &room) == static_cast<std::size_t>(-1) && errno != EINVAL;
  ::iconv_close(converter);  // EINVAL, a character that is cut at the end, spoils nothing before it
  if (failed) return std::nullopt;
  text.resize(text.size() - room);
  return text;
}

/// What a file that is no text is, by its first bytes: "a PDF". Empty: it may be a text.
std::string notText(std::string_view bytes) {
  using namespace std::string_view_literals;
  static constexpr std::pair<std::string_view, const char*> kKinds[] = {
      {"\xD0\xCF\x11\xE0"sv, "a workbook of the old kind (.xls)"},
      {"%PDF"sv, "a PDF"},
      {"{\\rtf"sv, "a document of a word processor"},
      {"\x89PNG"sv, "a picture"},
      {"\xFF\xD8\xFF"sv, "a picture"},
      {"<!DOCTYPE"sv, "a web page"},
      {"<html"sv, "a web page"},
      {"<?xml"sv, "XML"},
      {"\x1F\x8B"sv, "compressed"}};
  const auto* kind = std::find_if(std::begin(kKinds), std::end(kKinds),
                                  [&](const auto& each) { return bytes.starts_with(each.first); });
  return kind == std::end(kKinds) ? std::string{} : kind->second;
}

/// The name of the kind of UTF-16 that it is, by its mark, or because the zero halves of plain letters stand all on one
/// side; nullptr: none.
const char* utf16Of(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE")) return "UTF-16LE";  // this is its byte order mark
  if (bytes.starts_with("\xFE\xFF")) return "UTF-16BE";
  std::array<std::size_t, 2> zeros{};
  const std::size_t looked = std::min(bytes.size(), kLooked);
  for (std::size_t i = 0; i < looked; ++i) zeros[i % 2] += bytes[i] == '\0' ? 1 : 0;
  if (zeros[1] > looked / 4 && zeros[0] == 0) return "UTF-16LE";  // half of its characters are ASCII
  return zeros[0] > looked / 4 && zeros[1] == 0 ? "UTF-16BE" : nullptr;
}

struct Decoded {
  std::string text;      ///< UTF-8 without a byte order mark.
  const char* encoding;  ///< "UTF-8", "UTF-16", "Windows-1252".
};

/// UTF-16 is told by its mark or by its zero bytes; what is no UTF-8 is taken for Windows-1252. Empty: none of these.
std::optional<Decoded> textOf(std::string bytes) {
  const char* utf16 = utf16Of(bytes);  // it is asked first: Windows-1252 would take its zeros
  if (utf16 == nullptr && bytes.find('\0') != std::string::npos) return std::nullopt;
  const bool utf8 = utf16 == nullptr && base::notUtf8(bytes) == std::string_view::npos;
  const char* from = utf16 != nullptr ? utf16 : "CP1252";  // office programs wrote it before UTF-8
  auto text = utf8 ? std::optional(std::move(bytes)) : converted(std::move(bytes), from);
  if (!text) return std::nullopt;
  if (text->starts_with(base::kByteOrderMark)) text->erase(0, base::kByteOrderMark.size());  // of any encoding
  return Decoded{std::move(*text), utf8 ? "UTF-8" : utf16 != nullptr ? "UTF-16" : "Windows-1252"};
}

}  // namespace

base::Result<Grid> gridOf(std::string bytes, const std::string& file, const CountNames& names) {
  if (bytes.size() > kLargestCsv) return refused(file, "too large: a schedule has at most 64 MiB");
  if (const std::string kind = notText(bytes); !kind.empty())  // Windows-1252 would take nearly any bytes
    return refused(file, "is " + kind + ", not a table: save it as CSV or as a workbook (.xlsx)");
  const std::optional<Decoded> decoded = textOf(std::move(bytes));
  if (!decoded) return refused(file, "is no text: neither UTF-8, UTF-16 nor Windows-1252");
  const char separator = separatorOf(decoded->text, file, names);
  auto rows = readCsv(decoded->text, file, {separator, true});
  if (!rows.ok()) return {{}, std::move(rows.errors)};
  Grid grid = gridFrom(file, std::move(*rows.value));
  grid.how = "fields parted by " + (separator == '\t' ? std::string("tabs") : base::quote({&separator, 1})) + ", " +
             decoded->encoding + (grid.decimal_comma ? ", decimal comma" : "");
  return {std::move(grid), {}};
}

base::Result<Grid> readGrid(const std::filesystem::path& path, const std::string& sheet, const CountNames& names) {
  auto bytes = base::loadText(path, kLargestCsv);
  if (!bytes.ok()) return {{}, std::move(bytes.errors)};
  if (!bytes.value->starts_with("PK")) return gridOf(std::move(*bytes.value), path.string(), names);
  if (bytes.value->find("opendocument", 0) < 100)  // such a zip begins with its kind, not packed (from memory)
    return refused(path.string(), "is an OpenDocument sheet (.ods): save it as CSV or as a workbook (.xlsx)");
  return bookGrid(path, sheet, names);  // any other zip may be a workbook
}

std::size_t headerIn(const std::vector<CsvRow>& rows, const CountNames& names) {
  const auto [count, row] = mostNames(rows, names);
  return count > 1 ? row : rows.size();  // one name may stand in any row of texts
}

}  // namespace sillwright::exchange
