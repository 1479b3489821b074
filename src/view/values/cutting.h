/// The cutting plane as a person has it: an axis of a wall, a length along it, and the side that is taken away.
///
/// Walls stand at any angle, so the axes are those of a wall: x along it to the right as seen from outside, from its
/// left end; y into the building, from the outside face of the studs; z up, from the underside of the bottom plate.
/// Without a wall they are the plan's: X, Y as the job places its walls, Z up. Millimetres.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "render/camera.h"
#include "scene/scene.h"
#include "scene/section/section.h"
#include "scene/solids.h"
#include "view/values/camera_control.h"

namespace sillwright::view {

enum class CutAxis : std::uint8_t { X, Y, Z };
inline constexpr std::size_t kCutAxes = 3;

struct Cutting {
  std::optional<CutAxis> axis;  ///< Empty: nothing is cut.
  double at = 0;                ///< Along the axis.
  bool larger = true;           ///< The side of larger figures is taken away; else the other.
  std::int32_t wall = -1;       ///< Whose axes they are; −1: the plan's.
  bool operator==(const Cutting&) const = default;
};

/// 'x', 'y', 'z'.
[[nodiscard]] char letterOf(CutAxis axis);
/// What the axis is in words: "along the wall", "into the building", "up"; of the plan "across the plan" and so on.
[[nodiscard]] const char* wordsFor(CutAxis axis, bool of_wall);

/// The plane in the world; empty where nothing is cut or the wall is gone.
[[nodiscard]] std::optional<scene::Cut> planeOf(const scene::Scene& scene, const Cutting& cutting);

/// Whether the cut has taken away a wall's whole thickness at a place. One in the wall's plane leaves what is behind
/// it.
[[nodiscard]] bool isGone(const std::optional<scene::Cut>& cut, const scene::WallFrame& wall, glm::vec3 place);

/// How far the plane can go: a little past everything that stands.
[[nodiscard]] scene::Range rangeOf(const scene::Scene& scene, const Cutting& cutting);

/// The cut in the axes of the opening's wall, else of the wall, else of the plan (−1: none); the side that the eye is
/// on goes.
[[nodiscard]] Cutting cutFrom(const scene::Scene& scene, Cutting cutting, std::int32_t wall, std::int32_t opening,
                              const render::Camera& camera);
/// A cut along an axis through the middle of the opening, else of the wall, else of everything (−1: none). It takes
/// away the side that the eye is on.
[[nodiscard]] Cutting cutThroughMiddle(const scene::Scene& scene, CutAxis axis, std::int32_t wall, std::int32_t opening,
                                       const render::Camera& camera);

/// A close-up (head, sill, jamb, corner) turned to look upon the plane from its free side, at the place where it cuts
/// what the close-up shows, that place in the middle of the canvas's free part. Another view, or a plane of other axes
/// than the opening's wall's, is as it was.
[[nodiscard]] render::Camera facingCut(const scene::Scene& scene, const Cutting& cutting, StandingView view,
                                       const Subject& subject, const Canvas& canvas, const render::Camera& camera);

/// The camera turned in the same way, with what the plane's outline stands round in the canvas's free part.
[[nodiscard]] render::Camera uponCut(const scene::Scene& scene, const Cutting& cutting, std::int32_t opening,
                                     const Canvas& canvas, const render::Camera& camera);

/// Four corners of the plane's outline in the world, round the opening or the wall that it cuts.
[[nodiscard]] std::vector<glm::vec3> outlineOf(const scene::Scene& scene, const Cutting& cutting, std::int32_t opening);

/// "x=1200", "z=900.5": an axis and a place. An error says what is wanted.
[[nodiscard]] base::Result<Cutting> parseCut(std::string_view text);

}  // namespace sillwright::view
