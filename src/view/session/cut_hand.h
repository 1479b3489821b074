/// The cutting plane in the hand: its handle, and what is known while it is dragged, typed or nudged.
///
/// The plane is no part of the job: moving it is no step of the history, and Escape puts it back where it was taken up.
#pragma once

#include <optional>
#include <string>

#include "view/session/layout.h"
#include "view/session/shown.h"
#include "view/values/cutting.h"
#include "view/values/handles.h"
#include "view/values/input.h"

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

void grantCut(CutHand& hand, Shown& shown, const scene::Scene& scene, const CutWish& wish);
/// Makes the look's cut from the figures again, so that it goes with its wall.
void followCut(CutHand& hand, Shown& shown, const scene::Scene& scene);
/// Puts the handle where the plane's outline is in sight; a held one stays.
void placeCutHandle(CutHand& hand, const Shown& shown, const scene::Scene& scene, const Layout& layout);

/// Takes hold of the handle where the pointer is on it; false: it isn't.
[[nodiscard]] bool beginCutPull(CutHand& hand, const Shown& shown, const Layout& layout, ImVec2 at);
/// The plane follows the pointer, in steps of `step` mm. What was typed holds.
void moveCutPull(CutHand& hand, Shown& shown, const scene::Scene& scene, const Layout& layout, ImVec2 at, double step);
void endCutPull(CutHand& hand, Shown& shown, const scene::Scene& scene);
void dropCutPull(CutHand& hand, Shown& shown, const scene::Scene& scene);
/// Keys while the plane is held: figures, arrows by `step` mm, Enter, Escape.
void followCutKeys(CutHand& hand, Shown& shown, const scene::Scene& scene, const InputStep& step, double step_mm);
/// Notes whether the pointer is on the handle.
void hoverCut(CutHand& hand, const Shown& shown, const Layout& layout, ImVec2 at);
/// "cut, x along the wall".
[[nodiscard]] std::string nameOfCut(const Cutting& cutting);

}  // namespace sillwright::view
