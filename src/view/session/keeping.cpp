// The job's file: written where it changed, looked after while another program may write it, and unsaved edits kept
// where a crash doesn't reach them.

#include <algorithm>
#include <fstream>
#include <system_error>

#include "base/words.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"
#include "view/session/app.h"
#include "words/text.h"

namespace sillwright::view {

namespace {

constexpr float kMostBehind = 2.0F;  // seconds of edits that a crash may take

std::filesystem::file_time_type timeOf(const std::filesystem::path& path) {  // 0: there is none
  std::error_code failed;
  const auto time = std::filesystem::last_write_time(path, failed);
  return failed ? std::filesystem::file_time_type{} : time;  // a file that is gone is unlike any that was
}

/// What a save of that job would write; an error is told.
std::optional<std::string> textOf(App& app, const job::Job& job) {
  auto text = job::rewrite(*app.document->text, app.file.job, job);
  if (text.ok()) return std::move(*text.value);
  tell(app, "The job can't be written as it stands: " + base::joined(text.errors, " ", &base::Error::say), true);
  return std::nullopt;
}

/// Keeps what a save would write where a crash doesn't reach it; what the machine has against it is told.
void keepText(App& app, const std::string& text) {
  app.file.stale_seconds.reset();
  const auto refused =
      document::keep(app.file.recovery, {std::filesystem::absolute(app.file.path), app.file.on_disk, text});
  if (refused) tell(app, *refused + " Save often: unsaved edits can't be kept.", true);
}

/// Walls and openings of a job that was read from another text, told by their names to be those of `like`: what a save
/// writes then keeps the file's own layout.
job::Job inPlaceOf(job::Job job, const job::Job& like) {
  const auto put = [](auto& all, const auto& known) {
    for (auto& each : all) {
      const std::int32_t same = document::indexOf(known, each.name);
      each.place = same >= 0 ? known[static_cast<std::size_t>(same)].place : base::Place{};  // a new one has none
    }
  };
  put(job.walls, like.walls);
  put(job.openings, like.openings);
  for (auto& wall : job.walls) wall.timber_place = {};  // places in the other text mean nothing here
  job.file = like.file;
  job.practice_place = like.practice_place;
  job.wind_place = like.wind_place;
  if (job.stock && like.stock) job.stock->screws_place = like.stock->screws_place;
  return job;
}

/// Copies what another program wrote to a name that nothing has. Answers that file; an empty path where there is no
/// file any more, nothing where the machine refuses.
std::optional<std::filesystem::path> keepOther(const std::filesystem::path& file) {
  std::error_code failed;
  if (!std::filesystem::exists(file, failed)) return std::filesystem::path{};
  const std::string stem = document::stemOf(file);
  const auto other = document::freshPath(std::filesystem::absolute(file).parent_path(), stem + "-other",
                                         file.filename().string().substr(stem.size()));  // with its whole ending
  if (!std::filesystem::copy_file(file, other, failed)) return std::nullopt;
  return other;
}

/// "J2, north": the walls and openings that recovered edits change or add; empty: other things.
std::string changedIn(const job::Job& was, const job::Job& now) {
  std::vector<std::string> names;
  const auto compare = [&](const auto& before, const auto& after) {
    for (const auto& each : after) {
      const std::int32_t same = document::indexOf(before, each.name);
      if (same < 0 || !(each == before[static_cast<std::size_t>(same)])) names.push_back(each.name);
    }
  };
  compare(was.walls, now.walls);
  compare(was.openings, now.openings);
  constexpr std::size_t kMostNames = 8;  // what a page has room for
  if (names.size() > kMostNames) {
    const std::string more = std::to_string(names.size() - kMostNames + 1) + " more";
    names.resize(kMostNames - 1);  // the count takes the last line
    names.push_back(more);
  }
  return words::listed(names);
}

constexpr std::uintmax_t kLongestQuoted = std::uintmax_t{8} << 20;  // longer files are named, not quoted
constexpr std::uintmax_t kLongFile = std::uintmax_t{512} << 10;     // some two thousand openings: a person would wonder
constexpr std::size_t kLongestLine = 400;

/// Bytes; 0: there is no such file.
std::uintmax_t sizeOf(const std::filesystem::path& path) {
  std::error_code failed;
  const std::uintmax_t size = std::filesystem::file_size(path, failed);
  return failed ? 0 : size;
}

std::vector<std::string> linesOf(const std::filesystem::path& path) {  // empty, too, of a file that is too long
  std::vector<std::string> lines;
  if (sizeOf(path) > kLongestQuoted) return lines;
  std::ifstream file(path);
  for (std::string line; std::getline(file, line);) lines.push_back(line.substr(0, kLongestLine));
  return lines;
}

/// The file holds the job as it is now.
void noteWritten(App& app, const std::string& text) {
  document::forget(app.file.recovery, app.file.path);
  app.file.on_disk = base::fingerprintOf(text);
  app.file.looked_at = timeOf(app.file.path);
  app.typing.in_file = app.document->job;
  app.file.errors.clear();
  app.file.stale_seconds.reset();
}

/// Whether the job names nothing that lies beside its file: it is then the same job in any folder.
bool standsAlone(const job::Job& job) {
  return !practice::isPath(job.practice) && std::none_of(job.openings.begin(), job.openings.end(),
                                                         [](const auto& each) { return each.unit.mesh.has_value(); });
}

void take(App& app, base::Result<document::Document> result) {  // in place of what was there, which is forgotten
  ++app.version;  // even without a document: what was drawn is of another scene
  app.document = std::move(result.value);
  app.file.errors = std::move(result.errors);
  app.typing = {};  // its fields are of the job before
  app.menu.reset();
  if (app.document) app.typing.in_file = app.document->job;
  app.history.clear();
  app.flash = {};
  rememberFile(app);  // once there is a document: it looks for unsaved edits of it
  app.file.lines = app.document ? std::vector<std::string>{} : linesOf(app.file.path);  // for the error page
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
  app.shown.opening = app.shown.wall = -1;
  app.shown.look.picked_part = app.shown.look.hovered_part = -1;
  app.pointed = {};
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
  if (!read.ok() && app.document) return keepLastGood(app, std::move(read.errors));
  if (app.document) document::forget(app.file.recovery, app.file.path);  // what is unsaved was given up
  const bool picked = app.document && app.shown.opening >= 0;
  const std::string name =
      picked ? app.document->job.openings[static_cast<std::size_t>(app.shown.opening)].name : std::string{};
  const double deviation = app.document ? app.document->deviation : 1.0;  // it is no part of the file
  take(app, std::move(read));
  letGo(app);
  if (app.shown.lesson.on()) grantLesson(app, {LessonAct::OpenOrClose});
  if (app.document && deviation != 1.0) document::magnify(*app.document, deviation);
  beginExercise(app);
  if (!app.document || name.empty()) return;
  const std::int32_t same = document::indexOf(app.document->job.openings, name);
  if (same >= 0) grant(app, PickOpening{same, false});  // by its name: its number may be another's
}

using TakeRead = void (*)(App&, base::Result<document::Document>);

/// Reads the file, beside the window where that takes a while, then has it taken.
void readThen(App& app, TakeRead then) {
  if (sizeOf(app.file.path) <= kLongFile) return then(app, document::load(app.file.path, app.file.assets));
  const auto read = [path = app.file.path, assets = app.file.assets, then](Steps&) -> Then {  // the thread has copies
    const auto result = std::make_shared<base::Result<document::Document>>(document::load(path, assets));
    return [result, then](App& viewer) { then(viewer, std::move(*result)); };
  };
  app.work = besideWindow("Loading " + app.file.path.filename().string(), read);
  app.work->holds_job = true;  // what is changed meanwhile would be lost
  disturb(app);
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
  if (std::filesystem::exists(file, failed))  // made since the page was opened
    file = document::freshPath(file.parent_path(), document::kNewJob, document::kJobEnding);
  if (const auto refused = base::save(file, *text.value)) {
    tell(app, *refused, true);
    return {};
  }
  return file;
}

}  // namespace

bool mayLose(App& app, Asking by) {
  if (app.document) takeField(app);           // what is in hand counts as typed
  const bool asked = app.shown.asking == by;  // asked for again, it is the answer
  if (asked || !app.document || !app.typing.anyNotInFile(app.document->job)) return true;
  app.shown.asking = by;
  return false;
}

void rememberFile(App& app) {
  app.file.job = {};  // what is known of the file begins anew
  app.file.found.reset();
  app.file.stale_seconds.reset();
  app.file.looked_at = timeOf(app.file.path);
  if (!app.document) {
    app.file.on_disk = base::fingerprintOnDisk(app.file.path).value_or(base::Fingerprint{});
    return;
  }
  const std::string& text = *app.document->text;
  app.file.on_disk = base::fingerprintOf(text);
  app.file.job = app.document->job;
  if (app.file.recovery.empty()) return;  // no edits are kept anywhere
  app.file.found = document::kept(app.file.recovery, app.file.path);
  if (app.file.found && app.file.found->text == text) {  // it was saved after all
    document::forget(app.file.recovery, app.file.path);
    app.file.found.reset();
  }
  if (!app.file.found) return;
  app.shown.asking = Asking::Recover;
  const auto read = job::read(app.file.found->text, app.document->job.file);
  const std::string changed =
      read.ok() ? changedIn(app.document->job, inPlaceOf(*read.value, app.document->job)) : std::string{};
  app.file.found_says = (changed.empty() ? "keys of the job, or what was removed" : changed) +
                        ", the last of them on " +
                        document::whenWritten(document::recoveryFile(app.file.recovery, app.file.path));
}

void saveJob(App& app, bool over) {
  if (!takeField(app) || !app.document) return;                    // a path that was typed may have opened another
  const bool sure = over && app.shown.asking == Asking::SaveOver;  // once asked
  const bool closing = app.shown.asking == Asking::Close;          // "save it" was the answer, and it closes then
  if (app.shown.asking == Asking::Recover) return;                 // saving would write over what is asked about
  // What another program has written is asked about first, and then kept beside the file.
  const bool changed = base::changedOnDisk(app.file.path, app.file.on_disk);
  if (changed && !sure) {
    app.shown.asking = Asking::SaveOver;
    return;
  }
  app.shown.asking = Asking::Nothing;
  const auto text = textOf(app, app.document->job);
  if (!text) return;
  const std::optional<std::filesystem::path> other = changed ? keepOther(app.file.path) : std::filesystem::path{};
  if (!other)
    return tell(
        app, "Not saved: what the other program wrote can't be kept beside the file. Your edits are still here.", true);
  // The last edits too, until the save is whole.
  if (app.file.stale_seconds && !app.file.recovery.empty()) keepText(app, *text);
  std::string but;
  if (const auto refused = base::save(app.file.path, *text, &but))
    return tell(app, *refused + " Nothing is lost: your edits are still here.", true);
  noteWritten(app, *text);
  const std::string beside = other->empty() ? "" : "; the other version is in " + other->filename().string();
  tell(app, "Saved in " + app.file.path.filename().string() + beside + (but.empty() ? "." : ", but " + but + "."),
       false);
  if (closing) app.closing = true;
  if (app.jobs.waiting) goOn(app);  // the question was about opening another
}

std::string saveAs(App& app, const std::filesystem::path& path) {
  const auto text = textOf(app, app.document->job);
  if (!text) return app.notice.words;  // textOf has told why
  if (const auto refused = base::save(path, *text)) return *refused;
  // What it names beside itself, a practice or a mesh, may not be found from there.
  if (const auto read = document::load(path, app.file.assets, document::Depth::Findings); !read.ok()) {
    std::error_code failed;
    std::filesystem::remove(path, failed);  // ours: the field takes no name that exists
    return "it can't be read there: " + read.errors.front().say;
  }
  document::forget(app.file.recovery, app.file.path);
  toggleJobsPage(app);
  if (standsAlone(app.document->job)) {  // with all that can be undone
    app.file.path = app.document->path = path;
    app.file.job.file = app.document->job.file = path.string();  // both, or every save would see a change
    noteWritten(app, *text);
    document::rememberOpened(openedList(app.file), path);
  } else {
    openInstead(app, path);
  }
  tell(app, "Saved as " + path.string() + ".", false);
  return {};
}

void keepSoon(JobFile& file) {
  if (!file.stale_seconds) file.stale_seconds = 0.0F;  // the first edit counts: later ones don't put it off
}

void keepInTime(App& app, bool resting) {
  if (!app.file.stale_seconds || !(resting || *app.file.stale_seconds > kMostBehind) || isHeld(app)) return;
  app.file.stale_seconds.reset();
  if (app.file.recovery.empty() || !app.document) return;
  const job::Job& steady = app.pull ? app.pull->before : app.document->job;  // a drag may yet be put back
  if (steady == app.typing.in_file) return document::forget(app.file.recovery, app.file.path);  // all was undone
  if (const auto text = textOf(app, steady)) keepText(app, *text);
}

void recover(App& app, bool take) {
  if (!app.file.found || !app.document) return;
  const document::Recovery found = std::move(*app.file.found);  // put back below, where it can't be taken
  app.file.found.reset();
  app.shown.asking = Asking::Nothing;
  if (!take) return document::forget(app.file.recovery, app.file.path);
  const auto read = job::read(found.text, app.document->job.file);
  if (!read.ok()) return tell(app, "The recovery file can't be read; it stays where it is.", true);
  const job::Job recovered = inPlaceOf(*read.value, app.document->job);
  const bool same = recovered == app.document->job;
  if (!same && !edit(app, "restored edits", [&](job::Job& job) { job = recovered; })) {
    app.file.found = found;  // to be asked for again once its practice can be read
    app.shown.asking = Asking::Recover;
    return;
  }
  if (!(found.base == app.file.on_disk))
    tell(app, "The file has changed since those edits were made: look them over before you save.", true);
}

void checkDisk(App& app) {
  if (isHeld(app)) return;
  const auto time = timeOf(app.file.path);
  if (time == app.file.looked_at) return;
  app.file.looked_at = time;
  if (!base::changedOnDisk(app.file.path, app.file.on_disk)) {                            // its time alone is another
    if (app.document && !app.file.errors.empty()) app.file.errors.clear(), disturb(app);  // put back as it was
    return;
  }
  const bool unsaved = app.document && (app.typing.anyNotInFile(app.document->job) || app.typing.field ||
                                        (app.pull && !isCutPulled(app)));
  if (unsaved)
    return tell(app,
                "The file was changed by another program. Your edits are still here; F5 reloads it, Ctrl S asks first.",
                true);
  readAgain(app);
  if (app.file.errors.empty() && !isHeld(app))  // else it is still being read, or can't be
    tell(app, "The file was changed by another program, and reloaded.", false);
}

// Reading a job's file into the viewer: for the first time, again, or in place of another; the page that offers others,
// and new ones from a starter.

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
  if (app.shown.lesson.on()) grantLesson(app, {LessonAct::OpenOrClose});
  app.file.path = path;
  letGo(app);
  app.shown.measuring = {};
  app.shown.cutting = {};
  app.eye.placed = false;  // the next frame puts it before the new job
  app.document.reset();
  app.file.errors.clear();
  app.lesson.exercise.reset();
  if (document::isExercise(path)) {
    auto exercise = document::loadExercise(path);
    if (!exercise.ok()) return take(app, {{}, std::move(exercise.errors)});
    app.file.path = document::jobOf(*exercise.value, app.file.assets);  // its job is what is edited and saved
    app.lesson.exercise = std::move(exercise.value);
  }
  readThen(app, takeOpened);
}

void readAgain(App& app) {
  if (!app.document && document::isExercise(app.file.path))         // its errors were on the page: it may be mended now
    return openInstead(app, std::filesystem::path(app.file.path));  // a copy: it writes to that member
  readThen(app, takeAgain);
}

std::filesystem::path openedList(const JobFile& file) {
  return file.recovery.empty() ? std::filesystem::path{} : file.recovery.parent_path() / "opened";  // beside it
}

void toggleJobsPage(App& app) {
  app.shown.jobs_open = !app.shown.jobs_open || !app.document;  // without a job there is nothing else to show
  app.jobs.choices.reset();
  if (app.shown.jobs_open)
    app.jobs.choices = document::gatherChoices(app.file.path, app.file.assets, openedList(app.file));
}

void openJob(App& app, const OpenJob& wish) {
  app.jobs.waiting = wish;  // before the question: its answer, goOn, does this
  if (mayLose(app, Asking::OpenOther)) goOn(app);
}

void goOn(App& app) {
  if (!app.jobs.waiting) return;
  const OpenJob wish = *app.jobs.waiting;  // a copy: a job that is opened may clear it
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
