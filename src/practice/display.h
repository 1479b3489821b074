/// Lengths as a person of the region reads them: whole millimetres, or feet, inches and sixteenths.
///
/// Only for words on screen and paper; files and JSON stay in millimetres. Independent of the locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "practice/practice.h"

namespace sillwright::practice {

inline constexpr double kInch = 25.4;  ///< mm, exact.

/// "1530", "-2.5" with one decimal; or "60 1/4 in", "-1/16 in", "0 in", to the nearest sixteenth (halves away from
/// zero). Bare millimetres carry no unit: a sheet says once that it is in millimetres. `decimals` (0 to 6) is only
/// used for millimetres. Not a number or infinite: "?".
[[nodiscard]] std::string showLength(double mm, Display display, int decimals = 0);

/// As feet and inches, "5 ft 0 1/4 in"; below a foot as showLength. Millimetres: the same as showLength.
[[nodiscard]] std::string showFeet(double mm, Display display);

/// Reads what showLength and showFeet write, mm: "1530", "60 1/4 in", "5 ft 0 1/4 in", "-1/16 in". Anything else:
/// empty.
[[nodiscard]] std::optional<double> readLength(std::string_view words);

}  // namespace sillwright::practice
