/// The water in the drawing: its lines on the skin, the drops that run down them, and the places where it gets in.
#pragma once

#include <vector>

#include "document/lesson.h"
#include "document/step_view.h"
#include "scene/water_lines.h"
#include "view/marks/lettering.h"

namespace sillwright::view {

/// What of a lesson is drawn.
struct WaterShown {
  const std::vector<scene::WaterLine>* lines = nullptr;
  const document::Taught* taught = nullptr;  ///< Null: no lesson is on, nothing is drawn.
  float seconds = 0.0F;                      ///< For how long the drops have run.
  const document::StepView* step = nullptr;  ///< What the step is shown by; null: the work as it stands, unnamed.
};

/// A drop runs so far in a second, mm. Slower than it would, to be followed by eye.
inline constexpr float kDropSpeed = 620.0F;

/// Lines where the water runs, in full where it is seen and dotted where something covers it; those that end in a leak
/// over all others, with a ring where the water gets behind and a few words. Drops where `seconds` is above 0.
void drawWater(Lettering& on, const WaterShown& water);

}  // namespace sillwright::view
