/// A plane that a scene is cut by, and the side of it that is taken away.
///
/// World axes, mm. One value decides what is drawn, what is picked and what a section shows (section.h).
#pragma once

#include <glm/glm.hpp>

namespace sillwright::scene {

/// What is nearer to the plane than this counts as touching it: neither cut nor taken away for the touch.
inline constexpr float kCutTouch = 0.005F;

struct Cut {
  glm::vec3 normal{1.0F, 0.0F, 0.0F};  ///< Unit; points to the side that is taken away.
  float at = 0.0F;                     ///< Of the plane along it, mm.

  /// How far a place stands on the side that is taken away; below 0: it stays.
  [[nodiscard]] float beyond(glm::vec3 place) const { return glm::dot(normal, place) - at; }
  /// Whether the plane is seen from its free side, from where cut faces are seen.
  [[nodiscard]] bool faces(glm::vec3 eye) const { return beyond(eye) > 0.0F; }
  bool operator==(const Cut&) const = default;
};

/// Two directions in the plane: `side` level, `up` steep (or, of a level plane, X and Y). With the normal right-handed.
struct CutAxes {
  glm::vec3 side{1.0F, 0.0F, 0.0F};
  glm::vec3 up{0.0F, 0.0F, 1.0F};
};
[[nodiscard]] CutAxes axesOf(const Cut& cut);

}  // namespace sillwright::scene
