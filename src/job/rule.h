/// What a key of one of our TOML files may hold, as data.
///
/// A reader checks a table against its TableRule: which keys there are, which of them must be there, and what each
/// holds, with bounds. The same rules give the words of the error messages and are what the schemas beside the
/// files are tested against. Nothing here knows TOML or a particular file; the job file's rules are in rules.h.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace sillwright::job {

enum class Form : std::uint8_t {
  Text,         ///< `from` to `to` characters, none of them a control character, not all blank.
  Number,       ///< From `from` to `to` `unit`, both included. An integer will do.
  Whole,        ///< A number without a fraction.
  Truth,        ///< true or false.
  Date,         ///< A day, its year from `from` to `to`.
  Word,         ///< One of `words`.
  Numbers,      ///< An array of 1 to `most` numbers.
  Texts,        ///< An array of 1 to `most` texts.
  Pair,         ///< An array of exactly 2 numbers.
  Readings,     ///< An array of numbers, one for each key of `table`, or that table with some of them left out.
  Outline,      ///< A number z, or an array of 2 to `most` points [x, z]; the bounds are those of z.
  Table,        ///< A table, `table`.
  Tables,       ///< An array of at most `most` tables, `table`.
  TextOrTable,  ///< Text, or the table.
  WordOrTable   ///< One of `words`, or the table.
};

struct TableRule;

struct Holds {
  Form form = Form::Text;
  double from = 0;
  double to = 0;
  std::string_view unit = {};
  std::span<const std::string_view> words = {};
  std::size_t most = 0;
  const TableRule* table = nullptr;
};

struct KeyRule {
  std::string_view name;
  bool required = false;
  Holds holds;
};

struct TableRule {
  std::string_view path;      ///< "opening.unit"; empty for the whole file.
  std::string_view spelling;  ///< How its header is written, "[opening.unit]"; empty where it is an inline table.
  std::span<const KeyRule> keys;

  /// The rule of a key, or nullptr where there is no such key.
  [[nodiscard]] const KeyRule* find(std::string_view name) const;
};

constexpr KeyRule required(std::string_view name, Holds holds) {
  return {name, true, holds};
}
constexpr KeyRule allowed(std::string_view name, Holds holds) {
  return {name, false, holds};
}

constexpr Holds text(double longest) {
  return {.form = Form::Text, .from = 1, .to = longest};
}
constexpr Holds number(double from, double to, std::string_view unit) {
  return {.form = Form::Number, .from = from, .to = to, .unit = unit};
}
constexpr Holds mm(double from, double to) {
  return number(from, to, "mm");
}
constexpr Holds whole(double from, double to) {
  return {.form = Form::Whole, .from = from, .to = to};
}
constexpr Holds truth() {
  return {.form = Form::Truth};
}
constexpr Holds date(double from_year, double to_year) {
  return {.form = Form::Date, .from = from_year, .to = to_year};
}
constexpr Holds word(std::span<const std::string_view> words) {
  return {.form = Form::Word, .words = words};
}
constexpr Holds mmPair(double from, double to) {
  return {.form = Form::Pair, .from = from, .to = to, .unit = "mm"};
}
constexpr Holds mmList(double from, double to, std::size_t most) {
  return {.form = Form::Numbers, .from = from, .to = to, .unit = "mm", .most = most};
}
constexpr Holds textList(double longest, std::size_t most) {
  return {.form = Form::Texts, .from = 1, .to = longest, .most = most};
}
constexpr Holds outline(double from, double to, std::size_t most) {
  return {.form = Form::Outline, .from = from, .to = to, .unit = "mm", .most = most};
}
constexpr Holds readings(const TableRule& table) {
  return {.form = Form::Readings, .table = &table};
}
constexpr Holds one(const TableRule& table) {
  return {.form = Form::Table, .table = &table};
}
constexpr Holds many(const TableRule& table, std::size_t most) {
  return {.form = Form::Tables, .most = most, .table = &table};
}
constexpr Holds textOr(double longest, const TableRule& table) {
  return {.form = Form::TextOrTable, .from = 1, .to = longest, .table = &table};
}
constexpr Holds wordOr(std::span<const std::string_view> words, const TableRule& table) {
  return {.form = Form::WordOrTable, .words = words, .table = &table};
}

/// What is allowed, to follow "must be": `a number from 100 to 20000 mm`, `one of "tape", "laser"`.
[[nodiscard]] std::string describe(const Holds& holds);

/// `from 100 to 20000 mm`.
[[nodiscard]] std::string describeBounds(const Holds& holds);

/// The table's keys: `depth, thickness`.
[[nodiscard]] std::string listKeys(const TableRule& table);

/// The shortest text that reads back as this number, never with an exponent below 1e15: `100000`, `0.1`, `nan`.
[[nodiscard]] std::string toText(double number);

}  // namespace sillwright::job
