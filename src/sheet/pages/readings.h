/// Inside the room: the readings of an opening in the order they are taken, for tables.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "sheet/paper/page.h"
#include "sheet/paper/table.h"

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

/// A value against the practice's limit; either may be missing.
struct Judged {
  std::optional<double> value, limit;
  const practice::Rule* rule = nullptr;  ///< Of the limit; null: it is not asked.
};
/// What is judged of the readings: before setting and, where it is read again, after.
struct LimitLine {
  std::string name;
  std::string readings;  ///< Numbers of the readings it is made from.
  Judged before;
  Judged after{};
};
[[nodiscard]] std::vector<LimitLine> limitsOf(const job::Opening& opening, const plan::OpeningPlan& planned,
                                              const practice::Practice& practice);

/// The readings as a table `width` wide with room to write each again.
[[nodiscard]] Table readingsTable(const job::Opening& opening, const plan::OpeningPlan& planned,
                                  practice::Display display, double width);

}  // namespace sillwright::sheet
