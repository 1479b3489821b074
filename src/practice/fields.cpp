#include "practice/fields.h"

#include <algorithm>
#include <cstdint>
#include <limits>

#include "base/words.h"

namespace sillwright::practice {

namespace {

using base::quote;
using job::toText;

constexpr std::string_view kNoSource = "common practice, no source";
constexpr job::Holds kWords = job::text(300);
constexpr job::Holds kUpTo = kPart.value;

/// The keys of a figure; those of a band have `up_to` as well.
std::array<job::KeyRule, 8> figureKeys(const Kind& kind) {
  return {job::required("value", kind.value), job::required("unit", job::word({&kind.unit, 1})),
          job::required("source", kWords),    job::required("status", job::word(kStatusWords)),
          job::allowed("clause", kWords),     job::allowed("edition", kWords),
          job::allowed("note", kWords),       job::required("up_to", kUpTo)};
}

/// Source and status have to agree.
void checkSource(const job::TableReader& table, const Figure& figure) {
  const bool sourceless = figure.source == kNoSource;
  if (figure.source.empty()) {
    return;  // noted already
  }
  if (figure.status == Status::CommonPractice && !sourceless) {
    table.add("source",
              "must be " + quote(kNoSource) + " with status \"common practice\"; found " + quote(figure.source));
  } else if (figure.status != Status::CommonPractice && sourceless) {
    table.add("status", "must be \"common practice\" without a source; found " + quote(toWord(figure.status)));
  }
}

/// Reads a figure; `up_to` is null where it is no band.
void readFigure(job::Mistakes& mistakes, const toml::table& node, const job::Path& path, const Kind& kind, Figure& into,
                double* up_to) {
  const auto keys = figureKeys(kind);
  const job::TableRule rule{"figure", "", std::span(keys).first(up_to == nullptr ? keys.size() - 1 : keys.size())};
  const job::TableReader table(mistakes, node, rule, path);
  if (kind.value.form == job::Form::Whole) {
    int whole = 0;
    table.whole("value", whole);
    into.value = whole;
  } else {
    table.number("value", into.value);
  }
  if (up_to != nullptr) {
    table.number("up_to", *up_to);
  }
  enum class Unit : std::uint8_t { TheOne };
  Unit unit = Unit::TheOne;
  table.word("unit", unit);
  into.unit = kind.unit;
  table.text("source", into.source);
  table.text("clause", into.clause);
  table.text("edition", into.edition);
  table.text("note", into.note);
  std::optional<Status> status;
  table.word("status", status);
  if (status) {
    into.status = *status;
    checkSource(table, into);
  }
}

std::string notRising(double found, double before) {
  return "must be above the one before, " + toText(before) + "; found " + toText(found);
}

}  // namespace

Fields::Fields(job::Mistakes& mistakes, const toml::table& table, const job::Path& path)
    : mistakes_(mistakes), table_(table), path_(path) {}

const toml::node* Fields::ask(std::string_view key, bool required, std::string_view must_be) {
  asked_.push_back({key, required, {}});
  const toml::node* found = table_.get(key);
  if (found == nullptr && required) {
    const bool is_file = path_.parent == nullptr;
    mistakes_.add(is_file ? base::Place{} : job::placeOf(table_), {&path_, key},
                  "is missing; it must be " + std::string(must_be));
  }
  return found;
}

const toml::node* Fields::ask(std::string_view key, bool required, const job::Holds& holds) {
  return ask(key, required, std::string_view(required && !has(key) ? job::describe(holds) : std::string()));
}

const toml::table* Fields::asTable(const toml::node& node, const job::Path& path) {
  if (const toml::table* table = node.as_table()) {
    return table;
  }
  mistakes_.add(job::placeOf(node), path, "must be a table; found " + job::describe(node));
  return nullptr;
}

const toml::array* Fields::arrayAt(std::string_view key, std::string_view must_be) {
  const toml::node* found = ask(key, false, "");
  if (found == nullptr) {
    return nullptr;
  }
  if (found->as_array() == nullptr) {
    wrong(key, "must be " + std::string(must_be) + "; found " + job::describe(*found));
  }
  return found->as_array();
}

void Fields::wrong(std::string_view key, std::string say) {
  const toml::node* at = table_.get(key);
  mistakes_.add(job::placeOf(at == nullptr ? table_ : *at), {&path_, key}, std::move(say));
}

void Fields::figure(std::string_view key, const Kind& kind, Figure& into) {
  const toml::node* node = ask(key, true, "a figure { value, unit, source, status }");
  const job::Path path{&path_, key};
  if (const toml::table* table = node == nullptr ? nullptr : asTable(*node, path)) {
    readFigure(mistakes_, *table, path, kind, into, nullptr);
  }
}

void Fields::rule(std::string_view key, const Kind& kind, Rule& into) {
  if (has(key)) {
    figure(key, kind, into.emplace());
  } else {
    ask(key, false, "");
  }
}

void Fields::measure(std::string_view key, const Kind& kind, Measure& into) {
  const toml::table* table = table_[key].as_table();
  if (table != nullptr && table->contains("value")) {
    figure(key, kind, into.usual);
    return;
  }
  group(key, [&](Fields& fields) {
    fields.figure("usual", kind, into.usual);
    fields.rule("least", kind, into.least);
    if (fields.has("usual") && into.least && into.usual.value < into.least->value) {
      fields.wrong("usual",
                   "must not be below least, " + toText(into.least->value) + "; found " + toText(into.usual.value));
    }
  });
}

void Fields::bands(std::string_view key, const Kind& kind, Bands& into) {
  const toml::node* node = ask(key, false, "");
  if (node == nullptr) {
    return;
  }
  const job::Path path{&path_, key};
  if (const toml::table* single = node->as_table()) {
    into.bands = {{std::numeric_limits<double>::infinity(), {}}};
    readFigure(mistakes_, *single, path, kind, into.bands.front().figure, nullptr);
    return;
  }
  const toml::array* array = node->as_array();
  if (array == nullptr || array->empty()) {
    wrong(key, "must be a figure, or an array of figures with a rising up_to; found " +
                   (array == nullptr ? job::describe(*node) : "an empty array"));
    return;
  }
  double before = 0;
  for (std::size_t i = 0; i < array->size(); ++i) {
    const job::Path element{&path, {}, i};
    if (const toml::table* table = asTable((*array)[i], element)) {
      Band& band = into.bands.emplace_back();
      readFigure(mistakes_, *table, element, kind, band.figure, &band.up_to);
      if (band.up_to > 0 && band.up_to <= before) {
        Fields(mistakes_, *table, element).wrong("up_to", notRising(band.up_to, before));
      }
      before = band.up_to;
    }
  }
}

void Fields::byClass(std::string_view key, const Kind& kind, ByClass& into) {
  const toml::node* node = ask(key, false, "");
  const job::Path path{&path_, key};
  const toml::table* table = node == nullptr ? nullptr : asTable(*node, path);
  if (table == nullptr) {
    return;
  }
  for (const auto& [name, value] : *table) {
    const job::Path at{&path, name.str()};
    if (const toml::table* figure = asTable(value, at)) {
      ClassFigure& entry = into.entries.emplace_back();
      entry.wind = name.str();
      readFigure(mistakes_, *figure, at, kind, entry.figure, nullptr);
    }
  }
}

void Fields::requiredText(std::string_view key, std::string& into) {
  if (const toml::node* node = ask(key, true, kWords)) {
    into = job::readText(mistakes_, *node, kWords, {&path_, key}).value_or("");
  }
}

void Fields::text(std::string_view key, std::string& into) {
  if (const toml::node* node = ask(key, false, kWords)) {
    into = job::readText(mistakes_, *node, kWords, {&path_, key}).value_or("");
  }
}

void Fields::requiredNumber(std::string_view key, const job::Holds& holds, double& into) {
  if (const toml::node* node = ask(key, true, holds)) {
    into = job::readNumber(mistakes_, *node, holds, {&path_, key}).value_or(0);
  }
}

std::optional<std::size_t> Fields::requiredWord(std::string_view key, std::span<const std::string_view> words) {
  const job::Holds holds = job::word(words);
  const toml::node* node = ask(key, true, holds);
  return node == nullptr ? std::nullopt : job::readWord(mistakes_, *node, holds, {&path_, key});
}

std::optional<std::size_t> Fields::word(std::string_view key, std::span<const std::string_view> words) {
  if (has(key)) {
    return requiredWord(key, words);
  }
  ask(key, false, "");
  return std::nullopt;
}

bool Fields::requiredLengths(std::string_view key, std::vector<double>& into) {
  const std::string_view must_be = "an array of rising lengths, mm";
  const toml::array* array = has(key) ? arrayAt(key, must_be) : nullptr;
  if (array == nullptr) {
    if (!has(key)) {
      ask(key, true, must_be);
    }
    return false;
  }
  const job::Path path{&path_, key};
  bool good = !array->empty();
  if (array->empty()) {
    wrong(key, "must be " + std::string(must_be) + "; found an empty array");
  }
  for (std::size_t i = 0; i < array->size(); ++i) {
    const job::Path element{&path, {}, i};
    const toml::node& node = (*array)[i];
    const std::optional<double> value = job::readNumber(mistakes_, node, kPart.value, element);
    const bool rises = !value || into.empty() || *value > into.back();
    if (!rises) {
      mistakes_.add(job::placeOf(node), element, notRising(*value, into.back()));
    }
    good = good && value && rises;
    if (value) {
      into.push_back(*value);
    }
  }
  return good;
}

void Fields::texts(std::string_view key, std::vector<std::string>& into) {
  const job::Path path{&path_, key};
  const toml::array* array = arrayAt(key, "an array of texts");
  for (std::size_t i = 0; array != nullptr && i < array->size(); ++i) {
    const job::Path element{&path, {}, i};
    const toml::node& node = (*array)[i];
    const std::optional<std::string> words = job::readText(mistakes_, node, kWords, element);
    if (words && std::find(into.begin(), into.end(), *words) != into.end()) {
      mistakes_.add(job::placeOf(node), element, quote(*words) + " stands here twice");
    }
    if (words) {
      into.push_back(*words);
    }
  }
}

void Fields::requiredTexts(std::string_view key, std::vector<std::string>& into) {
  if (!has(key)) {
    ask(key, true, "an array of texts");
    return;
  }
  texts(key, into);
  const toml::array* array = table_[key].as_array();
  if (array != nullptr && array->empty()) {
    wrong(key, "must be an array of texts; found an empty array");
  }
}

void Fields::upTo(double before, double& into) {
  requiredNumber("up_to", kUpTo, into);
  if (into > 0 && into <= before) {
    wrong("up_to", notRising(into, before));
  }
}

void Fields::together(std::string_view key, std::string_view other) {
  if (has(key) != has(other)) {
    wrong(has(key) ? key : other, "says nothing without " + quote(has(key) ? other : key));
  }
}

void Fields::finish() {
  const job::TableRule rule{"practice", "", asked_};
  for (const auto& [key, node] : table_) {
    if (rule.find(key.str()) == nullptr) {
      const auto begin = key.source().begin;
      mistakes_.addUnknownKey({begin.line, begin.column}, {&path_, key.str()}, rule);
    }
  }
}

}  // namespace sillwright::practice
