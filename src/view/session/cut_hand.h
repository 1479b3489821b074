/// The cutting plane in the hand: its handle, and what is known while it is dragged, typed or nudged.
///
/// The plane is no part of the job: moving it is no step of the history, and Escape puts it back where it was taken up.
#pragma once

#include <optional>
#include <string>

#include "view/session/cutting.h"
#include "view/session/handles.h"

namespace sillwright::view {

struct CutHand {
  struct Held {
    Cutting before;
    double grabbed = 0;    ///< How far along the handle the pointer took hold.
    bool by_keys = false;  ///< The pointer has nothing to say.
    std::string typed;
    std::string refusal;  ///< Why what was typed isn't taken.
  };
  std::optional<Handle> handle;  ///< As it was drawn last; while held, as it was taken up.
  bool hovered = false;
  std::optional<Held> held;

  [[nodiscard]] bool hot() const { return hovered || held.has_value(); }
};

}  // namespace sillwright::view
