#include "takeoff/takeoff.h"

#include <algorithm>

#include "plan/frame/frame.h"
#include "takeoff/table.h"

namespace sillwright::takeoff {

Takeoff takeOff(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                const TakeoffOptions& options) {
  Takeoff takeoff;
  takeoff.kerf = options.kerf;
  takeoff.end_trim = plan::endTrim(practice);
  takeoff.timber = gatherTimber(job, practice, plan);
  gatherWeather(plan, takeoff);
  gatherPacking(plan, takeoff);
  gatherFixings(plan, takeoff);
  gatherSealing(practice, plan, takeoff);
  gatherOverCavity(job, practice, plan, takeoff);
  gatherAreas(job, practice, plan, takeoff);
  gatherTools(job, practice, plan, takeoff);

  const auto cuts = static_cast<std::int64_t>(takeoff.timber.size() + takeoff.rolls.size());
  const std::int64_t share = options.steps / std::max<std::int64_t>(1, cuts);
  for (TimberSection& section : takeoff.timber) {
    section.cutting = cut(section.pieces, {plan::timberAtHand(job, practice), options.kerf, share, takeoff.end_trim});
  }
  const double roll_length = job.stock && job.stock->roll_length ? *job.stock->roll_length : practice.stock.roll_length;
  for (RollUse& roll : takeoff.rolls) roll.cutting = cut(roll.pieces, {{roll_length}, 0, share, 0});
  return takeoff;
}

}  // namespace sillwright::takeoff
