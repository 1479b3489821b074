// Edits of a run that was killed, taken up after the job's file was changed. Nothing is drawn.

#include "base/write_file.h"
#include "support/catch.h"
#include "support/folder.h"
#include "view/session/app.h"

using namespace sillwright;
namespace fs = std::filesystem;

namespace {

std::string replaced(std::string text, const std::string& old, const std::string& by) {
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), by);
}

/// A job in a folder whose last edit, of the first sill, was kept when the viewer was killed.
struct Killed : tests::TemporaryFolder {
  fs::path job = path / "shed.toml";
  fs::path recovery = path / "state";
  std::string text = *base::loadText(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml").value;

  Killed() {
    REQUIRE(!base::save(job, text));
    view::App app = open();
    view::edit(app, "sill", [](job::Job& changed) { changed.openings.front().sill = 907; });
    view::keepInTime(app, true);
  }
  [[nodiscard]] view::App open() const { return view::open(job, SILLWRIGHT_ASSETS_DIR, recovery); }
};

}  // namespace

TEST_CASE("recovering takes up the practice, wind and stock that the edits were made under, and is one undoable step") {
  const Killed killed;
  std::string changed = replaced(killed.text, "practice = \"au\"", "practice = \"nz\"");
  changed = replaced(changed, "wind     = \"N3\"", "wind     = { pressure_kpa = 1.5 }");
  changed = replaced(changed, "packers = [1, 1.5, 2, 3, 5, 6, 8, 10]", "packers = [3, 5]");
  for (std::size_t at = changed.find("\"MGP10\""); at != std::string::npos; at = changed.find("\"MGP10\"")) {
    changed.replace(at, 7, "\"SG8\"");
  }
  REQUIRE(!base::save(killed.job, changed));

  view::App app = killed.open();
  REQUIRE(app.document);
  REQUIRE(app.shown.asking == view::Asking::Recover);
  const job::Job on_disk = app.document->job;
  const std::string other = app.document->practice->name;
  view::recover(app, true);
  CHECK(app.document->job.practice == "au");
  CHECK(app.document->practice->name != other);
  CHECK(app.document->job.wind == job::Wind("N3"));
  REQUIRE(app.document->job.stock);
  CHECK(app.document->job.stock->packers.size() == 8);
  CHECK(app.document->job.openings.front().sill == 907);
  REQUIRE(app.history.place() == 1);

  view::grant(app, view::TakeBack{});
  CHECK(app.document->job == on_disk);
  CHECK(app.document->practice->name == other);
  view::grant(app, view::DoAgain{});
  CHECK(app.document->job.practice == "au");
  CHECK(app.document->practice->name != other);
}

TEST_CASE("edits whose practice is gone stay kept, and are offered until they are answered") {
  tests::TemporaryFolder folder;
  const fs::path job = folder.path / "shed.toml";
  const fs::path own = folder.path / "own.toml";
  const fs::path recovery = folder.path / "state";
  const std::string assets = SILLWRIGHT_ASSETS_DIR;
  const std::string text = *base::loadText(assets + "/jobs/boatshed.toml").value;
  fs::copy_file(assets + "/practice/au.toml", own);
  REQUIRE(!base::save(job, replaced(text, "practice = \"au\"", "practice = \"own.toml\"")));
  {
    view::App app = view::open(job, assets, recovery);
    REQUIRE(app.document);
    view::edit(app, "sill", [](job::Job& changed) { changed.openings.front().sill = 907; });
    view::keepInTime(app, true);
  }
  REQUIRE(!base::save(job, text));
  fs::remove(own);
  view::App app = view::open(job, assets, recovery);
  REQUIRE(app.document);
  const job::Job before = app.document->job;
  view::recover(app, true);
  CHECK(app.notice.stops);
  CHECK(app.document->job == before);
  CHECK(app.shown.asking == view::Asking::Recover);
  CHECK(document::kept(recovery, job));
}

TEST_CASE("a name takes as many characters as the job file allows, not bytes") {
  view::App app = view::open(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml", SILLWRIGHT_ASSETS_DIR);
  REQUIRE(app.document);
  view::Item field;
  field.id = 7;
  field.field = job::KeyPlace{job::TableKind::Opening, 0, "name", {}};
  app.focus.items = {field};
  app.focus.at = field.id;
  view::InputStep step;
  step.typed = std::u32string(120, U'ä');
  REQUIRE(view::followField(app, step));
  REQUIRE(app.typing.field);
  CHECK(app.typing.field->text.size() == 2 * 100);
  REQUIRE(view::takeField(app));
  CHECK(app.document->job.openings.front().name.size() == 2 * 100);
}
