/// Picking: the part that a ray meets first.
///
/// World axes, mm. What is hidden or cut away is not met; a cut's faces are met as their parts'.
#pragma once

#include <array>
#include <cstdint>
#include <glm/glm.hpp>
#include <limits>
#include <optional>
#include <vector>

#include "scene/scene.h"
#include "scene/section/section.h"

namespace sillwright::scene {

/// Where a ray meets a part.
struct Hit {
  std::uint32_t part = 0;
  float distance = 0.0F;
  glm::vec3 point{0.0F};
};

inline constexpr float kNever = std::numeric_limits<float>::infinity();

/// Where a line passes something convex, by the distance along it; it enters after it leaves where it misses.
struct Pass {
  float enter = -kNever;
  float leave = kNever;
};
/// A line against the six planes of a convex solid: the last one entered, before the first one left.
[[nodiscard]] Pass passOf(const std::array<glm::vec3, 8>& corner, const glm::vec3& from, const glm::vec3& direction);

/// Rays through one scene, which must stay as it is meanwhile: what each would look up is looked up once.
class Rays {
 public:
  Rays(const Scene& scene, const PickFilter& filter);
  /// The nearest part that a ray meets from outside, before `from`; `direction` of any length but zero. `distance` is
  /// in mm. Of parts that lie in one another in the plane of the cut, the one that the section shows (section.h).
  /// `within`: so far, and not on what belongs to the wall of this number: little of a scene is then looked into.
  [[nodiscard]] std::optional<Hit> pick(glm::vec3 from, glm::vec3 direction, float within = kNever,
                                        std::int32_t but_wall = -1) const;

 private:
  const Scene& scene_;
  PickFilter filter_;
  float shifted_;  ///< The most that any layer is.
  std::vector<const Group*> outers_;
};

}  // namespace sillwright::scene
