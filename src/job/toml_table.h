/// Inside the room (and for readers of other files of ours): reading the tables of a TOML file by their descriptions.
///
/// Only readers include this: it brings toml++ with it. A text comes to a tree first, or to the one mistake that stops
/// it.
///
/// A TableReader notes unknown and missing keys when it is made; `read` then fills a struct by its description. A key
/// that is left out, or noted, leaves its member as it was.
#pragma once

#include <toml++/toml.h>

#include <array>
#include <cassert>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <variant>
#include <vector>

#include "job/job.h"
#include "job/mistakes.h"
#include "job/rule.h"
#include "job/tables.h"

namespace sillwright::job {

/// Why a text is no TOML, without file and key.
struct SyntaxFault {
  base::Place at;
  std::string say;
};

/// Parses TOML 1.0. A byte order mark and CRLF line ends are fine and don't count in places.
///
/// toml++ stops at its first mistake, so there is one. Two things are looked at before it: that the text is UTF-8
/// (to name the very byte), and that no key has more than 16 dotted parts, because a tree as deep as a long enough
/// key overflows the stack when it is taken down.
[[nodiscard]] std::variant<toml::table, SyntaxFault> parseToml(std::string_view text);

[[nodiscard]] base::Place placeOf(const toml::node& node);

/// What stands there, to follow "found": `a number, 5.5`, `a string, "north"`, `an array of 3`.
[[nodiscard]] std::string describe(const toml::node& node);

/// What to say of a number, or the last of several sizes, that is not above the one before.
[[nodiscard]] std::string notRising(double found, double before);

/// A value that is to be read, and what it may be. All but the path must outlive it.
struct Entry {
  Mistakes& mistakes;
  const toml::node& node;
  const Holds& holds;
  Path path;
  bool required = false;

  void note(std::string say) const;
  /// Notes that the node is not of the kind, or an array not of the size, that is allowed.
  void wrongKind() const;
  /// The table that stands here; otherwise null and a note.
  [[nodiscard]] const toml::table* table() const;
  /// The array of tables that stands here, with a note where there are too few or too many; otherwise null and a note.
  [[nodiscard]] const toml::array* tables() const;
};

// Each reads what `entry.holds` allows, or notes what is wrong and leaves `into` as it was. The overloads for the
// figures of a practice are in that room.
void readValue(const Entry& entry, double& into);
void readValue(const Entry& entry, int& into);
/// Of a Word: whether it is there.
void readValue(const Entry& entry, bool& into);
void readValue(const Entry& entry, Date& into);
void readValue(const Entry& entry, std::string& into);
void readValue(const Entry& entry, std::tuple<double&, double&> into);
void readValue(const Entry& entry, std::vector<double>& into);
void readValue(const Entry& entry, std::vector<std::string>& into);
/// An outline. A height alone is one point, at 0.
void readValue(const Entry& entry, std::vector<TopPoint>& into);
/// An index of something that the entry names: for whoever knows the names.
inline void readValue(const Entry&, std::size_t&) {}

/// Index in `entry.holds.words`.
[[nodiscard]] std::optional<std::size_t> wordAt(const Entry& entry);
[[nodiscard]] std::vector<std::size_t> wordsAt(const Entry& entry);
void readReadings(const Entry& entry, std::span<std::optional<double>> into);

class TableReader {
 public:
  /// All must outlive the reader.
  TableReader(Mistakes& mistakes, const toml::table& table, const TableRule& rule, const Path& path);

  /// Every key of the description, which must be that of the rule.
  template <Described T>
  void read(T& into) const;

  /// Calls `read(Entry)` with the value of a key, of those of the rule, where there is one.
  template <class Read>
  void with(const KeyRule& key, Read&& read) const {
    const auto* node = nodes_[static_cast<std::size_t>(&key - rule_.keys.data())];
    if (node != nullptr) read(Entry{mistakes_, *node, key.holds, {&path_, key.name}, key.required});
  }
  /// One key's value; none where the rule has no such key.
  template <class Value>
  void value(std::string_view name, Value&& into) const {
    if (const KeyRule* key = rule_.find(name)) with(*key, [&](const Entry& entry) { readValue(entry, into); });
  }
  /// Calls `read(const TableReader&, T&)` for each table of the array under the key, and appends what it reads.
  template <class T, class Read>
  void tables(std::string_view name, std::vector<T>& into, Read&& read) const {
    if (const KeyRule* key = rule_.find(name)) with(*key, [&](const Entry& entry) { readTables(entry, into, read); });
  }

  /// Of the table: its header, or its opening brace.
  [[nodiscard]] base::Place place() const;
  /// Of a key's value; line 0 where the key is left out.
  [[nodiscard]] base::Place placeOf(std::string_view name) const;
  /// Notes a mistake at a key's value.
  void note(std::string_view name, std::string say) const;
  /// The value of a key, or null.
  [[nodiscard]] const toml::node* at(std::string_view name) const { return table_.get(name); }
  [[nodiscard]] const TableRule& rule() const { return rule_; }
  [[nodiscard]] Mistakes& mistakes() const { return mistakes_; }
  [[nodiscard]] const Path& path() const { return path_; }

 private:
  /// The height is that of the head where one is given; one of them must be.
  void settleHead(const std::optional<Head>& head, double& height) const;

  Mistakes& mistakes_;
  const toml::table& table_;
  const TableRule& rule_;
  const Path& path_;
  std::array<const toml::node*, 40> nodes_{};  ///< As the rule's keys: each is looked for once; null where it is none.
};

/// Tables past the most that the rule allows are not read.
template <class T, class Read>
void readTables(const Entry& entry, std::vector<T>& into, Read&& read) {
  const toml::array* array = entry.tables();
  const std::size_t count = array == nullptr ? 0 : std::min(array->size(), entry.holds.most);
  into.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    const Entry element{entry.mistakes, (*array)[i], entry.holds, {&entry.path, {}, i}};
    T& value = into.emplace_back();
    if (const auto* table = element.table()) {
      read(TableReader(entry.mistakes, *table, *entry.holds.table, element.path), value);
    }
  }
}

template <class Enumeration>
requires std::is_enum_v<Enumeration>
void readValue(const Entry& entry, Enumeration& into) {
  if (const auto index = wordAt(entry)) into = static_cast<Enumeration>(*index);
}

/// Several words, none twice.
template <class Enumeration>
requires std::is_enum_v<Enumeration>
void readValue(const Entry& entry, std::vector<Enumeration>& into) {
  for (const std::size_t index : wordsAt(entry)) into.push_back(static_cast<Enumeration>(index));
}

template <std::size_t N>
void readValue(const Entry& entry, std::array<std::optional<double>, N>& into) {
  readReadings(entry, into);
}

template <Described T>
void readValue(const Entry& entry, T& into) {
  if (const auto* table = entry.table()) {
    TableReader(entry.mistakes, *table, *entry.holds.table, entry.path).read(into);
  }
}

template <Described T>
void readValue(const Entry& entry, std::vector<T>& into) {
  readTables(entry, into, [](const TableReader& table, T& value) { table.read(value); });
}

/// A value, or a table in its stead.
template <class A, Described B>
void readValue(const Entry& entry, std::variant<A, B>& into) {
  if (entry.node.is_table()) {
    readValue(entry, into.template emplace<B>());
  } else {
    readValue(entry, into.template emplace<A>());
  }
}

template <class T>
void readValue(const Entry& entry, std::optional<T>& into) {
  readValue(entry, into.emplace());
}

/// Fills a struct by its description.
template <class T>
class KeyFiller {
 public:
  KeyFiller(const TableReader& table, T& into) : table_(table), into_(into) {}

  void header(std::string_view) {}
  void place(base::Place T::*member) { into_.*member = table_.place(); }
  void place(std::string_view key, base::Place T::*member) { into_.*member = table_.placeOf(key); }

  template <class Member>
  void operator()(std::string_view name, Member member, const Holds&, std::string_view) {
    const KeyRule& key = table_.rule().keys[next_++];
    assert(key.name == name);
    table_.with(key, [&](const Entry& entry) {
      decltype(auto) value = std::invoke(member, into_);
      readValue(entry, value);
    });
  }

 private:
  const TableReader& table_;
  T& into_;
  std::size_t next_ = 0;
};

template <Described T>
void TableReader::read(T& into) const {
  KeyFiller<T> keys(*this, into);
  T::describe(keys);
  if constexpr (Headed<T>) settleHead(into.head, into.height);
}

/// A file that its description says all about.
template <Described T>
base::Result<T> readDescribed(std::string_view text, std::string file) {
  const auto tree = parseToml(text);
  if (const auto* fault = std::get_if<SyntaxFault>(&tree)) return {{}, {{std::move(file), fault->at, "", fault->say}}};
  Mistakes mistakes(std::move(file), &tableOf<T>());
  T value;
  const Path root;
  TableReader(mistakes, std::get<toml::table>(tree), tableOf<T>(), root).read(value);
  if (!mistakes.empty()) return {{}, std::move(mistakes).take()};
  return {std::move(value), {}};
}

}  // namespace sillwright::job
