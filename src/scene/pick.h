/// Picking: the part that a ray meets first.
///
/// World axes, mm. What is hidden or cut away is not met; a cut's faces are met as their parts'.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <optional>

#include "scene/scene.h"
#include "scene/section/section.h"

namespace sillwright::scene {

/// Where a ray meets a part.
struct Hit {
  std::uint32_t part = 0;
  float distance = 0.0F;
  glm::vec3 point{0.0F};
  glm::vec3 normal{0.0F};
};

/// The nearest part that a ray meets from outside, before `from`; `direction` of any length but zero. `distance` is in
/// mm, `normal` points back towards the eye. Of parts that lie in one another in the plane of the cut, the one that the
/// section shows (section.h).
[[nodiscard]] std::optional<Hit> pick(const Scene& scene, glm::vec3 from, glm::vec3 direction,
                                      const PickFilter& filter);

/// Many rays through one scene, which must stay as it is meanwhile: what each would look up is looked up once.
class Rays {
 public:
  Rays(const Scene& scene, const PickFilter& filter);
  ~Rays();
  Rays(const Rays&) = delete;
  Rays& operator=(const Rays&) = delete;
  /// As `pick`.
  [[nodiscard]] std::optional<Hit> pick(glm::vec3 from, glm::vec3 direction);

 private:
  struct Kept;
  std::unique_ptr<Kept> kept_;
};

}  // namespace sillwright::scene
