/// What the last edit changed, lit up in the drawing for a moment.
#pragma once

#include "view/marks/lettering.h"
#include "view/values/flash.h"

namespace sillwright::view {

/// Lights the parts up as far as they can be seen.
void drawFlash(Lettering& on, const Flash& flash);

}  // namespace sillwright::view
