/// The pointer in the drawing: what it is on, and what a pressed button holds.
#pragma once

#include <cstddef>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/shape.h"
#include "render/camera.h"
#include "view/session/shown.h"
#include "view/values/camera_control.h"
#include "view/values/dimension.h"
#include "view/values/input.h"
#include "view/values/screen_place.h"

namespace sillwright::view {

struct App;

/// Where the pointer is in a frame, as the panels see it.
struct Pointer {
  ImVec2 at;
  bool in_window = false;
  bool over_panel = false;
  bool twice = false;  ///< The left button went down for the second time, soon after the first.
  Modifiers held;
};

/// What a pressed button holds.
struct Hand {
  std::optional<Button> button;
  bool sliding = false;   ///< Else turning.
  bool dragging = false;  ///< Moved further than a click may.
  ImVec2 start;
  glm::vec3 held{0.0F};  ///< Point of the world under the pointer when the button went down.
  render::Camera from;   ///< The camera then: a drag's end doesn't depend on how many frames it took.
};

/// Handles that the pointer can be on, and is on; the part that it is on is the look's.
struct Pointed {
  std::vector<Handle> handles;        ///< Of what is picked, as they were drawn last.
  std::optional<std::size_t> handle;  ///< Index in `handles`.
};

/// The pointer's part of a frame.
void followPointer(App& app, const InputStep& step, const Pointer& pointer, Wishes& wishes);

/// What of the seen scene lies under a pixel of the whole picture.
[[nodiscard]] std::optional<scene::Hit> hitUnder(const App& app, ImVec2 at);

// Dragging handles: the job follows the pointer, and one step of the history is kept when it is let go; or the cutting
// plane follows it, which is no part of the job and no step.
//
// While a pull lasts, keys belong to it: a typed figure sets the length, Escape puts it back.

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

/// Figures, Enter, Escape; the cutting plane goes by arrows too, in steps as a drag's.
void followPullKeys(App& app, const InputStep& step, const Modifiers& held);
/// Whether the cutting plane is what is pulled.
[[nodiscard]] bool isCutPulled(const App& app);

void grantCut(App& app, const CutWish& wish);
/// Makes the look's cut from the figures again, so that it goes with its wall.
void followCut(App& app);
/// Puts the handle where the plane's outline is in sight; a pulled one stays.
void placeCutHandle(App& app);
/// "cut, x along the wall".
[[nodiscard]] std::string nameOfCut(const Cutting& cutting);

}  // namespace sillwright::view
