/// Measuring in the drawing: two picked places, snapped to corners and edges, and the lengths between them.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "practice/practice.h"
#include "render/camera.h"
#include "render/renderer.h"
#include "scene/pick.h"
#include "scene/scene.h"

namespace sillwright::view {

struct Measuring {
  bool on = false;
  std::vector<glm::vec3> points;     ///< In the world; at most two.
  std::optional<glm::vec3> hovered;  ///< Where the pointer would put the next.
  std::int32_t wall = -1;            ///< Whose directions the lengths are told in; −1: the floor plan's.
};

/// A place on what was hit: its part's nearest corner where that is within `reach` pixels of the pointer, else the
/// nearest place of an edge that is, else the hit itself. Parts are where `look` shows them; a cut one has the corners
/// and edges of its cut face.
[[nodiscard]] glm::vec3 snappedPlace(const scene::Scene& scene, const scene::Hit& hit, const render::Camera& camera,
                                     const render::Look& look, glm::vec2 pointer, glm::vec2 size, float reach);

/// Straight from one to the other, along the wall, through it, and up; none below 0. mm.
struct Lengths {
  double straight = 0;
  double along = 0;
  double through = 0;
  double up = 0;
};
[[nodiscard]] Lengths lengthsBetween(glm::vec3 a, glm::vec3 b, const scene::WallFrame& wall);

/// "1530, along 1530, through 0, up 12"; parts that are nothing are left out.
[[nodiscard]] std::string wordsFor(const Lengths& lengths, practice::Display display);

// What an edit changed, shown for a moment: parts that came, went to another size or another kind light up softly.
//
// A part that only moved along with what was dragged does not count: the hand knows that. Parts are known again by
// their kind and their order within their opening.

inline constexpr float kFlashSeconds = 0.7F;

struct Flash {
  std::vector<std::uint32_t> parts;  ///< Indices in Scene::parts.
  float left = 0.0F;                 ///< Seconds that it still shows.

  [[nodiscard]] bool on() const { return left > 0.0F && !parts.empty(); }
};

/// The parts of an opening as they are before an edit.
[[nodiscard]] std::vector<scene::Part> partsOf(const scene::Scene& scene, std::int32_t opening);

/// Indices of the parts of an opening that are not among those of before, or are of another size. mm, to a tenth.
[[nodiscard]] std::vector<std::uint32_t> changedParts(const std::vector<scene::Part>& before, const scene::Scene& after,
                                                      std::int32_t opening);

}  // namespace sillwright::view
