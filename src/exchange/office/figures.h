/// Figures as offices write them: "2,430", "2.430,5", "2110 mm", 8'-0 1/2", "1.2 m"; and yes and no.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "job/rule.h"

namespace sillwright::exchange {

enum class LengthUnit : std::uint8_t { Millimetres, Centimetres, Metres, Inches, Feet };
inline constexpr std::string_view kLengthUnits[] = {"mm", "cm", "m", "in", "ft"};

/// The unit that a word or a sign stands for: "mm", "inches", "\"".
[[nodiscard]] std::optional<LengthUnit> lengthUnit(std::string_view word);

/// What we call something, and what others call it.
struct Term {
  std::string ours;
  std::string theirs{};  ///< Those names, ", " between them.
  std::string asks{};    ///< The term is not ours yet: what is to be told, "the unit's, or the framed opening's?"

  static void describe(auto& keys) {
    keys("ours", &Term::ours, job::text(100), "The program's own word.");
    keys("theirs", &Term::theirs, job::text(2'000).optional(), "What it is called, \", \" between the names.");
    keys("asks", &Term::asks, job::text(200).optional(), "What is asked of whoever says so.");
  }
};
using Terms = std::span<const Term>;
/// The term of these words; nullptr: none.
[[nodiscard]] const Term* termOf(std::string_view words, Terms terms);
/// Ours for a word of theirs; where it is none, the word itself.
[[nodiscard]] std::string_view sameWord(std::string_view word, Terms terms);
/// Whether the words stand in a list with ", " between its own.
[[nodiscard]] bool isListed(std::string_view words, std::string_view list);

/// What stands before, between and behind the marks.
[[nodiscard]] std::vector<std::string_view> splitAt(std::string_view text, std::string_view mark);

/// How the figures of a column are written.
struct Written {
  std::optional<LengthUnit> unit;  ///< Of those that name none; empty: mm.
  bool decimal_comma = false;      ///< The file has decimals after a comma.
};

/// Without blanks and characters of that kind (no-break, line ends) round it; "-", "–" and "n/a" are nothing said.
[[nodiscard]] std::string saidIn(std::string_view text);

/// In lower case (a to z), signs as blanks, single blanks between the words: "R.O. Width (mm)" to "r o width mm".
[[nodiscard]] std::string plainWords(std::string_view text);

/// A number. A comma before three digits parts thousands; else the last of comma and point begins the decimals.
[[nodiscard]] std::optional<double> numberIn(std::string_view text, bool decimal_comma);

/// A length in mm. Empty too where it can't be told whether metres are meant: "1.200" in a column of mm.
[[nodiscard]] std::optional<double> lengthIn(std::string_view text, const Written& written);

/// Y, yes, TRUE, 1, x, ✓; N, no, FALSE, 0.
[[nodiscard]] std::optional<bool> yesOrNoIn(std::string_view text);

}  // namespace sillwright::exchange
