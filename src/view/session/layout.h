/// Where the panels lie, and the part of the picture that they leave free.
#pragma once

#include "view/values/camera_control.h"
#include "view/values/screen_place.h"

namespace sillwright::view {

/// Where the panels lie, for a window's size and text scale.
struct Layout {
  float scale = 1.0F;  ///< Pixels for one at scale 1: text scale and the screen's.
  ImVec2 strip_at;
  float strip_width = 0.0F;
  ImVec2 sheet_at;
  float sheet_width = 0.0F;
  float most_height = 0.0F;  ///< Of strip and sheet.
  ImVec2 lesson_at;          ///< Above the foot.
  ImVec2 lesson_size;        ///< That it takes when it is on.
  ImVec2 foot_at;
  ImVec2 foot_size;
  Canvas canvas;
  bool folded = false;  ///< Strip and sheet are put away.
};

}  // namespace sillwright::view
