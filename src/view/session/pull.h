/// Dragging handles: the job follows the pointer, and one step of the history is kept when it is let go.
///
/// While a pull lasts, keys belong to it: a typed figure sets the dimension, Escape puts it back.
#pragma once

#include <glm/glm.hpp>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/shape.h"
#include "practice/practice.h"
#include "view/session/hand.h"
#include "view/values/handles.h"
#include "view/values/input.h"

namespace sillwright::view {

struct App;

/// A handle that is being dragged, or typed to.
struct Pull {
  Handle handle;
  glm::dvec2 grabbed{0.0};    ///< How far along it the pointer took hold.
  std::vector<double> first;  ///< Of its dimensions; of a built corner 0, 0: then how far it is moved.
  plan::OpeningShape shape;   ///< That a built corner was taken hold of in.
  job::Job before;
  std::string typed;
  std::string refusal;  ///< Why what was typed isn't taken.
};

/// What a drag snaps to, mm: whole millimetres; tenths with Shift held, the step that sizes come in with Ctrl.
[[nodiscard]] double pullStep(const Modifiers& held, const practice::Practice& practice);

/// The handle under a pixel; empty: none.
[[nodiscard]] std::optional<std::size_t> handleUnder(const std::vector<Handle>& handles, const render::Camera& camera,
                                                     const Layout& layout, ImVec2 at);
/// Takes hold of the handle under the pointer; false where there is none.
[[nodiscard]] bool beginPull(App& app, ImVec2 at);
void movePull(App& app, const Pointer& pointer);
void endPull(App& app);
void dropPull(App& app);
void followPullKeys(App& app, const InputStep& step);

}  // namespace sillwright::view
