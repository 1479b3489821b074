/// What is written beside a step's drawing: its parts' names with lines to them, and the lines of tape and level.
#pragma once

#include "document/step_view.h"
#include "view/marks/lettering.h"

namespace sillwright::view {

/// Upper left corners for notes of these sizes, in one column at the left and one at the right of the room (y down),
/// each as near to the place it is about as the others let it be.
[[nodiscard]] std::vector<ImVec2> placeNotes(const std::vector<ImVec2>& about, const std::vector<ImVec2>& sizes,
                                             const Rect& room);

void drawStepMarks(Lettering& on, const document::StepView& step);

}  // namespace sillwright::view
