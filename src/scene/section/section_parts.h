/// The steps of a section: polygons in the plane's own two axes, and their way back into the world.
#pragma once

#include <array>
#include <cassert>
#include <glm/glm.hpp>
#include <optional>

#include "scene/section/section.h"

namespace sillwright::scene {

/// The plane's axes in double precision, from an origin in the plane.
struct CutPlane {
  glm::dvec3 origin{0.0};
  glm::dvec3 side{1.0, 0.0, 0.0};
  glm::dvec3 up{0.0, 0.0, 1.0};

  CutPlane(const Cut& cut, const glm::dvec3& near);
  [[nodiscard]] glm::dvec2 to(const glm::dvec3& world) const {
    return {glm::dot(world - origin, side), glm::dot(world - origin, up)};
  }
  [[nodiscard]] glm::dvec3 from(const glm::dvec2& point) const { return origin + side * point.x + up * point.y; }
};

/// A convex polygon in a plane's axes, anticlockwise. Edge i runs from point i to the next.
struct Outline {
  static constexpr std::size_t kMost = 12;
  std::size_t count = 0;
  std::array<glm::dvec2, kMost> point{};
  std::array<bool, kMost> inked{};

  void add(const glm::dvec2& at, bool ink) {
    assert(count < kMost);
    point[count] = at;
    inked[count] = ink;
    ++count;
  }
};

/// The face of an outline in the world: short edges dropped, first corner lowest, width measured. Empty where there is
/// no area to speak of.
[[nodiscard]] std::optional<CutFace> faceOf(Outline outline, const CutPlane& plane);

}  // namespace sillwright::scene
