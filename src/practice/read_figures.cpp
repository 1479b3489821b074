#include "practice/read_figures.h"

#include <limits>

#include "base/words.h"

namespace sillwright::practice {

namespace {

using base::quote;
using job::toText;

constexpr std::string_view kNoSource = "common practice, no source";

/// The keys of a figure; those of a band have `up_to` as well.
job::TableRule figureTable(const job::Holds& figure, const std::string_view& unit, bool is_band) {
  job::Holds value = figure;
  value.form = figure.form == job::Form::WholeFigure ? job::Form::Whole : job::Form::Number;
  job::TableRule rule{"", {}};
  rule.keys = {{"value", value, true},  {"unit", job::word({&unit, 1}), true},
               {"source", kText, true}, {"status", job::word(kStatusWords), true},
               {"clause", kText},       {"edition", kText},
               {"note", kText}};
  if (is_band) rule.keys.push_back({"up_to", kUpTo, true});
  return rule;
}

/// Source and status have to agree.
void checkSource(const job::TableReader& table, const Figure& figure) {
  const bool sourceless = figure.source == kNoSource;
  if (figure.source.empty()) return;  // noted already
  if (figure.status == Status::CommonPractice && !sourceless) {
    table.note("source",
               "must be " + quote(kNoSource) + " with status \"common practice\"; found " + quote(figure.source));
  } else if (figure.status != Status::CommonPractice && sourceless) {
    table.note("status", "must be \"common practice\" without a source; found " + quote(toWord(figure.status)));
  }
}

/// Reads a figure; `up_to` is null where it is no band.
void readFigure(const job::Entry& entry, Figure& into, double* up_to) {
  const toml::table* node = entry.table();
  if (node == nullptr) return;
  const std::string_view unit = unitOf(entry.holds);
  const job::TableRule rule = figureTable(entry.holds, unit, up_to != nullptr);
  const job::TableReader table(entry.mistakes, *node, rule, entry.path);
  if (entry.holds.form == job::Form::WholeFigure) {
    int whole = 0;
    table.value("value", whole);
    into.value = whole;
  } else {
    table.value("value", into.value);
  }
  if (up_to != nullptr) table.value("up_to", *up_to);
  enum class Unit : std::uint8_t { TheOne } the_one = Unit::TheOne;
  table.value("unit", the_one);
  into.unit = unit;
  table.value("source", into.source);
  table.value("clause", into.clause);
  table.value("edition", into.edition);
  table.value("note", into.note);
  std::optional<Status> status;
  table.value("status", status);
  if (!status) return;
  into.status = *status;
  checkSource(table, into);
}

}  // namespace

void readValue(const job::Entry& entry, Figure& into) {
  readFigure(entry, into, nullptr);
}

void readValue(const job::Entry& entry, Measure& into) {
  const toml::table* node = entry.table();
  if (node == nullptr) return;
  if (node->contains("value")) return readValue(entry, into.usual);
  const job::TableRule rule{"", {{"usual", entry.holds, true}, {"least", entry.holds}}};
  const job::TableReader table(entry.mistakes, *node, rule, entry.path);
  table.value("usual", into.usual);
  table.value("least", into.least);
  if (node->contains("usual") && into.least && into.usual.value < into.least->value) {
    table.note("usual",
               "must not be below least, " + toText(into.least->value) + "; found " + toText(into.usual.value));
  }
}

void readValue(const job::Entry& entry, Bands& into) {
  if (entry.node.is_table()) {
    into.bands = {{std::numeric_limits<double>::infinity(), {}}};
    return readValue(entry, into.bands.front().figure);
  }
  const toml::array* array = entry.node.as_array();
  if (array == nullptr || array->empty()) {
    return entry.note("must be a figure, or an array of figures with a rising up_to; found " +
                      (array == nullptr ? job::describe(entry.node) : "an empty array"));
  }
  double before = 0;
  for (std::size_t i = 0; i < array->size(); ++i) {
    const job::Entry element{entry.mistakes, (*array)[i], entry.holds, {&entry.path, {}, i}};
    Band& band = into.bands.emplace_back();
    readFigure(element, band.figure, &band.up_to);
    if (band.up_to > 0 && band.up_to <= before) {
      const job::Entry up_to{entry.mistakes, *(*array)[i].as_table()->get("up_to"), kUpTo, {&element.path, "up_to"}};
      up_to.note(job::notRising(band.up_to, before));
    }
    if (band.up_to > 0) before = band.up_to;
  }
}

void readValue(const job::Entry& entry, ByClass& into) {
  const toml::table* table = entry.table();
  if (table == nullptr) return;
  for (const auto& [name, node] : *table) {
    ClassFigure& figure = into.entries.emplace_back();
    figure.wind = name.str();
    readValue({entry.mistakes, node, entry.holds, {&entry.path, name.str()}}, figure.figure);
  }
}

}  // namespace sillwright::practice
