#include "exchange/csv.h"

#include <cmath>

#include "base/words.h"
#include "job/rule.h"

namespace sillwright::exchange {
namespace {

bool isBlank(char c) { return c == ' ' || c == '\t'; }

std::string fieldText(const takeoff::Cell& cell, const takeoff::Column& column, practice::Display display) {
  if (const auto* text = std::get_if<std::string>(&cell)) return csvField(*text);
  if (const auto* number = std::get_if<double>(&cell); number != nullptr && std::isfinite(*number)) {
    const double shown = takeoff::inUnit(*number, column, display);
    return job::toText(shown == 0 ? 0.0 : shown);  // a negative zero would be written "-0"
  }
  return {};
}

/// Whether a spreadsheet takes the text for a formula, or it stands guarded: such texts get a guard on writing, and
/// lose one on reading.
bool isFormula(std::string_view text) {
  const auto first = text.find_first_not_of('\'');  // a text may be guarded more than once: reading takes one off
  return first != std::string_view::npos && std::string_view("=+-@").find(text[first]) != std::string_view::npos;
}

/// Reads field by field, counting lines and characters.
struct Reader {
  std::string_view text;  ///< Without a byte order mark.
  const std::string& file;
  CsvForm form;
  std::size_t at = 0;
  std::size_t cells = 0;
  base::Place place{1, 1};
  base::Error error{};

  base::Result<std::vector<CsvRow>> run() {
    std::vector<CsvRow> rows;
    while (at < text.size()) {
      CsvRow row = readRow();
      if (!error.say.empty()) return {{}, {error}};  // all that follows a mistake may be misread
      cells += row.size();
      if (form.loose || row.size() > 1 || !row.front().text.empty()) rows.push_back(std::move(row));
      if (cells > kMostCells || rows.size() > kMostRows)  // asked row by row, so that no file fills the memory
        return {{}, {{file, {}, {}, "too large: a schedule has at most 3,000,000 fields in 1,048,576 rows"}}};
    }
    return {std::move(rows), {}};
  }

  [[nodiscard]] char now() const { return text[at]; }
  [[nodiscard]] bool atEnd() const { return at >= text.size(); }
  [[nodiscard]] bool atLineEnd() const { return atEnd() || now() == '\n' || text.substr(at).starts_with("\r\n"); }

  void step() {
    if (now() == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((static_cast<unsigned char>(now()) & 0xC0) != 0x80) {  // a character's first byte
      ++place.column;
    }
    ++at;
  }

  void fail(const char* say) {
    if (error.say.empty()) error = {file, place, {}, say};
  }

  CsvRow readRow() {
    CsvRow row;
    for (;;) {
      row.push_back(readField());
      std::string& said = row.back().text;
      if (said.starts_with('\'') && isFormula(said)) said.erase(0, 1);  // takes off the guard that csvField puts there
      if (!error.say.empty()) return row;
      if (atLineEnd()) break;
      if (row.size() == kMostColumns) {
        fail("too many columns: a schedule has at most 1,000");
        return row;
      }
      step();  // the separator
    }
    if (!atEnd() && now() == '\r') step();
    if (!atEnd()) step();  // the LF, which the last row may lack
    while (form.loose && !row.empty() && row.back().text.empty()) row.pop_back();
    return row;
  }

  CsvField readField() {
    CsvField field{{}, place};  // a field's place is that of its quote
    if (!atEnd() && now() == '"') {
      field.quoted = true;
      readQuoted(field.text);
      if (error.say.empty() && !atLineEnd() && now() != form.separator)  // RFC 4180 allows no blank there either
        fail("text after a closing quote, where the field has to end");
      return field;
    }
    while (!atLineEnd() && now() != form.separator) {
      if (now() == '"' && !standsForInches(field.text)) {
        fail(
            "a quote inside a field that doesn't begin with one; such fields are put in quotes, and the quote doubled");
        return field;
      }
      field.text += now();
      step();
    }
    return field;
  }

  [[nodiscard]] bool standsForInches(std::string_view before) const {
    const auto last = before.empty() ? '\0' : static_cast<unsigned char>(before.back());
    return form.loose && ((last >= '0' && last <= '9') || last >= 0x80);  // a figure, or ½
  }

  void readQuoted(std::string& into) {
    const base::Place begin = place;  // a quote that isn't closed is told where it opens, not at the file's end
    step();
    for (;;) {
      if (atEnd()) {
        fail("a quote that is not closed");
        error.at = begin;
        return;
      }
      if (now() == '"') {
        step();
        if (atEnd() || now() != '"') return;  // two quotes are one of the text
      }
      into += now();
      step();
    }
  }
};

}  // namespace

std::string csvField(std::string_view text) {
  const std::string guarded = (isFormula(text) ? "'" : "") + std::string(text);  // first: a guard may need the quotes
  const bool blank_ends = !guarded.empty() && (isBlank(guarded.front()) || isBlank(guarded.back()));
  const bool wants_quotes =
      guarded.find_first_of(",\"\r\n") != std::string::npos || guarded.starts_with(base::kByteOrderMark) || blank_ends;
  if (!wants_quotes) return guarded;
  std::string quoted = "\"";
  for (const char c : guarded) {
    if (c == '"') quoted += '"';  // a quote is doubled, by RFC 4180
    quoted += c;
  }
  return quoted + '"';
}

std::string csv(const takeoff::Table& table, practice::Display display) {
  const auto heading = [&](const takeoff::Column& column) { return csvField(takeoff::headingOf(column, display)); };
  std::string out = base::joined(table.columns, ",", heading) + "\r\n";
  for (const auto& row : table.rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      out += (i > 0 ? "," : "") + fieldText(row[i], table.columns[i], display);
    }
    out += "\r\n";
  }
  return out;
}

base::Result<std::vector<CsvRow>> readCsv(std::string_view text, const std::string& file, const CsvForm& form) {
  if (text.size() > kLargestCsv) return {{}, {{file, {}, {}, "too large: a schedule has at most 64 MiB"}}};
  if (const auto bad = base::notUtf8(text); bad != std::string_view::npos)
    return {{}, {{file, base::placeIn(text, bad), {}, "not UTF-8: this byte belongs to no character"}}};
  if (text.starts_with(base::kByteOrderMark)) text.remove_prefix(base::kByteOrderMark.size());
  return Reader{text, file, form}.run();
}

}  // namespace sillwright::exchange
