#include "view/session/app.h"

#include <algorithm>
#include <cmath>
#include <exception>
#include <initializer_list>

#include "scene/build/magnify.h"
#include "view/values/readings.h"

namespace sillwright::view {

namespace {

constexpr int kSettleFrames = 3;         // panels find their sizes in so many
constexpr float kDimensionRoom = 64.0F;  // pixels at scale 1 beside a picked wall

void stand(App& app, StandingView view, const check::Spot& spot = {}) {  // of what is picked
  if (app.layout.canvas.width <= 0.0F) return;  // no frame has laid anything out yet: frame() places the eye then
  const Subject subject{app.shown.wall, app.shown.opening, spot};
  const scene::Scene& scene = app.document->scene;
  const Canvas canvas = canvasOf(app);
  flyTo(app, facingCut(scene, app.shown.cutting, view, subject, canvas, standAt(scene, view, subject, canvas)));
}

/// The steps that one key goes through, from `first` up and round again.
template <class Number>
Number nextStep(Number now, Number first, std::initializer_list<Number> steps) {
  const auto* const next = std::ranges::upper_bound(steps, now);  // the first above, also from between two
  return next == steps.end() ? first : *next;
}

/// The grants, one a wish. Those that need a document are not called without one.
struct Granter {
  App& app;

  void operator()(const PickWall& wish) const {
    if (!mayLeaveExercise(app)) return;
    if (app.shown.lesson.on()) grantLesson(app, {LessonAct::OpenOrClose});  // a lesson is of an opening
    app.shown.opening = -1;
    app.shown.wall = wish.wall;
    if (wish.fly) (*this)(Stand{StandingView::Outside});
  }
  void operator()(const PickOpening& wish) const {
    if (wish.opening >= static_cast<std::int32_t>(app.document->job.openings.size())) return;
    if (app.shown.lesson.on() && wish.opening != app.shown.lesson.opening) {
      if (wish.opening < 0 || !mayLeaveExercise(app)) return;  // a lesson is left by its own word
      moveLesson(app.shown.lesson, *app.document, wish.opening);
    }
    if (app.shown.opening != wish.opening) app.shown.trouble = 0;  // it counts the troubles of one opening
    app.shown.opening = wish.opening;
    if (wish.opening < 0) {
      app.shown.wall = -1;
      app.shown.look.picked_part = -1;
      return;
    }
    const job::Opening& opening = app.document->job.openings[static_cast<std::size_t>(wish.opening)];
    app.shown.wall = static_cast<std::int32_t>(opening.wall);
    if (wish.fly) (*this)(Stand{StandingView::Outside});
  }
  void operator()(const PickNeighbour& wish) const {
    const auto count = static_cast<std::int32_t>(app.document->job.openings.size());
    if (count == 0) return;
    const std::int32_t step = wish.backwards ? -1 : 1;
    const std::int32_t start = app.shown.opening < 0 && wish.backwards ? 0 : app.shown.opening;  // from none: the last
    (*this)(PickOpening{(start + step + count) % count, true});
  }
  void operator()(const Stand& wish) const { stand(app, wish.view); }
  void operator()(const SeeSpot& wish) const { stand(app, viewOf(wish.spot), wish.spot); }
  void operator()(const NextTrouble& wish) const {
    if (app.shown.opening < 0) return;
    const auto troubles = troublesOf(app.document->findings.openings[static_cast<std::size_t>(app.shown.opening)]);
    if (troubles.empty()) return;
    const auto count = static_cast<int>(troubles.size());
    const int now = static_cast<int>(app.shown.trouble) % count;  // an edit may have left fewer
    app.shown.trouble = static_cast<std::size_t>((now + wish.by + count) % count);
    (*this)(SeeSpot{troubles[app.shown.trouble]->spot});
  }
  void operator()(const ToggleLayer& wish) const {
    app.shown.look.hidden_layers ^= 1U << static_cast<unsigned>(wish.layer);
  }
  void operator()(const ShowAllLayers&) const { app.shown.look.hidden_layers = 0; }
  void operator()(const ScaleText& wish) const {
    const float scale = wish.factor > 0.0F ? app.shown.text_scale * wish.factor : 1.0F;
    app.shown.text_scale = std::clamp(std::round(scale * 100.0F) / 100.0F, kLeastTextScale, kMostTextScale);
  }
  void operator()(const ToggleDark&) const { app.shown.look.dark = !app.shown.look.dark; }
  void operator()(const Toggle& wish) const {
    app.shown.*wish.what = !(app.shown.*wish.what);
    if (app.shown.folded && wish.what == &Shown::folded) tell(app, "F9 brings the panels back.", false);
  }
  void operator()(const Turn& wish) const {
    const render::Camera& camera = app.shown.camera;
    flyTo(app, wish.slide ? pan(camera, camera.target, wish.x, wish.y, app.layout.canvas.height)
                          : orbit(camera, camera.target, wish.x, wish.y));
  }
  void operator()(const Near& wish) const { flyTo(app, zoom(app.shown.camera, app.shown.camera.target, wish.factor)); }
  void operator()(const EditWish& wish) const { grantEdit(app, wish); }
  void operator()(const SetKey& wish) const { setKey(app, wish); }
  void operator()(const LightWish& wish) const { grantLight(app, wish); }
  void operator()(const OpenList& wish) const { app.menu = menuOf(app, wish); }
  void operator()(const Save& wish) const { saveJob(app, wish.over); }
  void operator()(const Recover& wish) const { recover(app, wish.take); }
  void operator()(const TakeBack&) const {
    app.typing.refusal.reset();
    if (app.typing.field) return app.typing.field.reset();  // what is in hand goes first
    if (app.history.canUndo()) goInHistory(app, app.history.place() - 1);
  }
  void operator()(const DoAgain&) const { goInHistory(app, app.history.place() + 1); }
  void operator()(const GoInHistory& wish) const { goInHistory(app, wish.place); }
  void operator()(const ToggleMeasuring&) const { app.shown.measuring = {.on = !app.shown.measuring.on}; }
  void operator()(const LessonWish& wish) const {
    const bool was_on = app.shown.lesson.on();
    grantLesson(app, wish);
    if (!was_on && app.shown.lesson.on()) (*this)(PickOpening{app.shown.lesson.opening, !app.shown.lesson.class_room});
  }
  void operator()(const NextLens&) const {  // round the opening; none after the last corner
    auto& corner = app.shown.lens;
    const int next = corner ? static_cast<int>(*corner) + 1 : 0;
    corner = next < 4 ? std::optional(static_cast<plan::Corner>(next)) : std::nullopt;
    if (app.shown.opening >= 0) return;
    corner.reset();
    tell(app, "Corner detail shows a corner of an opening: pick an opening first.", false);
  }
  void operator()(const CutWish& wish) const { grantCut(app, wish); }
  void operator()(const PullApart& wish) const {
    app.shown.look.spread = wish.spread >= 0.0F ? std::min(wish.spread, kMostSpread)
                                                : nextStep(app.shown.look.spread, 0.0F, {60.0F, 150.0F, 300.0F});
  }
  void operator()(const Magnify& wish) const {
    document::magnify(*app.document, wish.times > 0.0 ? std::clamp(wish.times, 1.0, scene::kMostDeviation)
                                                      : nextStep(app.document->deviation, 1.0, {2.0, 5.0, 10.0, 20.0}));
    newScene(app);
  }
  void operator()(const ToggleJobsPage&) const { toggleJobsPage(app); }
  void operator()(const ChoosePractice& wish) const { app.shown.new_practice = wish.name; }
  void operator()(const OpenJob& wish) const { openJob(app, wish); }
  void operator()(const TakeResult&) const { takeResult(app); }
  void operator()(const OpenFile& wish) const { openFile(app, wish); }
  void operator()(const GoOn&) const { goOn(app); }
  void operator()(const SkipTour&) const { app.shown.tour = -1; }
  void operator()(const TakePicture& wish) const { takePicture(app, wish); }
  void operator()(const TakeSheets& wish) const { takeSheets(app, wish); }
  void operator()(const TakeFile& wish) const { takeFile(app, wish); }
  void operator()(const ReadAgain&) const {
    if (mayLose(app, Asking::ReadAgain)) readAgain(app);
  }
  void operator()(const Close&) const {
    app.closing = mayLose(app, Asking::Close);  // asked for again, while it is asked, it closes
    if (app.closing && app.document && !app.file.found) document::forget(app.file.recovery, app.file.path);
  }
  void operator()(const Stay&) const {
    if (app.shown.asking == Asking::Recover) return;  // wants an answer: an edit would write over what was kept
    app.shown.asking = Asking::Nothing;
    app.jobs.waiting.reset();
  }
};

template <class... Wishes>
bool isOneOf(const Wish& wish) {
  return (std::holds_alternative<Wishes>(wish) || ...);
}

}  // namespace

void flyTo(App& app, const render::Camera& camera, float seconds) {
  app.eye.flight = {app.shown.camera, camera, app.eye.instant ? 1.0F : 0.0F, seconds};  // from where the eye is
  if (app.eye.instant) app.shown.camera = camera;
}

Canvas canvasOf(const App& app) {
  if (app.shown.lesson.class_room) return classCanvas(app.layout.canvas);  // no panel covers it
  Canvas canvas = app.layout.canvas;
  canvas.right = app.shown.opening >= 0 || app.shown.wall >= 0 ? canvas.width - app.layout.sheet_at.x : 0.0F;
  canvas.bottom = canvas.height - (app.shown.lesson.on() ? app.layout.lesson_at.y : app.layout.foot_at.y);
  if (app.lesson.right) canvas.left += canvas.freeWidth() * 0.5F;          // which that has
  if (app.shown.opening < 0 && app.shown.wall >= 0 && app.shown.labels) {  // room for its dimensions
    const float room = kDimensionRoom * app.layout.scale;
    canvas.left += room;
    canvas.right += room;
  }
  return canvas;
}

bool changesNothing(const Wish& wish) {
  const auto* toggle = std::get_if<Toggle>(&wish);
  if (toggle != nullptr) return toggle->what == &Shown::keys_open || toggle->what == &Shown::full_screen;  // no others
  return isOneOf<Close, Stay, ToggleDark, ScaleText>(wish);
}

void newScene(App& app) {
  ++app.version;
  app.flash = {};
  app.shown.look.hovered_part = -1;
  app.shown.look.picked_part = -1;
  disturb(app);
}

void disturb(App& app) { app.settle = kSettleFrames; }

void grant(App& app, const Wish& wish) {
  const bool opens = isOneOf<ReadAgain, ToggleJobsPage, ChoosePractice, OpenJob, GoOn>(wish);  // also without a job
  if (!app.document && !opens && !changesNothing(wish)) return;
  showSaved(app, false);  // wishes are for the job as it is now
  app.menu.reset();       // a list is answered once
  std::visit(Granter{app}, wish);
}

void tell(App& app, std::string words, bool stops) {
  app.notice = {std::move(words), stops};
  disturb(app);
}

bool isHeld(const App& app) { return app.put_by || (app.work && app.work->holds_job); }

Work besideWindow(std::string title, std::function<Then(Steps&)> task) {
  Work work;
  work.title = std::move(title);
  const std::shared_ptr<Steps> steps = work.steps;  // both keep it, whichever ends first
  work.there = std::async(std::launch::async, [steps, task = std::move(task)]() -> Then {
    try {
      return task(*steps);
    } catch (const std::exception& error) {
      const std::string why = error.what();  // the exception ends with this scope
      return [why](App& app) { tell(app, why, true); };
    }
  });
  return work;
}

void followWork(App& app) {
  if (!app.work || !app.work->there.valid()) return;  // a picture's work is drawAwaited's
  if (app.work->there.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return;
  const Then then = app.work->there.get();
  app.work.reset();  // before `then`, which may start other work
  if (then) then(app);
  disturb(app);
}

std::string wordsFor(const Work& work) {
  const std::size_t of = work.steps->of;
  if (of == 0) return work.title + " …";
  return work.title + ": " + std::to_string(work.steps->done) + " of " + std::to_string(of) + " " + work.unit;
}

}  // namespace sillwright::view
