/// The pointer in the drawing: what it is on, and what a pressed button holds.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "render/camera.h"
#include "view/session/layout.h"
#include "view/session/shown.h"
#include "view/values/handles.h"
#include "view/values/input.h"

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

/// What the pointer can be on, and is on.
struct Pointed {
  std::vector<Handle> handles;        ///< Of what is picked, as they were drawn last.
  std::optional<std::size_t> handle;  ///< Index in `handles`.
  std::optional<std::uint32_t> part;  ///< Index in Scene::parts.
};

/// The pointer's part of a frame.
void followPointer(App& app, const InputStep& step, const Pointer& pointer, Wishes& wishes);

/// The ray into the world through a pixel of the whole picture.
[[nodiscard]] render::Ray rayAt(const render::Camera& camera, const Layout& layout, ImVec2 at);
/// Pixels from a place of the world to a pixel; empty where the place lies behind the eye.
[[nodiscard]] std::optional<float> pixelsFrom(const render::Camera& camera, const Layout& layout, glm::vec3 world,
                                              ImVec2 at);

}  // namespace sillwright::view
