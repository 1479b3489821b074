#include "view/session/pull.h"

#include <cmath>
#include <utility>

#include "view/session/app.h"
#include "view/values/readings.h"

namespace sillwright::view {
namespace {

constexpr float kNearEnough = 11.0F;  // pixels at scale 1 from a handle's middle
constexpr double kFineStep = 0.1;
constexpr double kFurthestCorner = 200;  // mm at once, typed; further is another opening
constexpr double kCoarseStep = 10;       // where the practice names no step of sizes; common practice, no source

/// The job with the handle's dimensions at these values; always from the job as it was, so that bounds don't stick.
void pullTo(App& app, const std::vector<double>& values) {
  Pull& pull = *app.pull;
  if (pull.handle.of_cut) {
    moveCut(app, values.front());
    return;
  }
  job::Job pulled = pull.before;
  if (pull.handle.corner) {
    const BuiltCorner& corner = *pull.handle.corner;
    moveCorner(*pulled.openings[corner.opening].measured, pull.shape, corner.corner, {values[0], values[1]});
    const bool blind = pulled == pull.before && (values[0] != 0 || values[1] != 0);
    pull.refusal = blind ? "nothing was measured there" : "";
  }
  for (std::size_t i = 0; i < pull.handle.dimensions.size(); ++i) {
    setValue(pulled, pull.handle.dimensions[i], values[i]);
  }
  if (pulled == app.document->job) return;
  app.document->job = std::move(pulled);
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
  if (pull.handle.corner && pull.typed.empty()) return true;
  std::vector<double> values = pull.first;
  values.front() = *parsed.value;
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

}  // namespace

double pullStep(const Modifiers& held, const practice::Practice& practice) {
  if (held.shift) return kFineStep;
  if (!held.ctrl) return 1;
  const practice::Rule& step = practice.clearance.size_step;
  return step && step->value > 0 ? step->value : kCoarseStep;
}

std::optional<std::size_t> handleUnder(const std::vector<Handle>& handles, const render::Camera& camera,
                                       const Layout& layout, ImVec2 at) {
  std::optional<std::size_t> nearest;
  float least = kNearEnough * layout.scale;
  for (std::size_t i = 0; i < handles.size(); ++i) {
    const auto away = pixelsFrom(camera, layout, handles[i].at, at);
    if (!away || *away >= least) continue;
    least = *away;
    nearest = i;
  }
  return nearest;
}

bool isCutPulled(const App& app) { return app.pull && app.pull->handle.of_cut; }

bool beginPull(App& app, ImVec2 at) {
  hoverCut(app, at);
  const auto under = handleUnder(app.pointed.handles, app.shown.camera, app.layout, at);
  if (!app.cut.hovered && !under) return false;
  const Handle& handle = app.cut.hovered ? *app.cut.handle : app.pointed.handles[*under];
  const auto grabbed = reach(handle, rayAt(app.shown.camera, app.layout, at));
  if (!grabbed) return false;
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
  const auto now = reach(pull.handle, rayAt(app.shown.camera, app.layout, pointer.at));
  if (!now) return;
  const double times = pull.handle.corner ? pull.handle.corner->times : 1;
  const glm::dvec2 moved = (*now - pull.grabbed) / times;
  const double step = pullStep(pointer.held, *app.document->practice);
  std::vector<double> values = pull.first;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double by = i == 0 ? moved.x : moved.y;
    // A hand that hasn't moved by half a step leaves a size that is no multiple of it as it is.
    if (std::abs(by) >= step / 2) values[i] = snapped(values[i] + by, step);
  }
  pullTo(app, values);
}

void endPull(App& app) {
  if (!app.pull->typed.empty() && !takeTyped(app)) {
    dropPull(app);
    return;
  }
  if (isCutPulled(app)) {
    app.pull.reset();
    return;
  }
  const job::Job before = std::move(app.pull->before);
  const std::string name = app.pull->handle.name + " to " + figuresOf(*app.document, app.pull->handle);
  app.pull.reset();
  if (app.history.record(name, before, app.document->job)) keepSoon(app.file);
  disturb(app);
}

void dropPull(App& app) {
  if (isCutPulled(app)) {
    app.shown.cutting = app.pull->cut;
    app.pull.reset();
    followCut(app);
    return;
  }
  const bool changed = !(app.document->job == app.pull->before);
  app.document->job = app.pull->before;
  app.pull.reset();
  if (changed) followJob(app);
  disturb(app);
}

void followPullKeys(App& app, const InputStep& step, const Modifiers& held) {
  Pull& pull = *app.pull;
  if (step.wentDown(Key::Escape)) {
    dropPull(app);
    return;
  }
  if (pull.handle.of_cut) nudge(app, step, pullStep(held, *app.document->practice));
  if (typeFigure(pull.typed, step)) takeTyped(app);
  if (step.enter() && (pull.typed.empty() || takeTyped(app))) endPull(app);
}

}  // namespace sillwright::view
