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
#include <stdexcept>
#include <string_view>

#include "document/exercise_file.h"
#include "exchange/check_json.h"
#include "exchange/json.h"
#include "job/readings.h"
#include "job/rewrite.h"
#include "pocket/page_json.h"
#include "render/gl_api.h"
#include "render/renderer.h"
#include "scene/pick.h"
#include "view/values/camera_control.h"
#include "view/values/readings.h"

namespace {

using namespace sillwright;

struct {
  document::Document document;
  job::Job as_read;  ///< The job as its text says it, for the text with what was measured.
  std::unique_ptr<render::Renderer> renderer;
  render::Camera camera;
  render::Look look;
  view::Flight flight;
  document::Lesson lesson;  ///< What is done wrong at the opening that is looked at, or the exercise there.
  int opening = -1;
  int step = -1;  ///< Cards done of the order of work; −1: all is there.
  view::Canvas canvas{.width = 300, .height = 300};
  std::string answer;
} page;  // the one there is

/// The answer as JavaScript takes it. Whatever is thrown becomes a sentence.
template <class Work>
const char* answer(const Work& work) {
  try {
    page.answer = work();
  } catch (const std::exception& fault) {
    page.answer = std::string("!") + fault.what();  // the script knows it by the !, with which no other answer begins
  }
  return page.answer.c_str();
}

template <std::string (*Words)(const document::Document&)>
const char* told() {
  return answer([] { return Words(page.document); });
}

/// An opening's index, where there is such a one.
std::size_t known(int opening) {
  static_cast<void>(page.document.job.openings.at(static_cast<std::size_t>(opening)));  // it throws where there is none
  return static_cast<std::size_t>(opening);
}

void send() {
  if (page.renderer) page.renderer->upload(page.document.scene);  // a job may be opened before pocketStart
}

/// What of the order of work is there, as it was done, and what is lit.
void applyLesson() {
  page.look.hidden_steps = 0;
  page.look.lit_step.reset();
  std::optional<document::Tried> tried;
  if (!page.lesson.exercise) page.lesson.opening = page.opening;                       // an exercise stays at its own
  page.lesson.place = page.step < 0 ? static_cast<int>(plan::kStepKinds) : page.step;  // −1: past the last
  if (page.lesson.on()) {
    document::Taught taught = document::teach(page.document, page.lesson);
    page.look.hidden_steps = taught.hidden_steps;
    page.look.lit_step = taught.lit_step;
    if (taught.skin_changed) tried = {static_cast<std::size_t>(page.lesson.opening), std::move(taught.skin)};
  }
  if (!tried && !page.document.tried) return;        // the scene has the plan's skin already
  document::tryOn(page.document, std::move(tried));  // without one the plan's own comes back
  send();
}

std::optional<scene::Hit> hitAt(float x, float y) {
  const render::Ray ray = render::rayThrough(page.camera, x, y, page.canvas.width, page.canvas.height);
  return scene::Rays(page.document.scene, render::shownUnder(page.look)).pick(ray.from, ray.direction);
}

glm::vec3 heldAt(float x, float y) {
  const auto hit = hitAt(x, y);
  return hit ? hit->point : view::pointAtTarget(page.camera, x, y, page.canvas.width, page.canvas.height);
}

}  // namespace

extern "C" {

/// Opens a job of the module's file system. Answers "" or the errors as exchange::errorsJson.
EMSCRIPTEN_KEEPALIVE const char* pocketOpen(const char* path) {
  return answer([&] {
    auto loaded = document::load(path, "/assets");                  // CMakeLists.txt embeds practices and meshes there
    if (!loaded.value) return exchange::errorsJson(loaded.errors);  // the job before stays open
    page.document = std::move(*loaded.value);
    page.as_read = page.document.job;
    page.opening = page.step = -1;  // they were of the job before
    page.lesson = {};
    page.look.cut.reset();
    applyLesson();
    send();
    return std::string{};
  });
}

/// The report as `sillwright check --json` gives it.
EMSCRIPTEN_KEEPALIVE const char* pocketReport() {
  return answer([] {
    std::string report;
    exchange::reportJob(page.document.job, *page.document.practice, [&](std::string_view piece) { report += piece; });
    return report;
  });
}

EMSCRIPTEN_KEEPALIVE const char* pocketPage() { return told<pocket::pageJson>(); }
EMSCRIPTEN_KEEPALIVE const char* pocketLists() { return told<pocket::listsJson>(); }

EMSCRIPTEN_KEEPALIVE const char* pocketOpening(int opening) {
  return answer([&] { return pocket::openingJson(page.document, page.lesson, known(opening)); });
}

/// Types a reading; an empty text takes it away. Answers "", or why it isn't taken.
EMSCRIPTEN_KEEPALIVE const char* pocketType(int opening, int reading, const char* text) {
  return answer([&]() -> std::string {
    if (static_cast<std::size_t>(reading) >= job::kTapeReadings) throw std::out_of_range("There is no such reading.");
    const auto which = static_cast<job::TapeReading>(reading);
    const view::ParsedReading parsed = view::parseReading(which, text, page.document.practice->display);
    if (!parsed.good) return parsed.refusal;
    job::setValue(page.document.job.openings[known(opening)].measured, which, parsed.value);
    document::rebuild(page.document);  // this drops the skin that was tried on
    applyLesson();
    send();
    return {};
  });
}

/// Sets the exercise of a file at its opening, or "": the cards of an opening, dealt anew each round. Answers its
/// opening, or the mistakes as exchange::errorsJson.
EMSCRIPTEN_KEEPALIVE const char* pocketExercise(const char* path, int opening, int round) {
  return answer([&] {
    base::Result<document::ExerciseFile> file;
    if (*path != '\0') {
      file = document::loadExercise(path);
      if (file.ok() && document::jobOf(*file.value, "").filename() != page.document.path.filename())
        throw std::invalid_argument("This exercise is of another job: open " + file.value->job + " first.");
    } else {
      file.value = document::plainExercise(page.document, known(opening));
    }
    if (!file.ok()) return exchange::errorsJson(file.errors);
    auto task = document::makeTask(*file.value, page.document, static_cast<std::uint32_t>(round));
    if (!task.ok()) return exchange::errorsJson(task.errors);
    page.opening = page.lesson.opening = document::indexOf(page.document.job.openings, file.value->opening);
    page.lesson.what_ifs = task.value->wrong;  // the task is moved away below
    page.lesson.exercise = document::begin(std::make_shared<const document::Task>(std::move(*task.value)));
    applyLesson();
    return std::to_string(page.opening);
  });
}
/// What the trainee does: a card to another's place, an option of a question picked or let go, an answer after so many
/// seconds, the exercise left. Answers how the exercise then stands; "" after it was left.
EMSCRIPTEN_KEEPALIVE const char* pocketTrain(const char* act, int first, int second) {
  return answer([&]() -> std::string {
    document::Lesson& lesson = page.lesson;
    if (!lesson.exercise) return {};
    const std::string_view does = act;
    if (does == "leave") {
      lesson = {};
    } else if (does == "pick") {
      document::pick(*lesson.exercise, static_cast<std::size_t>(first), static_cast<std::size_t>(second));
    } else if (does == "answer") {
      document::answer(*lesson.exercise, first);
    } else if (does == "move") {
      for (const int place : {first, second}) document::takeCard(*lesson.exercise, place);  // taken up, then put down
    }
    applyLesson();
    return lesson.exercise ? pocket::exerciseJson(*lesson.exercise) : std::string{};
  });
}
/// Does something wrong at the opening that is looked at, by its place in the list of what can be; or mends it.
EMSCRIPTEN_KEEPALIVE const char* pocketWhatIf(int choice) {
  return answer([&]() -> std::string {
    if (!page.lesson.on()) return {};  // no opening is looked at
    const auto what_if =
        document::teach(page.document, page.lesson).choices.at(static_cast<std::size_t>(choice)).what_if;
    if (std::erase(page.lesson.what_ifs, what_if) == 0) page.lesson.what_ifs.push_back(what_if);
    applyLesson();
    return {};
  });
}

/// What was measured, as a table for `sillwright measure`; the job's text with it.
EMSCRIPTEN_KEEPALIVE const char* pocketMeasurements() { return told<pocket::measurementsCsv>(); }
EMSCRIPTEN_KEEPALIVE const char* pocketJob() {
  return answer([] {
    const document::Document& document = page.document;
    const auto text = job::rewrite(*document.text, page.as_read, document.job);
    return text.value ? *text.value : "!" + (text.errors.empty() ? std::string{} : text.errors.front().say);
  });
}

/// Needs a current context. Answers "" or why nothing can be drawn.
EMSCRIPTEN_KEEPALIVE const char* pocketStart() {
  return answer([] {
    page.renderer = std::make_unique<render::Renderer>();
    send();
    return std::string{};
  });
}

EMSCRIPTEN_KEEPALIVE void pocketSize(float width, float height) {
  page.canvas.width = std::max(width, 1.0F);  // a hidden canvas has no width: nothing is divided by 0
  page.canvas.height = std::max(height, 1.0F);
}

/// Looks at an opening (−1: the whole) from a standing view, after so many steps of its order of work (−1: all).
/// `at_once`: without a flight.
EMSCRIPTEN_KEEPALIVE void pocketLookAt(int opening, const char* view, int step, int at_once) {
  if (opening != page.opening && !page.lesson.exercise) page.lesson.what_ifs.clear();
  page.opening = opening;
  page.step = step;
  applyLesson();
  const auto standing = view::standingView(view).value_or(view::StandingView::House);
  const render::Camera to = view::standAt(page.document.scene, standing, {.opening = page.opening}, page.canvas);
  page.flight = {at_once != 0 ? to : page.camera, to, 0.0F};
  if (at_once != 0) page.camera = to;
}

EMSCRIPTEN_KEEPALIVE void pocketLook(int dark, unsigned hidden_layers, float spread) {
  page.look.dark = dark != 0;
  page.look.hidden_layers = hidden_layers;
  page.look.spread = spread;
}

/// Cuts upright across the opening in its middle, or not.
EMSCRIPTEN_KEEPALIVE void pocketCut(int on) {
  page.look.cut.reset();
  if (on == 0 || page.opening < 0) return;
  const scene::OpeningFrame& at = page.document.scene.openings[static_cast<std::size_t>(page.opening)];
  const scene::WallFrame& wall = page.document.scene.walls[at.wall];
  page.look.cut = scene::Cut{wall.along, glm::dot(wall.along, at.centre)};
  // Towards the cut's face, a little from outside.
  const glm::vec3 ahead = wall.inward * 0.35F - wall.along;  // the cut takes away what is at the right
  render::Camera to;
  to.target = at.centre;
  to.yaw_degrees = glm::degrees(std::atan2(-ahead.x, ahead.y));
  to.pitch_degrees = 12.0F;
  to.distance = at.height * 2.4F;  // the opening fills two thirds of the picture's height
  page.flight = {page.camera, to, 0.0F};
}

/// The hand: 0 turns about what lies under (x, y), 1 slides it.
EMSCRIPTEN_KEEPALIVE void pocketDrag(int how, float x, float y, float dx, float dy) {
  page.flight.passed = 1.0F;
  const glm::vec3 held = heldAt(x, y);
  page.camera = how == 0 ? view::orbit(page.camera, page.camera.target, dx, dy)
                         : view::pan(page.camera, held, dx, dy, page.canvas.height);
}
EMSCRIPTEN_KEEPALIVE void pocketZoom(float x, float y, float factor) {
  page.flight.passed = 1.0F;
  page.camera = view::zoom(page.camera, heldAt(x, y), factor);
}

/// The opening under a pixel; −1: none.
EMSCRIPTEN_KEEPALIVE int pocketPick(float x, float y) {
  const auto hit = hitAt(x, y);
  return hit ? page.document.scene.parts[hit->part].opening : -1;
}

/// Draws; answers whether the eye still flies. `seconds` since the last picture.
EMSCRIPTEN_KEEPALIVE int pocketDraw(float seconds) {
  if (!page.renderer) return 0;
  if (page.flight.flying()) page.camera = view::fly(page.flight, seconds);
  glViewport(0, 0, static_cast<GLsizei>(page.canvas.width), static_cast<GLsizei>(page.canvas.height));
  page.renderer->cut(page.document.scene, page.look);
  page.renderer->draw(page.camera, page.look, static_cast<int>(page.canvas.width),
                      static_cast<int>(page.canvas.height));
  return page.flight.flying() ? 1 : 0;
}

/// Where the openings' names belong: [[x, y, in front of the eye], …] as Job::openings.
EMSCRIPTEN_KEEPALIVE const char* pocketPlaces() {
  return answer([] {
    std::string out;
    exchange::JsonWriter json(out, 10);  // to a tenth of a pixel
    json.beginArray();
    for (const scene::OpeningFrame& opening : page.document.scene.openings) {
      const glm::vec3 at = render::project(page.camera, opening.centre, page.canvas.width, page.canvas.height);
      json.beginArray().value(double{at.x}).value(double{at.y}).value(at.z > 0).endArray();
    }
    json.endArray();
    return out;
  });
}
}
