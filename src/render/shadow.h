/// Where the soft shadows of the walls' feet lie: on the floor, cut to its edges, and on the ground around it.
///
/// A wall's shadow is a rectangle wider than the wall by kShadowReach, shaded by how far each point is from the wall's
/// own foot. Laid out once a scene as triangles; no OpenGL here; inside this room only.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "scene/scene.h"

namespace sillwright::render {

/// How far the soft shadow reaches from a wall's foot, mm.
inline constexpr float kShadowReach = 620.0F;

struct ShadowCorner {
  glm::vec3 place{0.0F};  ///< World.
  glm::vec2 spot{0.0F};   ///< From the wall's origin along it and inwards, mm.
  glm::vec2 size{0.0F};   ///< The wall's length and thickness.
  glm::vec4 run{0.0F};    ///< Along x, y; inward x, y.
};

/// Three corners a triangle.
struct Shadows {
  std::vector<ShadowCorner> laid;  ///< On the floor and on the ground below it.
  std::vector<ShadowCorner> bare;  ///< At the walls' feet, for when no floor is drawn.
};

[[nodiscard]] Shadows layShadows(const scene::Scene& scene);

/// The part of one convex polygon (anticlockwise on plan) that lies within another. May be empty.
[[nodiscard]] std::vector<glm::vec2> clipTo(std::vector<glm::vec2> polygon, const std::vector<glm::vec2>& within);

}  // namespace sillwright::render
