/// What the card of a lesson says to a class, and how long it takes to read.
#pragma once

#include <string>

#include "document/step_view.h"
#include "view/values/camera_control.h"

namespace sillwright::view {

/// Share of a class room's picture that the card has, along its foot.
inline constexpr float kClassCard = 0.27F;
/// Slower than a drop falls, to be followed by eye; mm a second.
inline constexpr float kDropSpeed = 450.0F;

struct LessonCard {
  std::string title;
  std::string what;
  std::string why;
};

/// The step's words; of the bare frame the opening's, and where the water is watched where it goes. `step`: what the
/// card is shown by; null: nothing.
[[nodiscard]] LessonCard cardOf(const document::Document& document, const document::Lesson& lesson,
                                const document::Taught& taught, const document::StepView* step);
[[nodiscard]] float readingSeconds(const LessonCard& card);

/// What of a picture a class room's card leaves to the drawing.
[[nodiscard]] inline Canvas classCanvas(const Canvas& canvas) {
  return {.width = canvas.width, .height = canvas.height, .bottom = canvas.height * kClassCard};
}

}  // namespace sillwright::view
