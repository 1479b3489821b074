#include "job/rule.h"

#include <cassert>
#include <charconv>
#include <cmath>

#include "base/words.h"

namespace sillwright::job {
namespace {

std::string listWords(std::span<const std::string_view> words) {
  return (words.size() == 1 ? "" : "one of ") + base::joined(words, ", ", base::quote);
}

std::string describeTable(const TableRule& table) {
  return table.header.empty() ? "a table { " + listKeys(table) + " }" : "a table " + std::string(table.header);
}

std::string orTable(const Holds& holds) {
  return holds.table == nullptr ? std::string() : " or " + describeTable(*holds.table);
}

std::string describeLength(const Holds& holds) {
  return toText(holds.from) + " to " + toText(holds.to) + " characters";
}

std::string counted(std::size_t least, std::size_t most, const char* what) {
  return "an array of " + std::to_string(least) + " to " + std::to_string(most) + " " + what;
}

}  // namespace

const KeyRule* TableRule::find(std::string_view name) const {
  for (const auto& key : keys) {
    if (key.name == name) return &key;
  }
  return nullptr;
}

const Holds& TableRule::at(std::string_view name) const {
  const KeyRule* key = find(name);
  assert(key != nullptr);
  return key->holds;
}

std::string listKeys(const TableRule& table) { return base::joined(table.keys, ", ", &KeyRule::name); }

std::string describeBounds(const Holds& holds) {
  std::string bounds = "from " + toText(holds.from) + " to " + toText(holds.to);
  if (!holds.unit.empty()) bounds.append(" ").append(holds.unit);
  return bounds;
}

std::string describe(const Holds& holds) {
  switch (holds.form) {
    case Form::Text:
      return "a string of " + describeLength(holds) + orTable(holds);
    case Form::Number:
      return "a number " + describeBounds(holds);
    case Form::Whole:
      return "a whole number " + describeBounds(holds);
    case Form::Truth:
      return "true or false";
    case Form::Date:
      return "a date like 2026-03-14, the year " + describeBounds(holds);
    case Form::Word:
      return listWords(holds.words) + orTable(holds);
    case Form::Numbers:
      return counted(holds.least, holds.most, holds.strict ? "rising numbers " : "numbers ") + describeBounds(holds);
    case Form::Texts:
      return counted(holds.least, holds.most, "strings of ") + describeLength(holds);
    case Form::Words:
      return (holds.strict ? "an array of " : counted(holds.least, holds.most, "words, each ")) +
             listWords(holds.words);
    case Form::Pair:
      return "an array of 2 numbers " + describeBounds(holds);
    case Form::Readings: {
      const std::string names = base::joined(holds.words);
      return "an array of " + std::to_string(holds.words.size()) + " numbers (" + names + ") or a table { " + names +
             " }";
    }
    case Form::Outline:
      return "a number " + describeBounds(holds) + " or " + counted(2, holds.most, "points [x, z]");
    case Form::Table:
      return describeTable(*holds.table);
    case Form::Tables:
      if (holds.table->header.empty()) return "an array of tables { " + listKeys(*holds.table) + " }";
      return "written " + std::string(holds.table->header) + ", once for each";
    case Form::Figure:
    case Form::WholeFigure:
      return "a figure { value, unit, source, status }";
  }
  return {};
}

TableRule readingsTable(const Holds& readings) {
  TableRule table;
  for (std::size_t i = 0; i < readings.words.size(); ++i) {
    Holds holds = number(readings.from, readings.to, readings.unit);
    if (!readings.old_words.empty()) holds.old_name = readings.old_words[i];
    table.keys.push_back({readings.words[i], holds});
  }
  return table;
}

std::string toText(double number) {
  if (std::isnan(number)) return "nan";  // whatever its sign
  char buffer[32];                       // plain: sign, point, 17 digits and 4 zeros at most
  const bool plain = std::abs(number) < 1e15 && (number == 0 || std::abs(number) >= 1e-4);  // else mostly zeros
  const auto format = plain ? std::chars_format::fixed : std::chars_format::general;
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, number, format).ptr;  // the shortest that reads back
  return {buffer, end};
}

}  // namespace sillwright::job
