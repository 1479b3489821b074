#include "job/spell.h"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <cstdio>
#include <span>
#include <tuple>

#include "base/words.h"
#include "job/tables.h"

namespace sillwright::job {

// Written out: clang 14 doesn't survive two types whose defaulted comparisons need each other.
bool operator==(const Part& a, const Part& b) { return a.key == b.key && a.value == b.value; }
bool operator==(const Spelling& a, const Spelling& b) {
  return a.shape == b.shape && a.text == b.text && a.parts == b.parts;
}

namespace {

std::string inQuotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';  // the reader takes no control characters: nothing else needs an escape
    out += c;
  }
  return out + '"';
}

Spelling scalar(std::string text) { return {Shape::Scalar, std::move(text), {}}; }
Spelling word(std::span<const std::string_view> words, std::size_t index) { return scalar(inQuotes(words[index])); }

// One overload for each type of a member, each for what its key holds.

Spelling of(const Holds&, double value) {
  return scalar(toText(value == 0 ? 0.0 : value));  // no minus before a zero
}
Spelling of(const Holds&, int value) { return scalar(std::to_string(value)); }
Spelling of(const Holds& holds, bool value) {
  if (holds.form == Form::Word) return word(holds.words, 0);  // false is left out
  return scalar(value ? "true" : "false");
}
Spelling of(const Holds&, const std::string& value) { return scalar(inQuotes(value)); }
Spelling of(const Holds&, const Date& date) {
  std::array<char, 40> buffer{};  // any three ints have room: the compiler counts
  std::snprintf(buffer.data(), buffer.size(), "%04d-%02d-%02d", date.year, date.month, date.day);
  return scalar(buffer.data());
}
/// An index of a wall: `spell(const Opening&, …)` has its name.
Spelling of(const Holds&, std::size_t) { return {}; }

template <class Enumeration>
requires std::is_enum_v<Enumeration> Spelling of(const Holds& holds, Enumeration value) {
  assert(static_cast<std::size_t>(value) < holds.words.size());  // the key lists a word for each value
  return word(holds.words, static_cast<std::size_t>(value));
}

template <Described T>
Spelling of(const Holds&, const T& value);

template <class T>
Spelling of(const Holds& holds, const std::vector<T>& values) {
  if (values.empty()) return {};  // an empty list is left out
  Spelling list{Shape::List, {}, {}};
  for (const T& value : values) list.parts.push_back({{}, of(holds, value)});
  return list;
}

Spelling of(const Holds& holds, std::tuple<const double&, const double&> pair) {
  const auto [first, second] = pair;  // the usual (0, 0) is left out
  return first == 0 && second == 0 ? Spelling{} : of(holds, std::vector<double>{first, second});
}

Spelling of(const Holds& holds, const std::vector<TopPoint>& top) {
  Spelling outline{Shape::Outline, {}, {}};
  for (const TopPoint& point : top) outline.parts.push_back({{}, of(holds, std::vector<double>{point.x, point.z})});
  return outline;
}

template <std::size_t N>
Spelling of(const Holds& holds, const std::array<std::optional<double>, N>& values) {
  assert(holds.words.size() == N);
  Spelling all{Shape::Readings, {}, {}};
  for (std::size_t i = 0; i < N; ++i) {
    all.parts.push_back({holds.words[i], values[i] ? of(holds, *values[i]) : Spelling{}});
  }
  const bool none = values == std::array<std::optional<double>, N>{};
  return none ? Spelling{} : all;
}

template <class A, Described B>
Spelling of(const Holds& holds, const std::variant<A, B>& value) {
  return std::visit([&](const auto& one) { return of(holds, one); }, value);
}

/// Spells a struct by its description.
template <class T>
class Speller {
 public:
  explicit Speller(const T& value) : value_(value) {}

  void header(std::string_view) { spelling.shape = Shape::Section; }
  void place(base::Place T::*) {}
  void place(std::string_view, base::Place T::*) {}

  template <class Member>
  void operator()(std::string_view name, Member member, const Holds& holds, std::string_view) {
    spelling.parts.push_back({name, spell(holds, std::invoke(member, value_))});
    if constexpr (Headed<T>) {
      if (name == "height" && value_.head) spelling.parts.back().value = {};  // it is that of the head
    }
  }

  Spelling spelling{Shape::Table, {}, {}};

 private:
  template <class Value>
  static Spelling spell(const Holds& holds, const Value& value) {
    return holds.needed == false && value == Value{} ? Spelling{} : of(holds, value);  // the usual value needs no line
  }
  template <class Value>
  static Spelling spell(const Holds& holds, const std::optional<Value>& value) {
    return value ? of(holds, *value) : Spelling{};
  }
  static Spelling spell(const Holds& holds, std::tuple<const double&, const double&> pair) { return of(holds, pair); }

  const T& value_;
};

template <Described T>
Spelling of(const Holds&, const T& value) {
  Speller<T> keys(value);
  T::describe(keys);
  return std::move(keys.spelling);
}

bool isLevel(const Spelling& outline) {
  return outline.parts.size() == 2 && outline.parts[0].value.parts[1] == outline.parts[1].value.parts[1];
}

std::string listText(const Spelling& list) {
  return "[" + base::joined(list.parts, ", ", [](const Part& part) { return inlineText(part.value); }) + "]";
}

std::string tableText(const Spelling& value) {
  std::string out;
  for (const auto& [key, inner] : value.parts) {
    if (inner.shape == Shape::Absent) continue;
    out.append(out.empty() ? " " : ", ").append(key).append(" = ").append(inlineText(inner));
  }
  return out.empty() ? "{}" : "{" + out + " }";
}

}  // namespace

Spelling spell(const Job& job) { return of({}, job); }

Spelling spell(const Wall& wall) { return of({}, wall); }

Spelling spell(const Opening& opening, const std::string& wall) {
  Spelling all = of({}, opening);
  for (Part& part : all.parts) {  // the description has the wall's index only
    if (part.key == "wall") part.value = of({}, wall);
  }
  return all;
}

Spelling spell(const Unit& unit) { return of({}, unit); }

Spelling spell(const Measured& measured) { return of({}, measured); }

Spelling spell(const Stock& stock) { return of({}, stock); }

bool isComplete(const Spelling& value) {
  return std::none_of(value.parts.begin(), value.parts.end(),
                      [](const Part& part) { return part.value.shape == Shape::Absent; });
}

std::string inlineText(const Spelling& value) {
  switch (value.shape) {
    case Shape::Absent:
    case Shape::Scalar:
      return value.text;
    case Shape::List:
      return listText(value);
    case Shape::Outline:
      return isLevel(value) ? value.parts[0].value.parts[1].value.text : listText(value);
    case Shape::Readings:
      return isComplete(value) ? listText(value) : tableText(value);
    case Shape::Table:
    case Shape::Section:
      return tableText(value);
  }
  return {};
}

std::string sectionText(const std::string& name, bool one_of_many, const Spelling& table, std::string_view line_end) {
  std::string out = (one_of_many ? "[[" + name + "]]" : "[" + name + "]").append(line_end);
  std::size_t widest = 0;
  for (const auto& [key, value] : table.parts) {
    const bool is_line = value.shape != Shape::Absent && value.shape != Shape::Section;  // sections come last
    if (is_line) widest = std::max(widest, key.size());
  }
  for (const auto& [key, value] : table.parts) {
    if (value.shape == Shape::Absent || value.shape == Shape::Section) continue;
    out.append(key).append(widest - key.size(), ' ').append(" = ").append(inlineText(value)).append(line_end);
  }
  for (const auto& [key, value] : table.parts) {
    if (value.shape != Shape::Section) continue;
    out.append(line_end).append(sectionText(name + "." + std::string(key), false, value, line_end));
  }
  return out;
}

}  // namespace sillwright::job
