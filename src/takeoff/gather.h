/// Inside the room: the take-off's parts, each gathered on its own.
#pragma once

#include <vector>

#include "takeoff/takeoff.h"

namespace sillwright::takeoff {

/// Timber without its cutting.
[[nodiscard]] std::vector<TimberSection> gatherTimber(const job::Job& job, const practice::Practice& practice,
                                                      const plan::Plan& plan);

/// Flashings, folded metal and tapes.
void gatherWeather(const plan::Plan& plan, Takeoff& takeoff);
void gatherPacking(const plan::Plan& plan, Takeoff& takeoff);
void gatherFixings(const plan::Plan& plan, Takeoff& takeoff);
void gatherSealing(const practice::Practice& practice, const plan::Plan& plan, Takeoff& takeoff);
void gatherOverCavity(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                      Takeoff& takeoff);
void gatherAreas(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, Takeoff& takeoff);
void gatherTools(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, Takeoff& takeoff);

/// A length to the nearest tenth, so that equal pieces are equal.
[[nodiscard]] double toTenth(double mm);

}  // namespace sillwright::takeoff
