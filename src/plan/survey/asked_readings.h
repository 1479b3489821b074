/// Which readings an opening is measured by so that one misread figure can be found: the fewest of the usual ones.
#pragma once

#include <array>
#include <cstdint>
#include <optional>

#include "job/readings.h"
#include "plan/survey/survey.h"

namespace sillwright::plan {

/// The least slip that is to be found, mm: a centimetre misread on the tape. Common practice, no source.
inline constexpr double kLeastSlip = 10;

struct AskedReadings {
  std::uint32_t readings = 0;              ///< Bit per Reading, of the nine that shape the corners.
  double least = 0;                        ///< The least redundancy number among them.
  Reading weakest = Reading::WidthBottom;  ///< Whose it is.
  double shows = 0;                        ///< mm: whichever of them is wrong by more stands out.
};

/// From all the usual readings the one is left out without which the least redundancy number stays highest, again and
/// again, as long as the least slip in any of the rest stands out; all of them where it doesn't even then.
[[nodiscard]] AskedReadings askedReadings(const job::Opening& opening, const practice::Survey& errors);

// Readings as the tape takes them: what each would be if the opening were as planned, and whether one is suspected.

/// By job::TapeReading; empty where nothing is planned or there is nothing to read.
[[nodiscard]] inline std::array<std::optional<double>, job::kTapeReadings> plannedReadings(
    const job::Opening& opening) {
  using T = job::TapeReading;
  std::array<std::optional<double>, job::kTapeReadings> planned;
  const auto of = [&](T reading, std::size_t on = 0) -> auto& {
    return planned[static_cast<std::size_t>(reading) + on];
  };
  const HeadLine head = headLineOf(opening);
  const auto nine = nineReadings(plannedShape(head));
  for (std::size_t i = 0; i < nine.size(); ++i) of(tapeReadingOf(static_cast<Reading>(i))) = nine[i];
  of(T::WidthMiddle) = opening.width;
  if (head.level()) of(T::HeightMiddle) = opening.height;
  for (const std::size_t right : {0, 1}) {
    of(T::OutOfPlumbInLeft, right) = 0;
    if (head.sideHeight(right == 0 ? Side::Left : Side::Right) > 0) continue;
    for (const T of_side : {T::OutOfPlumbLeft, T::OutOfPlumbInLeft}) of(of_side, right).reset();
    of(T::HeightLeft, 2 * right).reset();
  }
  return planned;
}

/// Whether the adjustment suspects a reading.
[[nodiscard]] inline bool isSuspect(const AsBuilt& built, job::TapeReading reading) {
  for (std::size_t i = 0; i < kAllReadings; ++i) {
    if ((built.suspects >> i & 1U) != 0 && tapeReadingOf(static_cast<Reading>(i)) == reading) return true;
  }
  return false;
}

}  // namespace sillwright::plan
