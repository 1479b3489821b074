/// The keyboard's way through what can be picked: the items of the last frame, and which of them the keys belong to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "view/session/field.h"
#include "view/values/screen_place.h"

namespace sillwright::view {

/// One thing that could be picked in a frame, for the keyboard and for tests.
struct Item {
  ImGuiID id = 0;
  std::string name;
  ImVec2 low;
  ImVec2 high;
  std::optional<FieldOf> field;  ///< What it sets, where it is a field to type in.
};

/// Which item the keyboard is on.
struct Focus {
  ImGuiID at = 0;           ///< 0: none; keys then belong to the drawing.
  bool activate = false;    ///< Enter or Space went down in this frame.
  bool arrived = false;     ///< Moved in this frame: the item brings itself into sight.
  std::vector<Item> items;  ///< Of the last frame, in the order of Tab.
  std::vector<Item> now;    ///< Gathered in this frame.

  /// Moves to the next item, or the one before; round the end to none.
  void step(bool backwards);
  /// Ends a frame's gathering. A focus whose item is gone is dropped.
  void endFrame();
};

}  // namespace sillwright::view
