#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>
#include <algorithm>
#include <array>
#include <ctime>
#include <map>
#include <thread>
#include <tuple>

#include "base/words.h"
#include "exchange/model.h"
#include "exchange/page.h"
#include "exchange/xlsx.h"
#include "sheet/sheets.h"
#include "takeoff/order.h"
#include "view/session/app.h"
#include "view/values/readings.h"

namespace sillwright::view {

namespace {

/// What is picked must still be there.
void holdOn(App& app) {
  const job::Job& job = app.document->job;
  const auto count = static_cast<std::int32_t>(job.openings.size());
  const bool opening_gone = app.shown.opening >= count;  // an undo or a restored job may have fewer
  const bool wall_gone = app.shown.wall >= static_cast<std::int32_t>(job.walls.size());
  if (opening_gone || wall_gone) app.shown.opening = app.shown.wall = -1;
  if (app.shown.opening >= 0)
    app.shown.wall = static_cast<std::int32_t>(job.openings[static_cast<std::size_t>(app.shown.opening)].wall);
  if (app.shown.lesson.on() && app.shown.lesson.opening >= count) grantLesson(app, {LessonAct::OpenOrClose});
}

/// What tells a part from others, its size to a tenth of a millimetre.
std::tuple<scene::PartKind, scene::Material, int, int, int> keyOf(const scene::Part& part) {
  const glm::ivec3 tenths(glm::round(part.size * 10.0F));
  return {part.kind, part.material, tenths.x, tenths.y, tenths.z};
}

/// Makes `job` the document's. False: it asks for something that can't be read, which is told.
bool adopt(App& app, job::Job job) {
  const std::vector<base::Error> errors = document::adopt(*app.document, std::move(job));
  if (errors.empty()) return true;
  tell(app, "Not done: " + errors.front().say, true);
  return false;
}

void addOrCopy(App& app, const EditWish& wish) {
  std::size_t made = 0;
  const document::Document& document = *app.document;
  const bool copy = wish.act == EditAct::CopyOpening;
  const std::string name =
      copy ? "a copy of " + document.job.openings[wish.of].name : "an opening in " + document.job.walls[wish.of].name;
  const bool done = edit(app, name, [&](job::Job& job) {
    made = copy ? document::copyOpening(job, wish.of)
                : document::addOpening(job, wish.of, document.plan, *document.practice);
  });
  if (done) grant(app, PickOpening{static_cast<std::int32_t>(made), false});
}

void remove(App& app, const EditWish& wish) {
  const job::Job& job = app.document->job;
  const bool wall = wish.act == EditAct::RemoveWall;
  if (wall && job.walls.size() < 2) return;  // a job keeps one wall at least
  const std::string name = wall ? job.walls[wish.of].name : job.openings[wish.of].name;
  grant(app, PickOpening{-1, false});  // before the edit, whose followers would look for it
  app.shown.wall = -1;
  if (wall && app.shown.cutting.wall >= static_cast<std::int32_t>(wish.of)) grantCut(app, {CutAct::Off});
  edit(app, name + " removed", [&](job::Job& changed) {
    if (wall) document::removeWall(changed, wish.of);
    if (!wall) document::removeOpening(changed, wish.of);
  });
}

namespace fs = std::filesystem;

/// Beside the job: "house-N1.pdf", or "house-N1-2.pdf" where that is there already.
fs::path placeFor(const App& app, const std::string& what, const std::string& ending) {
  const std::string stem = document::stemOf(app.file.path) + (what.empty() ? "" : "-" + fileWord(what));
  return document::freshPath(fs::absolute(app.file.path).parent_path(), stem, ending);
}

Then written(const fs::path& file) {
  return [file](App& app) {
    tell(app, "Written: " + file.string(), false);
    app.notice.file = file;
  };
}

Then refused(const std::string& why) {
  return [why](App& app) { tell(app, why, true); };
}

Then saved(const fs::path& file, const std::string& bytes) {
  const auto wrong = base::save(file, bytes);
  return wrong ? refused(*wrong) : written(file);
}

Then drawSheets(const document::Document& document, const sheet::Wanted& wanted, const fs::path& file, Steps& steps) {
  const auto progress = [&](std::size_t done, std::size_t pages) {
    steps.done = done;
    steps.of = pages;
    return !steps.stop;  // false ends the drawing
  };
  const sheet::Subject subject{document.job, *document.practice, document.plan, document.findings, document.scene};
  const auto files = sheet::draw(subject, wanted, sheet::Format::Pdf, sheet::kDotsPerInch, progress);
  if (files.empty()) return refused("No sheets were written: left off.");  // it was stopped
  return saved(file, files.front());
}

/// What a file of a kind holds.
base::Result<std::string> bytesOf(const document::Document& document, FileKind kind) {
  const practice::Practice& practice = *document.practice;
  if (kind == FileKind::Page) return exchange::pageOf(document);
  if (kind == FileKind::Building) return {exchange::ifc(document), {}};
  if (kind == FileKind::Lists) {
    const auto tables = takeoff::allLists(document.job, practice, document.plan, document.findings, {});
    return exchange::xlsx(tables, document.job, practice.display);
  }
  auto bytes = exchange::glb(document.scene, document.job, practice);  // nothing where it is too large
  if (!bytes) return {{}, {{{}, {}, {}, "it is larger than the 4 GiB that a .glb holds"}}};
  return {std::move(bytes), {}};
}

/// The name of an opening, else of a wall (−1: none), else `other`.
std::string nameOf(const job::Job& job, std::int32_t opening, std::int32_t wall, const char* other) {
  if (opening >= 0) return job.openings[static_cast<std::size_t>(opening)].name;
  return wall >= 0 ? job.walls[static_cast<std::size_t>(wall)].name : other;
}

/// Starts work beside the window that writes a file, on values of its own: the job can be changed meanwhile.
void writeBeside(App& app, std::string title, const std::function<Then(const document::Document&, Steps&)>& write) {
  app.shown.paper_open = false;
  const auto own = std::make_shared<const document::Document>(*app.document);  // a copy, which the thread keeps alive
  app.work = besideWindow(std::move(title), [own, write](Steps& steps) { return write(*own, steps); });
}

}  // namespace

bool edit(App& app, const std::string& name, const std::function<void(job::Job&)>& change) {
  const job::Job before = app.document->job;
  job::Job after = before;
  change(after);
  if (after == before || !adopt(app, std::move(after))) return false;  // nothing that is recorded
  app.history.record(name, before, app.document->job);                 // `after` has been moved away
  followJob(app);
  keepSoon(app.file);
  return true;
}

void goInHistory(App& app, std::size_t place) {
  const std::size_t from = app.history.place();
  job::Job job = app.document->job;
  app.history.go(job, place);
  if (app.history.place() == from) return;                 // there was no such step
  if (!adopt(app, job)) return app.history.go(job, from);  // back to where it fits the document
  followJob(app);
  keepSoon(app.file);
}

void showSaved(App& app, bool saved) {
  if (saved == app.put_by.has_value() || !app.document) return;
  if (saved) {
    app.put_by = PutBy{*app.document, app.shown};  // the document by value: its scene comes back with it
    if (!adopt(app, app.typing.in_file)) return app.put_by.reset();  // it can't be shown: nothing is put by
    followJob(app);
    return tell(app, "As it was saved last. Let go of F2 for the edits since.", false);
  }
  const render::Camera camera = app.shown.camera;  // the eye may have been moved meanwhile, and stays
  app.document = std::move(app.put_by->document);
  app.shown = std::move(app.put_by->shown);
  app.shown.camera = camera;
  app.put_by.reset();
  app.notice = {};
  newScene(app);
}

void followJob(App& app) {
  holdOn(app);  // first: what follows is about what is picked
  std::map<decltype(keyOf({})), int> known;
  for (const scene::Part& part : app.document->scene.parts) {
    if (part.opening == app.shown.opening) ++known[keyOf(part)];
  }
  document::rebuild(*app.document);  // parts were counted before
  newScene(app);
  if (app.shown.opening < 0 || app.shown.lesson.on()) return;  // nobody would look at what lights up
  const auto& parts = app.document->scene.parts;
  for (std::uint32_t i = 0; i < parts.size(); ++i) {
    if (parts[i].opening == app.shown.opening && known[keyOf(parts[i])]-- <= 0) app.flash.parts.push_back(i);
  }
  app.flash.left = kFlashSeconds;
}

void setKey(App& app, const SetKey& wish) {
  const job::Job like = begunAt(*app.document, wish.place);  // what a key inside a table that isn't there begins with
  const job::Job& job = app.document->job;
  const auto owner = [&]() -> std::string {
    if (wish.place.table == job::TableKind::Job || wish.place.table == job::TableKind::Stock) return {};  // only one
    const bool wall = wish.place.table == job::TableKind::Wall;
    return " of " + (wall ? job.walls[wish.place.of].name : job.openings[wish.place.of].name);
  };
  const job::KeyText key = keyAt(job, wish.place);
  const std::string shown = shownText({wish.place, key.rule, wish.text}, app.document->practice->display);
  edit(app,
       labelOf(wish.place, app.document->practice->words) + owner() + (shown.empty() ? " left out" : " to " + shown),
       [&](job::Job& changed) { (void)job::setKey(changed, wish.place, wish.text, like); });  // refused: as it was
}

void grantLight(App& app, const LightWish& wish) {
  const job::Opening& opening = app.document->job.openings[wish.opening];
  static constexpr std::array kWhat{"a light", "a mullion", "a transom"};
  const std::string name = std::string(kWhat[static_cast<std::size_t>(wish.act)]) + " in " + opening.name;
  edit(app, name, [&](job::Job& job) {
    job::Unit& unit = job.openings[wish.opening].unit;
    if (wish.act == LightAct::Mullion) return document::addMullion(unit, wish.row, wish.column);
    if (wish.act == LightAct::Transom) return document::addTransom(unit, wish.row);
    document::fillLight(unit, wish.row, wish.column, wish.filled);
  });
}

void grantEdit(App& app, const EditWish& wish) {
  using A = EditAct;
  if (wish.act == A::AddOpening || wish.act == A::CopyOpening) return addOrCopy(app, wish);
  if (wish.act == A::RemoveOpening || wish.act == A::RemoveWall) return remove(app, wish);
  const job::Job& now = app.document->job;
  if (wish.act == A::AddWall) {
    const std::string name = "a wall after " + now.walls[wish.of].name;
    const bool done = edit(app, name, [&](job::Job& job) { document::addWall(job, wish.of); });
    if (done) grant(app, PickWall{static_cast<std::int32_t>(now.walls.size()) - 1, true});
    return;
  }
  edit(app, nameOf(now, wish.dimension) + " to " + figure(wish.value, app.document->practice->display),
       [&](job::Job& job) { setValue(job, wish.dimension, wish.value); });
}

std::string nameOfPicked(const App& app) { return nameOf(app.document->job, app.shown.opening, app.shown.wall, ""); }

std::string fileWord(const std::string& name) {
  std::string word;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    word += plain || static_cast<unsigned char>(c) >= 0x80 ? c : '-';  // UTF-8 stays
  }
  constexpr std::size_t kLongest = 60;  // bytes: a file's name has 255, and its stem, number and ending go round this
  return std::string(base::shortened(word, kLongest));
}

void takePicture(App& app, const TakePicture& wish) {
  if (app.work) return;
  const auto within = [](int side) { return std::clamp(side, kSmallestPicture, kLargestPicture); };
  Work work;
  work.picture = {within(wish.width), within(wish.height)};
  work.file = placeFor(app, nameOfPicked(app), ".png");  // named by what is picked now
  work.title =
      "Drawing a picture of " + std::to_string(work.picture.width) + " × " + std::to_string(work.picture.height);
  app.shown.paper_open = false;
  app.work = std::move(work);
  disturb(app);
}

void takeSheets(App& app, const TakeSheets& wish) {
  if (app.work) return;
  sheet::Wanted wanted;
  if (wish.opening >= 0) wanted.opening = static_cast<std::size_t>(wish.opening);
  if (wish.wall >= 0) wanted.wall = static_cast<std::size_t>(wish.wall);
  wanted.blank_records = wish.records;
  const char* const all = wish.records ? "records" : "sheets";
  const fs::path file = placeFor(app, nameOf(app.document->job, wish.opening, wish.wall, all), ".pdf");
  writeBeside(app, "Drawing the sheets", [wanted, file](const document::Document& document, Steps& steps) {
    return drawSheets(document, wanted, file, steps);
  });
  app.work->unit = "pages";  // drawSheets counts them
  app.work->can_stop = true;
}

void takeResult(App& app) {
  if (!app.shown.lesson.exercise) return;
  if (app.shown.trainee.empty()) return tell(app, "Type your name first: the page is kept under it.", true);
  const std::time_t now = std::time(nullptr);
  std::array<char, 16> day{};
  std::strftime(day.data(), day.size(), "%Y-%m-%d", std::localtime(&now));  // ten characters and the end, of 16
  const std::string& name = app.shown.trainee;
  std::error_code failed;
  const fs::path file = document::freshPath(fs::current_path(failed), "exercise-" + fileWord(name), ".html");
  saved(file, document::resultPage(*app.shown.lesson.exercise, name, day.data()))(app);
}

void openFile(App& app, const OpenFile& wish) {
  std::string program = "xdg-open";
  std::string file = fs::absolute(wish.file).string();
  char* const arguments[] = {program.data(), file.data(), nullptr};  // posix_spawnp wants them so, ended by null
  pid_t opener = 0;
  if (::posix_spawnp(&opener, program.c_str(), nullptr, nullptr, arguments, environ) != 0)
    return tell(app, "Not opened: xdg-open, by which desktops open files, is missing here.", true);
  std::thread([opener] { ::waitpid(opener, nullptr, 0); }).detach();  // else it stays a zombie
}

void takeFile(App& app, const TakeFile& wish) {
  if (app.work) return;
  static constexpr std::array kEndings{".xlsx", ".glb", ".ifc", ".html"};
  const bool lists = wish.kind == FileKind::Lists;  // the others are the job itself, and have its name
  const fs::path file = placeFor(app, lists ? "lists" : "", kEndings[static_cast<std::size_t>(wish.kind)]);
  const auto write = [file, kind = wish.kind](const document::Document& document, Steps&) {
    const auto bytes = bytesOf(document, kind);
    return bytes.ok() ? saved(file, *bytes.value) : refused("Not written: " + bytes.errors.front().say + ".");
  };
  writeBeside(app, "Writing " + file.filename().string(), write);
}

}  // namespace sillwright::view
