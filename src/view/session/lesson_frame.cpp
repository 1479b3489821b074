// The lesson's part of the viewer: its wishes granted, its time, and what follows from it.

#include <algorithm>
#include <cmath>
#include <utility>

#include "view/session/app.h"

namespace sillwright::view {
namespace {

/// What plays on changes nothing that is taught.
bool teachesTheSame(const document::Lesson& a, const document::Lesson& b) {
  return a.opening == b.opening && a.place == b.place && a.what_ifs == b.what_ifs && a.exercise == b.exercise;
}

int cardsOf(const App& app) {
  return app.taught ? static_cast<int>(app.taught->cards.size()) : 0;
}

/// A lesson of an opening with all its cards done.
document::Lesson lessonOf(const App& app, std::int32_t opening) {
  const auto index = static_cast<std::size_t>(opening);
  document::Lesson lesson;
  lesson.opening = opening;
  lesson.place =
      static_cast<int>(plan::stepsAt(app.document->job.openings[index], app.document->plan.openings[index]).size());
  return lesson;
}

void open(App& app) {
  if (app.document->job.openings.empty()) return;
  app.shown.lesson = lessonOf(app, std::max(app.shown.opening, 0));
  app.drop_seconds = 0.0F;
}

void close(App& app) {
  app.shown.lesson = {};
  app.taught.reset();
  app.taught_from.reset();
  app.water.clear();
  app.shown.look.hidden_steps = 0;
  app.shown.look.lit_step.reset();
}

void play(App& app) {
  document::Lesson& lesson = app.shown.lesson;
  lesson.playing = !lesson.playing;
  lesson.since = 0.0F;
  if (lesson.playing && lesson.place >= cardsOf(app)) lesson.place = 0;
}

void tryOrNot(document::Lesson& lesson, const plan::WhatIf& what_if) {
  const auto found = std::find(lesson.what_ifs.begin(), lesson.what_ifs.end(), what_if);
  if (found != lesson.what_ifs.end()) {
    lesson.what_ifs.erase(found);
  } else {
    lesson.what_ifs.push_back(what_if);
  }
}

void startOrLeaveExercise(App& app) {
  document::Lesson& lesson = app.shown.lesson;
  const int cards = cardsOf(app);
  lesson.what_ifs.clear();
  lesson.choosing = false;
  lesson.playing = false;
  lesson.place = cards;
  if (lesson.exercise) {
    lesson.exercise.reset();
    return;
  }
  document::Exercise exercise;
  std::vector<plan::StepKind> right;
  for (const plan::Step& step : app.taught->steps) right.push_back(step.kind);
  exercise.order = document::shuffled(right, ++app.exercise_round);
  lesson.exercise = std::move(exercise);
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

void moveLesson(App& app, std::int32_t opening) {
  document::Lesson moved = lessonOf(app, opening);
  moved.drops = app.shown.lesson.drops;
  moved.choosing = app.shown.lesson.choosing;
  app.shown.lesson = std::move(moved);
}

void grantLesson(App& app, const LessonWish& wish) {
  document::Lesson& lesson = app.shown.lesson;
  if (wish.act == LessonAct::OpenOrClose) {
    lesson.on() ? close(app) : open(app);
    followLesson(app);
    return;
  }
  if (!lesson.on() || !app.taught) return;
  const int cards = cardsOf(app);
  switch (wish.act) {
    case LessonAct::Go:
    case LessonAct::Step:
      lesson.place = std::clamp(wish.act == LessonAct::Go ? wish.value : lesson.place + wish.value, 0, cards);
      lesson.playing = false;
      break;
    case LessonAct::Play:
      play(app);
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
      if (lesson.exercise) startOrLeaveExercise(app);
      break;
    case LessonAct::Exercise:
      startOrLeaveExercise(app);
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

void playLesson(App& app, float seconds) {
  document::Lesson& lesson = app.shown.lesson;
  if (!lesson.on() || !app.taught) return;
  if (isLessonRunning(app)) app.drop_seconds += seconds;
  if (!lesson.playing) return;
  lesson.since += seconds;
  if (lesson.since < document::kCardSeconds) return;
  lesson.since = 0.0F;
  lesson.place = std::min(lesson.place + 1, cardsOf(app));
  lesson.playing = lesson.place < cardsOf(app);
  followLesson(app);
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
  const bool same = app.taught && app.taught_from && teachesTheSame(*app.taught_from, lesson);
  if (same && app.taught_version == app.version) return;
  app.taught = document::teach(*app.document, lesson);
  const auto index = static_cast<std::size_t>(lesson.opening);
  std::optional<document::Tried> tried;
  if (app.taught->skin_changed) tried = document::Tried{index, app.taught->skin};
  const bool other_scene = tried.has_value() || app.document->tried.has_value();
  if (other_scene) {
    document::tryOn(*app.document, std::move(tried));
    newScene(app);
  }
  app.shown.look.hidden_steps = app.taught->hidden_steps;
  app.shown.look.lit_step = app.taught->lit_step;
  app.water = scene::waterLines(app.document->scene, app.document->job, index, app.taught->there, app.taught->water);
  app.taught_from = lesson;
  app.taught_version = app.version;
  disturb(app);
}

bool isLessonRunning(const App& app) {
  const document::Lesson& lesson = app.shown.lesson;
  if (!lesson.on()) return false;
  return lesson.playing || (lesson.drops && app.taught && app.taught->wet && !app.water.empty());
}

}  // namespace sillwright::view
