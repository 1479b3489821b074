/// Handles: places in the drawing by which a dimension of the job is dragged.
///
/// A handle moves along one line or in the wall's plane; where the pointer's ray comes nearest to it gives the new
/// length. Everything here is geometry on values; the viewer (hand.cpp) does the dragging.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "render/camera.h"
#include "view/dimension.h"
#include "view/document.h"

namespace sillwright::view {

struct Handle {
  std::string name;                   ///< "sill of N1"
  std::vector<Dimension> dimensions;  ///< One, or two for a handle that moves in the plane.
  glm::vec3 at{0.0F};                 ///< In the world.
  glm::vec3 along{1.0F, 0.0F, 0.0F};  ///< Where the first dimension grows.
  glm::vec3 across{0.0F};             ///< Where the second one does.
  bool of_unit = false;               ///< Drawn round.
  bool of_cut = false;                ///< Drawn on its point; has no dimension.
};

/// Those of the picked opening and its unit, or of the picked wall; none where nothing is picked. They lie on the side
/// of the wall that the eye is on.
[[nodiscard]] std::vector<Handle> handlesOf(const Document& document, std::int32_t wall, std::int32_t opening,
                                            const render::Camera& camera);

/// How far along its directions a handle is when the pointer's ray goes by, mm from its place; empty where the ray runs
/// along it and tells nothing.
[[nodiscard]] std::optional<glm::dvec2> reach(const Handle& handle, const render::Ray& ray);

/// Rounded to a multiple of the step.
[[nodiscard]] double snapped(double value, double step);

}  // namespace sillwright::view
