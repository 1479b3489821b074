#include <algorithm>
#include <array>
#include <ctime>
#include <memory>
#include <utility>

#include "base/words.h"
#include "base/write_file.h"
#include "document/edits.h"
#include "exchange/model.h"
#include "exchange/page.h"
#include "exchange/xlsx.h"
#include "sheet/sheets.h"
#include "takeoff/order.h"
#include "view/session/app.h"
#include "view/values/readings.h"
#include "view/values/settings.h"

namespace sillwright::view {

namespace {

/// What is picked must still be there.
void holdOn(App& app) {
  const job::Job& job = app.document->job;
  const bool opening_gone = app.shown.opening >= static_cast<std::int32_t>(job.openings.size());
  const bool wall_gone = app.shown.wall >= static_cast<std::int32_t>(job.walls.size());
  if (opening_gone || wall_gone) {
    app.shown.opening = -1;
    app.shown.wall = -1;
  }
  if (app.shown.opening >= 0) {
    app.shown.wall = static_cast<std::int32_t>(job.openings[static_cast<std::size_t>(app.shown.opening)].wall);
  }
  if (app.shown.lesson.on() && app.shown.lesson.opening >= static_cast<std::int32_t>(job.openings.size())) {
    grantLesson(app, {LessonAct::OpenOrClose, 0, {}});
  }
}

/// Makes `job` the document's. False: it asks for something that can't be read, which is told.
bool adopt(App& app, job::Job job) {
  const std::vector<base::Error> errors = document::adopt(*app.document, std::move(job));
  if (errors.empty()) return true;
  tell(app, "Not done: " + errors.front().say, true);
  return false;
}

void pick(App& app, std::size_t opening) { grant(app, PickOpening{static_cast<std::int32_t>(opening), false}); }

void setDimension(App& app, const EditWish& wish) {
  const job::Job& job = app.document->job;
  const std::string to = " to " + figure(wish.value, app.document->practice->display);
  edit(app, nameOf(job, wish.dimension) + to,
       [&](job::Job& changed) { setValue(changed, wish.dimension, wish.value); });
}

void rename(App& app, const EditWish& wish) {
  job::Job& job = app.document->job;
  const std::string old = wish.wall ? job.walls[wish.of].name : job.openings[wish.of].name;
  edit(app, "name of " + old + " to " + wish.name, [&](job::Job& changed) {
    (wish.wall ? changed.walls[wish.of].name : changed.openings[wish.of].name) = wish.name;
  });
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
  if (done) pick(app, made);
}

void remove(App& app, const EditWish& wish) {
  const job::Job& job = app.document->job;
  const bool wall = wish.act == EditAct::RemoveWall;
  if (wall && job.walls.size() < 2) return;
  const std::string name = wall ? job.walls[wish.of].name : job.openings[wish.of].name;
  grant(app, PickOpening{-1, false});
  app.shown.wall = -1;
  if (wall && app.shown.cutting.wall >= static_cast<std::int32_t>(wish.of)) grantCut(app, {CutAct::Off});
  edit(app, name + " removed", [&](job::Job& changed) {
    if (wall) {
      document::removeWall(changed, wish.of);
    } else {
      document::removeOpening(changed, wish.of);
    }
  });
}

}  // namespace

bool edit(App& app, const std::string& name, const std::function<void(job::Job&)>& change) {
  const job::Job before = app.document->job;
  job::Job after = before;
  change(after);
  if (after == before || !adopt(app, std::move(after))) return false;
  app.history.record(name, before, app.document->job);
  followJob(app);
  keepSoon(app.file);
  return true;
}

void goInHistory(App& app, std::size_t place) {
  const std::size_t from = app.history.place();
  job::Job job = app.document->job;
  app.history.go(job, place);
  if (app.history.place() == from) return;
  if (!adopt(app, job)) {
    app.history.go(job, from);
    return;
  }
  followJob(app);
  keepSoon(app.file);
}

void followJob(App& app) {
  holdOn(app);
  const std::vector<scene::Part> before = partsOf(app.document->scene, app.shown.opening);
  document::rebuild(*app.document);
  newScene(app);
  app.flash.parts.clear();
  if (before.empty() || app.shown.lesson.on()) return;
  app.flash = {changedParts(before, app.document->scene, app.shown.opening), kFlashSeconds};
}

void setKey(App& app, const SetKey& wish) {
  const job::Job like = begunAt(*app.document, wish.place);
  const job::Job& job = app.document->job;
  const auto owner = [&]() -> std::string {
    if (wish.place.table == job::TableKind::Job || wish.place.table == job::TableKind::Stock) return {};
    const bool wall = wish.place.table == job::TableKind::Wall;
    return " of " + (wall ? job.walls[wish.place.of].name : job.openings[wish.place.of].name);
  };
  const job::KeyText key = keyAt(job, wish.place);
  const std::string shown = shownText({wish.place, key.rule, wish.text}, app.document->practice->display);
  edit(app,
       labelOf(wish.place, app.document->practice->words) + owner() + (shown.empty() ? " left out" : " to " + shown),
       [&](job::Job& changed) { (void)job::setKey(changed, wish.place, wish.text, like); });
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
  switch (wish.act) {
    case EditAct::Set:
      setDimension(app, wish);
      return;
    case EditAct::Rename:
      rename(app, wish);
      return;
    case EditAct::AddOpening:
    case EditAct::CopyOpening:
      addOrCopy(app, wish);
      return;
    case EditAct::AddWall: {
      const bool done = edit(app, "a wall after " + app.document->job.walls[wish.of].name,
                             [&](job::Job& job) { document::addWall(job, wish.of); });
      if (done) grant(app, PickWall{static_cast<std::int32_t>(app.document->job.walls.size()) - 1, true});
      return;
    }
    case EditAct::RemoveOpening:
    case EditAct::RemoveWall:
      remove(app, wish);
      return;
  }
}

namespace {

namespace fs = std::filesystem;

/// Beside the job: "house-N1.pdf", or "house-N1-2.pdf" where that is there already.
fs::path placeFor(const App& app, const std::string& what, const std::string& ending) {
  const std::string stem = document::stemOf(app.file.path) + (what.empty() ? "" : "-" + fileWord(what));
  return document::freshPath(fs::absolute(app.file.path).parent_path(), stem, ending);
}

Then written(const fs::path& file) {
  return [file](App& app) { tell(app, "Written: " + file.string(), false); };
}

Then refused(const std::string& why) {
  return [why](App& app) { tell(app, why, true); };
}

Then saved(const fs::path& file, const std::string& bytes) {
  const auto wrong = base::save(file, bytes);
  return wrong ? refused(*wrong) : written(file);
}

/// The sheets' own values, so that the job can be changed while they are drawn.
std::shared_ptr<const document::Document> copyOf(const App& app) {
  return std::make_shared<const document::Document>(*app.document);
}

Then drawSheets(const document::Document& document, const sheet::Wanted& wanted, const fs::path& file, Steps& steps) {
  const auto progress = [&](std::size_t done, std::size_t pages) {
    steps.done = done;
    steps.of = pages;
    return !steps.stop;
  };
  const sheet::Subject subject{document.job, *document.practice, document.plan, document.findings, document.scene};
  const auto files = sheet::draw(subject, wanted, sheet::Format::Pdf, sheet::kDotsPerInch, progress);
  if (files.empty()) return refused("No sheets were written: left off.");
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
  auto bytes = exchange::glb(document.scene, document.job, practice);
  if (!bytes) return {{}, {{{}, {}, {}, "it is larger than the 4 GiB that a .glb holds"}}};
  return {std::move(bytes), {}};
}

std::string nameFor(const document::Document& document, const TakeSheets& wish) {
  if (wish.opening >= 0) return document.job.openings[static_cast<std::size_t>(wish.opening)].name;
  if (wish.wall >= 0) return document.job.walls[static_cast<std::size_t>(wish.wall)].name;
  return wish.records ? "records" : "sheets";
}

}  // namespace

std::string nameOfPicked(const App& app) {
  const job::Job& job = app.document->job;
  if (app.shown.opening >= 0) return job.openings[static_cast<std::size_t>(app.shown.opening)].name;
  return app.shown.wall >= 0 ? job.walls[static_cast<std::size_t>(app.shown.wall)].name : std::string{};
}

std::string fileWord(const std::string& name) {
  std::string word;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    word += plain || static_cast<unsigned char>(c) >= 0x80 ? c : '-';
  }
  constexpr std::size_t kLongest = 60;
  return std::string(base::shortened(word, kLongest));
}

void takePicture(App& app, const TakePicture& wish) {
  if (app.work) return;
  const auto within = [](int side) { return std::clamp(side, kSmallestPicture, kLargestPicture); };
  Work work;
  work.picture = {within(wish.width), within(wish.height)};
  work.file = placeFor(app, nameOfPicked(app), ".png");
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
  const fs::path file = placeFor(app, nameFor(*app.document, wish), ".pdf");
  app.shown.paper_open = false;
  app.work = besideWindow("Drawing the sheets", [document = copyOf(app), wanted, file](Steps& steps) {
    return drawSheets(*document, wanted, file, steps);
  });
  app.work->unit = "pages";
  app.work->can_stop = true;
}

void takeResult(App& app) {
  if (!app.shown.lesson.exercise) return;
  if (app.shown.trainee.empty()) return tell(app, "Type your name first: the page is kept under it.", true);
  const std::time_t now = std::time(nullptr);
  std::array<char, 16> day{};
  std::strftime(day.data(), day.size(), "%Y-%m-%d", std::localtime(&now));
  const std::string& name = app.shown.trainee;
  std::error_code failed;
  const fs::path file = document::freshPath(fs::current_path(failed), "exercise-" + fileWord(name), ".html");
  saved(file, document::resultPage(*app.shown.lesson.exercise, name, day.data()))(app);
}

void takeFile(App& app, const TakeFile& wish) {
  if (app.work) return;
  static constexpr std::array kEndings{".xlsx", ".glb", ".ifc", ".html"};
  const bool lists = wish.kind == FileKind::Lists;
  const fs::path file = placeFor(app, lists ? "lists" : "", kEndings[static_cast<std::size_t>(wish.kind)]);
  app.shown.paper_open = false;
  app.work =
      besideWindow("Writing " + file.filename().string(), [document = copyOf(app), file, kind = wish.kind](Steps&) {
        const auto bytes = bytesOf(*document, kind);
        return bytes.ok() ? saved(file, *bytes.value) : refused("Not written: " + bytes.errors.front().say + ".");
      });
}

}  // namespace sillwright::view
