/// Upright lines of a skin on which all water comes to no harm, told without following it: most lines of most skins.
#pragma once

#include <limits>
#include <vector>

#include "plan/weather/skin.h"

namespace sillwright::plan {

/// Of a line on which water may come to harm.
inline constexpr std::size_t kNotSound = std::numeric_limits<std::size_t>::max();

/// How many paths of rain and seepage start in each strip between two cuts, or kNotSound. `cuts`: from stripsOf.
[[nodiscard]] std::vector<std::size_t> soundPaths(const Skin& skin, const std::vector<double>& cuts);

}  // namespace sillwright::plan
