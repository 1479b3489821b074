#include "view/session/app.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "scene/build/build.h"
#include "scene/build/magnify.h"
#include "view/marks/handle_marks.h"
#include "view/marks/labels.h"
#include "view/panels/words.h"
#include "view/session/taking.h"

namespace sillwright::view {
namespace {

constexpr int kSettleFrames = 3;
constexpr float kDimensionRoom = 64.0F;  // pixels at text scale 1 beside a picked wall

Subject subjectOf(const App& app, const check::Spot& spot = {}) {
  return {app.shown.wall, app.shown.opening, spot};
}

void flyTo(App& app, const render::Camera& camera) {
  app.flight = startFlight(app.shown.camera, camera);
  if (app.instant) app.flight.passed = 1.0F;
  if (app.instant) app.shown.camera = camera;
}

/// Where the panels will lie once what is picked has its sheet.
Canvas canvasOf(const App& app) {
  Canvas canvas = app.layout.canvas;
  canvas.right = app.shown.opening >= 0 || app.shown.wall >= 0 ? canvas.width - app.layout.sheet_at.x : 0.0F;
  canvas.bottom = canvas.height - (app.shown.lesson.on() ? app.layout.lesson_at.y : app.layout.foot_at.y);
  if (app.shown.opening < 0 && app.shown.wall >= 0 && app.shown.labels) {  // room for its dimensions
    const float room = kDimensionRoom * app.shown.text_scale;
    canvas.left += room;
    canvas.right += room;
  }
  return canvas;
}

void stand(App& app, StandingView view, const Subject& subject) {
  if (app.layout.canvas.width <= 0.0F) return;
  const scene::Scene& scene = app.document->scene;
  const Canvas canvas = canvasOf(app);
  flyTo(app, facingCut(scene, app.shown.cutting, view, subject, canvas, standAt(scene, view, subject, canvas)));
}

/// The steps that one key goes through, from `first` up and round again.
template <class Number>
Number nextStep(Number now, Number first, std::initializer_list<Number> steps) {
  for (const Number step : steps) {
    if (step > now) return step;
  }
  return first;
}

double nextDeviation(double now) {
  return nextStep(now, 1.0, {2.0, 5.0, 10.0, 20.0});
}

float nextSpread(float now) {
  return nextStep(now, 0.0F, {60.0F, 150.0F, 300.0F});
}

/// The grants, one a wish. Those that need a document are not called without one.
struct Granter {
  App& app;

  void operator()(const PickWall& wish) const {
    if (app.shown.lesson.on()) grantLesson(app, {LessonAct::OpenOrClose, 0, {}});
    app.shown.opening = -1;
    app.shown.look.picked_opening = -1;
    app.shown.wall = wish.wall;
    if (wish.fly) stand(app, StandingView::Outside, subjectOf(app));
  }
  void operator()(const PickOpening& wish) const {
    if (wish.opening >= static_cast<std::int32_t>(app.document->job.openings.size())) return;
    if (app.shown.lesson.on() && wish.opening != app.shown.lesson.opening) {
      if (wish.opening < 0) return;  // a lesson is left by its own word
      moveLesson(app, wish.opening);
    }
    app.shown.opening = wish.opening;
    app.shown.look.picked_opening = wish.opening;
    if (wish.opening < 0) {
      app.shown.wall = -1;
      app.shown.look.picked_part = -1;
      return;
    }
    const job::Opening& opening = app.document->job.openings[static_cast<std::size_t>(wish.opening)];
    app.shown.wall = static_cast<std::int32_t>(opening.wall);
    if (wish.fly) stand(app, StandingView::Outside, subjectOf(app));
  }
  void operator()(const PickNeighbour& wish) const {
    const auto count = static_cast<std::int32_t>(app.document->job.openings.size());
    if (count == 0) return;
    const std::int32_t step = wish.backwards ? -1 : 1;
    const std::int32_t start = app.shown.opening < 0 && wish.backwards ? 0 : app.shown.opening;
    (*this)(PickOpening{(start + step + count) % count, true});
  }
  void operator()(const Stand& wish) const { stand(app, wish.view, subjectOf(app)); }
  void operator()(const SeeSpot& wish) const { stand(app, viewOf(wish.spot), subjectOf(app, wish.spot)); }
  void operator()(const ToggleLayer& wish) const {
    app.shown.look.hidden_layers ^= 1U << static_cast<unsigned>(wish.layer);
  }
  void operator()(const ShowAllLayers&) const { app.shown.look.hidden_layers = 0; }
  void operator()(const ScaleText& wish) const {
    const float scale = wish.factor > 0.0F ? app.shown.text_scale * wish.factor : 1.0F;
    app.shown.text_scale = std::clamp(std::round(scale * 100.0F) / 100.0F, kLeastTextScale, kMostTextScale);
  }
  void operator()(const ToggleDark&) const { app.shown.look.dark = !app.shown.look.dark; }
  void operator()(const ToggleLabels&) const { app.shown.labels = !app.shown.labels; }
  void operator()(const ToggleLayersPanel&) const { app.shown.layers_open = !app.shown.layers_open; }
  void operator()(const ToggleKeysPage&) const { app.shown.keys_open = !app.shown.keys_open; }
  void operator()(const Turn& wish) const {
    flyTo(app, orbit(app.shown.camera, app.shown.camera.target, wish.x, wish.y));
  }
  void operator()(const Slide& wish) const {
    flyTo(app, pan(app.shown.camera, app.shown.camera.target, wish.x, wish.y, app.layout.canvas.height));
  }
  void operator()(const Near& wish) const { flyTo(app, zoom(app.shown.camera, app.shown.camera.target, wish.factor)); }
  void operator()(const TypeReading& wish) const {
    const auto value = wish.value ? figure(*wish.value, app.document->practice->display) : std::string("nothing");
    const std::string name = std::string(infoOf(wish.reading).name) + " of " +
                             app.document->job.openings[wish.opening].name + " to " + value;
    edit(app, name, [&](job::Job& job) { setValue(job.openings[wish.opening].measured, wish.reading, wish.value); });
  }
  void operator()(const NextInstrument& wish) const {
    std::optional<job::Measured> next = app.document->job.openings[wish.opening].measured;
    nextInstrument(next);
    const std::string name =
        "instrument of " + app.document->job.openings[wish.opening].name + " to " + instrumentWord(next);
    edit(app, name, [&](job::Job& job) { job.openings[wish.opening].measured = next; });
  }
  void operator()(const EditWish& wish) const { grantEdit(app, wish); }
  void operator()(const Save&) const { saveJob(app); }
  void operator()(const Recover& wish) const { recover(app, wish.take); }
  void operator()(const TakeBack&) const {
    app.typing.refusal.reset();
    if (app.typing.field) {  // what is in hand goes first
      app.typing.field.reset();
      return;
    }
    if (app.history.undo(app.document->job)) followJob(app);
    keepSoon(app);
  }
  void operator()(const DoAgain&) const {
    if (app.history.redo(app.document->job)) followJob(app);
    keepSoon(app);
  }
  void operator()(const GoInHistory& wish) const {
    app.history.go(app.document->job, wish.place);
    followJob(app);
    keepSoon(app);
  }
  void operator()(const ToggleMeasuring&) const {
    const bool on = !app.shown.measuring.on;
    app.shown.measuring = {};
    app.shown.measuring.on = on;
  }
  void operator()(const ToggleHistory&) const { app.shown.history_open = !app.shown.history_open; }
  void operator()(const LessonWish& wish) const {
    const bool was_on = app.shown.lesson.on();
    grantLesson(app, wish);
    if (!was_on && app.shown.lesson.on()) (*this)(PickOpening{app.shown.lesson.opening, true});
  }
  void operator()(const NextLens&) const {
    app.shown.lens = app.shown.opening >= 0 ? nextCorner(app.shown.lens) : std::nullopt;
    if (app.shown.opening < 0) tell(app, "The lens looks at a corner of an opening: pick one first.", false);
  }
  void operator()(const CutWish& wish) const { grantCut(app, wish); }
  void operator()(const PullApart& wish) const {
    app.shown.look.spread =
        wish.spread >= 0.0F ? std::min(wish.spread, kMostSpread) : nextSpread(app.shown.look.spread);
  }
  void operator()(const Magnify& wish) const {
    document::magnify(*app.document, wish.times > 0.0 ? std::clamp(wish.times, 1.0, scene::kMostDeviation)
                                                      : nextDeviation(app.document->deviation));
    newScene(app);
  }
  void operator()(const ToggleJobsPage&) const { toggleJobsPage(app); }
  void operator()(const ChoosePractice& wish) const { app.shown.new_practice = wish.name; }
  void operator()(const OpenJob& wish) const { openJob(app, wish); }
  void operator()(const GoOn&) const { goOn(app); }
  void operator()(const TogglePaperPage&) const { app.shown.paper_open = !app.shown.paper_open; }
  void operator()(const TakePicture& wish) const { takePicture(app, wish); }
  void operator()(const TakeSheets& wish) const { takeSheets(app, wish); }
  void operator()(const TakeLists&) const { takeLists(app); }
  void operator()(const ReadAgain&) const {
    if (!mayLose(app, Asking::ReadAgain)) return;
    readAgain(app);
  }
  void operator()(const Close&) const {
    app.closing = mayLose(app, Asking::Close);
    if (app.closing && app.document && !app.kept.found) document::forget(app.kept.recovery, app.path);
  }
  void operator()(const Stay&) const {
    if (app.shown.asking == Asking::Recover) return;  // wants an answer: an edit would write over what was kept
    app.shown.asking = Asking::Nothing;
    app.waiting.reset();
  }
};

bool needsDocument(const Wish& wish) {
  return !std::holds_alternative<ScaleText>(wish) && !std::holds_alternative<ToggleDark>(wish) &&
         !std::holds_alternative<ReadAgain>(wish) && !std::holds_alternative<Close>(wish) &&
         !std::holds_alternative<ToggleKeysPage>(wish) && !std::holds_alternative<Stay>(wish) &&
         !std::holds_alternative<ToggleJobsPage>(wish) && !std::holds_alternative<ChoosePractice>(wish) &&
         !std::holds_alternative<OpenJob>(wish) && !std::holds_alternative<GoOn>(wish);
}

/// What may be wished for while work holds the job.
bool changesNothing(const Wish& wish) {
  return std::holds_alternative<Close>(wish) || std::holds_alternative<Stay>(wish) ||
         std::holds_alternative<ToggleKeysPage>(wish) || std::holds_alternative<ToggleDark>(wish) ||
         std::holds_alternative<ScaleText>(wish);
}

/// Whether anything is still to be drawn or taken in.
bool isMoving(const App& app, const Stage& stage) {
  return !app.input.empty() || app.settle > 0 || app.flight.flying() || app.flash.on() || app.moving_seconds > 0.0F ||
         stage.wantsRefining();
}

/// The card of the part under the pointer.
void addPartCard(const App& app, std::vector<Card>& cards) {
  if (!app.hovered_part || app.hand.button || app.hovered_handle || app.pull || app.cut.hot() ||
      app.shown.measuring.on) {
    return;
  }
  const document::Document& document = *app.document;
  const scene::Part& part = document.scene.parts[*app.hovered_part];
  const ImVec2 at = ImGui::GetIO().MousePos;
  cards.push_back({at,
                   at + ImVec2{2.0F, 2.0F},
                   scene::describe(part, *document.practice),
                   scene::reason(part, document.job, *document.practice, document.plan),
                   {}});
}

/// A handle where the cut has taken the wall away has nothing to hold on to; the one in hand stays.
void leaveOutGone(App& app) {
  if (app.handles.empty() || !app.shown.look.cut || app.pull) return;
  const scene::WallFrame& wall = app.document->scene.walls[static_cast<std::size_t>(app.shown.wall)];
  std::erase_if(app.handles, [&](const Handle& handle) { return isGone(app.shown.look.cut, wall, handle.at); });
}

/// Handles of what is picked, but not in a lesson; their names and figures go where the pointer is.
void drawHandlesOf(App& app, const Ui& ui) {
  app.handles.clear();
  if (!app.shown.lesson.on() && !app.shown.measuring.on && app.shown.labels) {
    app.handles = handlesOf(*app.document, app.shown.wall, app.shown.opening, app.shown.camera);
    leaveOutGone(app);
  }
  drawHandles(ui, *ImGui::GetBackgroundDrawList(),
              {*app.document, app.shown, app.layout.canvas, app.handles, app.hovered_handle,
               app.pull ? &app.pull->handle : nullptr, app.pull ? app.pull->typed : std::string{},
               app.pull ? app.pull->refusal : std::string{}});
}

bool isLensOut(const App& app) {
  return app.document && app.shown.lens && app.shown.opening >= 0 && !app.shown.lesson.on();
}

/// Panels, the lens and the cut's handle lie over the lettering: nothing is written under them.
std::vector<Rect> roomTaken(const App& app, const Ui& ui) {
  std::vector<Rect> taken = app.panels;
  if (isLensOut(app)) {
    const LensPlace lens = placeLens(ui, app.layout.canvas, app.panels);
    taken.push_back({lens.at, lens.at + ImVec2{lens.side, lens.side}});
  }
  if (!app.cut.handle || !app.shown.look.cut) return taken;
  const Canvas& canvas = app.layout.canvas;
  const glm::vec3 seen = render::project(app.shown.camera, app.cut.handle->at, canvas.width, canvas.height);
  const ImVec2 half{ui.px(12.0F), ui.px(12.0F)};
  taken.push_back({ImVec2{seen.x, seen.y} - half, ImVec2{seen.x, seen.y} + half});
  return taken;
}

void drawPanels(App& app, const Ui& ui, ImVec2 size, Wishes& wishes) {
  std::vector<Card> cards;
  addPartCard(app, cards);
  const bool lesson = app.shown.lesson.on() && app.taught;
  const Panel panel{ui,
                    *app.document,
                    app.shown,
                    app.typing,
                    app.history,
                    !(app.document->job == app.typing.in_file),
                    lesson ? &*app.taught : nullptr,
                    wishes,
                    cards};
  wallStrip(panel, app.layout);
  if (lesson) {
    lessonSheet(panel, app.layout);
    lessonStrip(panel, app.layout);
  } else {
    openingSheet(panel, app.layout);
    wallSheet(panel, app.layout);
  }
  if (app.shown.layers_open) layersPanel(panel, app.layout);
  if (app.shown.history_open) historyPanel(panel, app.layout);
  if (!app.errors.empty()) errorsBeside(panel, app.layout, app.errors, app.file_lines);
  if (app.shown.cutting.axis) cutPanel(panel, app.layout);
  footLine(panel, app.layout);
  if (app.shown.keys_open) keysPage(ui, size, wishes);
  if (app.shown.paper_open) paperPage(panel, app.layout, size);
  if (app.shown.asking != Asking::Nothing) askPage(panel, size);
  const WaterShown water{&app.water, lesson ? &*app.taught : nullptr, app.shown.lesson.drops ? app.drop_seconds : 0.0F};
  app.written = drawLabels(ui, *ImGui::GetBackgroundDrawList(), *app.document, app.shown, app.layout.canvas, water,
                           &app.flash, roomTaken(app, ui));
  drawHandlesOf(app, ui);
  drawCut(app, ui);
  app.card.reset();
  if (cards.empty() || app.shown.keys_open) return;
  app.card = std::move(cards.back());
  drawCard(ui, *app.card, size);
}

/// Whose rules a new job follows.
std::string practiceOf(const App& app) {
  if (!app.shown.new_practice.empty()) return app.shown.new_practice;
  const auto& all = app.choices->practices;
  const std::string own = app.document ? app.document->job.practice : std::string{};
  const bool known =
      std::any_of(all.begin(), all.end(), [&](const document::JobChoice& each) { return each.file == own; });
  return known || all.empty() ? own : all.front().file.string();
}

/// The lens over the picture, made anew where what it shows has changed.
void showLens(App& app, Stage& stage, const Ui& ui, const Screen& screen) {
  if (!isLensOut(app)) return;
  const auto opening = static_cast<std::size_t>(app.shown.opening);
  const scene::WallFrame& wall = app.document->scene.walls[app.document->job.openings[opening].wall];
  const LensPlace place = placeLens(ui, app.layout.canvas, app.panels);
  const float scale = pixelsPerMm(screen.scale);
  const bool inside = glm::dot(app.shown.camera.eye() - wall.origin, wall.inward) > wall.depth * 0.5F;
  const App::LensMade wanted{app.version, app.shown.opening,   *app.shown.lens,
                             inside,      app.shown.look.dark, place.side / scale};
  if (!app.lens || !(app.lens_made == wanted)) {
    app.lens = lensOn(*app.document, opening, wanted.corner, inside, wanted.dark, static_cast<double>(wanted.mm));
    app.lens_made = wanted;
    ++app.lens_key;
  }
  const ImTextureID picture = stage.drawLens(*app.lens, app.lens_key, static_cast<int>(place.side));
  drawLensFrame(ui, *ImGui::GetBackgroundDrawList(), picture, place, scale,
                lensTitle(*app.document, opening, wanted.corner), lensFigures(*app.document, opening, wanted.corner));
}

/// Moves the eye on, and counts down what is still to come.
void passTime(App& app, float seconds, bool disturbed) {
  if (app.flight.flying()) app.shown.camera = fly(app.flight, seconds);
  app.moving_seconds = std::max(0.0F, app.moving_seconds - seconds);
  app.flash.left = std::max(0.0F, app.flash.left - seconds);
  if (app.kept.stale_seconds) *app.kept.stale_seconds += seconds;
  if (disturbed) {
    disturb(app);
  } else if (app.settle > 0) {
    --app.settle;
  }
}

}  // namespace

void newScene(App& app) {
  ++app.version;
  app.flash.parts.clear();
  app.hovered_part.reset();
  app.shown.look.hovered_part = -1;
  app.shown.look.picked_part = -1;
  disturb(app);
}

void disturb(App& app) {
  app.settle = kSettleFrames;
}

void grant(App& app, const Wish& wish) {
  if (!app.document && needsDocument(wish)) return;
  std::visit(Granter{app}, wish);
}

bool isHeld(const App& app) {
  return app.work && app.work->holds_job;
}

bool wantsFrame(const App& app, const Stage& stage) {
  return isUnsettled(app, stage) || isLessonRunning(app);
}

bool isUnsettled(const App& app, const Stage& stage) {
  return isMoving(app, stage) || app.work;
}

bool isOnlyWorking(const App& app, const Stage& stage) {
  return app.work && app.work->there.valid() && !isMoving(app, stage) && !isLessonRunning(app);
}

void frame(App& app, Stage& stage, const Screen& screen, float seconds) {
  const InputStep step = app.input.takeStep();
  const bool pressed = std::any_of(step.keys.begin(), step.keys.end(), [](const KeyChanged& key) { return key.down; });
  if (pressed || (step.button && step.button->down)) app.notice.clear();
  passTime(app, seconds, !step.empty());
  followWork(app);
  playLesson(app, seconds);
  const ImVec2 size{static_cast<float>(screen.width), static_cast<float>(screen.height)};
  stage.gui().begin(size.x, size.y, seconds, app.shown.text_scale * screen.scale, app.shown.look.dark, step);
  app.panels.clear();
  const Ui ui = stage.gui().ui(app.focus, &app.panels);
  app.layout = layOut(ui, size, app.shown.opening >= 0 || app.shown.wall >= 0, app.shown.lesson.on());

  Wishes wishes;
  if (step.dropped) wishes.push_back(OpenJob{step.dropped->file});
  followKeys(app, step, wishes);
  if (app.document) {
    if (!app.placed) app.shown.camera = standAt(app.document->scene, StandingView::House, {}, app.layout.canvas);
    app.placed = true;
    if (!isHeld(app)) followPointer(app, step, screen, wishes);
    if (!isHeld(app)) followCut(app);
  }
  leaveField(app);
  // What is drawn is what the panels and labels were made for; wishes change the next frame.
  const Shown drawn = app.shown;
  if (app.document) {
    drawPanels(app, ui, size, wishes);
  } else {
    if (!app.errors.empty()) errorPage(ui, size, app.path, app.errors, app.file_lines, wishes);
    if (app.shown.keys_open) keysPage(ui, size, wishes);
  }
  if (app.choices) jobsPage({ui, app.shown, app.typing, *app.choices, practiceOf(app), wishes}, size);
  if (app.work) {
    workPlate(ui, app.layout, *app.work);
  } else if (!app.notice.empty()) {
    noticePlate(ui, app.layout, app.notice, app.notice_stops);
  }
  const bool moving = app.flight.flying() || app.moving_seconds > 0.0F;
  stage.draw(app.document ? &app.document->scene : nullptr, app.version, drawn, screen.width, screen.height, moving);
  showLens(app, stage, ui, screen);
  stage.gui().end();
  app.focus.endFrame();

  for (const Wish& wish : wishes) {
    if (!isHeld(app) || changesNothing(wish)) grant(app, wish);
  }
  if (!wishes.empty()) disturb(app);
  followLesson(app);
}

}  // namespace sillwright::view
