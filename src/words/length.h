/// A number and a length as a person reads them: tenths of a millimetre, or inches and sixteenths.
///
/// The only place where a length becomes text. For screen, paper and lists; files and JSON stay in millimetres.
/// Independent of the locale. A length that is not a number, or infinite, is "?".
#pragma once

#include <string>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::words {

/// With at most `decimals` decimals (0 to 6), none of them a trailing zero, and never "-0": "12", "12.5".
[[nodiscard]] std::string number(double value, int decimals = 1);

/// In a sentence: "12.5 mm"; "60 1/4 in", "-1/16 in", rounded to the nearest sixteenth, halves away from zero.
[[nodiscard]] std::string length(double mm, practice::Display display);
/// Where millimetres go without saying, inches do not: "12.5"; "60 1/4 in".
[[nodiscard]] std::string bareLength(double mm, practice::Display display);
/// On a page that says its unit once: "12.5"; "60 1/4".
[[nodiscard]] std::string figure(double mm, practice::Display display);
/// figure with its sign: "+2.5", "0", "-3".
[[nodiscard]] std::string signedFigure(double mm, practice::Display display);

/// In a sentence: "1510 × 1040 mm"; "60 in × 41 in".
[[nodiscard]] std::string size(double width, double height, practice::Display display);
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
