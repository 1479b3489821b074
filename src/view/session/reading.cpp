// Reading a job's file into the viewer: for the first time, again, or in place of another; the page that offers others,
// and new ones from a starter.

#include <fstream>
#include <memory>
#include <system_error>

#include "view/session/app.h"

namespace sillwright::view {
namespace {

constexpr std::uintmax_t kLongestQuoted = std::uintmax_t{8} << 20;  // longer files are named, not quoted
constexpr std::uintmax_t kLongFile = std::uintmax_t{512} << 10;     // some two thousand openings
constexpr std::size_t kLongestLine = 400;

std::vector<std::string> linesOf(const std::filesystem::path& path) {
  std::vector<std::string> lines;
  std::error_code failed;
  const std::uintmax_t size = std::filesystem::file_size(path, failed);
  if (failed || size > kLongestQuoted) return lines;
  std::ifstream file(path);
  for (std::string line; std::getline(file, line);) lines.push_back(line.substr(0, kLongestLine));
  return lines;
}

void take(App& app, base::Result<document::Document> result) {
  ++app.version;
  app.document = std::move(result.value);
  app.file.errors = std::move(result.errors);
  app.typing = {};
  app.menu.reset();
  if (app.document) app.typing.in_file = app.document->job;
  app.history.clear();
  app.pull.reset();
  app.pointed.handles.clear();
  app.pointed.handle.reset();
  app.flash = {};
  rememberFile(app);
  app.file.lines = app.document ? std::vector<std::string>{} : linesOf(app.file.path);
}

/// The file can't be read any more: what it held before stays on the screen, with its unsaved edits, and the errors are
/// told beside it. `kept` stays that of the last good text, so that a save asks first.
void keepLastGood(App& app, std::vector<base::Error> errors) {
  app.file.errors = std::move(errors);
  app.file.lines = linesOf(app.file.path);
  app.shown.asking = Asking::Nothing;
  disturb(app);
}

/// Of everything that was picked or held in a job that is gone.
void letGo(App& app) {
  app.shown.opening = -1;
  app.shown.wall = -1;
  app.shown.look.picked_part = -1;
  app.shown.look.hovered_part = -1;
  app.pointed.part.reset();
  app.hand = {};
  app.cut = {};
  app.pull.reset();
  app.shown.asking = Asking::Nothing;
}

void takeOpened(App& app, base::Result<document::Document> read) {
  take(app, std::move(read));
  if (app.document) document::rememberOpened(openedList(app.file), app.file.path);
  beginExercise(app);
  disturb(app);
}

void takeAgain(App& app, base::Result<document::Document> read) {
  if (!read.ok() && app.document) {
    keepLastGood(app, std::move(read.errors));
    return;
  }
  if (app.document) document::forget(app.file.recovery, app.file.path);  // what is unsaved was given up
  const bool picked = app.document && app.shown.opening >= 0;
  const std::string name =
      picked ? app.document->job.openings[static_cast<std::size_t>(app.shown.opening)].name : std::string{};
  const double deviation = app.document ? app.document->deviation : 1.0;
  take(app, std::move(read));
  letGo(app);
  if (app.shown.lesson.on()) grantLesson(app, {LessonAct::OpenOrClose, 0, {}});
  if (app.document && deviation != 1.0) document::magnify(*app.document, deviation);
  beginExercise(app);
  if (!app.document || name.empty()) return;
  const std::int32_t same = document::indexOf(app.document->job.openings, name);
  if (same >= 0) grant(app, PickOpening{same, false});
}

/// Whether reading takes long enough for a person to wonder.
bool isLong(const std::filesystem::path& path) {
  std::error_code failed;
  const std::uintmax_t size = std::filesystem::file_size(path, failed);
  return !failed && size > kLongFile;
}

using TakeRead = void (*)(App&, base::Result<document::Document>);

/// Reads the file while the window goes on, then has it taken.
void readBeside(App& app, TakeRead then) {
  const auto read = [path = app.file.path, assets = app.file.assets, then](Steps&) -> Then {
    const auto result = std::make_shared<base::Result<document::Document>>(document::load(path, assets));
    return [result, then](App& viewer) { then(viewer, std::move(*result)); };
  };
  app.work = besideWindow("Loading " + app.file.path.filename().string(), read);
  app.work->holds_job = true;
  disturb(app);
}

/// Reads the file, beside the window where that takes a while.
void readThen(App& app, TakeRead then) {
  if (isLong(app.file.path)) {
    readBeside(app, then);
  } else {
    then(app, document::load(app.file.path, app.file.assets));
  }
}

/// Writes a starter under a name that nothing has; empty: it was refused, and that is told.
std::filesystem::path begin(App& app, const OpenJob& wish) {
  const auto text = document::startedText(wish.starter, wish.practice, app.file.assets);
  if (!text.ok()) {
    tell(app, "The new job can't be begun: " + text.errors.front().say, true);
    return {};
  }
  std::error_code failed;
  std::filesystem::path file = wish.file;
  if (std::filesystem::exists(file, failed))
    file = document::freshPath(file.parent_path(), document::kNewJob,
                               document::kJobEnding);  // made since the page was opened
  if (const auto refused = base::save(file, *text.value)) {
    tell(app, *refused, true);
    return {};
  }
  return file;
}

}  // namespace

App open(const std::filesystem::path& path, const std::filesystem::path& assets,
         const std::filesystem::path& recovery) {
  App app;
  app.file.recovery = recovery;
  app.file.assets = assets;
  if (path.empty()) {
    toggleJobsPage(app);
  } else {
    openInstead(app, path);
  }
  disturb(app);
  return app;
}

void openInstead(App& app, const std::filesystem::path& path) {
  if (app.shown.lesson.on()) grantLesson(app, {LessonAct::OpenOrClose, 0, {}});
  app.file.path = path;
  letGo(app);
  app.shown.measuring = {};
  app.shown.cutting = {};
  app.eye.placed = false;
  app.document.reset();
  app.file.errors.clear();
  app.lesson.exercise.reset();
  if (document::isExercise(path)) {
    auto exercise = document::loadExercise(path);
    if (!exercise.ok()) return take(app, {{}, std::move(exercise.errors)});
    app.file.path = document::jobOf(*exercise.value, app.file.assets);
    app.lesson.exercise = std::move(exercise.value);
  }
  readThen(app, takeOpened);
}

void readAgain(App& app) {
  if (!app.document && document::isExercise(app.file.path))
    return openInstead(app, std::filesystem::path(app.file.path));
  readThen(app, takeAgain);
}

std::filesystem::path openedList(const JobFile& file) {
  return file.recovery.empty() ? std::filesystem::path{} : file.recovery.parent_path() / "opened";
}

void toggleJobsPage(App& app) {
  app.shown.jobs_open = !app.shown.jobs_open || !app.document;
  app.jobs.choices.reset();
  if (app.shown.jobs_open)
    app.jobs.choices = document::gatherChoices(app.file.path, app.file.assets, openedList(app.file));
}

void openJob(App& app, const OpenJob& wish) {
  app.jobs.waiting = wish;
  if (mayLose(app, Asking::OpenOther)) goOn(app);
}

void goOn(App& app) {
  if (!app.jobs.waiting) return;
  const OpenJob wish = *app.jobs.waiting;
  app.jobs.waiting.reset();
  const std::filesystem::path file = wish.starter.empty() ? wish.file : begin(app, wish);
  if (file.empty()) {
    app.shown.asking = Asking::Nothing;
    return;
  }
  if (app.document && !app.file.found) document::forget(app.file.recovery, app.file.path);
  app.shown.jobs_open = false;
  app.jobs.choices.reset();
  openInstead(app, file);
  if (!wish.starter.empty() && app.document) tell(app, "A new job, written as " + file.string() + ".", false);
}

}  // namespace sillwright::view
