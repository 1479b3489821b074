/// Inside the room: The keys of one table of a practice file, while it is read.
///
/// A table is read by asking for each key that may stand in it; `finish` then notes every key that nobody asked for,
/// with the nearest one that was. So each key's name stands once, beside the member it fills. What is wrong is noted
/// and reading goes on, so that all mistakes of a file come back together. Numbers, texts and words are read by the
/// job's own readers, so that both files are answered in one voice. Internal: includes toml++.
#pragma once

#include <toml++/toml.h>

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "job/mistakes.h"
#include "job/rule.h"
#include "job/toml_table.h"
#include "practice/figure.h"

namespace sillwright::practice {

/// What figures of one kind are measured in, and the bounds that no sane figure leaves.
struct Kind {
  std::string_view unit;
  job::Holds value;
};

inline constexpr Kind kLength{"mm", job::mm(0, 100'000)};
inline constexpr Kind kPart{"mm", job::mm(0.01, 100'000)};  ///< A length that can't be nothing.
inline constexpr Kind kCount{"1", job::whole(0, 100)};
inline constexpr Kind kPieces{"1", job::whole(1, 100)};
inline constexpr Kind kRatio{"1", job::number(0, 1'000, "")};
inline constexpr Kind kShare{"1", job::number(0, 1, "")};
inline constexpr Kind kYesNo{"1", job::whole(0, 1)};
inline constexpr Kind kAngle{"deg", job::number(0, 89, "deg")};
inline constexpr Kind kArea{"m2", job::number(0.001, 1'000, "m2")};
inline constexpr Kind kSpeed{"m/s", job::number(1, 200, "m/s")};
inline constexpr Kind kPressure{"kPa", job::number(0.001, 100, "kPa")};
inline constexpr Kind kStress{"N/mm2", job::number(0.01, 1'000'000, "N/mm2")};
inline constexpr Kind kDensity{"kg/m3", job::number(0.1, 20'000, "kg/m3")};
inline constexpr Kind kMass{"kg", job::number(0.1, 1'000, "kg")};
inline constexpr Kind kForce{"N", job::number(0, 1'000'000, "N")};
inline constexpr Kind kCentimetres{"cm", job::number(0, 1'000, "cm")};
inline constexpr Kind kPerCentimetre{"1/cm", job::number(0, 1, "1/cm")};
inline constexpr Kind kPerDegree{"1/deg", job::number(0, 1, "1/deg")};

class Fields {
 public:
  /// All must outlive this.
  Fields(job::Mistakes& mistakes, const toml::table& table, const job::Path& path);

  // Each reads one key. A key that is left out, or noted, leaves its target as it was; `figure`, `measure`, and what
  // is called required note a key that is left out.

  void figure(std::string_view key, const Kind& kind, Figure& into);
  void rule(std::string_view key, const Kind& kind, Rule& into);
  /// A table { usual, least }, or a single figure: the usual.
  void measure(std::string_view key, const Kind& kind, Measure& into);
  /// A single figure for every size, or an array of figures with a rising `up_to`.
  void bands(std::string_view key, const Kind& kind, Bands& into);
  /// A table of figures whose keys are names of wind classes.
  void byClass(std::string_view key, const Kind& kind, ByClass& into);
  void requiredText(std::string_view key, std::string& into);
  void text(std::string_view key, std::string& into);
  void requiredNumber(std::string_view key, const job::Holds& holds, double& into);
  /// The index of the word that stands there.
  std::optional<std::size_t> requiredWord(std::string_view key, std::span<const std::string_view> words);
  std::optional<std::size_t> word(std::string_view key, std::span<const std::string_view> words);
  /// Lengths, strictly rising. Whether nothing was noted.
  bool requiredLengths(std::string_view key, std::vector<double>& into);
  /// Texts, none twice.
  void texts(std::string_view key, std::vector<std::string>& into);
  void requiredTexts(std::string_view key, std::vector<std::string>& into);
  /// `up_to` of one of several tables, which has to be above that of the table before it (0 where there is none).
  void upTo(double before, double& into);

  /// Two keys of which one says nothing without the other.
  void together(std::string_view key, std::string_view other);
  /// Notes something wrong with the value of a key, or with the table where the key is left out.
  void wrong(std::string_view key, std::string say);
  [[nodiscard]] bool has(std::string_view key) const { return table_.contains(key); }

  /// Calls `read(Fields&)` for the table under the key, and finishes it. Required.
  template <class Read>
  void group(std::string_view key, Read&& read) {
    readTable(ask(key, true, "a table of its own"), key, read);
  }

  /// The same where the key may be left out.
  template <class Read>
  void groupIfThere(std::string_view key, Read&& read) {
    readTable(ask(key, false, ""), key, read);
  }

  /// Calls `read(Fields&, T&)` for each table of an array of tables, and appends what it reads.
  template <class T, class Read>
  void each(std::string_view key, std::vector<T>& into, Read&& read) {
    const toml::array* array = arrayAt(key, "an array of tables");
    for (std::size_t i = 0; array != nullptr && i < array->size(); ++i) {
      const job::Path parent{&path_, key};
      const job::Path path{&parent, {}, i};
      if (const toml::table* table = asTable((*array)[i], path)) {
        Fields inner(mistakes_, *table, path);
        read(inner, into.emplace_back());
        inner.finish();
      }
    }
  }

  /// Notes the keys that were not asked for.
  void finish();

 private:
  template <class Read>
  void readTable(const toml::node* node, std::string_view key, Read& read) {
    const job::Path path{&path_, key};
    if (const toml::table* table = node == nullptr ? nullptr : asTable(*node, path)) {
      Fields inner(mistakes_, *table, path);
      read(inner);
      inner.finish();
    }
  }

  const toml::node* ask(std::string_view key, bool required, std::string_view must_be);
  const toml::node* ask(std::string_view key, bool required, const job::Holds& holds);
  const toml::array* arrayAt(std::string_view key, std::string_view must_be);
  const toml::table* asTable(const toml::node& node, const job::Path& path);

  job::Mistakes& mistakes_;
  const toml::table& table_;
  const job::Path& path_;
  std::vector<job::KeyRule> asked_;
};

}  // namespace sillwright::practice
