/// Moving the eye: the hand's turning, sliding and nearing, the standing views, and the flight between two of them.
///
/// Every function is from a camera to a camera; the point that the hand holds stays on its pixel. Millimetres, degrees,
/// pixels from the top left.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "check/finding.h"
#include "document/step_view.h"
#include "render/camera.h"
#include "scene/scene.h"

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

enum class StandingView : std::uint8_t { House, Outside, Inside, Above, LeftEnd, RightEnd, Head, Sill, Jamb, Corner };
inline constexpr std::size_t kStandingViews = 10;

/// "house", "outside", "left end", …: the words of keys, panels and the command line.
[[nodiscard]] const char* wordFor(StandingView view);
[[nodiscard]] std::optional<StandingView> standingView(std::string_view word);
/// Head, sill, jamb and corner look at one opening and need it picked.
[[nodiscard]] bool isCloseUp(StandingView view);

/// The place of an opening that a close-up looks at: the middle of an edge, or a corner (bottom left where the spot
/// names none). World.
[[nodiscard]] glm::vec3 closeUpPoint(const scene::OpeningFrame& opening, const scene::WallFrame& wall,
                                     StandingView view, const check::Spot& spot);

/// What a view looks at: an opening, else a wall, else everything. −1: none.
struct Subject {
  std::int32_t wall = -1;
  std::int32_t opening = -1;
  check::Spot spot;  ///< Which jamb or corner a close-up shows; left and bottom left where it doesn't say.
};

/// The camera of a standing view, its subject in the middle of the canvas's free part. A close-up without an opening
/// falls back to the outside view.
[[nodiscard]] render::Camera standAt(const scene::Scene& scene, StandingView view, const Subject& subject,
                                     const Canvas& canvas);
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

}  // namespace sillwright::view
