/// What the keys of one of our TOML files may hold, as data.
///
/// Every table is described once, by a static function `describe` of the struct that it fills: it names each key to a
/// visitor, with the member that takes the value, what the key holds, and what it means. The visitors make of it the
/// rule that a text is checked by (tables.h), the reading (toml_table.h) and the spelling (spell.cpp); the rule in
/// turn gives the words of the errors and the schema beside the demo jobs. Nothing here knows TOML or a particular
/// file.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace sillwright::job {

enum class Form : std::uint8_t {
  Text,         ///< `from` to `to` characters, none of them a control character, not all blank.
  Number,       ///< From `from` to `to` `unit`, both included. An integer will do.
  Whole,        ///< A number without a fraction.
  Truth,        ///< true or false.
  Date,         ///< A day, its year from `from` to `to`.
  Word,         ///< One of `words`.
  Numbers,      ///< An array of `least` to `most` numbers.
  Texts,        ///< An array of `least` to `most` texts.
  Words,        ///< An array of `words`.
  Pair,         ///< An array of exactly 2 numbers.
  Readings,     ///< An array of numbers, one for each of `words`, or a table with some of `words` as its keys.
  Outline,      ///< A number z, or an array of 2 to `most` points [x, z]; the bounds are those of z.
  Table,        ///< A table, `table`.
  Tables,       ///< An array of at most `most` tables, `table`.
  Figure,       ///< A number with its unit and its source: a table of these, its value within the bounds.
  WholeFigure,  ///< The same without a fraction.
};

struct TableRule;

struct Holds {
  Form form = Form::Text;
  double from = 0;
  double to = 0;
  std::string_view unit = {};
  std::span<const std::string_view> words = {};
  std::span<const std::string_view> old_words = {};  ///< What each of `words` was called before; may be empty.
  std::size_t least = 0;
  std::size_t most = 0;
  bool strict = false;               ///< Of a list: each number is above the one before, no text stands twice.
  const TableRule* table = nullptr;  ///< Of a Text or a Word: what may stand there instead.
  std::string_view old_name = {};    ///< What the key was called before.
  std::optional<bool> needed = {};   ///< Empty: the key may be left out where its member can be empty.

  /// The same but for one member. It stands first: clang 14 makes no constant by a template further down.
  [[nodiscard]] constexpr Holds with(auto Holds::*member, auto value) const {
    Holds holds = *this;
    holds.*member = value;
    return holds;
  }
  [[nodiscard]] constexpr Holds was(std::string_view name) const { return with(&Holds::old_name, name); }
  [[nodiscard]] constexpr Holds optional() const { return with(&Holds::needed, false); }
  [[nodiscard]] constexpr Holds required() const { return with(&Holds::needed, true); }
  [[nodiscard]] constexpr Holds strictly() const { return with(&Holds::strict, true); }
};

struct KeyRule {
  std::string_view name;
  Holds holds;
  bool required = false;
  std::string_view about = {};  ///< What the key means, a sentence or two.
};

struct TableRule {
  std::string_view header;  ///< How it is written, "[opening.unit]"; empty where it is an inline table.
  std::vector<KeyRule> keys;

  /// The rule of a key, or nullptr where there is no such key.
  [[nodiscard]] const KeyRule* find(std::string_view name) const;
  /// What a key holds that there is.
  [[nodiscard]] const Holds& at(std::string_view name) const;
};

constexpr Holds text(double longest) { return {.form = Form::Text, .from = 1, .to = longest}; }
constexpr Holds number(double from, double to, std::string_view unit) {
  return {.form = Form::Number, .from = from, .to = to, .unit = unit};
}
constexpr Holds mm(double from, double to) { return number(from, to, "mm"); }
constexpr Holds whole(double from, double to) { return {.form = Form::Whole, .from = from, .to = to}; }
constexpr Holds truth() { return {.form = Form::Truth}; }
constexpr Holds date(double from_year, double to_year) {
  return {.form = Form::Date, .from = from_year, .to = to_year};
}
constexpr Holds word(std::span<const std::string_view> words, std::span<const std::string_view> old_words = {}) {
  return {.form = Form::Word, .words = words, .old_words = old_words};
}
constexpr Holds wordList(std::span<const std::string_view> words, std::span<const std::string_view> old_words = {}) {
  return {.form = Form::Words, .words = words, .old_words = old_words, .most = words.size(), .strict = true};
}
/// Words of which one may stand several times.
constexpr Holds wordRow(std::span<const std::string_view> words, std::size_t most) {
  return {.form = Form::Words, .words = words, .least = 2, .most = most};
}
constexpr Holds pair(double from, double to, std::string_view unit = {}) {
  return {.form = Form::Pair, .from = from, .to = to, .unit = unit};
}
constexpr Holds mmPair(double from, double to) { return pair(from, to, "mm"); }
constexpr Holds mmList(double from, double to, std::size_t most) {
  return {.form = Form::Numbers, .from = from, .to = to, .unit = "mm", .least = 1, .most = most};
}
constexpr Holds textList(double longest, std::size_t most, std::size_t least = 1) {
  return {.form = Form::Texts, .from = 1, .to = longest, .least = least, .most = most};
}
constexpr Holds outline(double from, double to, std::size_t most) {
  return {.form = Form::Outline, .from = from, .to = to, .unit = "mm", .most = most};
}
constexpr Holds readings(std::span<const std::string_view> names, double from, double to,
                         std::span<const std::string_view> old_names = {}) {
  return {.form = Form::Readings, .from = from, .to = to, .unit = "mm", .words = names, .old_words = old_names};
}
constexpr Holds table() { return {.form = Form::Table}; }
constexpr Holds tables(std::size_t most) { return {.form = Form::Tables, .most = most}; }

/// What is allowed, to follow "must be": `a number from 100 to 20000 mm`, `one of "tape", "laser"`.
[[nodiscard]] std::string describe(const Holds& holds);

/// `from 100 to 20000 mm`.
[[nodiscard]] std::string describeBounds(const Holds& holds);

/// The table's keys: `depth, thickness`.
[[nodiscard]] std::string listKeys(const TableRule& table);

/// What each name of a Readings' table holds.
[[nodiscard]] TableRule readingsTable(const Holds& readings);

/// The shortest text that reads back as this number, never with an exponent below 1e15: `100000`, `0.1`, `nan`.
[[nodiscard]] std::string toText(double number);

}  // namespace sillwright::job
