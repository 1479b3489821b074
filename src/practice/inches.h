/// Lengths that are written in inches, read.
#pragma once

#include <optional>
#include <string_view>

namespace sillwright::practice {

inline constexpr double kInch = 25.4;  ///< mm, exact.

/// Reads what words::length writes without " mm", mm: "1530", "60 1/4 in", "-1/16 in"; and "5 ft 0 1/4 in". Anything
/// else: empty.
[[nodiscard]] std::optional<double> readLength(std::string_view words);

}  // namespace sillwright::practice
