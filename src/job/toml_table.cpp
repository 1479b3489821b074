#include "job/toml_table.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/words.h"

namespace sillwright::job {
namespace {

std::string numberAsWritten(const toml::node& node) {  // of a number only
  if (const auto* integer = node.as_integer()) return std::to_string(integer->get());
  return toText(node.as_floating_point()->get());
}

/// A number within the bounds; otherwise nothing and a note.
std::optional<double> numberOf(const Entry& entry) {
  double value = 0;
  if (const auto* integer = entry.node.as_integer()) {
    value = static_cast<double>(integer->get());  // exact up to 2^53, far beyond any bound
  } else if (const auto* floating = entry.node.as_floating_point()) {
    value = floating->get();
  } else {
    entry.wrongKind();
    return std::nullopt;
  }
  const bool within = value >= entry.holds.from && value <= entry.holds.to;  // false for NaN
  if (within) return value;
  entry.note("must be " + describeBounds(entry.holds) + "; found " + numberAsWritten(entry.node));
  return std::nullopt;
}

/// What each element of a list holds.
Holds elementOf(const Holds& list) {
  Holds element = list;
  element.form = list.form == Form::Texts ? Form::Text : list.form == Form::Words ? Form::Word : Form::Number;
  return element;
}

/// Calls `read(element, index)` for each element of an array of `least` to `most`; otherwise a note.
template <class Read>
void readElements(const Entry& entry, std::size_t least, std::size_t most, Read&& read) {
  const auto* array = entry.node.as_array();
  if (array == nullptr || array->size() < least || array->size() > most) return entry.wrongKind();
  const Holds holds = elementOf(entry.holds);
  for (std::size_t i = 0; i < array->size(); ++i) {
    read(Entry{entry.mistakes, (*array)[i], holds, {&entry.path, {}, i}}, i);
  }
}

/// Calls `read(element)` for each element of a list as long as it may be.
template <class Read>
void readList(const Entry& entry, Read&& read) {
  readElements(entry, entry.holds.least, entry.holds.most, [&](const Entry& element, std::size_t) { read(element); });
}

/// One [x, z] of an outline, whose bounds are those of z.
void readTopPoint(const Entry& entry, std::vector<TopPoint>& into) {
  const auto* point = entry.node.as_array();
  if (point == nullptr || point->size() != 2) {
    return entry.note("must be a point [x, z]; found " + describe(entry.node));
  }
  const auto x = numberOf({entry.mistakes, (*point)[0], mm(0, kLongestWall), {&entry.path, {}, 0}});
  const auto z = numberOf({entry.mistakes, (*point)[1], mm(entry.holds.from, entry.holds.to), {&entry.path, {}, 1}});
  if (x && z) into.push_back({*x, *z});  // else readWall misses one by the count
}

}  // namespace

base::Place placeOf(const toml::node& node) { return {node.source().begin.line, node.source().begin.column}; }

std::string describe(const toml::node& node) {
  if (const auto* string = node.as_string()) return "a string, " + base::quote(string->get());
  if (node.is_number()) return "a number, " + numberAsWritten(node);
  if (const auto* boolean = node.as_boolean()) return boolean->get() ? "true" : "false";
  if (const auto* array = node.as_array()) return "an array of " + std::to_string(array->size());
  if (node.is_table()) return "a table";
  return node.is_date() ? "a date" : node.is_time() ? "a time" : "a date with a time";  // TOML has no other kinds
}

std::string notRising(double found, double before) {
  return "must be above the one before, " + toText(before) + "; found " + toText(found);
}

void Entry::note(std::string say) const { mistakes.add(placeOf(node), path, std::move(say)); }

void Entry::wrongKind() const { note("must be " + describe(holds) + "; found " + describe(node)); }

const toml::table* Entry::table() const {
  const auto* table = node.as_table();
  if (table == nullptr) wrongKind();
  return table;
}

const toml::array* Entry::tables() const {
  const auto* array = node.as_array();
  if (array == nullptr) {
    wrongKind();
  } else if (array->empty() && required) {
    note("there must be at least one; found none");
  } else if (array->size() > holds.most) {  // noted at the first one too many
    mistakes.add(placeOf((*array)[holds.most]), path,
                 "must be at most " + std::to_string(holds.most) + "; found " + std::to_string(array->size()));
  }
  return array;
}

void readValue(const Entry& entry, double& into) {
  if (const auto value = numberOf(entry)) into = *value;
}

void readValue(const Entry& entry, int& into) {
  const auto value = numberOf(entry);
  if (!value) return;
  if (std::trunc(*value) != *value) return entry.wrongKind();  // 2.0 is a whole number
  into = static_cast<int>(*value);
}

void readValue(const Entry& entry, bool& into) {
  if (entry.holds.form == Form::Word) {
    into = wordAt(entry).has_value();
  } else if (const auto* boolean = entry.node.as_boolean()) {
    into = boolean->get();
  } else {
    entry.wrongKind();
  }
}

void readValue(const Entry& entry, Date& into) {
  const auto* date = entry.node.as_date();
  if (date == nullptr) return entry.wrongKind();
  const auto [year, month, day] = date->get();  // the parser has seen to it that there is such a day
  if (year < entry.holds.from || year > entry.holds.to) {
    return entry.note("must be of the year " + describeBounds(entry.holds) + "; found " + std::to_string(year));
  }
  into = Date{year, month, day};
}

void readValue(const Entry& entry, std::string& into) {
  const auto* string = entry.node.as_string();
  if (string == nullptr) return entry.wrongKind();
  const std::string& text = string->get();
  if (text.find_first_not_of(' ') == std::string::npos) return entry.note("must not be empty");  // nor blanks alone
  if (base::holdsControls(text)) {
    return entry.note("must not hold control characters or line ends; found " + base::quote(text));
  }
  const auto length = static_cast<double>(base::countCharacters(text));  // not bytes: names come in any script
  if (length > entry.holds.to) {
    return entry.note("must be at most " + toText(entry.holds.to) + " characters; found " + toText(length));
  }
  into = text;
}

void readValue(const Entry& entry, std::tuple<double&, double&> into) {
  readElements(entry, 2, 2, [&](const Entry& element, std::size_t i) {
    readValue(element, i == 0 ? std::get<0>(into) : std::get<1>(into));
  });
}

void readValue(const Entry& entry, std::vector<double>& into) {
  readList(entry, [&](const Entry& element) {
    const auto value = numberOf(element);
    if (!value) return;
    if (element.holds.strict && !into.empty() && *value <= into.back()) element.note(notRising(*value, into.back()));
    into.push_back(*value);  // also where it doesn't rise: the next is compared with its neighbour
  });
}

void readValue(const Entry& entry, std::vector<std::string>& into) {
  readList(entry, [&](const Entry& element) {
    std::string text;
    readValue(element, text);
    if (text.empty()) return;  // refused, and noted
    if (element.holds.strict && std::count(into.begin(), into.end(), text) > 0) {
      element.note(base::quote(text) + " stands here twice");
    }
    into.push_back(std::move(text));
  });
}

void readValue(const Entry& entry, std::vector<TopPoint>& into) {
  if (entry.node.is_array()) {
    readElements(entry, 2, entry.holds.most, [&](const Entry& point, std::size_t) { readTopPoint(point, into); });
  } else if (const auto z = numberOf(entry)) {
    into = {{0, *z}};  // readWall adds the right end: the length may come later
  }
}

std::optional<std::size_t> wordAt(const Entry& entry) {
  const auto* string = entry.node.as_string();
  if (string == nullptr) {
    entry.wrongKind();
    return std::nullopt;
  }
  const auto& [words, old_words] = std::tie(entry.holds.words, entry.holds.old_words);
  const std::string_view found = string->get();
  const auto at = std::find(words.begin(), words.end(), found);
  if (at != words.end()) return static_cast<std::size_t>(at - words.begin());
  const auto old_at = std::find(old_words.begin(), old_words.end(), found);
  if (!found.empty() && old_at != old_words.end()) {
    entry.note(base::quote(found) + " is now called " + base::quote(words[old_at - old_words.begin()]));
  } else {
    entry.note("must be " + describe(entry.holds) + "; found " + base::quote(found));
  }
  return std::nullopt;
}

std::vector<std::size_t> wordsAt(const Entry& entry) {
  std::vector<std::size_t> found;
  readList(entry, [&](const Entry& element) {
    const auto index = wordAt(element);
    if (!index) return;
    if (element.holds.strict && std::count(found.begin(), found.end(), *index) > 0) {
      return element.note(base::quote(element.holds.words[*index]) + " stands here twice");
    }
    found.push_back(*index);
  });
  return found;
}

void readReadings(const Entry& entry, std::span<std::optional<double>> into) {
  assert(entry.holds.words.size() == into.size());
  if (const auto* inner = entry.node.as_table()) {
    const TableRule rule = readingsTable(entry.holds);
    const TableReader table(entry.mistakes, *inner, rule, entry.path);
    for (std::size_t i = 0; i < into.size(); ++i) table.value(rule.keys[i].name, into[i]);
    return;
  }
  readElements(entry, into.size(), into.size(), [&](const Entry& each, std::size_t i) { readValue(each, into[i]); });
}

TableReader::TableReader(Mistakes& mistakes, const toml::table& table, const TableRule& rule, const Path& path)
    : mistakes_(mistakes), table_(table), rule_(rule), path_(path) {
  assert(rule.keys.size() <= nodes_.size());
  for (const auto& [key, node] : table) {
    if (const KeyRule* known = rule.find(key.str())) {
      nodes_[static_cast<std::size_t>(known - rule.keys.data())] = &node;
      continue;
    }
    const auto begin = key.source().begin;
    mistakes.addUnknownKey({begin.line, begin.column}, {&path, key.str()}, rule);
  }
  const bool is_file = path.parent == nullptr;
  for (std::size_t i = 0; i < rule.keys.size(); ++i) {
    const KeyRule& key = rule.keys[i];
    if (!key.required || nodes_[i] != nullptr) continue;
    if (!key.holds.old_name.empty() && table.contains(key.holds.old_name)) continue;  // noted above
    mistakes.add(is_file ? base::Place{1, 1} : job::placeOf(table_), {&path, key.name},
                 "is missing; it must be " + describe(key.holds));
  }
}

void TableReader::settleHead(const std::optional<Head>& head, double& height) const {
  if (head) height = head->top();
  const bool has_height = at("height") != nullptr;
  const bool has_head = at("head") != nullptr;
  if (has_height && has_head) note("head", "stands in place of height: one of them is to be left out");
  if (has_height || has_head) return;
  mistakes_.add(job::placeOf(table_), {&path_, "height"}, "is missing; it must be " + describe(rule_.at("height")));
}

base::Place TableReader::place() const { return mistakes_.inFile(job::placeOf(table_)); }

base::Place TableReader::placeOf(std::string_view name) const {
  const auto* node = table_.get(name);
  return node == nullptr ? base::Place{} : mistakes_.inFile(job::placeOf(*node));
}

void TableReader::note(std::string_view name, std::string say) const {
  const auto* node = table_.get(name);
  mistakes_.add(node == nullptr ? base::Place{} : job::placeOf(*node), {&path_, name}, std::move(say));
}

}  // namespace sillwright::job
