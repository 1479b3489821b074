/// Handles: places in the drawing by which a dimension of the job is dragged.
///
/// A handle moves along one line or in the wall's plane; where the pointer's ray comes nearest to it gives the new
/// length. Everything here is geometry on values; the viewer (hand.cpp) does the dragging.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "document/document.h"
#include "render/camera.h"
#include "view/values/dimension.h"

namespace sillwright::view {

/// A corner of an opening as it was built: where it is moved, the readings follow.
struct BuiltCorner {
  std::size_t opening = 0;
  plan::Corner corner = plan::Corner::BR;
  double times = 1;  ///< How many times as large as they are deviations are drawn.
  bool operator==(const BuiltCorner& other) const { return opening == other.opening && corner == other.corner; }
};

struct Handle {
  std::string name;                   ///< "sill of N1"
  std::vector<Dimension> dimensions;  ///< One, or two for a handle that moves in the plane; none of a built corner.
  std::optional<BuiltCorner> corner;
  glm::vec3 at{0.0F};                 ///< In the world.
  glm::vec3 along{1.0F, 0.0F, 0.0F};  ///< Where the first dimension grows.
  glm::vec3 across{0.0F};             ///< Where the second one does.
  bool of_unit = false;               ///< Drawn round.
  bool of_cut = false;                ///< Drawn on its point; has no dimension.

  [[nodiscard]] bool movesInPlane() const { return across != glm::vec3(0.0F); }
  /// Whether both pull at the same.
  [[nodiscard]] bool same(const Handle& other) const {
    return dimensions == other.dimensions && corner == other.corner;
  }
  [[nodiscard]] std::optional<std::size_t> opening() const;  ///< Empty: it is a wall's.
};

/// Its dimensions as they are now: "1050", "1230, 900"; of a built corner how far it is from where it was planned:
/// "2 right, 1.5 down".
[[nodiscard]] std::string figuresOf(const document::Document& document, const Handle& handle);

/// Those of the picked opening and its unit, or of the picked wall; none where nothing is picked. They lie on the side
/// of the wall that the eye is on; where layers are pulled apart by `spread`, on the frame and the unit.
[[nodiscard]] std::vector<Handle> handlesOf(const document::Document& document, std::int32_t wall, std::int32_t opening,
                                            const render::Camera& camera, float spread = 0.0F);

/// How far along its directions a handle is when the pointer's ray goes by, mm from its place; empty where the ray runs
/// along it and tells nothing.
[[nodiscard]] std::optional<glm::dvec2> reach(const Handle& handle, const render::Ray& ray);

/// Rounded to a multiple of the step.
[[nodiscard]] double snapped(double value, double step);

}  // namespace sillwright::view
