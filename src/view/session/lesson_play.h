/// A lesson in the viewer: its wishes granted, its time, and what follows where the lesson or the scene has changed.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "document/lesson.h"
#include "document/step_view.h"
#include "scene/water_lines.h"
#include "view/session/shown.h"

namespace sillwright::view {

struct App;

struct LessonPlay {
  std::optional<document::Taught> taught;  ///< What follows from the lesson.
  std::vector<scene::WaterLine> water;     ///< Where the water runs in it.
  std::optional<document::Lesson> from;    ///< The lesson and the scene that `taught` is of.
  std::uint64_t version = 0;
  std::optional<document::StepView> step;  ///< What the card is shown by; empty: the work as it stands.
  std::uint64_t step_version = 0;          ///< Of its scene; unlike for unlike ones.
  bool stepping = false;                   ///< Cards have been gone through since the lesson was opened.
  float drop_seconds = 0.0F;               ///< For how long the drops have run.
  std::uint32_t exercise_round = 0;        ///< Each exercise is shuffled another way.
};

void grantLesson(App& app, const LessonWish& wish);
/// Goes over to another opening.
void moveLesson(document::Lesson& lesson, const document::Document& document, std::int32_t opening);
/// Teaches again where the lesson or the scene is another.
void followLesson(App& app);
/// Time goes on.
void playLesson(document::Lesson& lesson, LessonPlay& play, float seconds);
/// Whether cards or drops move.
[[nodiscard]] bool isLessonRunning(const document::Lesson& lesson, const LessonPlay& play);

}  // namespace sillwright::view
