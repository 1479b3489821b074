/// How the windows and doors of a building model work (IFC 2x3 and IFC 4), as a job says it.
#pragma once

#include <array>
#include <iterator>
#include <optional>
#include <vector>

#include "exchange/step/step_reader.h"
#include "job/unit.h"

namespace sillwright::exchange {

/// The standard's words for how a unit works, as job::UnitKind. Left and right as the standard has them: looking along
/// the wall's y, which is from outside. A sash at the left slides to the right.
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

struct Working {
  std::optional<job::UnitKind> kind;  ///< None: the model doesn't say, or says nothing that is known here.
  job::Hand hand = job::Hand::Left;
  std::vector<job::Light> lights;  ///< Of a window with several panels, side by side or one over the other.
  bool over = false;               ///< One over the other.
  bool unclear = false;            ///< There are several panels, and not all is known of how they work and lie.
};

/// `from_inside`: the unit's own y, along which the standard looks, comes out of the building.
[[nodiscard]] Working workingOf(StepFile& file, const StepInstance& unit, const StepInstance& type,
                                std::vector<std::uint32_t> property_sets, bool from_inside);

}  // namespace sillwright::exchange
