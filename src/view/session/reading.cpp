// Reading a job's file into the viewer: for the first time, again, or in place of another.

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
  app.typing = app.document ? Typing::of(app.document->job) : Typing{};
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
  app.shown.asking = Asking::Nothing;
}

void takeOpened(App& app, base::Result<document::Document> read) {
  take(app, std::move(read));
  if (app.document) document::rememberOpened(openedList(app.file), app.file.path);
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
  readThen(app, takeOpened);
}

void readAgain(App& app) {
  readThen(app, takeAgain);
}

}  // namespace sillwright::view
