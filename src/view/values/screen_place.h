/// Places on the screen, pixels from the window's top left. Of the panel library only its plain pair of numbers is
/// used.
#pragma once

#include <imgui.h>

namespace sillwright::view {

[[nodiscard]] inline ImVec2 operator+(ImVec2 a, ImVec2 b) { return {a.x + b.x, a.y + b.y}; }
[[nodiscard]] inline ImVec2 operator-(ImVec2 a, ImVec2 b) { return {a.x - b.x, a.y - b.y}; }

struct Rect {
  ImVec2 low;
  ImVec2 high;
};

[[nodiscard]] inline bool overlap(const Rect& a, const Rect& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

}  // namespace sillwright::view
