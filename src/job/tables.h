/// The rule of a table, made of the description that its struct gives (rule.h).
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "job/job.h"
#include "job/rule.h"

namespace sillwright::job {

template <class T>
class RuleMaker;

/// A struct that is one table of a file.
template <class T>
concept Described = requires(RuleMaker<T>& keys) {
  T::describe(keys);
};

/// The rule of a struct's table, made at the first call.
template <class T>
[[nodiscard]] const TableRule& tableOf();

/// The whole job file: its [job], [[wall]], [[opening]] and [stock].
[[nodiscard]] const TableRule& fileTable();

/// Whether a key whose member is of this type may be left out.
template <class Value>
inline constexpr bool kMayLack = false;
template <class T>
inline constexpr bool kMayLack<std::optional<T>> = true;
template <class T>
inline constexpr bool kMayLack<std::vector<T>> = true;
template <std::size_t N>
inline constexpr bool kMayLack<std::array<std::optional<double>, N>> = true;

/// The table that stands under a key whose member is of this type, or may stand there instead of a word.
template <class Value>
struct TableUnder {
  static const TableRule* find() {
    if constexpr (Described<Value>) return &tableOf<Value>();
    return nullptr;
  }
};
template <class T>
struct TableUnder<std::optional<T>> : TableUnder<T> {};
template <class T>
struct TableUnder<std::vector<T>> : TableUnder<T> {};
template <class A, class B>
struct TableUnder<std::variant<A, B>> : TableUnder<B> {};

/// Collects a description into a rule. All visitors of a description have these four members.
template <class T>
class RuleMaker {
 public:
  /// How the table's header is written; not called for inline tables.
  void header(std::string_view header) { rule.header = header; }
  /// The member that takes the place of the table's header, or of a key's value.
  void place(base::Place T::*) {}
  void place(std::string_view, base::Place T::*) {}

  /// `member` is a pointer to a member of T, or a function that gives a reference to what is deeper in it.
  template <class Member>
  void operator()(std::string_view name, Member, Holds holds, std::string_view about) {
    using Value = std::remove_cvref_t<std::invoke_result_t<Member, T&>>;
    if (holds.table == nullptr) holds.table = TableUnder<Value>::find();
    rule.keys.push_back({name, holds, holds.needed.value_or(!kMayLack<Value>), about});
  }

  TableRule rule;
};

template <class T>
const TableRule& tableOf() {
  static const TableRule kRule = [] {
    RuleMaker<T> keys;
    T::describe(keys);
    return std::move(keys.rule);
  }();
  return kRule;
}

}  // namespace sillwright::job
