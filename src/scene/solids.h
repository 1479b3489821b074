/// Hexahedra in a wall's own axes: boxes, prisms on a quadrilateral, mitred rings.
///
/// A Bench is the place where a wall's parts are put together: numbers are given in the wall's axes (x right as seen
/// from outside, y into the building, z up, mm) in double precision, and turned into the world once, at the end.
/// A part is opened with `addPart`; the solids that follow belong to it until the next one is opened, so that
/// Scene::solids stays grouped by part.
#pragma once

#include <array>
#include <cstdint>
#include <glm/glm.hpp>

#include "plan/shape.h"
#include "scene/scene.h"
#include "scene/water_lines.h"

namespace sillwright::scene {

/// A rectangle of the wall plane.
using Rect = plan::Rect;

/// A stretch along one axis, low ≤ high.
struct Range {
  double low = 0, high = 0;

  [[nodiscard]] double length() const { return high - low; }
  [[nodiscard]] double middle() const { return (low + high) / 2; }
};

/// A quadrilateral of the wall plane, (x, z): BL, BR, TR, TL as seen from outside.
using Quad = std::array<glm::dvec2, 4>;

enum class Grain : std::uint8_t { AlongX, AlongY, AlongZ };

/// Bits of Solid::edges by the side of the solid they lie on. u, v, w are the wall's x, y, z for every solid made here.
inline constexpr std::uint16_t kAllEdges = 0x0fff;
inline constexpr std::uint16_t kBottomLong = 0x0003;  ///< The two along x at the bottom.
inline constexpr std::uint16_t kTopLong = 0x000c;
inline constexpr std::uint16_t kLeftHigh = 0x0500;  ///< The two along z at the left.
inline constexpr std::uint16_t kRightHigh = 0x0a00;
inline constexpr std::uint16_t kDeepBottomLeft = 0x0010;  ///< The one along y at each corner.
inline constexpr std::uint16_t kDeepBottomRight = 0x0020;
inline constexpr std::uint16_t kDeepTopLeft = 0x0040;
inline constexpr std::uint16_t kDeepTopRight = 0x0080;
inline constexpr std::uint16_t kLeftFace = kLeftHigh | kDeepBottomLeft | kDeepTopLeft;
inline constexpr std::uint16_t kRightFace = kRightHigh | kDeepBottomRight | kDeepTopRight;

/// Where a wall stands, in double precision; WallFrame is what the scene keeps of it.
struct Bench {
  Scene* scene = nullptr;
  glm::dvec3 origin{0.0};
  glm::dvec3 along{1.0, 0.0, 0.0};
  glm::dvec3 inward{0.0, 1.0, 0.0};
  std::int32_t wall = -1;
  std::int32_t opening = -1;  ///< Given to every part added.

  [[nodiscard]] glm::vec3 toWorld(const glm::dvec3& local) const {
    return glm::vec3(origin + along * local.x + inward * local.y + glm::dvec3{0.0, 0.0, local.z});
  }
  /// The turn and the shift of a mesh put at `at` in the wall's axes.
  [[nodiscard]] glm::mat4 place(const glm::dvec3& at) const;
};

/// Turn in degrees; quarter turns are exact, so that right-angled houses have no slivers.
[[nodiscard]] Bench makeBench(Scene& scene, double at_x, double at_y, double turn_degrees, std::int32_t wall,
                              double level = 0);

/// Opens a part that is as `like`, of the bench's wall and opening; `size` as Part::size.
std::uint32_t addPart(const Bench& bench, Part like, const glm::dvec3& size);

/// Adds a solid to the part opened last. Corners as Solid::corner, in wall axes.
void addSolid(const Bench& bench, const std::array<glm::dvec3, 8>& corner, Grain grain, std::uint16_t edges);

[[nodiscard]] Quad quadOf(const Range& x, const Range& z);

void addBox(const Bench& bench, const Range& x, const Range& y, const Range& z, Grain grain);

/// From one quadrilateral of the wall plane in front to another at the back.
void addPrism(const Bench& bench, const Quad& front, const Quad& back, const Range& y, Grain grain,
              std::uint16_t edges = kAllEdges);

/// A quadrilateral of the wall plane drawn out through the wall.
void addPrism(const Bench& bench, const Quad& quad, const Range& y, Grain grain, std::uint16_t edges = kAllEdges);

/// A quadrilateral on plan drawn up: corners (x, y) at left front, right front, right back, left back.
void addSlab(const Bench& bench, const Quad& plan, const Range& z, Grain grain, std::uint16_t edges = kAllEdges);

/// A part that is one box, its size that of the box.
void addBoxPart(const Bench& bench, const Part& like, const Range& x, const Range& y, const Range& z, Grain grain);

/// Lets the solids from `first` on, made for a level head, follow one in a slope; `foot`: the head's origin in the
/// wall's axes. One that lies across a peak becomes two.
void followHead(const Bench& bench, std::size_t first, const plan::HeadLine& head, const glm::dvec2& foot);

/// The four members of a ring whose outside is `outer`, mitred at 45° where all faces are alike: sill, right jamb,
/// head, left jamb. `inner` must lie inside `outer`.
[[nodiscard]] std::array<Quad, 4> mitredRing(const Rect& outer, const Rect& inner);

/// The same, butt-jointed: sill and head run through (or the jambs do), in the same order.
[[nodiscard]] std::array<Quad, 4> buttedRing(const Rect& outer, const Rect& inner, bool jambs_through);

}  // namespace sillwright::scene
