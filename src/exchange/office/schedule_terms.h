/// What offices call the columns of a window schedule, its kinds, rooms and glass, and what was measured.
#pragma once

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/office/columns.h"

namespace sillwright::exchange {

/// Columns that only others' schedules have; those of ours are in takeoff/order.h.
namespace column {
inline constexpr std::string_view kHead = "head";  ///< Height of the opening's head: tells the sill where none is told.
/// Two figures in one field, in this order.
inline constexpr std::string_view kUnitSize = "unit width x height";
inline constexpr std::string_view kUnitSizeTurned = "unit height x width";
inline constexpr std::string_view kFramedSize = "framed width x height";
inline constexpr std::string_view kFramedSizeTurned = "framed height x width";
inline constexpr std::string_view kKilograms = "weight kg", kPounds = "weight lb";  ///< As an order list's heading is.
}  // namespace column

/// assets/schedule/words.toml.
struct OfficeWords {
  std::vector<Term> heading_words, columns, kinds, hands, rooms, glass, measured, reading_words;
  std::string passed_over, idle;

  static void describe(auto& keys) {
    constexpr job::Holds kTerms = job::tables(1'000);
    keys("heading_word", &OfficeWords::heading_words, kTerms, "Single words of headings.");
    keys("column", &OfficeWords::columns, kTerms,
         "Columns, in the order they are told in; read, they have those passed over behind them.");
    keys("kind", &OfficeWords::kinds, kTerms, "Kinds of units.");
    keys("hand", &OfficeWords::hands, kTerms, "The hand.");
    keys("room", &OfficeWords::rooms, kTerms,
         "\"Bed 2\" is a bedroom, the laundry a wet area; others are none of ours.");
    keys("glass", &OfficeWords::glass, kTerms, "Single words about glass: single, double, triple, safety, obscure.");
    keys("measured_column", &OfficeWords::measured, kTerms, "Columns of a table of what was measured.");
    keys("reading_word", &OfficeWords::reading_words, kTerms, "Single words that tell a reading.");
    keys("passed_over", &OfficeWords::passed_over, job::text(2'000), "Columns that are known and tell nothing here.");
    keys("idle", &OfficeWords::idle, job::text(2'000).optional(), "Words in a field that tell nothing.");
  }
};
/// Read once. Throws std::runtime_error, its mistakes told as a job's are, where the file can't be read.
[[nodiscard]] const OfficeWords& officeWords();

/// "W1, W2 & W3": the names of as many things; where there are not as many, the text with a number behind it.
[[nodiscard]] std::vector<std::string> namesIn(const std::string& text, std::size_t count);

/// What one of the job file's words stands for; empty: it is none of them.
template <class Word>
[[nodiscard]] std::optional<Word> oneOf(std::span<const std::string_view> words, std::string_view said) {
  const auto at = std::find(words.begin(), words.end(), said);
  return at == words.end() ? std::nullopt : std::optional(static_cast<Word>(at - words.begin()));
}

/// Our word for what stands in a field; empty: none. Numbers behind it ("Bed 2") and words that tell nothing
/// ("window", "aluminium") don't count.
[[nodiscard]] std::string_view ourWord(std::string_view said, Terms terms);

/// What the words of a field about glass tell: "6.38 lam", "4/12/4 toughened, obscure".
struct GlassWords {
  std::optional<double> thickness;  ///< Of the thickest pane.
  std::optional<int> panes;
  bool safety = false, obscure = false;
};
[[nodiscard]] GlassWords glassIn(std::string_view said, bool decimal_comma);

/// How a unit is divided and what its panels do: "fixed over awning", "F | A", "OXXO", "3L1R", "4 panel stacker".
struct LightsSaid {
  std::optional<job::UnitKind> kind;  ///< Of its first light that opens. Empty: letters or panels alone.
  std::vector<job::Light> lights;     ///< Empty: one.
  std::size_t rows = 1;
  std::string configuration;
  std::optional<int> panels;
  std::string asks;  ///< What is to be told before it is understood.
};
[[nodiscard]] LightsSaid lightsIn(std::string_view said);

}  // namespace sillwright::exchange
