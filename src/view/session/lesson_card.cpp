#include "view/session/lesson_card.h"

#include <algorithm>

#include "words/length.h"
#include "words/names.h"

namespace sillwright::view {
namespace {

constexpr float kWordsASecond = 3.0F;  // common practice of captions, no source
constexpr float kLooking = 1.5F;       // seconds for the drawing itself

/// "J2: sliding window 1510 × 1040 mm"
LessonCard openingCard(const document::Document& document, std::size_t opening, std::size_t steps) {
  const plan::UnitSpec& unit = document.plan.openings[opening].unit;
  const job::Opening& of = document.job.openings[opening];
  return {
      of.name + ": " + words::unitName(unit.kind, unit.lights) + " " + words::size(unit, document.practice->display),
      "The order of work in " + std::to_string(steps) + " steps.",
      {}};
}

}  // namespace

LessonCard cardOf(const document::Document& document, const document::Lesson& lesson, const document::Taught& taught,
                  const document::StepView* step) {
  if (lesson.watching) return {"Where the water goes", taught.water_says, {}};
  if (lesson.place <= 0) return openingCard(document, static_cast<std::size_t>(lesson.opening), taught.cards.size());
  const plan::Step& now = taught.step(taught.cards[static_cast<std::size_t>(lesson.place - 1)]);
  return {std::to_string(lesson.place) + "  " + now.title, now.what, step != nullptr ? step->why : std::string{}};
}

float readingSeconds(const LessonCard& card) {
  float words = 0.0F;
  for (const std::string* each : {&card.title, &card.what, &card.why}) {
    words += static_cast<float>(std::count(each->begin(), each->end(), ' ') + (each->empty() ? 0 : 1));
  }
  return kLooking + words / kWordsASecond;
}

}  // namespace sillwright::view
