/// Moving the eye: the hand's turning, sliding and nearing, the standing views, and the flight between two of them.
///
/// Every function is from a camera to a camera; the point that the hand holds stays on its pixel. Millimetres, degrees,
/// pixels from the top left.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "check/finding.h"
#include "document/step_view.h"
#include "render/camera.h"
#include "scene/scene.h"
#include "scene/section/section.h"
#include "scene/solids.h"

namespace sillwright::view {

/// A picture's size and the part of it that no panel covers, pixels.
struct Canvas {
  float width = 0.0F;
  float height = 0.0F;
  float left = 0.0F;   ///< Covered at the left …
  float right = 0.0F;  ///< … and at the right,
  float top = 0.0F;
  float bottom = 0.0F;  ///< … and along the bottom.

  [[nodiscard]] float freeWidth() const { return width - left - right; }
  [[nodiscard]] float freeHeight() const { return height - top - bottom; }
  /// Whether a place lies in the part that nothing covers, so far from its edges.
  [[nodiscard]] bool isFree(float x, float y, float margin = 0.0F) const {
    return x >= left + margin && x <= width - right - margin && y >= top + margin && y <= height - bottom - margin;
  }
};

/// Turns the eye about a point, which keeps its place in the picture. A drag to the right pushes the near face to the
/// right: the house turns anticlockwise on plan. A drag down shows more from above.
[[nodiscard]] render::Camera orbit(const render::Camera& camera, glm::vec3 about, float drag_x, float drag_y);

/// Slides the eye so that `held` follows the drag.
[[nodiscard]] render::Camera pan(const render::Camera& camera, glm::vec3 held, float drag_x, float drag_y,
                                 float height);

/// Brings the eye nearer to `towards` (factor below 1) or further from it; the point keeps its place in the picture.
[[nodiscard]] render::Camera zoom(const render::Camera& camera, glm::vec3 towards, float factor);

/// Where the ray through a pixel meets the plane through the target that faces the eye: what the hand holds where
/// nothing is drawn.
[[nodiscard]] glm::vec3 pointAtTarget(const render::Camera& camera, float x, float y, float width, float height);

/// Whether the eye is on a wall's outside.
[[nodiscard]] inline bool isOutside(const scene::WallFrame& wall, const render::Camera& camera) {
  return wall.toLocal(camera.eye()).y < wall.depth * 0.5F;
}

enum class StandingView : std::uint8_t { House, Outside, Inside, Above, LeftEnd, RightEnd, Head, Sill, Jamb, Corner };
inline constexpr std::size_t kStandingViews = 10;

/// "house", "outside", "left end", …: the words of keys, panels and the command line.
[[nodiscard]] const char* wordFor(StandingView view);
[[nodiscard]] std::optional<StandingView> standingView(std::string_view word);
/// Head, sill, jamb and corner look at one opening and need it picked.
[[nodiscard]] bool isCloseUp(StandingView view);

/// What a view looks at: an opening, else a wall, else everything. −1: none.
struct Subject {
  std::int32_t wall = -1;
  std::int32_t opening = -1;
  check::Spot spot;  ///< Which jamb or corner a close-up shows; left and bottom left where it doesn't say.
};

/// The camera of a standing view, its subject in the middle of the canvas's free part. A close-up without an opening
/// falls back to the outside view.
[[nodiscard]] render::Camera standAt(const scene::Scene& scene, StandingView view, Subject at, const Canvas& canvas);
/// The camera of a step of the order of work: all it is about in the canvas's free part, as large as that allows.
[[nodiscard]] render::Camera standAt(const document::StepView& step, const Canvas& canvas);

/// The camera with all these points in the canvas's free part, from where it looks.
[[nodiscard]] render::Camera framed(render::Camera camera, std::span<const glm::vec3> points, const Canvas& canvas);

/// The camera that shows in the free part of `to` what `camera` shows in that of `from`.
[[nodiscard]] render::Camera refitted(const render::Camera& camera, const Canvas& from, const Canvas& to);

/// The view that shows a finding's spot best.
[[nodiscard]] StandingView viewOf(const check::Spot& spot);

inline constexpr float kFlightSeconds = 0.35F;
/// A flight from one camera to another, which begins with none of it passed. Runs for its seconds, or arrives at once
/// where it is told to.
struct Flight {
  render::Camera from;
  render::Camera to;
  float passed = 1.0F;  ///< 0 … 1; 1: arrived.
  float seconds = kFlightSeconds;

  [[nodiscard]] bool flying() const { return passed < 1.0F; }
};

/// Moves on by `seconds` and answers where the eye is now.
render::Camera fly(Flight& flight, float seconds);

// The cutting plane as a person has it: an axis of a wall, a length along it, and the side that is taken away.
//
// Walls stand at any angle, so the axes are those of a wall: x along it to the right as seen from outside, from its
// left end; y into the building, from the outside face of the studs; z up, from the underside of the bottom plate.
// Without a wall they are the plan's: X, Y as the job places its walls, Z up. Millimetres.

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
