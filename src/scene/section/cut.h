/// A plane that a scene is cut by, and the side of it that is taken away.
///
/// World axes, mm. One value decides what is drawn, what is picked and what a section shows (section.h).
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <optional>

#include "scene/scene.h"

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

/// What of a scene is there to be picked, as it is shown.
struct PickFilter {
  std::uint32_t hidden_layers = 0;     ///< Bit per Layer.
  std::uint32_t hidden_steps = 0;      ///< The bitOf each step.
  std::array<float, kLayers> shift{};  ///< By which each layer is pulled along its wall's y.
  std::optional<Cut> cut;              ///< What is beyond it isn't there; its faces are their parts'.
  [[nodiscard]] bool shows(const Part& part) const {
    return isShown(part.layer, part.step, hidden_layers, hidden_steps);
  }
  /// By which a part of the scene is moved, in the world.
  [[nodiscard]] glm::vec3 shiftOf(const Scene& scene, const Part& part) const {
    if (part.wall < 0) return glm::vec3(0.0F);
    return scene.walls[static_cast<std::size_t>(part.wall)].inward * shift[static_cast<std::size_t>(part.layer)];
  }
  /// The most that any layer is moved, mm.
  [[nodiscard]] float furthest() const {
    float most = 0.0F;
    for (const float by : shift) most = std::max(most, std::abs(by));
    return most;
  }
  bool operator==(const PickFilter&) const = default;
};

/// Two directions in the plane: `side` level, `up` steep (or, of a level plane, X and Y). With the normal right-handed.
struct CutAxes {
  glm::vec3 side{1.0F, 0.0F, 0.0F};
  glm::vec3 up{0.0F, 0.0F, 1.0F};
};
[[nodiscard]] CutAxes axesOf(const Cut& cut);

}  // namespace sillwright::scene
