/// Inside the room: what the standard calls the ways in which windows and doors work.
#pragma once

#include <array>
#include <iterator>

#include "job/job.h"

namespace sillwright::exchange {

/// How a unit works, as job::UnitKind. Left and right as the standard has them: looking along the wall's y, which is
/// from outside. A sash at the left slides to the right.
inline constexpr std::array<const char*, 2> kOperations[] = {{"SLIDINGHORIZONTAL", "SLIDINGHORIZONTAL"},
                                                             {"TOPHUNG", "TOPHUNG"},
                                                             {"SIDEHUNGLEFTHAND", "SIDEHUNGRIGHTHAND"},
                                                             {"FIXEDCASEMENT", "FIXEDCASEMENT"},
                                                             {"SLIDING_TO_RIGHT", "SLIDING_TO_LEFT"},
                                                             {"SINGLE_SWING_LEFT", "SINGLE_SWING_RIGHT"},
                                                             {"BOTTOMHUNG", "BOTTOMHUNG"},
                                                             {"TILTANDTURNLEFTHAND", "TILTANDTURNRIGHTHAND"},
                                                             {"OTHEROPERATION", "OTHEROPERATION"},
                                                             {"SLIDINGVERTICAL", "SLIDINGVERTICAL"},
                                                             {"SLIDINGVERTICAL", "SLIDINGVERTICAL"},
                                                             {"SLIDING_TO_RIGHT", "SLIDING_TO_LEFT"},
                                                             {"FOLDING_TO_LEFT", "FOLDING_TO_RIGHT"},
                                                             {"DOUBLE_DOOR_SINGLE_SWING", "DOUBLE_DOOR_SINGLE_SWING"}};
static_assert(std::size(kOperations) == std::size(job::kKindWords));

}  // namespace sillwright::exchange
