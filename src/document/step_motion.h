/// How a step's parts come to their place while the step plays: the scene of any moment of it.
#pragma once

#include "document/step_view.h"

namespace sillwright::document {

/// Whether the step brings parts that are seen to come; the others are where they are from the start.
[[nodiscard]] bool comes(const StepView& view);

/// The step's scene with its parts on their way: at 0 they are before the wall, towards the eye, at 1 in place. What is
/// put on from the bottom up comes so; a membrane's flaps are flat in the cut before they fold in.
[[nodiscard]] scene::Scene onTheWay(const StepView& view, const scene::WallFrame& wall, float way);

}  // namespace sillwright::document
