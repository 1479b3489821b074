/// Which readings an opening is measured by so that one misread figure can be found: the fewest of the usual ones.
#pragma once

#include <cstdint>

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

}  // namespace sillwright::plan
