// The lesson's part of the viewer: its wishes granted, its time, and what follows from it.

#include <algorithm>
#include <cmath>

#include "view/session/app.h"
#include "words/text.h"

namespace sillwright::view {

namespace {

constexpr float kEyeSeconds = 0.9F;  // from one card's view to the next
constexpr float kWaySeconds = 1.8F;  // for parts to come
constexpr float kStill = 2.0F;       // seconds at least that a card lies when all have come
constexpr float kPaceStep = 1.25F;   // from one key of pace to the next

/// Whether the same is seen.
bool seesTheSame(const document::Lesson& a, const document::Lesson& b) {
  return a.place == b.place && a.watching == b.watching && a.class_room == b.class_room;
}

/// What plays on changes nothing that is taught.
bool teachesTheSame(const document::Lesson& a, const document::Lesson& b) {
  return a.opening == b.opening && seesTheSame(a, b) && a.what_ifs == b.what_ifs && a.exercise == b.exercise;
}

int cardsOf(const LessonPlay& play) { return play.taught ? static_cast<int>(play.taught->cards.size()) : 0; }

/// A lesson of an opening with all its cards done.
document::Lesson lessonOf(const document::Document& document, std::int32_t opening) {
  const auto index = static_cast<std::size_t>(opening);
  document::Lesson lesson;
  lesson.opening = opening;
  lesson.place = static_cast<int>(plan::stepsAt(document.plan.openings[index]).size());
  return lesson;
}

void close(Shown& shown, LessonPlay& play) {  // the view stays, but for what the lesson did to it
  if (shown.lesson.class_room) shown.full_screen = false;
  shown.lesson = {};
  LessonPlay none;
  none.step_version = play.step_version;      // goes on counting: the next step's scene is no earlier one
  none.exercise_round = play.exercise_round;  // the next one is shuffled another way
  play = std::move(none);
  shown.look.hidden_steps = 0;
  shown.look.lit_step.reset();
  shown.look.shadow = true;
}

void go(document::Lesson& lesson, int place, int cards) {
  lesson.place = std::clamp(place, 0, cards);
  lesson.since = 0.0F;
  lesson.watching = false;
}

/// The next thing to see: the water where all that sheds it is on, and when the cladding is; else a card. False: that
/// was the last.
bool goOn(document::Lesson& lesson, const LessonPlay& play) {
  const document::Taught& taught = *play.taught;
  const int cards = cardsOf(play);
  const bool last = lesson.place >= cards;
  const bool sheds = last || taught.cards[static_cast<std::size_t>(lesson.place)] == plan::StepKind::Cladding;
  const bool watch = !lesson.watching && lesson.drops && taught.wet && sheds;  // once: after that the next card comes
  if (last && !watch) return false;
  go(lesson, lesson.place + (watch ? 0 : 1), cards);
  lesson.watching = watch;
  return true;
}

/// Whether something can't be asked for: during an exercise what would tell its answer, else what is about one.
bool isShut(const document::Lesson& lesson, LessonAct act) {
  using A = LessonAct;
  const auto among = [&](std::initializer_list<A> acts) { return std::ranges::find(acts, act) != acts.end(); };
  return lesson.exercise ? among({A::Go, A::Step, A::Play, A::ClassRoom, A::Choose, A::Try})
                         : among({A::TakeCard, A::Pick, A::Answer, A::Again});
}

/// The opening as it should be, while a what-if is on. The document's scene is the plan's.
std::optional<AsItShouldBe> asItShouldBe(const document::Document& document, const document::Lesson& lesson) {
  if (lesson.what_ifs.empty() || lesson.class_room || lesson.exercise) return std::nullopt;
  document::Lesson right = lesson;
  right.what_ifs.clear();
  const auto opening = static_cast<std::size_t>(lesson.opening);
  document::Taught taught = document::teach(document, right);
  auto water = scene::waterLines(document.scene, document.job, opening, taught.there, taught.water);
  scene::Scene alone = document::stepView(document, taught, opening, 0).scene;
  return AsItShouldBe{std::move(taught), std::move(water), std::move(alone)};
}

/// The cards or questions of the exercise, dealt anew. What its job lacks is told.
void deal(App& app, std::uint32_t round) {
  document::Lesson& lesson = app.shown.lesson;
  LessonPlay& play = app.lesson;
  auto task = document::makeTask(*play.exercise, *app.document, round);
  if (!task.ok()) return tell(app, "The exercise can't be set: " + base::toLine(task.errors.front()), true);
  if (lesson.class_room) app.shown.full_screen = false;  // an exercise is no class room's
  lesson = lessonOf(*app.document, document::indexOf(app.document->job.openings, play.exercise->opening));
  lesson.what_ifs = task.value->wrong;
  lesson.exercise = document::begin(std::make_shared<const document::Task>(std::move(*task.value)));
  play.began = std::chrono::steady_clock::now();
}

void startOrLeaveExercise(App& app) {
  if (app.shown.lesson.exercise) {
    app.shown.lesson = lessonOf(*app.document, app.shown.lesson.opening);
    app.lesson.exercise.reset();  // a lesson again, of the same opening
    return;
  }
  app.lesson.exercise = document::plainExercise(*app.document, static_cast<std::size_t>(app.shown.lesson.opening));
  deal(app, ++app.lesson.exercise_round);
}

void step(App& app, int by, int cards) {
  document::Lesson& lesson = app.shown.lesson;
  lesson.playing = false;
  if (!lesson.class_room || by <= 0) return go(lesson, lesson.place + (lesson.watching ? 0 : by), cards);
  static_cast<void>(goOn(lesson, app.lesson));  // a class sees the water between cards, as while it plays
}

/// What is done within a lesson that is on.
void grantWithin(App& app, const LessonWish& wish) {
  using A = LessonAct;
  document::Lesson& lesson = app.shown.lesson;
  const int cards = cardsOf(app.lesson);
  const auto value = static_cast<std::size_t>(std::max(wish.value, 0));
  const auto is = [&](A act) { return wish.act == act; };
  if (is(A::Go) || is(A::Play)) lesson.playing = is(A::Play) && !lesson.playing;  // going to a card ends the play
  if (is(A::Go)) go(lesson, wish.value, cards);
  if (is(A::Step)) step(app, wish.value, cards);
  if (is(A::Pace))
    lesson.pace = std::clamp(lesson.pace * std::pow(kPaceStep, static_cast<float>(wish.value)), 0.4F, 4.0F);
  if (is(A::Loop)) lesson.loop = !lesson.loop;
  if (is(A::Drops)) lesson.drops = !lesson.drops;
  if (is(A::Choose)) lesson.choosing = !lesson.choosing;
  if (is(A::ClassRoom)) {
    app.shown.full_screen = lesson.class_room = !lesson.class_room;
    lesson.watching = lesson.choosing = false;  // begun or left, it shows cards
  }
  // What begins anew begins with the bare frame.
  if ((is(A::ClassRoom) || (is(A::Play) && lesson.playing)) && lesson.place >= cards) go(lesson, 0, cards);
  if (is(A::About)) {
    const std::string name = wish.value < 0 ? "" : app.lesson.taught->skin.sheets[value].name;  // −1: no sheet was hit
    lesson.about = name == lesson.about ? "" : name;
  }
  if (is(A::Try) && std::erase(lesson.what_ifs, *wish.what_if) == 0) lesson.what_ifs.push_back(*wish.what_if);
  if (is(A::Exercise) || (is(A::PutBack) && lesson.exercise)) startOrLeaveExercise(app);
  if (is(A::PutBack)) lesson.what_ifs.clear();
  if (is(A::TakeCard)) document::takeCard(*lesson.exercise, wish.value);
  if (is(A::Pick)) document::pick(*lesson.exercise, value / document::kMostOptions, value % document::kMostOptions);
  if (is(A::Answer)) {
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - app.lesson.began;
    document::answer(*lesson.exercise, passed.count());
  }
  if (is(A::Again)) deal(app, ++app.lesson.exercise_round);
}

constexpr float kWordsASecond = 3.0F;  // common practice of captions, no source
constexpr float kLooking = 1.5F;       // seconds for the drawing itself

/// The step's words; of the bare frame the opening's, and where the water is watched where it goes. `step`: what the
/// card is shown by; null: nothing.
LessonCard cardOf(const document::Document& document, const document::Lesson& lesson, const document::Taught& taught,
                  const document::StepView* step) {
  if (lesson.watching) return {"Where the water goes", taught.water_says, {}};
  if (lesson.place <= 0) {  // "J2: sliding window 1510 × 1040 mm"
    const auto opening = static_cast<std::size_t>(lesson.opening);
    const plan::UnitSpec& unit = document.plan.openings[opening].unit;
    const std::string size = words::size(unit, document.practice->display);
    return {document.job.openings[opening].name + ": " + words::unitName(unit.kind, unit.lights) + " " + size,
            "The order of work in " + std::to_string(taught.cards.size()) + " steps.",
            {}};
  }
  const plan::Step& now = taught.step(taught.cards[static_cast<std::size_t>(lesson.place - 1)]);
  return {std::to_string(lesson.place) + "  " + now.title, now.what, step != nullptr ? step->why : std::string{}};
}

}  // namespace

void moveLesson(document::Lesson& lesson, const document::Document& document, std::int32_t opening) {
  document::Lesson moved = lessonOf(document, opening);
  moved.drops = lesson.drops;
  moved.choosing = lesson.choosing && !lesson.exercise;
  moved.class_room = lesson.class_room;
  if (moved.class_room) moved.place = 0;
  lesson = std::move(moved);
}

bool mayLeaveExercise(App& app) {
  const auto& exercise = app.shown.lesson.exercise;
  const bool asked = app.shown.asking == Asking::LeaveExercise;
  const bool may = asked || !exercise || exercise->solved || *exercise == document::begin(exercise->task);
  if (asked || !may) app.shown.asking = may ? Asking::Nothing : Asking::LeaveExercise;
  return may;
}

void grantLesson(App& app, const LessonWish& wish) {
  document::Lesson& lesson = app.shown.lesson;
  const bool leaves =
      wish.act == LessonAct::OpenOrClose || wish.act == LessonAct::Exercise || wish.act == LessonAct::PutBack;
  if (leaves && !mayLeaveExercise(app)) return;
  const bool opens = wish.act == LessonAct::ClassRoom && !lesson.on();
  if (wish.act == LessonAct::OpenOrClose || opens) {
    if (lesson.on()) {
      close(app.shown, app.lesson);
    } else if (!app.document->job.openings.empty()) {
      lesson = lessonOf(*app.document, std::max(app.shown.opening, 0));
      app.lesson.drop_seconds = 0.0F;
    }
    followLesson(app);
    if (!opens) return;
  }
  if (!lesson.on() || !app.lesson.taught || isShut(lesson, wish.act)) return;
  grantWithin(app, wish);
  followLesson(app);
}

void beginExercise(App& app) {
  if (!app.document || !app.lesson.exercise) return;
  app.shown.folded = false;
  deal(app, 0);                            // the same deal for everybody who opens its file
  if (!app.shown.lesson.exercise) return;  // deal has told why
  grant(app, PickOpening{app.shown.lesson.opening, true});
  followLesson(app);
}

float cardSeconds(const document::Lesson& lesson, const LessonPlay& play) {
  float words = 0.0F;
  for (const std::string* each : {&play.card.title, &play.card.what, &play.card.why}) {
    words += static_cast<float>(std::count(each->begin(), each->end(), ' ') + (each->empty() ? 0 : 1));
  }
  const float reading = kLooking + words / kWordsASecond;
  if (lesson.watching) {
    float longest = 0.0F;
    for (const scene::WaterLine& line : play.water) longest = std::max(longest, scene::lengthOf(line));
    return std::max(reading, 2.0F * longest / kDropSpeed);  // a drop runs the whole way twice
  }
  const bool come = play.step && document::comes(*play.step);
  return std::max(reading, kEyeSeconds + (come ? kWaySeconds : 0.0F) + kStill);
}

bool showsWater(const document::Lesson& lesson) { return lesson.watching || (!lesson.playing && !lesson.class_room); }

void playLesson(document::Lesson& lesson, LessonPlay& play, float seconds) {
  if (!lesson.on() || !play.taught) return;
  if (isLessonRunning(lesson, play)) play.drop_seconds += seconds;  // at rest it stays where it is
  if (play.coming < 1.0F) play.coming = std::min(1.0F, play.coming + seconds * lesson.pace / kWaySeconds);
  if (!lesson.playing) return;
  lesson.since += seconds * lesson.pace;
  if (lesson.since < cardSeconds(lesson, play)) return;
  play.drop_seconds = 0.0F;
  if (goOn(lesson, play)) return;
  lesson.playing = lesson.loop;
  if (lesson.loop) go(lesson, 0, cardsOf(play));
}

void followComing(App& app) {
  LessonPlay& play = app.lesson;
  const bool rests = play.coming >= 1.0F ? !play.moved : play.coming <= 0.0F && play.moved;  // nothing moves
  if (!play.step || rests) return;
  play.moved.reset();
  const job::Opening& opening = app.document->job.openings[static_cast<std::size_t>(app.shown.lesson.opening)];
  const scene::WallFrame& wall = app.document->scene.walls[opening.wall];
  if (play.coming < 1.0F) play.moved = document::onTheWay(*play.step, wall, play.coming);
  ++play.step_version;
}

/// What is gone to is seen as it is seen best; a lesson that was only opened, as it stood. What a class is shown, or
/// plays, comes before its eyes.
void followStep(App& app) {
  const document::Lesson& lesson = app.shown.lesson;
  LessonPlay& play = app.lesson;
  const bool same_opening = play.from && play.from->opening == lesson.opening;
  const bool other = (same_opening && !seesTheSame(*play.from, lesson)) || (!play.from && lesson.class_room);
  play.stepping = (same_opening && play.stepping) || other;
  play.step.reset();
  play.moved.reset();
  play.coming = 1.0F;
  app.shown.look.shadow = true;
  const int place = lesson.watching ? 0 : lesson.place;  // 0 shows the opening, and no step of it
  const bool own = place > 0 ? play.stepping : lesson.watching || lesson.class_room;
  if (!own || lesson.exercise) return;  // else the work is seen as it stands
  const bool shows = lesson.playing || lesson.class_room;
  play.step = document::stepView(*app.document, *play.taught, static_cast<std::size_t>(lesson.opening), place,
                                 shows ? 1.0F : document::kStillWay);
  ++play.step_version;
  app.shown.look.lit_step = play.step->lit;
  app.shown.look.shadow = false;  // of walls that are left out
  if (!other) return;
  flyTo(app, standAt(*play.step, canvasOf(app)), shows ? kEyeSeconds / lesson.pace : kFlightSeconds);
  if (shows && document::comes(*play.step) && !app.eye.instant) play.coming = -kEyeSeconds / kWaySeconds;
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
  lesson.place = std::clamp(lesson.place, 0, cardsOf(app.lesson));  // an exercise, or an edit, may leave fewer
  const auto index = static_cast<std::size_t>(lesson.opening);
  // What is done wrong changes the scene. How it should be is taken from the document before that, to stand beside it.
  std::optional<document::Tried> tried;
  if (app.lesson.taught->skin_changed) tried = document::Tried{index, app.lesson.taught->skin};
  const bool other_scene = tried.has_value() || app.document->tried.has_value();
  if (other_scene) document::tryOn(*app.document, std::nullopt);  // asItShouldBe reads the document without the what-if
  const bool was_beside = app.lesson.right.has_value();
  app.lesson.right = asItShouldBe(*app.document, lesson);
  if (other_scene) {
    document::tryOn(*app.document, std::move(tried));
    newScene(app);  // before app.version is noted below
  }
  // What the drawing hides and lights up, where the water runs, and what the card is shown by and says.
  app.shown.look.hidden_steps = app.lesson.taught->hidden_steps;
  app.shown.look.lit_step = app.lesson.taught->lit_step;
  app.lesson.water = scene::waterLines(app.document->scene, app.document->job, index, app.lesson.taught->there,
                                       app.lesson.taught->water);
  followStep(app);
  app.lesson.card = cardOf(*app.document, lesson, *app.lesson.taught, app.lesson.step ? &*app.lesson.step : nullptr);
  if (was_beside != app.lesson.right.has_value()) {  // the picture has half the room, or all of it again
    document::StepView seen = document::stepView(*app.document, *app.lesson.taught, index, 0);
    seen.yaw_degrees = app.shown.camera.yaw_degrees;
    seen.pitch_degrees = app.shown.camera.pitch_degrees;
    flyTo(app, standAt(seen, canvasOf(app)));
  }
  app.lesson.from = lesson;  // last: followStep compares with the one before
  app.lesson.version = app.version;
  disturb(app);
}

bool isLessonMoving(const document::Lesson& lesson, const LessonPlay& play) {
  const bool drops = showsWater(lesson) && lesson.drops && play.taught && play.taught->wet && !play.water.empty();
  return lesson.on() && (drops || play.coming < 1.0F);
}

bool isLessonRunning(const document::Lesson& lesson, const LessonPlay& play) {
  return lesson.on() && (lesson.playing || isLessonMoving(lesson, play));
}

}  // namespace sillwright::view
