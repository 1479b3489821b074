#include "view/session/hand.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "plan/weather/skin.h"
#include "scene/build/wall_parts.h"
#include "scene/pick.h"
#include "view/session/app.h"
#include "view/values/readings.h"

namespace sillwright::view {

/// The ray into the world through a pixel of the whole picture.
static render::Ray rayAt(const App& app, ImVec2 at) {
  return render::rayThrough(app.shown.camera, at.x, at.y, app.layout.canvas.width, app.layout.canvas.height);
}

std::optional<scene::Hit> hitUnder(const App& app, ImVec2 at) {
  const render::Ray ray = rayAt(app, at);
  return scene::Rays(seenScene(app), render::shownUnder(app.shown.look)).pick(ray.from, ray.direction);
}

bool isCutPulled(const App& app) { return app.pull && app.pull->handle.of_cut; }

namespace {

constexpr float kNearEnough = 12.0F;  // pixels at scale 1 from the cut's handle, which is drawn larger than others

/// The place of the plane under a pixel; empty where it is seen end on or lies behind the eye.
std::optional<glm::vec3> onPlane(const render::Ray& ray, const scene::Cut& cut) {
  const float closing = -glm::dot(ray.direction, cut.normal);
  if (std::abs(closing) < 0.02F) return std::nullopt;  // about a degree: a pixel would be far along it
  const float distance = cut.beyond(ray.from) / closing;
  if (distance <= 0.0F) return std::nullopt;  // behind the eye
  return ray.from + ray.direction * distance;
}

/// On the plane's outline: the top edge, else a side, else the bottom. Where none of that is in the picture, high in
/// its middle.
std::optional<glm::vec3> placeOfHandle(const App& app) {
  const Shown& shown = app.shown;
  const Canvas& canvas = app.layout.canvas;
  const std::vector<glm::vec3> corner = outlineOf(app.document->scene, shown.cutting, shown.opening);
  constexpr std::array<std::size_t, 4> kEdges{2, 1, 3, 0};  // from corner i to the next: top, right, left, bottom
  for (const std::size_t edge : kEdges) {
    for (const float t : {0.5F, 0.25F, 0.75F, 0.05F, 0.95F}) {  // its middle first, then as near to a corner as need be
      const glm::vec3 place = glm::mix(corner[edge], corner[(edge + 1) % 4], t);
      const glm::vec3 seen = render::project(shown.camera, place, canvas.width, canvas.height);
      // The handle and the plate beside it need room there.
      if (seen.z > 0.0F && canvas.isFree(seen.x, seen.y, 26.0F * app.layout.scale)) return place;
    }
  }
  const ImVec2 high{canvas.left + canvas.freeWidth() * 0.5F, canvas.top + canvas.freeHeight() * 0.14F};
  return onPlane(rayAt(app, high), *shown.look.cut);
}

void letGoOfCut(App& app) {  // the plane itself stays where it is
  app.cut = {};
  if (isCutPulled(app)) app.pull.reset();
}

/// The handle nearest to a pixel, within so many pixels at scale 1; empty: none.
std::optional<std::size_t> handleUnder(std::span<const Handle> handles, const App& app, ImVec2 at, float within) {
  const Canvas& canvas = app.layout.canvas;
  std::optional<std::size_t> nearest;
  float least = within * app.layout.scale;
  for (std::size_t i = 0; i < handles.size(); ++i) {
    const glm::vec3 seen = render::project(app.shown.camera, handles[i].at, canvas.width, canvas.height);
    const float away = std::hypot(seen.x - at.x, seen.y - at.y);
    if (seen.z <= 0.0F || away >= least) continue;  // behind the eye, or further than another
    least = away;
    nearest = i;
  }
  return nearest;
}

/// Puts the plane at a place along its axis, as far as it can go.
void moveCut(App& app, double at) {
  const scene::Range range = rangeOf(app.document->scene, app.shown.cutting);
  app.shown.cutting.at = std::clamp(at, range.low, range.high);
  followCut(app);
}

/// Notes whether the pointer is on the handle.
void hoverCut(App& app, ImVec2 at) {
  app.cut.hovered = app.cut.handle && handleUnder({&*app.cut.handle, 1}, app, at, kNearEnough);
}

constexpr float kNearHandle = 11.0F;     // pixels at scale 1 from a handle's middle
constexpr double kFineStep = 0.1;        // mm
constexpr double kFurthestCorner = 200;  // mm at once, typed; further is another opening
constexpr double kCoarseStep = 10;       // where the practice names no step of sizes; common practice, no source

/// The job with the handle's dimensions at these values; always from the job as it was, so that bounds don't stick.
void pullTo(App& app, const std::vector<double>& values) {
  Pull& pull = *app.pull;
  if (pull.handle.of_cut) return moveCut(app, values.front());  // no part of the job
  job::Job pulled = pull.before;
  if (pull.handle.corner) {
    const BuiltCorner& corner = *pull.handle.corner;
    moveCorner(*pulled.openings[corner.opening].measured, pull.shape, corner.corner, {values[0], values[1]});
    const bool blind = pulled == pull.before && (values[0] != 0 || values[1] != 0);  // no reading followed
    pull.refusal = blind ? "nothing was measured there" : "";
  }
  for (std::size_t i = 0; i < pull.handle.dimensions.size(); ++i) {
    setValue(pulled, pull.handle.dimensions[i], values[i]);
  }
  if (pulled == app.document->job) return;  // nothing to work out again: most moves stay within a step
  app.document->job = std::move(pulled);    // without the history: endPull records it as one step
  followJob(app);
}

/// What was typed, as the first of the handle's lengths; of a built corner, how far it goes to the right.
ParsedReading parsedPull(const App& app) {
  const Pull& pull = *app.pull;
  const practice::Display display = app.document->practice->display;
  if (pull.handle.corner)
    return parseLength("the corner's way to the right", job::mm(-kFurthestCorner, kFurthestCorner), pull.typed,
                       display);
  if (pull.handle.of_cut) {
    const scene::Range range = rangeOf(app.document->scene, app.shown.cutting);
    return parseLength("the cut", job::mm(range.low, range.high), pull.typed, display);
  }
  const Dimension& first = pull.handle.dimensions.front();
  return parseLength(nameOf(pull.before, first), boundsOf(pull.before, first), pull.typed, display);
}

/// Takes what was typed; a refusal stays until something else is typed.
bool takeTyped(App& app) {
  Pull& pull = *app.pull;
  const ParsedReading parsed = parsedPull(app);
  if (!parsed.good || !parsed.value) {
    pull.refusal = parsed.refusal;
    return parsed.good;
  }
  pull.refusal.clear();
  std::vector<double> values = pull.first;
  values.front() = *parsed.value;  // the other length stays as it was taken up
  pullTo(app, values);
  return true;
}

/// Arrows move a held plane by a step: right and up to larger figures.
void nudge(App& app, const InputStep& step, double by) {
  for (const auto& [key, way] :
       {std::pair(Key::Right, 1.0), std::pair(Key::Up, 1.0), std::pair(Key::Left, -1.0), std::pair(Key::Down, -1.0)}) {
    if (!step.wentDown(key)) continue;
    app.pull->typed.clear();
    app.pull->refusal.clear();
    moveCut(app, snapped(app.shown.cutting.at + way * by, by));
  }
}

/// What a drag snaps to, mm: whole millimetres; tenths with Shift held, the step that sizes come in with Ctrl.
double pullStep(const Modifiers& held, const practice::Practice& practice) {
  if (held.shift) return kFineStep;
  if (!held.ctrl) return 1;
  const practice::Rule& step = practice.clearance.size_step;
  return step && step->value > 0 ? step->value : kCoarseStep;
}

/// Takes hold of the handle under the pointer, the cutting plane's first; false where there is none.
bool beginPull(App& app, ImVec2 at) {
  hoverCut(app, at);
  const auto under = handleUnder(app.pointed.handles, app, at, kNearHandle);
  if (!app.cut.hovered && !under) return false;
  const Handle& handle = app.cut.hovered ? *app.cut.handle : app.pointed.handles[*under];
  const auto grabbed = reach(handle, rayAt(app, at));  // the drag counts from here
  if (!grabbed) return false;                          // seen end on: the drawing is taken hold of
  Pull pull{handle, *grabbed, {}, {}, app.document->job, {}, {}, app.shown.cutting};
  if (handle.of_cut) pull.first = {app.shown.cutting.at};
  if (handle.corner) {
    pull.first = {0, 0};
    pull.shape = app.document->plan.openings[handle.corner->opening].as_built.shape;
  }
  for (const Dimension& dimension : handle.dimensions) pull.first.push_back(valueOf(app.document->job, dimension));
  app.pull = std::move(pull);
  return true;
}

void movePull(App& app, const Pointer& pointer) {
  Pull& pull = *app.pull;
  if (pull.by_keys || !pull.typed.empty()) return;  // what is typed holds
  const auto now = reach(pull.handle, rayAt(app, pointer.at));
  if (!now) return;
  const double times = pull.handle.corner ? pull.handle.corner->times : 1;
  const glm::dvec2 moved = (*now - pull.grabbed) / times;  // a deviation is drawn `times` as large
  const double step = pullStep(pointer.held, *app.document->practice);
  std::vector<double> values = pull.first;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double by = i == 0 ? moved.x : moved.y;
    // A hand that hasn't moved by half a step leaves a size that is no multiple of it as it is.
    if (std::abs(by) >= step / 2) values[i] = snapped(values[i] + by, step);
  }
  pullTo(app, values);
}

void dropPull(App& app) {  // all is as it was when the handle was taken up
  if (isCutPulled(app)) {
    app.shown.cutting = app.pull->cut;
    app.pull.reset();
    followCut(app);
    return;
  }
  const bool changed = !(app.document->job == app.pull->before);
  app.document->job = app.pull->before;
  app.pull.reset();
  if (changed) followJob(app);  // nothing was pulled yet: nothing is built
  disturb(app);
}

void endPull(App& app) {  // what was pulled is kept, as one step of the history
  if (!app.pull->typed.empty() && !takeTyped(app)) return dropPull(app);  // what can't be taken is not half taken
  if (isCutPulled(app)) return app.pull.reset();
  const job::Job before = std::move(app.pull->before);
  const std::string name = app.pull->handle.name + " to " + figuresOf(*app.document, app.pull->handle);
  app.pull.reset();
  if (app.history.record(name, before, app.document->job)) keepSoon(app.file);  // nothing where the drag came back
  disturb(app);
}

constexpr float kClickPixels = 4.0F;     // a hand that moves less means to click
constexpr float kSnapPixels = 12.0F;     // corners and edges draw the pointer from so far
constexpr float kNotch = 0.84F;          // nearing of one notch
constexpr float kMovingSeconds = 0.15F;  // a hand that rests for so long gets its picture at rest

/// What the hand gets hold of: a part, else the plane through what is looked at.
glm::vec3 pointUnder(const App& app, ImVec2 at) {
  if (const auto hit = hitUnder(app, at)) return hit->point;
  return pointAtTarget(app.shown.camera, at.x, at.y, app.layout.canvas.width, app.layout.canvas.height);
}

/// What the eye turns about: what is held; beside the house what is looked at of it, or it would swing out of sight.
glm::vec3 pivotUnder(const App& app, ImVec2 at) {
  const auto hit = hitUnder(app, at);
  const scene::Scene& scene = seenScene(app);
  if (hit && scene.parts[hit->part].layer != scene::Layer::Ground) return hit->point;
  return glm::clamp(app.shown.camera.target, scene.bounds.low, scene.bounds.high);
}

void drag(App& app, ImVec2 at) {
  const ImVec2 moved = at - app.hand.start;
  if (std::abs(moved.x) > kClickPixels || std::abs(moved.y) > kClickPixels) app.hand.dragging = true;  // no click then
  if (!app.hand.dragging) return;
  app.eye.moving_seconds = kMovingSeconds;
  app.shown.camera = app.hand.sliding ? pan(app.hand.from, app.hand.held, moved.x, moved.y, app.layout.canvas.height)
                                      : orbit(app.hand.from, app.hand.held, moved.x, moved.y);
}

/// The place that the pointer would measure from, where it is on something.
std::optional<glm::vec3> placeUnder(const App& app, const std::optional<scene::Hit>& hit, ImVec2 at) {
  if (!hit) return std::nullopt;
  const Canvas& canvas = app.layout.canvas;
  return snappedPlace(app.document->scene, *hit, app.shown.camera, app.shown.look, {at.x, at.y},
                      {canvas.width, canvas.height}, kSnapPixels * app.layout.scale);
}

/// The first place, the second, and then a first one again.
void measureAt(App& app, const std::optional<scene::Hit>& hit, ImVec2 at) {
  const auto place = placeUnder(app, hit, at);
  if (!place) return;
  Measuring& measuring = app.shown.measuring;
  if (measuring.points.size() >= 2) measuring.points.clear();
  if (measuring.points.empty()) measuring.wall = app.document->scene.parts[hit->part].wall;
  measuring.points.push_back(*place);
}

/// The outermost sheet of the lesson's skin that a part is, at a place; −1: it is none.
int sheetAt(const App& app, const scene::Part& part, glm::vec3 place) {
  const job::Opening& opening = app.document->job.openings[static_cast<std::size_t>(app.shown.lesson.opening)];
  const glm::vec3 at = app.document->scene.walls[opening.wall].toLocal(place);
  const double x = static_cast<double>(at.x) - opening.left;
  const double z = static_cast<double>(at.z) - opening.sill;
  const auto& sheets = app.lesson.taught->skin.sheets;
  for (std::size_t i = sheets.size(); i-- > 0;) {  // from the outermost: the last lies over the others
    const plan::Rect box = plan::boxOf(sheets[i]);
    const bool over = x > box.x0 - 1 && x < box.x1 + 1 && z > box.z0 - 1 && z < box.z1 + 1;  // 1 mm of its edge too
    if (over && scene::drawnAs(sheets[i].kind).kind == part.kind) return static_cast<int>(i);
  }
  return -1;
}

void click(App& app, ImVec2 at, bool twice, Wishes& wishes) {
  const auto hit = hitUnder(app, at);
  if (app.shown.measuring.on) return measureAt(app, hit, at);  // it picks nothing
  app.shown.look.picked_part = hit ? static_cast<std::int64_t>(hit->part) : -1;
  if (!hit) return wishes.push_back(PickOpening{-1, false});
  const scene::Part& part = app.document->scene.parts[hit->part];
  if (app.shown.lesson.choosing && app.lesson.taught) {
    wishes.push_back(LessonWish{LessonAct::About, sheetAt(app, part, hit->point)});
  } else if (part.opening >= 0) {
    wishes.push_back(PickOpening{part.opening, twice});
  } else if (part.wall >= 0) {
    wishes.push_back(PickWall{part.wall, twice});
  }
}

void leave(App& app) {  // the pointer is on nothing of the drawing
  app.pointed.handle.reset();
  app.cut.hovered = false;
  app.shown.look.hovered_part = -1;
}

void hover(App& app, ImVec2 at) {
  leave(app);
  if (!app.hand.button) {  // a hand that turns the house takes hold of nothing else
    app.pointed.handle = handleUnder(app.pointed.handles, app, at, kNearHandle);
    hoverCut(app, at);
  }
  const auto hit = hitUnder(app, at);
  if (hit) app.shown.look.hovered_part = static_cast<std::int64_t>(hit->part);
  if (app.shown.measuring.on) app.shown.measuring.hovered = placeUnder(app, hit, at);
}

/// A button goes down: the left one takes hold of a handle where it is on one; else the drawing is taken hold of.
void pressButton(App& app, const ButtonChanged& change, ImVec2 at, bool over_panel) {
  app.focus.at = 0;                                 // keys belong to the drawing again
  if (app.pull && app.pull->by_keys) endPull(app);  // a press ends what is held by keys, and keeps it
  if (over_panel || app.hand.button || app.pull) return;
  app.eye.flight.passed = 1.0F;  // a hand stops a flight where it is
  if (change.button == Button::Left && beginPull(app, at)) return;
  const bool sliding = change.button != Button::Left || change.held.shift;
  const glm::vec3 held = sliding ? pointUnder(app, at) : pivotUnder(app, at);
  app.hand = {change.button, sliding, false, at, held, app.shown.camera};
}

}  // namespace

std::string nameOfCut(const Cutting& cutting) {
  return std::string("cut, ") + letterOf(*cutting.axis) + " " + wordsFor(*cutting.axis, cutting.wall >= 0);
}

void grantCut(App& app, const CutWish& wish) {
  Cutting& cutting = app.shown.cutting;
  if (wish.act == CutAct::Hold) {
    if (cutting.axis && app.cut.handle)
      app.pull = Pull{*app.cut.handle, {}, {cutting.at}, {}, app.document->job, {}, {}, cutting, true};
    return;
  }
  letGoOfCut(app);  // a pull was of the plane as it stood
  const auto through = [&](CutAxis axis) {
    return cutThroughMiddle(app.document->scene, axis, app.shown.wall, app.shown.opening, app.shown.camera);
  };
  const std::size_t next = cutting.axis ? static_cast<std::size_t>(*cutting.axis) + 1 : 0;
  const bool goes_on = wish.act == CutAct::Next && next < kCutAxes;  // after the last axis comes no cut
  if (wish.act == CutAct::Turn) {
    cutting.larger = !cutting.larger;
  } else if (goes_on || wish.act == CutAct::Along) {
    cutting = through(goes_on ? static_cast<CutAxis>(next) : wish.axis);
  } else {
    cutting = {};
  }
  followCut(app);
  if (!cutting.axis || app.layout.canvas.width <= 0.0F) return;  // before the first frame the eye stands nowhere
  flyTo(app, uponCut(app.document->scene, cutting, app.shown.opening, canvasOf(app), app.shown.camera));
}

void followCut(App& app) {
  app.shown.look.cut = planeOf(app.document->scene, app.shown.cutting);
  if (app.shown.look.cut) return;  // else its wall is gone, or nothing was cut
  app.shown.cutting = {};
  letGoOfCut(app);
}

void placeCutHandle(App& app) {
  const Shown& shown = app.shown;
  if (!shown.look.cut) letGoOfCut(app);
  if (!shown.look.cut || isCutPulled(app)) return;  // a pull counts from where it was taken up
  app.cut.handle.reset();
  const auto place = placeOfHandle(app);
  const glm::vec3 along = shown.cutting.larger ? shown.look.cut->normal : -shown.look.cut->normal;  // where it grows
  if (place) app.cut.handle = Handle{.name = nameOfCut(shown.cutting), .at = *place, .along = along, .of_cut = true};
}

void followPullKeys(App& app, const InputStep& step, const Modifiers& held) {
  Pull& pull = *app.pull;
  if (step.wentDown(Key::Escape)) return dropPull(app);
  if (pull.handle.of_cut) nudge(app, step, pullStep(held, *app.document->practice));
  if (typeFigure(pull.typed, step)) takeTyped(app);
  if (step.enter() && (pull.typed.empty() || takeTyped(app))) endPull(app);
}

void followPointer(App& app, const InputStep& step, const Pointer& pointer, Wishes& wishes) {
  const ImVec2 at = pointer.at;
  const bool over_panel = pointer.over_panel && !app.hand.button;  // a drag goes on over panels
  if (step.button && step.button->down) pressButton(app, *step.button, at, over_panel);
  const bool let_go = step.button && !step.button->down && step.button->button == Button::Left;
  // What is pulled has the pointer to itself; else it turns or slides the house, and what wasn't dragged was clicked.
  if (app.pull && !app.pull->by_keys) {
    if (step.moved) app.eye.moving_seconds = std::max(app.eye.moving_seconds, kMovingSeconds);
    if (step.moved) movePull(app, pointer);
    if (let_go) return endPull(app);
  }
  if (app.hand.button && step.moved) drag(app, at);
  if (step.button && !step.button->down && app.hand.button == step.button->button) {
    const bool clicked = !app.hand.dragging && !app.hand.sliding;
    const bool asked = !app.hand.dragging && app.hand.button == Button::Right;
    app.hand = {};
    if (asked) wishes.push_back(OpenList{.at = {at.x, at.y}});
    if (clicked) click(app, at, pointer.twice, wishes);
  }
  if (step.wheel && !over_panel && !app.hand.button && pointer.in_window) {
    app.eye.flight.passed = 1.0F;
    app.shown.camera = zoom(app.shown.camera, pointUnder(app, at), std::pow(kNotch, step.wheel->y));
    app.eye.moving_seconds = kMovingSeconds;
  }
  if (over_panel || app.hand.dragging || app.pull || !pointer.in_window) {
    leave(app);
  } else if (!step.empty() || app.settle > 0) {  // at rest the same part lies there: no ray is asked
    hover(app, at);
  }
}

}  // namespace sillwright::view
