/// The part of the report that is about water: pieces to cut, laps, and where the water runs.
#pragma once

#include "exchange/json.h"
#include "job/job.h"
#include "plan/plan.h"

namespace sillwright::exchange {

/// Writes the key `weather` and its object. A piece's step is its number in the opening's own order of work.
void writeWeather(JsonWriter& json, const plan::OpeningPlan& planned);

}  // namespace sillwright::exchange
