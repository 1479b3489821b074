/// Saying figures in sentences: lengths in the practice's units, rounded as a person reads them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plan/shape.h"
#include "practice/practice.h"

namespace sillwright::check {

/// "12 mm", "12.5 mm" (tenths only where they are not zero), or inches and fractions, by the practice's display.
[[nodiscard]] std::string length(double mm, practice::Display display);

/// "1 stud", "2 studs".
[[nodiscard]] std::string count(long number, const std::string& word);

/// The texts one after the other with `between` between them.
[[nodiscard]] std::string joined(const std::vector<std::string>& texts, std::string_view between);

/// Plain number with at most `decimals` decimals and no trailing zeros.
[[nodiscard]] std::string number(double value, int decimals);

/// "left", "right", "sill", "head" of the opening.
[[nodiscard]] const char* word(plan::Side side);

}  // namespace sillwright::check
