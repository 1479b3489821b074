#include "job/rule.h"

#include <charconv>
#include <cmath>

namespace sillwright::job {
namespace {

std::string listWords(std::span<const std::string_view> words) {
  std::string list;
  for (const auto word : words) {
    if (!list.empty()) list += ", ";
    list.append("\"").append(word).append("\"");
  }
  return words.size() == 1 ? list : "one of " + list;
}

std::string asTable(const TableRule& table) {
  return "a table { " + listKeys(table) + " }";
}

std::string describeText(const Holds& holds) {
  return "a string of " + toText(holds.from) + " to " + toText(holds.to) + " characters";
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

std::string listKeys(const TableRule& table) {
  std::string list;
  for (const auto& key : table.keys) {
    if (!list.empty()) list += ", ";
    list += key.name;
  }
  return list;
}

std::string describeBounds(const Holds& holds) {
  std::string bounds = "from " + toText(holds.from) + " to " + toText(holds.to);
  if (!holds.unit.empty()) bounds.append(" ").append(holds.unit);
  return bounds;
}

std::string describe(const Holds& holds) {
  switch (holds.form) {
    case Form::Text:
      return describeText(holds);
    case Form::Number:
      return "a number " + describeBounds(holds);
    case Form::Whole:
      return "a whole number " + describeBounds(holds);
    case Form::Truth:
      return "true or false";
    case Form::Date:
      return "a date like 2026-03-14, the year " + describeBounds(holds);
    case Form::Word:
      return listWords(holds.words);
    case Form::Numbers:
      return counted(1, holds.most, "numbers ") + describeBounds(holds);
    case Form::Texts:
      return counted(1, holds.most, "strings of ") + toText(holds.from) + " to " + toText(holds.to) + " characters";
    case Form::Pair:
      return "an array of 2 numbers " + describeBounds(holds);
    case Form::Readings:
      return "an array of " + std::to_string(holds.table->keys.size()) + " numbers (" + listKeys(*holds.table) +
             ") or " + asTable(*holds.table);
    case Form::Outline:
      return "a number " + describeBounds(holds) + " or " + counted(2, holds.most, "points [x, z]");
    case Form::Table:
      return holds.table->spelling.empty() ? asTable(*holds.table) : "a table " + std::string(holds.table->spelling);
    case Form::Tables:
      return "written " + std::string(holds.table->spelling) + ", once for each";
    case Form::TextOrTable:
      return describeText(holds) + " or " + asTable(*holds.table);
    case Form::WordOrTable:
      return listWords(holds.words) + " or " + asTable(*holds.table);
  }
  return {};
}

std::string toText(double number) {
  if (std::isnan(number)) return "nan";
  char buffer[32];
  const bool plain = std::abs(number) < 1e15 && (number == 0 || std::abs(number) >= 1e-4);
  const auto format = plain ? std::chars_format::fixed : std::chars_format::general;
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, number, format).ptr;
  return {buffer, end};
}

}  // namespace sillwright::job
