#include "job/toml_table.h"

#include <cassert>
#include <cmath>
#include <utility>

#include "base/words.h"

namespace sillwright::job {
namespace {

std::string numberAsWritten(const toml::node& node) {
  if (const auto* integer = node.as_integer()) return std::to_string(integer->get());
  return toText(node.as_floating_point()->get());
}

/// The elements of an array of `least` to `most`; otherwise null and a note.
const toml::array* readArray(Mistakes& mistakes, const toml::node& node, const Holds& holds, std::size_t least,
                             std::size_t most, const Path& path) {
  const auto* array = node.as_array();
  if (array == nullptr) {
    addWrongKind(mistakes, node, holds, path);
    return nullptr;
  }
  if (array->size() < least || array->size() > most) {
    addWrongKind(mistakes, node, holds, path);
    return nullptr;
  }
  return array;
}

/// What each element of an array of numbers or texts holds.
Holds elementOf(const Holds& list) {
  Holds element = list;
  element.form = list.form == Form::Texts ? Form::Text : Form::Number;
  return element;
}

}  // namespace

base::Place placeOf(const toml::node& node) {
  return {node.source().begin.line, node.source().begin.column};
}

std::string describe(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::string:
      return "a string, " + base::quote(node.as_string()->get());
    case toml::node_type::integer:
    case toml::node_type::floating_point:
      return "a number, " + numberAsWritten(node);
    case toml::node_type::boolean:
      return node.as_boolean()->get() ? "true" : "false";
    case toml::node_type::date:
      return "a date";
    case toml::node_type::time:
      return "a time";
    case toml::node_type::date_time:
      return "a date with a time";
    case toml::node_type::array:
      return "an array of " + std::to_string(node.as_array()->size());
    case toml::node_type::table:
      return "a table";
    case toml::node_type::none:
      break;
  }
  return "nothing";
}

void addWrongKind(Mistakes& mistakes, const toml::node& node, const Holds& holds, const Path& path) {
  mistakes.add(placeOf(node), path, "must be " + describe(holds) + "; found " + describe(node));
}

std::optional<double> readNumber(Mistakes& mistakes, const toml::node& node, const Holds& holds, const Path& path) {
  double value = 0;
  if (const auto* integer = node.as_integer()) {
    value = static_cast<double>(integer->get());
  } else if (const auto* floating = node.as_floating_point()) {
    value = floating->get();
  } else {
    addWrongKind(mistakes, node, holds, path);
    return std::nullopt;
  }
  const bool within = value >= holds.from && value <= holds.to;  // false for NaN
  if (within) return value;
  mistakes.add(placeOf(node), path, "must be " + describeBounds(holds) + "; found " + numberAsWritten(node));
  return std::nullopt;
}

std::optional<std::string> readText(Mistakes& mistakes, const toml::node& node, const Holds& holds, const Path& path) {
  const auto* string = node.as_string();
  if (string == nullptr) {
    addWrongKind(mistakes, node, holds, path);
    return std::nullopt;
  }
  const std::string& text = string->get();
  const auto refuse = [&](std::string say) {
    mistakes.add(placeOf(node), path, std::move(say));
    return std::nullopt;
  };
  if (text.find_first_not_of(' ') == std::string::npos) return refuse("must not be empty");
  if (base::holdsControls(text))
    return refuse("must not hold control characters or line ends; found " + base::quote(text));
  const auto length = static_cast<double>(base::countCharacters(text));
  if (length > holds.to) return refuse("must be at most " + toText(holds.to) + " characters; found " + toText(length));
  return text;
}

std::optional<std::size_t> readWord(Mistakes& mistakes, const toml::node& node, const Holds& holds, const Path& path) {
  const auto* string = node.as_string();
  if (string == nullptr) {
    addWrongKind(mistakes, node, holds, path);
    return std::nullopt;
  }
  for (std::size_t i = 0; i < holds.words.size(); ++i) {
    if (holds.words[i] == string->get()) return i;
  }
  mistakes.add(placeOf(node), path, "must be " + describe(holds) + "; found " + base::quote(string->get()));
  return std::nullopt;
}

TableReader::TableReader(Mistakes& mistakes, const toml::table& table, const TableRule& rule, const Path& path)
    : mistakes_(mistakes), table_(table), rule_(rule), path_(path) {
  for (const auto& [key, node] : table) {
    if (rule.find(key.str()) != nullptr) continue;
    const auto begin = key.source().begin;
    mistakes.addUnknownKey({begin.line, begin.column}, {&path, key.str()}, rule);
  }
  for (const auto& key : rule.keys) {
    if (!key.required || table.contains(key.name)) continue;
    mistakes.add(rule.path.empty() ? base::Place{} : place(), {&path, key.name},
                 "is missing; it must be " + describe(key.holds));
  }
}

base::Place TableReader::place() const {
  return job::placeOf(table_);
}

base::Place TableReader::placeOf(std::string_view name) const {
  const auto* node = table_.get(name);
  return node == nullptr ? base::Place{} : job::placeOf(*node);
}

void TableReader::add(std::string_view name, std::string say) const {
  mistakes_.add(placeOf(name), {&path_, name}, std::move(say));
}

TableReader::Found TableReader::at(std::string_view name) const {
  const auto* key = rule_.find(name);
  assert(key != nullptr);
  return {table_.get(name), &key->holds, {&path_, key->name}};
}

void TableReader::number(std::string_view name, double& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  if (const auto value = readNumber(mistakes_, *node, *holds, path)) into = *value;
}

void TableReader::number(std::string_view name, std::optional<double>& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  if (const auto value = readNumber(mistakes_, *node, *holds, path)) into = value;
}

void TableReader::whole(std::string_view name, int& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  const auto value = readNumber(mistakes_, *node, *holds, path);
  if (!value) return;
  if (std::trunc(*value) == *value) {
    into = static_cast<int>(*value);
  } else {
    addWrongKind(mistakes_, *node, *holds, path);
  }
}

void TableReader::truth(std::string_view name, std::optional<bool>& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  if (const auto* boolean = node->as_boolean()) {
    into = boolean->get();
  } else {
    addWrongKind(mistakes_, *node, *holds, path);
  }
}

void TableReader::date(std::string_view name, std::optional<Date>& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  const auto* date = node->as_date();
  if (date == nullptr) return addWrongKind(mistakes_, *node, *holds, path);
  const auto [year, month, day] = date->get();  // the parser has seen to it that there is such a day
  if (year >= holds->from && year <= holds->to) {
    into = Date{year, month, day};
  } else {
    add(name, "must be of the year " + describeBounds(*holds) + "; found " + std::to_string(year));
  }
}

void TableReader::text(std::string_view name, std::string& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  if (auto value = readText(mistakes_, *node, *holds, path)) into = std::move(*value);
}

void TableReader::text(std::string_view name, std::optional<std::string>& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  if (auto value = readText(mistakes_, *node, *holds, path)) into = std::move(value);
}

void TableReader::pair(std::string_view name, double& first, double& second) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  const auto* array = readArray(mistakes_, *node, *holds, 2, 2, path);
  if (array == nullptr) return;
  const Holds element = elementOf(*holds);
  if (const auto value = readNumber(mistakes_, (*array)[0], element, {&path, {}, 0})) first = *value;
  if (const auto value = readNumber(mistakes_, (*array)[1], element, {&path, {}, 1})) second = *value;
}

void TableReader::numbers(std::string_view name, std::vector<double>& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  const auto* array = readArray(mistakes_, *node, *holds, 1, holds->most, path);
  if (array == nullptr) return;
  const Holds element = elementOf(*holds);
  for (std::size_t i = 0; i < array->size(); ++i) {
    if (const auto value = readNumber(mistakes_, (*array)[i], element, {&path, {}, i})) into.push_back(*value);
  }
}

void TableReader::texts(std::string_view name, std::vector<std::string>& into) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  const auto* array = readArray(mistakes_, *node, *holds, 1, holds->most, path);
  if (array == nullptr) return;
  const Holds element = elementOf(*holds);
  for (std::size_t i = 0; i < array->size(); ++i) {
    if (auto value = readText(mistakes_, (*array)[i], element, {&path, {}, i})) into.push_back(std::move(*value));
  }
}

std::optional<std::size_t> TableReader::wordIndex(std::string_view name) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return std::nullopt;
  return readWord(mistakes_, *node, *holds, path);
}

void TableReader::readReadings(std::string_view name, std::optional<double>* into, std::size_t count) const {
  const auto [node, holds, path] = at(name);
  if (node == nullptr) return;
  const auto keys = holds->table->keys;
  assert(keys.size() == count);
  if (const auto* inner = node->as_table()) {
    const TableReader reader(mistakes_, *inner, *holds->table, path);
    for (std::size_t i = 0; i < count; ++i) reader.number(keys[i].name, into[i]);
    return;
  }
  const auto* array = readArray(mistakes_, *node, *holds, count, count, path);
  if (array == nullptr) return;
  for (std::size_t i = 0; i < count; ++i) {
    into[i] = readNumber(mistakes_, (*array)[i], keys[i].holds, {&path, {}, i});
  }
}

const toml::array* TableReader::tablesUnder(const toml::node* node, const Holds* holds, const Path& path) const {
  if (node == nullptr) return nullptr;
  const auto* array = node->as_array();
  if (array == nullptr) {
    addWrongKind(mistakes_, *node, *holds, path);
    return nullptr;
  }
  if (array->empty() && rule_.find(path.key)->required) {
    mistakes_.add(job::placeOf(*node), path, "there must be at least one; found none");
  }
  if (array->size() > holds->most) {
    mistakes_.add(job::placeOf((*array)[holds->most]), path,
                  "must be at most " + std::to_string(holds->most) + "; found " + std::to_string(array->size()));
  }
  return array;
}

}  // namespace sillwright::job
