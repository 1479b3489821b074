/// The keys of one table of a practice file, while it is read.
///
/// A table is read by asking for each key that may stand in it; `finish` then answers every key that nobody asked for
/// with the nearest one that was. So each key's name stands once, beside the member it fills. What is wrong is written
/// to the Log and reading goes on, so that all errors of a file come back together. Private to this room: the headers
/// of toml++ stay inside it.
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/error.h"
#include "practice/display.h"
#include "practice/figure.h"

namespace sillwright::practice {

/// The errors found so far.
struct Log {
  std::string file;
  std::vector<job::Error> errors;

  void add(const toml::source_region& where, std::string key, std::string say);
};

/// What a figure of one kind is measured in, and the bounds that no sane figure leaves.
struct Kind {
  const char* unit;
  double least;
  double most;
  bool whole = false;
};

inline constexpr Kind kLength{"mm", 0, 100'000};
inline constexpr Kind kPart{"mm", 0.01, 100'000};  ///< A length that can't be nothing.
inline constexpr Kind kCount{"1", 0, 100, true};
inline constexpr Kind kPieces{"1", 1, 100, true};
inline constexpr Kind kRatio{"1", 0, 1'000};
inline constexpr Kind kYesNo{"1", 0, 1, true};
inline constexpr Kind kAngle{"deg", 0, 90};
inline constexpr Kind kArea{"m2", 0, 1'000};
inline constexpr Kind kSpeed{"m/s", 0, 200};
inline constexpr Kind kPressure{"kPa", 0, 100};
inline constexpr Kind kStress{"N/mm2", 0, 1'000'000};
inline constexpr Kind kDensity{"kg/m3", 0, 20'000};
inline constexpr Kind kMass{"kg", 0, 1'000};
inline constexpr Kind kForce{"N", 0, 1'000'000};

class Fields {
 public:
  Fields(Log& log, const toml::table& table, std::string path);

  /// Each `required…` reports a key that is not there; the others leave their target as it is.
  void figure(const char* key, const Kind& kind, Figure& into);
  void rule(const char* key, const Kind& kind, Rule& into);
  void measure(const char* key, const Kind& kind, Measure& into);
  /// A single figure for every size, or an array of figures with a rising `up_to`.
  void bands(const char* key, const Kind& kind, Bands& into);
  /// A table of figures whose keys are names of wind classes.
  void byClass(const char* key, const Kind& kind, ByClass& into);
  void requiredText(const char* key, std::string& into);
  void text(const char* key, std::string& into);
  /// A text that must be one of `words`: its index.
  std::optional<std::size_t> word(const char* key, const std::vector<std::string_view>& words, bool required);
  void requiredLength(const char* key, double& into);
  /// Lengths above 0, strictly rising, at least one.
  void requiredLengths(const char* key, std::vector<double>& into);
  /// Texts, none empty, none twice.
  void texts(const char* key, std::vector<std::string>& into, bool required);

  /// Two keys of which one says nothing without the other.
  void together(const char* key, const char* other);

  /// A table inside this one; missing: one error for the whole of it.
  template <class Read>
  void group(const char* key, Read read) {
    if (const toml::table* found = tableAt(key, true)) {
      Fields inner(*log_, *found, pathTo(key));
      read(inner);
      inner.finish();
    }
  }

  template <class Read>
  void groupIfThere(const char* key, Read read) {
    if (const toml::table* found = tableAt(key, false)) {
      Fields inner(*log_, *found, pathTo(key));
      read(inner);
      inner.finish();
    }
  }

  /// Each table of an array of tables, in order. Not there: none.
  template <class Read>
  void each(const char* key, Read read) {
    if (const toml::array* found = arrayAt(key, false)) {
      for (std::size_t i = 0; i < found->size(); ++i) {
        const std::string path = pathTo(key) + "[" + std::to_string(i) + "]";
        if (const toml::table* table = asTable((*found)[i], path)) {
          Fields inner(*log_, *table, path);
          read(inner);
          inner.finish();
        }
      }
    }
  }

  /// Reports the keys that were not asked for.
  void finish();

  /// Reports something wrong with the value of a key (or with the table, where the key is empty or not there).
  void wrong(std::string_view key, std::string say);
  [[nodiscard]] bool has(const char* key) const { return table_->contains(key); }

 private:
  [[nodiscard]] std::string pathTo(std::string_view key) const;
  const toml::node* ask(const char* key, bool required);
  const toml::table* tableAt(const char* key, bool required);
  const toml::array* arrayAt(const char* key, bool required);
  const toml::table* asTable(const toml::node& node, const std::string& path);
  bool readFigure(const toml::table& table, const std::string& path, const Kind& kind, Figure& into, double* up_to);

  Log* log_;
  const toml::table* table_;
  std::string path_;
  std::vector<const char*> asked_;
};

}  // namespace sillwright::practice
