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
    return job::toText(shown == 0 ? 0.0 : shown);
  }
  return {};
}

/// Whether a spreadsheet takes the text for a formula, or it stands guarded: such texts get a guard on writing, and
/// lose one on reading.
bool isFormula(std::string_view text) {
  const auto first = text.find_first_not_of('\'');
  return first != std::string_view::npos && std::string_view("=+-@").find(text[first]) != std::string_view::npos;
}

/// Reads field by field, counting lines and characters.
class Reader {
 public:
  Reader(std::string_view text, const std::string& file, const CsvForm& form) : text_(text), file_(file), form_(form) {
    if (text_.starts_with(base::kByteOrderMark)) text_.remove_prefix(base::kByteOrderMark.size());
  }

  base::Result<std::vector<CsvRow>> run() {
    std::vector<CsvRow> rows;
    while (at_ < text_.size()) {
      CsvRow row = readRow();
      if (!error_.say.empty()) return {{}, {error_}};
      cells_ += row.size();
      if (form_.loose || row.size() > 1 || !row.front().text.empty()) rows.push_back(std::move(row));
      if (cells_ > kMostCells || rows.size() > kMostRows)
        return {{}, {{file_, {}, {}, "too large: a schedule has at most 3,000,000 fields in 1,048,576 rows"}}};
    }
    return {std::move(rows), {}};
  }

 private:
  [[nodiscard]] char now() const { return text_[at_]; }
  [[nodiscard]] bool atEnd() const { return at_ >= text_.size(); }
  [[nodiscard]] bool atLineEnd() const { return atEnd() || now() == '\n' || text_.substr(at_).starts_with("\r\n"); }

  void step() {
    if (now() == '\n') {
      ++place_.line;
      place_.column = 1;
    } else if ((static_cast<unsigned char>(now()) & 0xC0) != 0x80) {  // a character's first byte
      ++place_.column;
    }
    ++at_;
  }

  void fail(const char* say) {
    if (error_.say.empty()) error_ = {file_, place_, {}, say};
  }

  CsvRow readRow() {
    CsvRow row;
    for (;;) {
      row.push_back(readField());
      std::string& text = row.back().text;
      if (text.starts_with('\'') && isFormula(text)) text.erase(0, 1);
      if (!error_.say.empty()) return row;
      if (atLineEnd()) break;
      if (row.size() == kMostColumns) {
        fail("too many columns: a schedule has at most 1,000");
        return row;
      }
      step();  // the separator
    }
    if (!atEnd() && now() == '\r') step();
    if (!atEnd()) step();
    while (form_.loose && !row.empty() && row.back().text.empty()) row.pop_back();
    return row;
  }

  CsvField readField() {
    CsvField field{{}, place_};
    if (!atEnd() && now() == '"') {
      field.quoted = true;
      readQuoted(field.text);
      if (error_.say.empty() && !atLineEnd() && now() != form_.separator)
        fail("text after a closing quote; a comma was expected");
      return field;
    }
    while (!atLineEnd() && now() != form_.separator) {
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
    return form_.loose && ((last >= '0' && last <= '9') || last >= 0x80);  // a figure, or ½
  }

  void readQuoted(std::string& into) {
    const base::Place begin = place_;
    step();
    for (;;) {
      if (atEnd()) {
        fail("a quote that is not closed");
        error_.at = begin;
        return;
      }
      if (now() == '"') {
        step();
        if (atEnd() || now() != '"') return;
      }
      into += now();
      step();
    }
  }

  std::string_view text_;
  const std::string& file_;
  CsvForm form_;
  std::size_t at_ = 0;
  std::size_t cells_ = 0;
  base::Place place_{1, 1};
  base::Error error_;
};

}  // namespace

std::string csvField(std::string_view text) {
  const std::string guarded = (isFormula(text) ? "'" : "") + std::string(text);
  const bool blank_ends = !guarded.empty() && (isBlank(guarded.front()) || isBlank(guarded.back()));
  const bool wants_quotes =
      guarded.find_first_of(",\"\r\n") != std::string::npos || guarded.starts_with(base::kByteOrderMark) || blank_ends;
  if (!wants_quotes) return guarded;
  std::string quoted = "\"";
  for (const char c : guarded) {
    if (c == '"') quoted += '"';
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
  return Reader(text, file, form).run();
}

}  // namespace sillwright::exchange
