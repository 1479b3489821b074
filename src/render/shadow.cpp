#include "render/shadow.h"

#include <algorithm>
#include <limits>

namespace sillwright::render {
namespace {

/// Lifted off what it lies on, mm: less than any part is thick, more than the depth buffer's step.
constexpr float kLift = 1.0F;
/// A wall stands on a floor within this of its foot, mm.
constexpr float kStandsOn = 200.0F;

float cross(glm::vec2 a, glm::vec2 b) {
  return a.x * b.y - a.y * b.x;
}

std::vector<glm::vec2> reachOf(const scene::WallFrame& wall) {
  const auto at = [&](float x, float y) {
    return glm::vec2(wall.origin) + glm::vec2(wall.along) * x + glm::vec2(wall.inward) * y;
  };
  const float far_x = wall.length + kShadowReach;
  const float far_y = wall.depth + kShadowReach;
  return {at(-kShadowReach, -kShadowReach), at(far_x, -kShadowReach), at(far_x, far_y), at(-kShadowReach, far_y)};
}

void addFan(std::vector<ShadowCorner>& out, const std::vector<glm::vec2>& polygon, float height,
            const scene::WallFrame& wall) {
  const auto corner = [&](glm::vec2 p) {
    const glm::vec2 from = p - glm::vec2(wall.origin);
    const glm::vec2 along(wall.along);
    const glm::vec2 inward(wall.inward);
    return ShadowCorner{{p, height + kLift},
                        {glm::dot(from, along), glm::dot(from, inward)},
                        {wall.length, wall.depth},
                        {along, inward}};
  };
  for (std::size_t i = 2; i < polygon.size(); ++i) {
    out.push_back(corner(polygon[0]));
    out.push_back(corner(polygon[i - 1]));
    out.push_back(corner(polygon[i]));
  }
}

struct Floor {
  std::vector<glm::vec2> outline;  ///< Anticlockwise.
  float height = 0.0F;
};

/// The tops of the floor's solids; `lowest` becomes the level of the ground they stand on.
std::vector<Floor> floorsOf(const scene::Scene& scene, float& lowest) {
  std::vector<Floor> floors;
  constexpr std::size_t kTop = 5;  // +w in kFaces: anticlockwise seen from above.
  for (const scene::Solid& solid : scene.solids) {
    if (scene.parts.at(solid.part).material != scene::Material::Floor) continue;
    Floor floor;
    for (const std::uint8_t i : scene::kFaces[kTop]) {
      floor.outline.emplace_back(solid.corner[i]);
      floor.height = solid.corner[i].z;
    }
    for (const glm::vec3& corner : solid.corner) lowest = std::min(lowest, corner.z);
    floors.push_back(std::move(floor));
  }
  return floors;
}

}  // namespace

std::vector<glm::vec2> clipTo(std::vector<glm::vec2> polygon, const std::vector<glm::vec2>& within) {
  // Sutherland and Hodgman: one side of the window after the other.
  for (std::size_t i = 0; i < within.size() && !polygon.empty(); ++i) {
    const glm::vec2 a = within[i];
    const glm::vec2 side = within[(i + 1) % within.size()] - a;
    std::vector<glm::vec2> kept;
    for (std::size_t k = 0; k < polygon.size(); ++k) {
      const glm::vec2 p = polygon[k];
      const glm::vec2 q = polygon[(k + 1) % polygon.size()];
      const float at_p = cross(side, p - a);
      const float at_q = cross(side, q - a);
      if (at_p >= 0.0F) kept.push_back(p);
      if ((at_p > 0.0F && at_q < 0.0F) || (at_p < 0.0F && at_q > 0.0F))
        kept.push_back(p + (q - p) * (at_p / (at_p - at_q)));
    }
    polygon = std::move(kept);
  }
  if (polygon.size() < 3) polygon.clear();
  return polygon;
}

Shadows layShadows(const scene::Scene& scene) {
  Shadows shadows;
  float ground = std::numeric_limits<float>::max();
  const std::vector<Floor> floors = floorsOf(scene, ground);
  for (const scene::WallFrame& wall : scene.walls) {
    const std::vector<glm::vec2> reach = reachOf(wall);
    addFan(shadows.bare, reach, wall.origin.z, wall);
    addFan(shadows.laid, reach, floors.empty() ? wall.origin.z : std::min(ground, wall.origin.z), wall);
    for (const Floor& floor : floors) {
      if (std::abs(floor.height - wall.origin.z) > kStandsOn) continue;
      addFan(shadows.laid, clipTo(reach, floor.outline), floor.height, wall);
    }
  }
  return shadows;
}

}  // namespace sillwright::render
