/// Whether the readings agree, and if not, whether it can be told which one is wrong. Private to the room.
#pragma once

#include "plan/survey/survey.h"
#include "plan/survey/survey_adjust.h"

namespace sillwright::plan {

/// Fills trust, suspects, settle_by, disagreement and slip. `built.readings` must be complete.
///
/// The readings disagree where chi-square is above its limit for the freedom, or where a middle reading tells a bow of
/// more than kStandsOut standard errors (the limit of straightness is the bow's standard error). Then each reading is
/// left out in turn (Baarda's data snooping), and the one without which the fit improves most is named if it stands
/// out, no other ties with it, and the rest agree. If no single one explains it, they are left out by twos. In every
/// other case the readings are in dispute, and those that tie are its candidates.
void judgeReadings(const SurveyInput& input, const Adjusted& adjusted, AsBuilt& built);

/// The bow that a middle reading tells, in its standard errors; 0 where it tells none.
[[nodiscard]] double bowInErrors(const SurveyInput& input, const Adjusted& adjusted, std::size_t middle);

/// The length of the two edges' mean, adjusted: what the middle reads where they are straight.
[[nodiscard]] double meanOfEnds(const Adjusted& adjusted, std::size_t middle);

}  // namespace sillwright::plan
