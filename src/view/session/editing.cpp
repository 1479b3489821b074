
#include <array>
#include <utility>

#include "document/edits.h"
#include "view/session/app.h"
#include "view/values/settings.h"
#include "view/values/words.h"

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

void pick(App& app, std::size_t opening) {
  grant(app, PickOpening{static_cast<std::int32_t>(opening), false});
}

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

}  // namespace sillwright::view
