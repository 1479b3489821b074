/// The module behind the page for a phone: what a browser's script calls.
///
/// One document at a time, in a file system of its own that lives in memory: the page puts the job and what it needs
/// there and opens it. Texts go both ways as UTF-8; an answer is valid until the next call. Nothing throws outwards:
/// what goes wrong is answered as a sentence. Pixels are the canvas's own, from its top left.
#include <emscripten.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <memory>
#include <optional>
#include <string>

#include "document/document.h"
#include "exchange/check_json.h"
#include "exchange/json.h"
#include "job/readings.h"
#include "job/rewrite.h"
#include "plan/work/order_of_work.h"
#include "pocket/page_json.h"
#include "render/gl_api.h"
#include "render/renderer.h"
#include "scene/part_step.h"
#include "scene/pick.h"
#include "view/values/camera_control.h"
#include "view/values/readings.h"

namespace {

using namespace sillwright;

struct Pocket {
  document::Document document;
  job::Job as_read;  ///< The job as its text says it, for the text with what was measured.
  std::unique_ptr<render::Renderer> renderer;
  render::Camera camera;
  render::Look look;
  view::Flight flight;
  int opening = -1;
  int step = -1;  ///< Cards done of the order of work; −1: all is there.
  view::Canvas canvas{.width = 300, .height = 300};
  std::string answer;
};

Pocket& one() {
  static Pocket pocket;
  return pocket;
}

/// The answer as JavaScript takes it. Whatever is thrown becomes a sentence.
template <class Work>
const char* answer(const Work& work) {
  std::string& said = one().answer;
  try {
    said = work();
  } catch (const std::exception& fault) {
    said = std::string("!") + fault.what();
  }
  return said.c_str();
}

void send() {
  if (one().renderer) one().renderer->upload(one().document.scene);
}

/// What of the order of work is there, and what is lit.
void applyStep() {
  Pocket& p = one();
  p.look.hidden_steps = 0;
  p.look.lit_step.reset();
  if (p.step < 0 || p.opening < 0) return;
  const auto kinds = plan::stepsAt(p.document.plan.openings[static_cast<std::size_t>(p.opening)]);
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    if (static_cast<int>(i) >= p.step) p.look.hidden_steps |= scene::bitOf(scene::partStep(kinds[i]));
  }
  if (p.step > 0 && p.step <= static_cast<int>(kinds.size())) {
    p.look.lit_step = scene::partStep(kinds[static_cast<std::size_t>(p.step) - 1]);
  }
}

view::Subject subject() {
  view::Subject of;
  of.opening = one().opening;
  return of;
}

std::optional<scene::Hit> hitAt(float x, float y) {
  const Pocket& p = one();
  const render::Ray ray = render::rayThrough(p.camera, x, y, p.canvas.width, p.canvas.height);
  return scene::pick(p.document.scene, ray.from, ray.direction, render::shownUnder(p.look));
}

glm::vec3 heldAt(float x, float y) {
  const auto hit = hitAt(x, y);
  const Pocket& p = one();
  return hit ? hit->point : view::pointAtTarget(p.camera, x, y, p.canvas.width, p.canvas.height);
}

}  // namespace

extern "C" {

/// Opens a job of the module's file system. Answers "" or the errors as exchange::errorsJson.
EMSCRIPTEN_KEEPALIVE const char* pocketOpen(const char* path) {
  return answer([&] {
    auto loaded = document::load(path, "/assets");
    if (!loaded.value) return exchange::errorsJson(loaded.errors);
    Pocket& p = one();
    p.document = std::move(*loaded.value);
    p.as_read = p.document.job;
    p.opening = p.step = -1;
    p.look.cut.reset();
    applyStep();
    send();
    return std::string{};
  });
}

/// The report as `sillwright check --json` gives it.
EMSCRIPTEN_KEEPALIVE const char* pocketReport() {
  return answer([] {
    std::string report;
    exchange::reportJob(one().document.job, *one().document.practice, [&](std::string_view piece) { report += piece; });
    return report;
  });
}

EMSCRIPTEN_KEEPALIVE const char* pocketPage() {
  return answer([] { return pocket::pageJson(one().document); });
}

EMSCRIPTEN_KEEPALIVE const char* pocketOpening(int opening) {
  return answer([&] { return pocket::openingJson(one().document, static_cast<std::size_t>(opening)); });
}
EMSCRIPTEN_KEEPALIVE const char* pocketLists() {
  return answer([] { return pocket::listsJson(one().document); });
}

/// Types a reading; an empty text takes it away. Answers "", or why it isn't taken.
EMSCRIPTEN_KEEPALIVE const char* pocketType(int opening, int reading, const char* text) {
  return answer([&]() -> std::string {
    Pocket& p = one();
    const auto which = static_cast<job::TapeReading>(reading);
    const view::ParsedReading parsed = view::parseReading(which, text, p.document.practice->display);
    if (!parsed.good) return parsed.refusal;
    job::setValue(p.document.job.openings.at(static_cast<std::size_t>(opening)).measured, which, parsed.value);
    document::rebuild(p.document);
    applyStep();
    send();
    return {};
  });
}

/// What was measured, as a table for `sillwright measure`; the job's text with it.
EMSCRIPTEN_KEEPALIVE const char* pocketMeasurements() {
  return answer([] { return pocket::measurementsCsv(one().document.job); });
}
EMSCRIPTEN_KEEPALIVE const char* pocketJob() {
  return answer([] {
    const document::Document& document = one().document;
    const auto text = job::rewrite(*document.text, one().as_read, document.job);
    return text.value ? *text.value : "!" + (text.errors.empty() ? std::string{} : text.errors.front().say);
  });
}

/// Needs a current context. Answers "" or why nothing can be drawn.
EMSCRIPTEN_KEEPALIVE const char* pocketStart() {
  return answer([] {
    one().renderer = std::make_unique<render::Renderer>();
    send();
    return std::string{};
  });
}

EMSCRIPTEN_KEEPALIVE void pocketSize(float width, float height) {
  one().canvas.width = std::max(width, 1.0F);
  one().canvas.height = std::max(height, 1.0F);
}

/// Looks at an opening (−1: the whole) from a standing view, after so many steps of its order of work (−1: all).
/// `at_once`: without a flight.
EMSCRIPTEN_KEEPALIVE void pocketLookAt(int opening, const char* view, int step, int at_once) {
  Pocket& p = one();
  p.opening = opening;
  p.step = step;
  applyStep();
  const auto standing = view::standingView(view).value_or(view::StandingView::House);
  const render::Camera to = view::standAt(p.document.scene, standing, subject(), p.canvas);
  p.flight = {at_once != 0 ? to : p.camera, to, 0.0F};
  if (at_once != 0) p.camera = to;
}

EMSCRIPTEN_KEEPALIVE void pocketLook(int dark, unsigned hidden_layers, float spread) {
  one().look.dark = dark != 0;
  one().look.hidden_layers = hidden_layers;
  one().look.spread = spread;
}

/// Cuts upright across the opening in its middle, or not.
EMSCRIPTEN_KEEPALIVE void pocketCut(int on) {
  Pocket& p = one();
  p.look.cut.reset();
  if (on == 0 || p.opening < 0) return;
  const scene::OpeningFrame& at = p.document.scene.openings[static_cast<std::size_t>(p.opening)];
  const scene::WallFrame& wall = p.document.scene.walls[at.wall];
  p.look.cut = scene::Cut{wall.along, glm::dot(wall.along, at.centre)};
  // Towards the cut's face, a little from outside.
  const glm::vec3 ahead = wall.inward * 0.35F - wall.along;
  render::Camera to;
  to.target = at.centre;
  to.yaw_degrees = glm::degrees(std::atan2(-ahead.x, ahead.y));
  to.pitch_degrees = 12.0F;
  to.distance = at.height * 2.4F;
  p.flight = {p.camera, to, 0.0F};
}

/// The hand: 0 turns about what lies under (x, y), 1 slides it.
EMSCRIPTEN_KEEPALIVE void pocketDrag(int how, float x, float y, float dx, float dy) {
  Pocket& p = one();
  p.flight.passed = 1.0F;
  const glm::vec3 held = heldAt(x, y);
  p.camera =
      how == 0 ? view::orbit(p.camera, p.camera.target, dx, dy) : view::pan(p.camera, held, dx, dy, p.canvas.height);
}
EMSCRIPTEN_KEEPALIVE void pocketZoom(float x, float y, float factor) {
  Pocket& p = one();
  p.flight.passed = 1.0F;
  p.camera = view::zoom(p.camera, heldAt(x, y), factor);
}

/// The opening under a pixel; −1: none.
EMSCRIPTEN_KEEPALIVE int pocketPick(float x, float y) {
  const auto hit = hitAt(x, y);
  return hit ? one().document.scene.parts[hit->part].opening : -1;
}

/// Draws; answers whether the eye still flies. `seconds` since the last picture.
EMSCRIPTEN_KEEPALIVE int pocketDraw(float seconds) {
  Pocket& p = one();
  if (!p.renderer) return 0;
  if (p.flight.flying()) p.camera = view::fly(p.flight, seconds);
  glViewport(0, 0, static_cast<GLsizei>(p.canvas.width), static_cast<GLsizei>(p.canvas.height));
  p.renderer->cut(p.document.scene, p.look);
  p.renderer->draw(p.camera, p.look, static_cast<int>(p.canvas.width), static_cast<int>(p.canvas.height));
  return p.flight.flying() ? 1 : 0;
}

/// Where the openings' names belong: [[x, y, in front of the eye], …] as Job::openings.
EMSCRIPTEN_KEEPALIVE const char* pocketPlaces() {
  return answer([] {
    const Pocket& p = one();
    std::string out;
    exchange::JsonWriter json(out, 10);
    json.beginArray();
    for (const scene::OpeningFrame& opening : p.document.scene.openings) {
      const glm::vec3 at = render::project(p.camera, opening.centre, p.canvas.width, p.canvas.height);
      json.beginArray().value(double{at.x}).value(double{at.y}).value(at.z > 0).endArray();
    }
    json.endArray();
    return out;
  });
}
}
