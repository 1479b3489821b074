#include "exchange/office/grid.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>

#include "base/words.h"
#include "base/write_file.h"
#include "exchange/office/workbook.h"

namespace sillwright::exchange {

namespace {

constexpr std::size_t kHeaderWithin = 60;               // rows
constexpr std::size_t kLookedForSeparator = 1U << 16U;  // bytes at the begin by which the separator is told

std::size_t mostNames(const std::vector<CsvRow>& rows, const CountNames& names) {
  std::size_t most = 0;
  for (std::size_t i = 0; i < std::min(rows.size(), kHeaderWithin); ++i) most = std::max(most, names(rows[i]));
  return most;
}

/// The separator of the text: by the names of columns, and where there are none by what stands there most often.
char separatorOf(std::string_view text, const std::string& file, const CountNames& names) {
  std::string_view head = text.substr(0, kLookedForSeparator);
  if (head.size() < text.size()) head = head.substr(0, head.rfind('\n'));
  char best = ',';
  std::pair<std::size_t, std::ptrdiff_t> most{0, 0};
  for (const char separator : {',', ';', '\t', '|'}) {
    const auto rows = readCsv(head, file, {separator, true});
    const std::pair score{rows.ok() ? mostNames(*rows.value, names) : 0,
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

bool hasDecimalComma(const std::vector<CsvRow>& rows) {
  return std::any_of(rows.begin(), rows.end(), [](const CsvRow& row) {
    return std::any_of(row.begin(), row.end(), [](const CsvField& field) { return isDecimalComma(field.text); });
  });
}

base::Result<Grid> refused(const std::string& file, std::string say) { return {{}, {{file, {}, {}, std::move(say)}}}; }

Grid gridOfSheet(BookSheet sheet, const std::string& file) {
  Grid grid{file, "sheet " + base::quote(sheet.name), std::move(sheet.rows), false};
  grid.decimal_comma = hasDecimalComma(grid.rows);
  return grid;
}

base::Result<Grid> bookGrid(const std::filesystem::path& path, const std::string& wanted, const CountNames& names) {
  const std::string file = path.string();
  auto book = readWorkbook(path);
  if (!book.ok()) return {{}, std::move(book.errors)};
  std::vector<BookSheet> likely;
  const std::string all =
      base::joined(*book.value, ", ", [](const BookSheet& sheet) { return base::quote(sheet.name); });
  for (BookSheet& sheet : *book.value) {
    const bool fits = wanted.empty() ? mostNames(sheet.rows, names) > 1 : sheet.name == wanted;
    if (fits) likely.push_back(std::move(sheet));
  }
  if (likely.size() == 1) return {gridOfSheet(std::move(likely.front()), file), {}};
  if (!wanted.empty()) return refused(file, "has no sheet " + base::quote(wanted) + "; it has " + all);
  if (likely.empty()) return refused(file, "has no sheet with a header row; its sheets are " + all);
  return refused(file, "has several sheets that may be it, name one with --sheet: " +
                           base::joined(likely, ", ", [](const BookSheet& sheet) { return base::quote(sheet.name); }));
}

}  // namespace

base::Result<Grid> gridOf(std::string bytes, const std::string& file, const CountNames& names) {
  if (bytes.size() > kLargestCsv) return refused(file, "too large: a schedule has at most 64 MiB");
  auto decoded = decode(std::move(bytes), file);
  if (!decoded.ok()) return {{}, std::move(decoded.errors)};
  const char separator = separatorOf(decoded.value->text, file, names);
  auto rows = readCsv(decoded.value->text, file, {separator, true});
  if (!rows.ok()) return {{}, std::move(rows.errors)};
  Grid grid{file, {}, std::move(*rows.value), false};
  grid.decimal_comma = hasDecimalComma(grid.rows);
  grid.how = "fields parted by " + (separator == '\t' ? std::string("tabs") : base::quote({&separator, 1})) + ", " +
             decoded.value->encoding + (grid.decimal_comma ? ", decimal comma" : "");
  return {std::move(grid), {}};
}

base::Result<Grid> readGrid(const std::filesystem::path& path, const std::string& sheet, const CountNames& names) {
  auto bytes = base::loadText(path, kLargestCsv);
  if (!bytes.ok()) return {{}, std::move(bytes.errors)};
  if (!bytes.value->starts_with("PK")) return gridOf(std::move(*bytes.value), path.string(), names);
  if (bytes.value->find("opendocument", 0) < 100)
    return refused(path.string(), "is an OpenDocument sheet (.ods): save it as CSV or as a workbook (.xlsx)");
  return bookGrid(path, sheet, names);
}

std::size_t headerIn(const std::vector<CsvRow>& rows, const CountNames& names) {
  std::size_t best = rows.size();
  std::size_t most = 1;
  for (std::size_t i = 0; i < std::min(rows.size(), kHeaderWithin); ++i) {
    const std::size_t count = names(rows[i]);
    if (count > most) {
      most = count;
      best = i;
    }
  }
  return best;
}

namespace {

constexpr std::size_t kLooked = 4096;  // bytes at the begin by which an encoding is told

/// What Windows-1252 has at 0x80 to 0x9F (the Unicode consortium's mapping table CP1252.TXT); 0: nothing.
constexpr std::array<std::uint16_t, 32> kWindows{0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                 0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                                 0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

std::optional<std::string> fromWindows(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    const bool special = byte >= 0x80 && byte < 0xA0;
    const std::uint32_t code = special ? kWindows[byte - 0x80U] : byte;
    if (special && code == 0) return std::nullopt;
    base::appendUtf8(text, code);
  }
  return text;
}

/// Nothing where half of a pair stands alone. A last byte without its other half is left out.
std::optional<std::string> fromUtf16(std::string_view bytes, bool high_first) {
  const auto unit = [&](std::size_t at) -> std::uint32_t {
    const auto a = static_cast<unsigned char>(bytes[at]);
    const auto b = static_cast<unsigned char>(bytes[at + 1]);
    return high_first ? a * 256U + b : b * 256U + a;
  };
  std::string text;
  text.reserve(bytes.size() / 2);
  for (std::size_t at = 0; at + 1 < bytes.size(); at += 2) {
    std::uint32_t code = unit(at);
    if (code >= 0xD800 && code < 0xE000) {
      const std::uint32_t low = at + 3 < bytes.size() ? unit(at + 2) : 0;
      if (code >= 0xDC00 || low < 0xDC00 || low >= 0xE000) return std::nullopt;
      code = 0x10000 + ((code - 0xD800) << 10U) + (low - 0xDC00);
      at += 2;
    }
    base::appendUtf8(text, code);
  }
  return text;
}

enum class Utf16 : std::uint8_t { No, LowFirst, HighFirst };

/// By its mark, or because the zero halves of plain letters stand all on one side.
Utf16 utf16Of(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xFE")) return Utf16::LowFirst;
  if (bytes.starts_with("\xFE\xFF")) return Utf16::HighFirst;
  std::array<std::size_t, 2> zeros{};
  const std::size_t looked = std::min(bytes.size(), kLooked);
  for (std::size_t i = 0; i < looked; ++i) zeros[i % 2] += bytes[i] == '\0' ? 1 : 0;
  if (zeros[1] > looked / 4 && zeros[0] == 0) return Utf16::LowFirst;
  if (zeros[0] > looked / 4 && zeros[1] == 0) return Utf16::HighFirst;
  return Utf16::No;
}

std::optional<Decoded> textOf(std::string bytes) {
  using base::kByteOrderMark;
  if (const Utf16 form = utf16Of(bytes); form != Utf16::No) {
    auto text = fromUtf16(bytes, form == Utf16::HighFirst);
    if (!text) return std::nullopt;
    if (text->starts_with(kByteOrderMark)) text->erase(0, kByteOrderMark.size());
    return Decoded{std::move(*text), "UTF-16"};
  }
  if (bytes.find('\0') != std::string::npos) return std::nullopt;
  if (base::notUtf8(bytes) == std::string_view::npos) {
    if (bytes.starts_with(kByteOrderMark)) bytes.erase(0, kByteOrderMark.size());
    return Decoded{std::move(bytes), "UTF-8"};
  }
  auto text = fromWindows(bytes);
  if (!text) return std::nullopt;
  return Decoded{std::move(*text), "Windows-1252"};
}

}  // namespace

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

base::Result<Decoded> decode(std::string bytes, const std::string& file) {
  const auto refused = [&](std::string say) -> base::Result<Decoded> { return {{}, {{file, {}, {}, std::move(say)}}}; };
  if (const std::string kind = notText(bytes); !kind.empty())
    return refused("is " + kind + ", not a table: save it as CSV or as a workbook (.xlsx)");
  auto text = textOf(std::move(bytes));
  if (!text) return refused("is no text: neither UTF-8, UTF-16 nor Windows-1252");
  return {std::move(text), {}};
}

}  // namespace sillwright::exchange
