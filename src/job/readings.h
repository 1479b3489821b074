/// The readings of an opening: which there are, in the order a person takes them with a tape, and what each is called
/// on screen, on sheets, in forms and in messages.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>

#include "job/job.h"
#include "job/rule.h"

namespace sillwright::job {

enum class TapeReading : std::uint8_t {
  WidthBottom,
  WidthMiddle,
  WidthTop,
  HeightLeft,
  HeightMiddle,
  HeightRight,
  DiagonalFromBottomLeft,
  DiagonalFromTopLeft,
  OutOfLevel,
  OutOfPlumbLeft,
  OutOfPlumbRight,
  OutOfPlumbInLeft,
  OutOfPlumbInRight,
  DepthLeft,
  DepthRight
};
inline constexpr std::size_t kTapeReadings = 15;

struct TapeReadingInfo {
  const char* name;     ///< "bottom width".
  const char* group;    ///< "width": what its row is called.
  const char* caption;  ///< "bottom": what it is called in its row; empty where it is alone.
  const char* how;      ///< How it is read, and what its sign means.
  const char* key;      ///< Of the job's [opening.measured].
};
[[nodiscard]] const TapeReadingInfo& infoOf(TapeReading reading);

/// What the job file allows it to be.
[[nodiscard]] const Holds& boundsOf(TapeReading reading);

/// Its place in the measurements.
[[nodiscard]] std::optional<double>& placeOf(Measured& measured, TapeReading reading);
[[nodiscard]] std::optional<double> valueOf(const std::optional<Measured>& measured, TapeReading reading);
/// Sets or clears one reading. An opening without any reading and instrument has no `measured`.
void setValue(std::optional<Measured>& measured, TapeReading reading, std::optional<double> value);

/// The largest less the smallest of those that were read; empty where fewer than two were.
[[nodiscard]] inline std::optional<double> spreadOf(const std::array<std::optional<double>, 3>& readings) {
  double low = HUGE_VAL, high = -HUGE_VAL;
  int read = 0;
  for (const auto& reading : readings) {
    if (!reading) continue;
    low = std::min(low, *reading);
    high = std::max(high, *reading);
    ++read;
  }
  return read < 2 ? std::nullopt : std::optional(high - low);
}

}  // namespace sillwright::job
