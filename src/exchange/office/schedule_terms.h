/// What offices call the columns of a window schedule, its kinds, rooms and glass. Common words of the trade, no
/// source.
#pragma once

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/office/columns.h"
#include "takeoff/order.h"

namespace sillwright::exchange {

/// Columns that only others' schedules have; those of ours are in takeoff/order.h.
namespace column {
inline constexpr std::string_view kHead = "head";  ///< Height of the opening's head: tells the sill where none is told.
/// Two figures in one field, in this order.
inline constexpr std::string_view kUnitSize = "unit width x height";
inline constexpr std::string_view kUnitSizeTurned = "unit height x width";
inline constexpr std::string_view kFramedSize = "framed width x height";
inline constexpr std::string_view kFramedSizeTurned = "framed height x width";
}  // namespace column

/// Of the order list, and passed over.
inline constexpr std::string_view kPassedOver[] = {
    takeoff::column::kHold,        takeoff::column::kSizesOf,     takeoff::column::kMassFrom,
    takeoff::column::kReveal,      takeoff::column::kSafetyAsked, takeoff::column::kOrderWidth,
    takeoff::column::kOrderHeight, takeoff::column::kBasedOn,     takeoff::column::kSpare,
    takeoff::column::kChance,      takeoff::column::kPeople,      takeoff::column::kUValueAsked,
    takeoff::column::kLabelAsked,  takeoff::column::kFixing,      takeoff::column::kGlassByLight,
    takeoff::column::kParts};

[[nodiscard]] Terms scheduleTerms();
[[nodiscard]] Terms kindTerms();
[[nodiscard]] Terms handTerms();
/// "Bed 2" is a bedroom, the laundry a wet area; a room that isn't in it is none of ours.
[[nodiscard]] Terms roomTerms();

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
