#include "practice/fields.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace sillwright::practice {

namespace {

constexpr std::string_view kNoSource = "common practice, no source";

std::string quoted(std::string_view words) {
  return '"' + std::string(words) + '"';
}

/// Edits (insert, drop, change a letter) from one word to the other.
std::size_t edits(std::string_view from, std::string_view to) {
  std::vector<std::size_t> row(to.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < from.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < to.size(); ++j) {
      const std::size_t change = diagonal + (from[i] == to[j] ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({change, row[j] + 1, row[j + 1] + 1});
    }
  }
  return row.back();
}

/// `nearest: "x"` where one of the words is near enough to be what was meant, else the whole list.
template <class Words>
std::string suggest(std::string_view found, const Words& words) {
  std::string_view nearest;
  std::size_t least = std::max<std::size_t>(2, found.size() / 3) + 1;
  for (const std::string_view word : words) {
    const std::size_t distance = edits(found, word);
    if (distance < least) {
      least = distance;
      nearest = word;
    }
  }
  if (!nearest.empty()) {
    return "nearest known: " + quoted(nearest);
  }
  std::string list;
  for (const std::string_view word : words) {
    list += (list.empty() ? "" : ", ") + quoted(word);
  }
  return "known here: " + list;
}

const char* typeOf(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "an array";
    case toml::node_type::string:
      return "a text";
    case toml::node_type::integer:
      return "a whole number";
    case toml::node_type::floating_point:
      return "a number";
    case toml::node_type::boolean:
      return "true or false";
    case toml::node_type::date:
      return "a date";
    case toml::node_type::time:
      return "a time";
    case toml::node_type::date_time:
      return "a date and time";
    case toml::node_type::none:
      break;
  }
  return "nothing";
}

std::string expected(const char* what, const toml::node& found) {
  return "expected " + std::string(what) + ", found " + typeOf(found);
}

/// A finite number, or the sentence that says why it is none.
std::optional<double> numberIn(const toml::node& node, std::string& why) {
  double number = 0;
  if (const auto* whole = node.as_integer()) {
    number = static_cast<double>(whole->get());
  } else if (const auto* real = node.as_floating_point()) {
    number = real->get();
  } else {
    why = expected("a number", node);
    return std::nullopt;
  }
  if (!std::isfinite(number)) {
    why = std::string(std::isnan(number) ? "nan" : "infinity") + " is not a size";
    return std::nullopt;
  }
  return number;
}

std::string outside(double value, const Kind& kind) {
  return plainNumber(value) + " is out of bounds: from " + plainNumber(kind.least) + " to " + plainNumber(kind.most);
}

std::optional<Status> statusOf(std::string_view word) {
  for (const Status status : {Status::Published, Status::CommonPractice, Status::Memory}) {
    if (word == toWord(status)) {
      return status;
    }
  }
  return std::nullopt;
}

/// What a figure's words must satisfy together; empty: nothing is wrong. `key` names the key that is.
std::string wrongWords(const Figure& figure, const char*& key) {
  key = "source";
  if (figure.source.empty()) {
    return "the source is empty; a figure without one says " + quoted(kNoSource);
  }
  const bool sourceless = figure.source == kNoSource;
  if (figure.status == Status::CommonPractice && !sourceless) {
    return "with status \"common practice\" the source is " + quoted(kNoSource);
  }
  if (figure.status != Status::CommonPractice && sourceless) {
    key = "status";
    return "without a source the status is \"common practice\"";
  }
  return {};
}

}  // namespace

void Log::add(const toml::source_region& where, std::string key, std::string say) {
  errors.push_back({file, {where.begin.line, where.begin.column}, std::move(key), std::move(say)});
}

Fields::Fields(Log& log, const toml::table& table, std::string path)
    : log_(&log), table_(&table), path_(std::move(path)) {}

std::string Fields::pathTo(std::string_view key) const {
  if (path_.empty() || key.empty()) {
    return path_ + std::string(key);
  }
  return path_ + "." + std::string(key);
}

const toml::node* Fields::ask(const char* key, bool required) {
  asked_.push_back(key);
  const toml::node* found = table_->get(key);
  if (found == nullptr && required) {
    log_->add(table_->source(), pathTo(key), "missing; it has to be given");
  }
  return found;
}

const toml::table* Fields::asTable(const toml::node& node, const std::string& path) {
  if (const toml::table* table = node.as_table()) {
    return table;
  }
  log_->add(node.source(), path, expected("a table", node));
  return nullptr;
}

const toml::table* Fields::tableAt(const char* key, bool required) {
  const toml::node* found = ask(key, required);
  return found == nullptr ? nullptr : asTable(*found, pathTo(key));
}

const toml::array* Fields::arrayAt(const char* key, bool required) {
  const toml::node* found = ask(key, required);
  if (found == nullptr) {
    return nullptr;
  }
  if (found->as_array() == nullptr) {
    log_->add(found->source(), pathTo(key), expected("an array", *found));
  }
  return found->as_array();
}

void Fields::wrong(std::string_view key, std::string say) {
  const toml::node* at = key.empty() ? nullptr : table_->get(key);
  log_->add(at == nullptr ? table_->source() : at->source(), pathTo(key), std::move(say));
}

bool Fields::readFigure(const toml::table& table, const std::string& path, const Kind& kind, Figure& into,
                        double* up_to) {
  const std::size_t errors = log_->errors.size();
  Fields fields(*log_, table, path);
  if (up_to != nullptr) {
    fields.requiredLength("up_to", *up_to);
  }
  if (const toml::node* node = fields.ask("value", true)) {
    std::string why;
    const std::optional<double> value = numberIn(*node, why);
    if (value && (*value < kind.least || *value > kind.most)) {
      why = outside(*value, kind);
    } else if (value && kind.whole && *value != std::floor(*value)) {
      why = plainNumber(*value) + " is not a whole number";
    }
    if (!why.empty()) {
      fields.wrong("value", why);
    }
    into.value = value.value_or(0);
  }
  fields.requiredText("unit", into.unit);
  fields.requiredText("source", into.source);
  std::string status;
  fields.requiredText("status", status);
  fields.text("clause", into.clause);
  fields.text("edition", into.edition);
  fields.text("note", into.note);
  fields.finish();
  if (table.contains("unit") && !into.unit.empty() && into.unit != kind.unit) {
    fields.wrong("unit", "the unit here is " + quoted(kind.unit) + ", found " + quoted(into.unit));
  }
  const std::optional<Status> known = statusOf(status);
  if (!status.empty() && !known) {
    fields.wrong("status",
                 quoted(status) + " is not a status; known here: \"published\", \"common practice\", \"memory\"");
  } else if (known && table.contains("source")) {
    into.status = *known;
    const char* key = "";
    if (const std::string why = wrongWords(into, key); !why.empty()) {
      fields.wrong(key, why);
    }
  }
  return log_->errors.size() == errors;
}

void Fields::figure(const char* key, const Kind& kind, Figure& into) {
  if (const toml::table* table = tableAt(key, true)) {
    readFigure(*table, pathTo(key), kind, into, nullptr);
  }
}

void Fields::rule(const char* key, const Kind& kind, Rule& into) {
  if (const toml::table* table = tableAt(key, false)) {
    into.emplace();
    readFigure(*table, pathTo(key), kind, *into, nullptr);
  }
}

void Fields::measure(const char* key, const Kind& kind, Measure& into) {
  group(key, [&](Fields& fields) {
    fields.figure("usual", kind, into.usual);
    fields.rule("least", kind, into.least);
    if (fields.has("usual") && into.least && into.usual.value < into.least->value) {
      fields.wrong("usual", plainNumber(into.usual.value) + " is below the least of " + plainNumber(into.least->value));
    }
  });
}

void Fields::bands(const char* key, const Kind& kind, Bands& into) {
  const toml::node* node = ask(key, false);
  if (node == nullptr) {
    return;
  }
  if (const toml::table* single = node->as_table()) {
    Band band{std::numeric_limits<double>::infinity(), {}};
    readFigure(*single, pathTo(key), kind, band.figure, nullptr);
    into.bands = {band};
    return;
  }
  const toml::array* array = node->as_array();
  if (array == nullptr || array->empty()) {
    wrong(key, array != nullptr ? "expected at least one band" : expected("a table or an array of tables", *node));
    return;
  }
  for (std::size_t i = 0; i < array->size(); ++i) {
    const std::string path = pathTo(key) + "[" + std::to_string(i) + "]";
    const toml::table* table = asTable((*array)[i], path);
    if (table == nullptr) {
      continue;
    }
    Band band;
    if (readFigure(*table, path, kind, band.figure, &band.up_to) && !into.bands.empty() &&
        band.up_to <= into.bands.back().up_to) {
      Fields(*log_, *table, path)
          .wrong("up_to",
                 "bands rise: " + plainNumber(band.up_to) + " is not above " + plainNumber(into.bands.back().up_to));
    }
    into.bands.push_back(std::move(band));
  }
}

void Fields::byClass(const char* key, const Kind& kind, ByClass& into) {
  const toml::table* table = tableAt(key, false);
  if (table == nullptr) {
    return;
  }
  const std::string path = pathTo(key);
  for (const auto& [name, node] : *table) {
    ClassFigure entry{std::string(name.str()), {}};
    const std::string at = path + "." + entry.wind;
    if (const toml::table* figure = asTable(node, at)) {
      readFigure(*figure, at, kind, entry.figure, nullptr);
    }
    into.entries.push_back(std::move(entry));
  }
}

void Fields::text(const char* key, std::string& into) {
  const toml::node* node = ask(key, false);
  if (node == nullptr) {
    return;
  }
  if (const auto* words = node->as_string()) {
    into = words->get();
  } else {
    wrong(key, expected("a text", *node));
  }
}

void Fields::requiredText(const char* key, std::string& into) {
  if (!table_->contains(key)) {
    ask(key, true);
    return;
  }
  text(key, into);
  if (into.empty() && (*table_)[key].is_string() && std::string_view(key) != "source") {
    wrong(key, "expected a text, found an empty one");
  }
}

std::optional<std::size_t> Fields::word(const char* key, const std::vector<std::string_view>& words, bool required) {
  std::string found;
  if (required) {
    requiredText(key, found);
  } else {
    text(key, found);
  }
  if (found.empty()) {
    return std::nullopt;
  }
  const auto at = std::find(words.begin(), words.end(), found);
  if (at == words.end()) {
    wrong(key, quoted(found) + " is not one of its words; " + suggest(found, words));
    return std::nullopt;
  }
  return static_cast<std::size_t>(at - words.begin());
}

void Fields::requiredLength(const char* key, double& into) {
  const toml::node* node = ask(key, true);
  if (node == nullptr) {
    return;
  }
  std::string why;
  const std::optional<double> value = numberIn(*node, why);
  if (value && (*value <= 0 || *value > kLength.most)) {
    why = plainNumber(*value) + " is out of bounds: above 0, to " + plainNumber(kLength.most);
  }
  if (!why.empty()) {
    wrong(key, why);
  }
  into = value.value_or(0);
}

void Fields::requiredLengths(const char* key, std::vector<double>& into) {
  const toml::array* array = arrayAt(key, true);
  if (array == nullptr) {
    return;
  }
  if (array->empty()) {
    wrong(key, "expected at least one length");
  }
  for (std::size_t i = 0; i < array->size(); ++i) {
    std::string why;
    const toml::node& node = (*array)[i];
    const std::optional<double> value = numberIn(node, why);
    if (value && (*value <= 0 || *value > kLength.most)) {
      why = plainNumber(*value) + " is out of bounds: above 0, to " + plainNumber(kLength.most);
    } else if (value && !into.empty() && *value <= into.back()) {
      why = "lengths rise: " + plainNumber(*value) + " is not above " + plainNumber(into.back());
    }
    if (!why.empty()) {
      log_->add(node.source(), pathTo(key) + "[" + std::to_string(i) + "]", why);
    }
    into.push_back(value.value_or(0));
  }
}

void Fields::texts(const char* key, std::vector<std::string>& into, bool required) {
  const toml::array* array = arrayAt(key, required);
  if (array == nullptr) {
    return;
  }
  for (std::size_t i = 0; i < array->size(); ++i) {
    const toml::node& node = (*array)[i];
    const auto* words = node.as_string();
    std::string why;
    if (words == nullptr) {
      why = expected("a text", node);
    } else if (words->get().empty()) {
      why = "expected a text, found an empty one";
    } else if (std::find(into.begin(), into.end(), words->get()) != into.end()) {
      why = quoted(words->get()) + " stands here twice";
    }
    if (!why.empty()) {
      log_->add(node.source(), pathTo(key) + "[" + std::to_string(i) + "]", why);
    }
    into.push_back(words == nullptr ? std::string() : words->get());
  }
}

void Fields::together(const char* key, const char* other) {
  if (has(key) != has(other)) {
    wrong(has(key) ? key : other, "says nothing without " + quoted(has(key) ? other : key));
  }
}

void Fields::finish() {
  for (const auto& [key, node] : *table_) {
    const std::string_view name = key.str();
    if (std::find(asked_.begin(), asked_.end(), name) == asked_.end()) {
      log_->add(key.source(), pathTo(name), "unknown key; " + suggest(name, asked_));
    }
  }
}

}  // namespace sillwright::practice
