/// What one step of the order of work is shown by: where the eye stands, which parts are the step's, what is left out,
/// and what is written beside them.
///
/// Pictures, film, handbook and viewer show a step from this one value. No OpenGL and no window here.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "document/lesson.h"
#include "scene/scene.h"

namespace sillwright::document {

/// Words beside the drawing with a line to each of their places.
struct StepNote {
  std::string words;
  std::vector<glm::vec3> at;
};

/// A line in the drawing: a tape's or a level's, with its value; without words, a way that something takes or a cut.
struct StepLine {
  glm::vec3 from{0.0F};
  glm::vec3 to{0.0F};
  std::string words;
  float words_at = 0.5F;  ///< Along it, so that the words of lines that cross don't meet.
};

struct StepView {
  /// The wall with this opening alone, as far as the work has come. Parts keep their numbers; the step's have its
  /// PartStep, and what only comes near (a unit on its way in) is drawn where it is then.
  scene::Scene scene;
  std::optional<scene::PartStep> lit;  ///< As render::Look.
  std::vector<glm::vec3> focus;        ///< All of it is in sight.
  float yaw_degrees = 0.0F;            ///< As render::Camera.
  float pitch_degrees = 0.0F;
  bool unit_out = false;    ///< The unit is not in the wall yet: no water is shown.
  bool unit_comes = false;  ///< The step brings the unit, or a panel of it.
  float comes_from = 0.0F;  ///< mm before the wall that the step's parts come from.
  std::string why;          ///< What it lays over what, and why it comes before what follows.
  std::vector<StepNote> notes;
  std::vector<StepLine> lines;
};

/// How much of its way to the opening a unit has behind it in a still picture.
inline constexpr float kStillWay = 0.35F;

/// The view of the card at `place` − 1 of those taught; of the bare frame where `place` is 0. Of the directions that
/// suit the step, the first from which as many of its parts are in sight as from any. `way`: 0 a unit or what is lifted
/// out stands before the wall, 1 it has arrived.
[[nodiscard]] StepView stepView(const Document& document, const Taught& taught, std::size_t opening, int place,
                                float way = kStillWay);

// How a step's parts come to their place while the step plays: the scene of any moment of it.

/// Whether the step brings parts that are seen to come; the others are where they are from the start.
[[nodiscard]] bool comes(const StepView& view);

/// The step's scene with its parts on their way: at 0 they are before the wall, towards the eye, at 1 in place. What is
/// put on from the bottom up comes so; a membrane's flaps are flat in the cut before they fold in.
[[nodiscard]] scene::Scene onTheWay(const StepView& view, const scene::WallFrame& wall, float way);

}  // namespace sillwright::document
