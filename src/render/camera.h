/// The eye: where it stands, what it looks at, and the matrices that follow.
///
/// World axes as in scene/scene.h (millimetres, Z up). A camera is a value; the view moves it, the renderer only reads
/// it.
#pragma once

#include <glm/glm.hpp>
#include <span>

#include "scene/scene.h"

namespace sillwright::render {

struct Camera {
  glm::vec3 target{0.0F};
  float yaw_degrees =
      0.0F;  ///< Of the direction looked in, anticlockwise on plan from +Y (into a wall that isn't turned).
  float pitch_degrees = 20.0F;  ///< + looks down. Within ±90.
  float distance = 8000.0F;     ///< From eye to target, mm.
  float fov_degrees = 35.0F;    ///< Vertical.
  bool parallel = false;        ///< Parallel projection with the same height of view at the target.

  [[nodiscard]] glm::vec3 eye() const;
  [[nodiscard]] glm::vec3 forward() const;
  [[nodiscard]] glm::vec3 right() const;
  [[nodiscard]] glm::vec3 up() const;
  [[nodiscard]] glm::mat4 view() const;
  /// Between two depths along `forward`, mm; kept apart and in front of the eye where they aren't. Depth keeps its
  /// precision on a gap of a millimetre where they are set tight around what is drawn.
  [[nodiscard]] glm::mat4 projectionBetween(float aspect, float near_depth, float far_depth) const;
  /// Half the height of view at the target, mm.
  [[nodiscard]] float halfHeight() const;
  bool operator==(const Camera&) const = default;
};

/// A ray through a pixel; x, y from the top left in pixels.
struct Ray {
  glm::vec3 from{0.0F};
  glm::vec3 direction{0.0F};  ///< Unit length.
};
[[nodiscard]] Ray rayThrough(const Camera& camera, float x, float y, float width, float height);

/// Window position (pixels from the top left) and depth along the view direction of a world point; depth ≤ 0: behind
/// the eye.
[[nodiscard]] glm::vec3 project(const Camera& camera, glm::vec3 world, float width, float height);

/// `project` for many places in one picture.
class Projection {
 public:
  Projection(const Camera& camera, float width, float height);
  [[nodiscard]] glm::vec3 operator()(glm::vec3 world) const;
  /// How far a ball reaches from its middle, seen there, at most: pixels.
  [[nodiscard]] float reach(glm::vec3 seen, float radius) const;

 private:
  glm::vec3 eye_;
  glm::vec3 right_;
  glm::vec3 up_;
  glm::vec3 forward_;
  glm::vec2 half_;
  float scale_;
  float distance_;
  bool parallel_;
};

/// Moves the camera along its own direction (and sets target) so that the points just fill the view with a margin;
/// without any it stays.
void framePoints(Camera& camera, std::span<const glm::vec3> points, float aspect, float margin = 1.08F);

}  // namespace sillwright::render
