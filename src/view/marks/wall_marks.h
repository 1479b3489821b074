/// Dimensions in a wall; of a picked one its length with the openings along it, and its heights, as on a drawing of it.
#pragma once

#include <cstddef>
#include <string>

#include "view/marks/lettering.h"

namespace sillwright::view {

/// drawDimension, of a length in a wall: left out where a cut has taken one of its ends away.
void drawWallDimension(Lettering& on, const scene::WallFrame& wall, glm::vec3 a, glm::vec3 b, glm::vec3 aside,
                       const std::string& words, int row = 0);

/// Dimensions along its foot, the openings' edges in the first row and the whole in the second; its two end heights,
/// and at the right its highest point where that is at neither end. One for which there is no room is left out.
void drawWallDimensions(Lettering& on, std::size_t wall);

}  // namespace sillwright::view
