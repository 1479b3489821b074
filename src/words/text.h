/// Sentences put together: counts, lists and capitals, and what must stay on one line.
#pragma once

#include <array>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::words {

/// "1 stud", "2 studs"; with `many`: "1 person", "2 people".
[[nodiscard]] std::string count(long number, const std::string& one, const std::string& many = {});

/// "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& texts, const char* last = " and ");

/// First letter large; letters of the practice's own words beyond a to z stay as they are.
[[nodiscard]] std::string capital(std::string text);

/// The text with blanks that do not break (U+00A0) between a figure and its unit, its fraction or its sign, so that a
/// line ends before or after the whole: "12.5 mm", "60 1/4 in", "1510 × 1040 mm", "5 %".
[[nodiscard]] std::string unbroken(std::string text);

/// The text in lines that fit, as unbroken has it; a single word that does not fit is a line. Blanks that do not break
/// are plain blanks again. A line that ends in the text ends here.
[[nodiscard]] std::string wrapped(std::string_view text, const std::function<bool(std::string_view line)>& fits);

// Names of kinds and parts, in the practice's words where it has one.

/// "sliding window", "hinged door".
[[nodiscard]] const char* nameOf(job::UnitKind kind);

/// What a unit is called: its kind, or of one in several lights "window in 3 lights", "door in 2 lights".
[[nodiscard]] std::string unitName(job::UnitKind kind, const std::vector<job::Light>& lights);

/// "2026-03-14".
[[nodiscard]] std::string dateWords(const job::Date& date);

/// "revision B · 2026-03-14 · by A. Smith · 4 Weir Road", as far as the job says it. The address may be long: it is
/// last.
[[nodiscard]] std::string jobWords(const job::Job& job);

/// A name made of one of the practice's words with something before and after it: "jack stud" + " below". Without a
/// word of the practice `before` is all of it.
struct Name {
  const char* before = "";
  std::string practice::Words::*word = nullptr;
  const char* after = "";

  [[nodiscard]] std::string in(const practice::Words& words) const;
};

// A number and a length as a person reads them: tenths of a millimetre, or inches and sixteenths.
//
// The only place where a length becomes text. For screen, paper and lists; files and JSON stay in millimetres.
// Independent of the locale. A length that is not a number, or infinite, is "?".

/// With at most `decimals` decimals (0 to 6), none of them a trailing zero, and never "-0": "12", "12.5".
[[nodiscard]] std::string number(double value, int decimals = 1);

/// In a sentence: "12.5 mm"; "60 1/4 in", "-1/16 in", rounded to the nearest sixteenth, halves away from zero.
[[nodiscard]] std::string length(double mm, practice::Display display);
/// A length and its limit, each as `length` says it; where they would read the same and are not, to a hundredth of a
/// millimetre or a thousandth of an inch: "0.136 in", "0.125 in".
[[nodiscard]] std::array<std::string, 2> toldApart(double mm, double limit, practice::Display display);
/// Where millimetres go without saying, inches do not: "12.5"; "60 1/4 in".
[[nodiscard]] std::string bareLength(double mm, practice::Display display);
/// On a page that says its unit once: "12.5"; "60 1/4".
[[nodiscard]] std::string figure(double mm, practice::Display display);
/// figure with its sign: "+2.5", "0", "-3".
[[nodiscard]] std::string signedFigure(double mm, practice::Display display);

/// In a sentence: "1510 × 1040 mm"; "60 in × 41 in".
[[nodiscard]] std::string size(double width, double height, practice::Display display);
/// What something weighs: "38 kg"; "84 lb" where lengths are in inches. Files and JSON stay in kilograms.
[[nodiscard]] std::string mass(double kg, practice::Display display, int decimals = 0);
/// A figure of a rule or a finding with its unit: a length, a mass, "0.9 kPa"; of a plain number ("1") the number.
[[nodiscard]] std::string amount(double value, const std::string& unit, int decimals, practice::Display display);
/// Of two figures: "1510 × 1040"; "60 × 41".
[[nodiscard]] std::string figures(double width, double height, practice::Display display);

/// Heights of a head that follows the roof, from the left by way of its peak: "1185/1925", "885/1330/885".
[[nodiscard]] std::string headFigures(const job::Head& head, practice::Display display);
/// The same of anything that may have such a head: "1480 × 1185/1925".
template <class Sized>
[[nodiscard]] std::string figures(const Sized& of, practice::Display display) {
  return of.head ? figure(of.width, display) + " × " + headFigures(*of.head, display)
                 : figures(of.width, of.height, display);
}
template <class Sized>
[[nodiscard]] std::string size(const Sized& of, practice::Display display) {
  return of.head ? figures(of, display) + (display == practice::Display::Millimetres ? " mm" : " in")
                 : size(of.width, of.height, display);
}

}  // namespace sillwright::words
