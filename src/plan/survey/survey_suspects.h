/// Whether the readings agree, and if not, whether it can be told which one is wrong. Private to the room.
#pragma once

#include "plan/survey/survey.h"
#include "plan/survey/survey_adjust.h"

namespace sillwright::plan {

/// Fills trust, suspects, settle_by and disagreement. `built.readings` must be complete.
///
/// The global test comes first: chi-square against its limit for the freedom. Where it fails, the reading with the
/// largest standardised residual is named if that is above kStandsOut, no other ties with it, and the readings agree
/// once it is left out. In every other case the readings are in dispute, and those that tie are its candidates.
void judgeReadings(const SurveyInput& input, const Adjusted& adjusted, AsBuilt& built);

}  // namespace sillwright::plan
