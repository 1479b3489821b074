/// Inside the room: the readings of an opening in the order they are taken, for tables.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "sheet/paper/page.h"

namespace sillwright::sheet {

inline constexpr std::size_t kReadingLines = job::kTapeReadings;

struct ReadingLine {
  std::string name;               ///< "bottom width".
  std::optional<double> planned;  ///< Empty where nothing is planned.
  std::optional<double> read;
  std::optional<double> off;    ///< By the other readings: as read less as adjusted.
  std::optional<double> after;  ///< Read again when the unit stood.
  bool suspect = false;
  bool has_sign = false;
};

/// A figure of the line as it is written, with its sign where the line has one; "" where there is none.
[[nodiscard]] std::string shown(const ReadingLine& line, const std::optional<double>& value, practice::Display display);

/// Widths, heights, diagonals, fall, leans, tilts, depths; numbered from 1 in this order everywhere.
[[nodiscard]] std::array<ReadingLine, kReadingLines> readingsOf(const job::Opening& opening,
                                                                const plan::OpeningPlan& planned);

}  // namespace sillwright::sheet
