/// Lettering of a picked wall: its length with the openings along it, and its heights, as on a drawing of it.
#pragma once

#include <cstddef>

#include "view/lettering.h"

namespace sillwright::view {

/// Dimensions along its foot, the openings' edges in the first row and the whole in the second; its two end heights,
/// and at the right its highest point where that is at neither end. One for which there is no room is left out.
void drawWallDimensions(Lettering& on, std::size_t wall);

}  // namespace sillwright::view
