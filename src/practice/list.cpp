#include "practice/practice.h"

#include <cmath>

#include "job/tables.h"

namespace sillwright::practice {

namespace {

/// A value under its key, and where what is found in it goes.
struct Found {
  Listed listed;
  std::vector<Listed>& out;

  [[nodiscard]] Found under(std::string key) const {
    Found deeper = *this;  // it keeps what the tables above it told
    deeper.listed.key = std::move(key);
    return deeper;
  }
  [[nodiscard]] Found in(const std::string& element) const { return under(listed.key + "[" + element + "]"); }
};

template <class T>
void list(const Found&, T&) {}  // A word, a text, a list of sizes: not a figure.

void list(const Found& found, Figure& figure) {
  found.out.push_back(found.listed);
  found.out.back().figure = &figure;
}

void list(const Found& found, Rule& rule) {
  if (rule) list(found, *rule);
}

void list(const Found& found, Measure& measure) {
  list(found, measure.usual);
  list(found.under(found.listed.key + ".least"), measure.least);
}

void list(const Found& found, Bands& bands) {
  for (Band& band : bands.bands) {
    list(std::isinf(band.up_to) ? found : found.in("to " + job::toText(band.up_to)), band.figure);
  }
}

void list(const Found& found, ByClass& by_class) {
  for (ClassFigure& entry : by_class.entries) {
    Found one = found.under(found.listed.key + "." + entry.wind);  // the class is a key of the file
    one.listed.wind = entry.wind;
    list(one, entry.figure);
  }
}

template <job::Described T>
void list(const Found& found, T& table);

/// What tells an element of an array from the others.
template <class T>
std::string elementName(const T& element, std::size_t index) {
  if constexpr (requires { element.name; }) return element.name;  // unlike a number it stays when others are added
  if constexpr (requires { element.header; }) return element.header + ", " + element.carries;
  if constexpr (requires { element.up_to; }) return "to " + job::toText(element.up_to);
  return std::to_string(index + 1);
}

template <job::Described T>
void list(const Found& found, std::vector<T>& tables) {
  for (std::size_t i = 0; i < tables.size(); ++i) {
    Found one = found.in(elementName(tables[i], i));
    if constexpr (std::is_same_v<T, WindClass>) one.listed.wind = tables[i].name;
    if constexpr (std::is_same_v<T, HeatLimit>) one.listed.heat = tables[i].name;
    if constexpr (std::is_same_v<T, Bushfire>) one.listed.bushfire = tables[i].name;
    if constexpr (std::is_same_v<T, TimberGrade>) one.listed.grade = &tables[i];
    if constexpr (std::is_same_v<T, Gauge>) one.listed.gauge = &tables[i];
    if constexpr (std::is_same_v<T, SpanEntry>) one.listed.span = &tables[i];
    list(one, tables[i]);
  }
}

/// Lists a table by its description.
template <class T>
struct Lister {
  const Found& at;
  T& table;

  void header(std::string_view) {}

  template <class Member>
  void operator()(std::string_view name, Member member, const job::Holds& holds, std::string_view about) {
    const std::string& key = at.listed.key;
    Found found = at.under((key.empty() ? key : key + ".") + std::string(name));
    found.listed.about = about;
    found.listed.holds = holds;
    decltype(auto) value = std::invoke(member, table);  // a member's reference, or what a function gives
    list(found, value);
  }
};

template <job::Described T>
void list(const Found& found, T& table) {
  Lister<T> keys{found, table};
  T::describe(keys);
}

}  // namespace

std::vector<Listed> figuresOf(Practice& practice) {
  std::vector<Listed> all;
  list(Found{{}, all}, practice);
  return all;
}

}  // namespace sillwright::practice
