// The lesson's part of the viewer: its wishes granted, its time, and what follows from it.

#include <algorithm>
#include <utility>

#include "view/session/app.h"

namespace sillwright::view {
namespace {

/// What plays on changes nothing that is taught.
bool teachesTheSame(const document::Lesson& a, const document::Lesson& b) {
  return a.opening == b.opening && a.place == b.place && a.what_ifs == b.what_ifs && a.exercise == b.exercise;
}

int cardsOf(const LessonPlay& play) {
  return play.taught ? static_cast<int>(play.taught->cards.size()) : 0;
}

/// A lesson of an opening with all its cards done.
document::Lesson lessonOf(const document::Document& document, std::int32_t opening) {
  const auto index = static_cast<std::size_t>(opening);
  document::Lesson lesson;
  lesson.opening = opening;
  lesson.place = static_cast<int>(plan::stepsAt(document.plan.openings[index]).size());
  return lesson;
}

void open(const document::Document& document, Shown& shown, LessonPlay& play) {
  if (document.job.openings.empty()) return;
  shown.lesson = lessonOf(document, std::max(shown.opening, 0));
  play.drop_seconds = 0.0F;
}

void close(Shown& shown, LessonPlay& play) {
  shown.lesson = {};
  play.taught.reset();
  play.step.reset();
  play.stepping = false;
  play.from.reset();
  play.water.clear();
  shown.look.hidden_steps = 0;
  shown.look.lit_step.reset();
  shown.look.shadow = true;
}

void playOrRest(document::Lesson& lesson, int cards) {
  lesson.playing = !lesson.playing;
  lesson.since = 0.0F;
  if (lesson.playing && lesson.place >= cards) lesson.place = 0;
}

void tryOrNot(document::Lesson& lesson, const plan::WhatIf& what_if) {
  if (std::erase(lesson.what_ifs, what_if) == 0) lesson.what_ifs.push_back(what_if);
}

void startOrLeaveExercise(document::Lesson& lesson, LessonPlay& play) {
  lesson.what_ifs.clear();
  lesson.choosing = false;
  lesson.playing = false;
  lesson.place = cardsOf(play);
  if (lesson.exercise) {
    lesson.exercise.reset();
    return;
  }
  std::vector<plan::StepKind> right;
  for (const plan::Step& step : play.taught->steps) right.push_back(step.kind);
  lesson.exercise.emplace().order = document::shuffled(right, ++play.exercise_round);
}

void takeCard(document::Exercise& exercise, int place) {
  if (place < 0 || place >= static_cast<int>(exercise.order.size())) return;
  exercise.judged = false;
  if (exercise.held < 0) {
    exercise.held = place;
    return;
  }
  document::moveCard(exercise.order, exercise.held, place);
  exercise.held = -1;
}

}  // namespace

void moveLesson(document::Lesson& lesson, const document::Document& document, std::int32_t opening) {
  document::Lesson moved = lessonOf(document, opening);
  moved.drops = lesson.drops;
  moved.choosing = lesson.choosing;
  lesson = std::move(moved);
}

void grantLesson(App& app, const LessonWish& wish) {
  document::Lesson& lesson = app.shown.lesson;
  if (wish.act == LessonAct::OpenOrClose) {
    if (lesson.on()) {
      close(app.shown, app.lesson);
    } else {
      open(*app.document, app.shown, app.lesson);
    }
    followLesson(app);
    return;
  }
  if (!lesson.on() || !app.lesson.taught) return;
  const int cards = cardsOf(app.lesson);
  switch (wish.act) {
    case LessonAct::Go:
    case LessonAct::Step:
      lesson.place = std::clamp(wish.act == LessonAct::Go ? wish.value : lesson.place + wish.value, 0, cards);
      lesson.playing = false;
      break;
    case LessonAct::Play:
      playOrRest(lesson, cards);
      break;
    case LessonAct::Drops:
      lesson.drops = !lesson.drops;
      break;
    case LessonAct::Choose:
      if (!lesson.exercise) lesson.choosing = !lesson.choosing;
      break;
    case LessonAct::Try:
      if (wish.what_if) tryOrNot(lesson, *wish.what_if);
      break;
    case LessonAct::PutBack:
      lesson.what_ifs.clear();
      if (lesson.exercise) startOrLeaveExercise(lesson, app.lesson);
      break;
    case LessonAct::Exercise:
      startOrLeaveExercise(lesson, app.lesson);
      break;
    case LessonAct::TakeCard:
      if (lesson.exercise) takeCard(*lesson.exercise, wish.value);
      break;
    case LessonAct::Answer:
      if (lesson.exercise) lesson.exercise->judged = true;
      break;
    case LessonAct::OpenOrClose:
      break;
  }
  followLesson(app);
}

void playLesson(document::Lesson& lesson, LessonPlay& play, float seconds) {
  if (!lesson.on() || !play.taught) return;
  if (isLessonRunning(lesson, play)) play.drop_seconds += seconds;
  if (!lesson.playing) return;
  lesson.since += seconds;
  if (lesson.since < document::kCardSeconds) return;
  lesson.since = 0.0F;
  lesson.place = std::min(lesson.place + 1, cardsOf(play));
  lesson.playing = lesson.place < cardsOf(play);
}

/// The card that was gone to is seen as its step is seen best; a lesson that was only opened, as it stood.
void followStep(App& app) {
  const document::Lesson& lesson = app.shown.lesson;
  LessonPlay& play = app.lesson;
  const bool same_opening = play.from && play.from->opening == lesson.opening;
  const bool other_card = same_opening && play.from->place != lesson.place;
  play.stepping = (same_opening && play.stepping) || other_card;
  play.step.reset();
  app.shown.look.shadow = true;
  if (!play.stepping || lesson.exercise || lesson.place <= 0) return;
  play.step = document::stepView(*app.document, *play.taught, static_cast<std::size_t>(lesson.opening), lesson.place);
  ++play.step_version;
  app.shown.look.lit_step = play.step->lit;
  app.shown.look.shadow = false;  // of walls that are left out
  if (other_card) flyTo(app, standAt(*play.step, canvasOf(app)));
}

void followLesson(App& app) {
  document::Lesson& lesson = app.shown.lesson;
  if (!app.document || !lesson.on()) {
    if (app.document && app.document->tried) {
      document::tryOn(*app.document, std::nullopt);
      ++app.version;
    }
    return;
  }
  const bool same = app.lesson.taught && app.lesson.from && teachesTheSame(*app.lesson.from, lesson);
  if (same && app.lesson.version == app.version) return;
  app.lesson.taught = document::teach(*app.document, lesson);
  const auto index = static_cast<std::size_t>(lesson.opening);
  std::optional<document::Tried> tried;
  if (app.lesson.taught->skin_changed) tried = document::Tried{index, app.lesson.taught->skin};
  const bool other_scene = tried.has_value() || app.document->tried.has_value();
  if (other_scene) {
    document::tryOn(*app.document, std::move(tried));
    newScene(app);
  }
  app.shown.look.hidden_steps = app.lesson.taught->hidden_steps;
  app.shown.look.lit_step = app.lesson.taught->lit_step;
  app.lesson.water = scene::waterLines(app.document->scene, app.document->job, index, app.lesson.taught->there,
                                       app.lesson.taught->water);
  followStep(app);
  app.lesson.from = lesson;
  app.lesson.version = app.version;
  disturb(app);
}

bool isLessonRunning(const document::Lesson& lesson, const LessonPlay& play) {
  if (!lesson.on()) return false;
  return lesson.playing || (lesson.drops && play.taught && play.taught->wet && !play.water.empty());
}

}  // namespace sillwright::view
