/// Inside the room (and for readers of other files of ours): reading one table of a TOML file by its rule.
///
/// Only readers include this: it brings toml++ with it.
///
/// A TableReader notes unknown and missing keys when it is made; each of its functions then reads one key into a
/// value, and notes what the rule doesn't allow. A key that is left out, or noted, leaves the value as it was.
/// The name that is asked for must be a key of the rule.
#pragma once

#include <toml++/toml.h>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"
#include "job/mistakes.h"
#include "job/rule.h"

namespace sillwright::job {

[[nodiscard]] base::Place placeOf(const toml::node& node);

/// What stands there, to follow "found": `a number, 5.5`, `a string, "north"`, `an array of 3`.
[[nodiscard]] std::string describe(const toml::node& node);

// A node by itself, as `holds` allows; otherwise nothing, and a note.
[[nodiscard]] std::optional<double> readNumber(Mistakes& mistakes, const toml::node& node, const Holds& holds,
                                               const Path& path);
[[nodiscard]] std::optional<std::string> readText(Mistakes& mistakes, const toml::node& node, const Holds& holds,
                                                  const Path& path);
/// Index in `holds.words`.
[[nodiscard]] std::optional<std::size_t> readWord(Mistakes& mistakes, const toml::node& node, const Holds& holds,
                                                  const Path& path);
/// Notes that the node is not of the kind, or an array not of the size, that is allowed.
void addWrongKind(Mistakes& mistakes, const toml::node& node, const Holds& holds, const Path& path);

class TableReader {
 public:
  /// All must outlive the reader.
  TableReader(Mistakes& mistakes, const toml::table& table, const TableRule& rule, const Path& path);

  void number(std::string_view name, double& into) const;
  void number(std::string_view name, std::optional<double>& into) const;
  void whole(std::string_view name, int& into) const;
  void truth(std::string_view name, std::optional<bool>& into) const;
  void date(std::string_view name, std::optional<Date>& into) const;
  void text(std::string_view name, std::string& into) const;
  void text(std::string_view name, std::optional<std::string>& into) const;
  void pair(std::string_view name, double& first, double& second) const;
  void numbers(std::string_view name, std::vector<double>& into) const;
  void texts(std::string_view name, std::vector<std::string>& into) const;

  /// A word of an enumeration whose enumerators are in the order of the rule's words.
  template <class Enumeration>
  void word(std::string_view name, Enumeration& into) const {
    if (const auto index = wordIndex(name)) into = static_cast<Enumeration>(*index);
  }
  template <class Enumeration>
  void word(std::string_view name, std::optional<Enumeration>& into) const {
    if (const auto index = wordIndex(name)) into = static_cast<Enumeration>(*index);
  }

  /// Readings, some of which may be left out.
  template <std::size_t N>
  void readings(std::string_view name, std::array<std::optional<double>, N>& into) const {
    readReadings(name, into.data(), N);
  }

  /// Calls `read(const TableReader&)` for the table under the key.
  template <class Read>
  void table(std::string_view name, Read&& read) const {
    const auto [node, holds, path] = at(name);
    if (node == nullptr) return;
    if (const auto* inner = node->as_table()) {
      read(TableReader(mistakes_, *inner, *holds->table, path));
    } else {
      addWrongKind(mistakes_, *node, *holds, path);
    }
  }

  /// The same for a table that is a value of its own: `into` is only filled where the key is there.
  template <class T, class Read>
  void table(std::string_view name, std::optional<T>& into, Read&& read) const {
    table(name, [&](const TableReader& inner) { read(inner, into.emplace()); });
  }

  /// Calls `read(const TableReader&, T&)` for each table of an array of tables, and appends what it reads. Tables
  /// past the most that the rule allows are noted once and not read.
  template <class T, class Read>
  void tables(std::string_view name, std::vector<T>& into, Read&& read) const {
    const auto [node, holds, path] = at(name);
    const toml::array* array = tablesUnder(node, holds, path);
    if (array == nullptr) return;
    const std::size_t count = array->size() < holds->most ? array->size() : holds->most;
    into.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
      const Path element{&path, {}, i};
      T& value = into.emplace_back();
      if (const auto* inner = (*array)[i].as_table()) {
        read(TableReader(mistakes_, *inner, *holds->table, element), value);
      } else {
        addWrongKind(mistakes_, (*array)[i], *holds, element);
      }
    }
  }

  /// Of the table: its header, or its opening brace.
  [[nodiscard]] base::Place place() const;
  /// Of a key's value; line 0 where the key is left out.
  [[nodiscard]] base::Place placeOf(std::string_view name) const;
  /// Notes a mistake at a key's value.
  void add(std::string_view name, std::string say) const;

  /// A key for those who read it by themselves. `node` is null where the key is left out.
  struct Found {
    const toml::node* node;
    const Holds* holds;
    Path path;
  };
  [[nodiscard]] Found at(std::string_view name) const;
  [[nodiscard]] Mistakes& mistakes() const { return mistakes_; }

 private:
  [[nodiscard]] std::optional<std::size_t> wordIndex(std::string_view name) const;
  void readReadings(std::string_view name, std::optional<double>* into, std::size_t count) const;
  [[nodiscard]] const toml::array* tablesUnder(const toml::node* node, const Holds* holds, const Path& path) const;

  Mistakes& mistakes_;
  const toml::table& table_;
  const TableRule& rule_;
  const Path& path_;
};

}  // namespace sillwright::job
