/// Places on the screen, pixels from the window's top left, and where the panels lie. Of the panel library only its
/// plain pair of numbers is used.
#pragma once

#include <imgui.h>
#include <cmath>

#include "view/values/camera_control.h"

namespace sillwright::view {

[[nodiscard]] inline ImVec2 operator+(ImVec2 a, ImVec2 b) { return {a.x + b.x, a.y + b.y}; }
[[nodiscard]] inline ImVec2 operator-(ImVec2 a, ImVec2 b) { return {a.x - b.x, a.y - b.y}; }
[[nodiscard]] inline ImVec2 times(ImVec2 v, float factor) { return {v.x * factor, v.y * factor}; }
[[nodiscard]] inline float length(ImVec2 v) { return std::hypot(v.x, v.y); }
/// To whole pixels, on which letters and frames are sharp.
[[nodiscard]] inline ImVec2 rounded(ImVec2 v) { return {std::round(v.x), std::round(v.y)}; }

struct Rect {
  ImVec2 low;
  ImVec2 high;
};

[[nodiscard]] inline bool overlap(const Rect& a, const Rect& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

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
  bool with_titles = true;   ///< On its cards, not their numbers alone.
  ImVec2 foot_at;
  ImVec2 foot_size;
  Canvas canvas;
  bool folded = false;  ///< Strip and sheet are put away.
};

}  // namespace sillwright::view
