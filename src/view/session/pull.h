/// Dragging handles: the job follows the pointer, and one step of the history is kept when it is let go; or the cutting
/// plane follows it, which is no part of the job and no step.
///
/// While a pull lasts, keys belong to it: a typed figure sets the length, Escape puts it back.
#pragma once

#include <glm/glm.hpp>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/shape.h"
#include "practice/practice.h"
#include "scene/scene.h"
#include "view/session/hand.h"
#include "view/values/handles.h"
#include "view/values/input.h"

namespace sillwright::view {

struct App;

/// A handle that is being dragged, or typed to.
struct Pull {
  Handle handle;
  glm::dvec2 grabbed{0.0};    ///< How far along it the pointer took hold.
  std::vector<double> first;  ///< Of its dimensions, or the plane's place; of a built corner 0, 0: how far it is moved.
  plan::OpeningShape shape;   ///< That a built corner was taken hold of in.
  job::Job before;
  std::string typed;
  std::string refusal;   ///< Why what was typed isn't taken.
  Cutting cut{};         ///< As it was; of the cutting plane's handle.
  bool by_keys = false;  ///< The plane, taken in hand by keys: the pointer has nothing to say.
};

/// The cutting plane's handle.
struct CutHandle {
  std::optional<Handle> handle;  ///< As it was drawn last; while it is pulled, as it was taken up.
  bool hovered = false;
};

/// What a drag snaps to, mm: whole millimetres; tenths with Shift held, the step that sizes come in with Ctrl.
[[nodiscard]] double pullStep(const Modifiers& held, const practice::Practice& practice);

/// The handle under a pixel; empty: none.
[[nodiscard]] std::optional<std::size_t> handleUnder(const std::vector<Handle>& handles, const render::Camera& camera,
                                                     const Layout& layout, ImVec2 at);
/// Takes hold of the handle under the pointer, the cutting plane's first; false where there is none.
[[nodiscard]] bool beginPull(App& app, ImVec2 at);
void movePull(App& app, const Pointer& pointer);
void endPull(App& app);
void dropPull(App& app);
/// Figures, Enter, Escape; the cutting plane goes by arrows too, in steps as a drag's.
void followPullKeys(App& app, const InputStep& step, const Modifiers& held);
/// Whether the cutting plane is what is pulled.
[[nodiscard]] bool isCutPulled(const App& app);

void grantCut(App& app, const CutWish& wish);
/// Makes the look's cut from the figures again, so that it goes with its wall.
void followCut(App& app);
/// Puts the plane at a place along its axis, as far as it can go.
void moveCut(App& app, double at);
/// Puts the handle where the plane's outline is in sight; a pulled one stays.
void placeCutHandle(App& app);
/// Notes whether the pointer is on the handle.
void hoverCut(App& app, ImVec2 at);
/// "cut, x along the wall".
[[nodiscard]] std::string nameOfCut(const Cutting& cutting);

}  // namespace sillwright::view
