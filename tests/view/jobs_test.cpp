// Going to another job: dropped on the window, picked from those opened last, typed, or begun from a starter.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "session.h"
#include "support/catch.h"
#include "support/folder.h"
#include "support/read_job.h"

using namespace sillwright;
using tests::Session;
namespace fs = std::filesystem;

namespace {

/// A folder with two demo jobs, and a file that is none.
struct Folder : tests::TemporaryFolder {
  fs::path shed = path / "shed.toml";
  fs::path garage = path / "garage.toml";
  fs::path state = path / "state" / "recovery";
  Folder() {
    fs::copy_file(tests::demoJob("boatshed"), shed);
    fs::copy_file(tests::demoJob("garage-header"), garage);
    std::ofstream(path / "other.toml") << "[tool]\nname = \"something else\"\n";
  }
};

void openIn(Session& session, const fs::path& job, const Folder& folder) {
  session.app = view::open(job, SILLWRIGHT_ASSETS_DIR, folder.state);
  session.app.eye.instant = true;
  session.settle();
}

void rename(Session& session, const std::string& name) {
  view::grant(session.app, view::SetKey{{job::TableKind::Opening, 0, "name", {}}, "\"" + name + "\""});
  session.settle();
}

std::vector<fs::path> filesOf(const std::vector<document::JobChoice>& choices) {
  std::vector<fs::path> files;
  for (const document::JobChoice& each : choices) files.push_back(each.file);
  return files;
}

}  // namespace

TEST_CASE("a job file that is dropped on the window is opened, and nothing of the last one stays picked") {
  const Folder folder;
  Session session(folder.shed);
  view::grant(session.app, view::PickOpening{1, true});
  session.settle();
  session.app.input.push(view::Dropped{folder.garage.string()});
  session.settle();
  REQUIRE(session.app.document);
  CHECK(session.app.file.path == folder.garage);
  CHECK(session.app.document->job.title == "Garage, street side");
  CHECK(session.app.shown.opening == -1);
  CHECK(session.app.history.size() == 0);
}

TEST_CASE("what is no job says so, whatever is dropped") {
  const Folder folder;
  for (const char* name : {"other.toml", "nothing-here.toml", "."}) {
    Session session(folder.shed);
    session.app.input.push(view::Dropped{(folder.path / name).string()});
    session.settle();
    CHECK_FALSE(session.app.document);
    CHECK_FALSE(session.app.file.errors.empty());
    CHECK(session.clickItem("other jobs"));
    session.settle();
    CHECK(session.app.jobs.choices);
  }
}

TEST_CASE("what is unsaved is asked about before another job takes its place") {
  const Folder folder;
  Session session(folder.shed);
  rename(session, "J9");
  session.app.input.push(view::Dropped{folder.garage.string()});
  session.settle();
  CHECK(session.app.file.path == folder.shed);
  CHECK(session.app.shown.asking == view::Asking::OpenOther);

  SECTION("kept: nothing happens, and nothing is left waiting") {
    session.key(view::Key::Escape);
    CHECK(session.app.file.path == folder.shed);
    session.key(view::Key::S, {.ctrl = true});
    CHECK(session.app.file.path == folder.shed);
  }
  SECTION("saved first: the other one is opened then") {
    session.key(view::Key::S, {.ctrl = true});
    CHECK(session.app.file.path == folder.garage);
    CHECK(testing::readJob(folder.shed).value->openings.front().name == "J9");
  }
  SECTION("lost: only after that was said") {
    REQUIRE(session.clickItem("lose it and open the other"));
    session.settle();
    CHECK(session.app.file.path == folder.garage);
    CHECK(testing::readJob(folder.shed).value->openings.front().name == "J1");
  }
}

TEST_CASE("jobs opened last are offered, the latest first: those that are gone are not") {
  const Folder folder;
  Session session(folder.shed);
  openIn(session, folder.shed, folder);
  openIn(session, folder.garage, folder);
  session.key(view::Key::O, {.ctrl = true});
  REQUIRE(session.app.jobs.choices);
  CHECK(filesOf(session.app.jobs.choices->recent) == std::vector<fs::path>{folder.garage, folder.shed});
  CHECK(session.app.jobs.choices->beside.empty());  // the two are known already, and the third file is no job
  REQUIRE(session.clickItem("open Boatshed at the jetty"));
  session.settle();
  CHECK(session.app.file.path == folder.shed);
  CHECK_FALSE(session.app.jobs.choices);
  CHECK(document::openedBefore(view::openedList(session.app.file)).front() == folder.shed);

  fs::remove(folder.garage);
  session.key(view::Key::O, {.ctrl = true});
  CHECK(filesOf(session.app.jobs.choices->recent) == std::vector<fs::path>{folder.shed});
  session.key(view::Key::Escape);
  CHECK_FALSE(session.app.jobs.choices);
}

TEST_CASE("a job is listed with a small picture of it: one that is unsaved keeps the picture of its file") {
  const Folder folder;
  Session session(folder.shed);
  openIn(session, folder.shed, folder);
  session.app.file.pictures = folder.path / "pictures";
  const auto kept = [&] {
    return fs::exists(session.app.file.pictures) ? std::distance(fs::directory_iterator(session.app.file.pictures), {})
                                                 : 0;
  };
  /// Shades of the list's row at its left, where the picture is.
  const auto shades = [&] {
    session.key(view::Key::O, {.ctrl = true});
    const view::Item row = *session.item("open Boatshed at the jetty");
    const render::Image page = session.picture();
    std::set<std::uint8_t> found;
    for (auto y = static_cast<int>(row.low.y); y < static_cast<int>(row.low.y) + 60; ++y) {
      for (auto x = static_cast<int>(row.low.x); x < static_cast<int>(row.low.x) + 96; ++x)
        found.insert(page.rgb[static_cast<std::size_t>((y * page.width + x) * 3)]);
    }
    session.key(view::Key::Escape);
    return found.size();
  };
  rename(session, "J9");
  view::keepPicture(session.app);
  CHECK(kept() == 0);
  CHECK(shades() < 5);
  session.key(view::Key::S, {.ctrl = true});
  view::keepPicture(session.app);
  CHECK(kept() == 1);
  CHECK(shades() > 40);
  fs::remove_all(session.app.file.pictures);
  view::keepPicture(session.app);
  CHECK(kept() == 0);  // seen to once: where it can't be kept it isn't drawn whenever nobody waits
}

TEST_CASE("the list of jobs opened last holds so many and no more, and each once") {
  const Folder folder;
  const fs::path list = folder.path / "opened";
  for (int i = 0; i < 30; ++i) document::rememberOpened(list, "/jobs/" + std::to_string(i) + ".toml");
  document::rememberOpened(list, "/jobs/25.toml");
  const auto paths = document::openedBefore(list);
  CHECK(paths.size() == document::kMostRecent);
  CHECK(paths.front() == "/jobs/25.toml");
  CHECK(std::count(paths.begin(), paths.end(), fs::path("/jobs/25.toml")) == 1);
}

TEST_CASE("a path is typed, and what isn't there is told") {
  const Folder folder;
  Session session(folder.shed);
  session.key(view::Key::O, {.ctrl = true});
  REQUIRE(session.clickItem("set path"));
  session.settle();
  for (const char32_t c : U"garag.toml") {
    if (c != 0) session.type(c);
  }
  session.key(view::Key::Enter);
  REQUIRE(session.app.typing.refusal);
  CHECK(session.app.typing.refusal->text.find("there is no file") != std::string::npos);
  session.key(view::Key::Delete);
  for (const char32_t c : U"garage.toml") {
    if (c != 0) session.type(c);
  }
  session.key(view::Key::Enter);
  session.settle();
  CHECK(session.app.file.path == folder.garage);
}

TEST_CASE("a viewer without a job offers jobs, and a new one is written at once under a name that nothing has") {
  const Folder folder;
  Session session(folder.shed);
  openIn(session, {}, folder);
  CHECK_FALSE(session.app.document);
  REQUIRE(session.app.jobs.choices);
  session.key(view::Key::Escape);
  CHECK(session.app.jobs.choices);  // there is nothing to go back to
  const fs::path fresh = folder.path / "new-job.sillwright.toml";
  session.app.jobs.choices->fresh = fresh;
  std::ofstream(fresh) << "somebody's";
  REQUIRE(session.clickItem("begin Four walls"));
  session.settle();
  REQUIRE(session.app.document);
  CHECK(session.app.file.path == folder.path / "new-job-2.sillwright.toml");
  CHECK(session.app.document->job.walls.size() == 4);
  CHECK_FALSE(session.app.typing.anyNotInFile(session.app.document->job));
  std::ifstream untouched(fresh);
  CHECK(std::string{std::istreambuf_iterator<char>(untouched), {}} == "somebody's");
}

TEST_CASE("every starter begins a job under every practice that nothing stops") {
  const Folder folder;
  const auto choices = document::gatherChoices(folder.shed, SILLWRIGHT_ASSETS_DIR, {});
  CHECK(choices.starters.size() >= 3);
  CHECK(choices.practices.size() == 4);
  for (const document::JobChoice& starter : choices.starters) {
    for (const document::JobChoice& practice : choices.practices) {
      INFO(starter.title << " by " << practice.title);
      const auto text = document::startedText(starter.file, practice.file.string(), SILLWRIGHT_ASSETS_DIR);
      REQUIRE(text.ok());
      CHECK(text.value->find("# ") != std::string::npos);  // its comments stay
      const fs::path file = folder.path / "begun.toml";
      std::ofstream(file) << *text.value;
      const auto document = document::load(file, SILLWRIGHT_ASSETS_DIR);
      REQUIRE(document.ok());
      CHECK(document.value->job.practice == practice.file.string());
      for (const check::Basis basis : document.value->findings.bases) {
        CHECK(basis == check::Basis::Planned);  // it isn't built yet, so it isn't measured
      }
    }
  }
}

TEST_CASE("a new job follows the rules that the page marks, whatever the job on the screen follows") {
  const Folder folder;
  fs::copy_file(fs::path(SILLWRIGHT_ASSETS_DIR) / "practice" / "au.toml", folder.path / "own.toml");
  std::string text;
  {
    std::ifstream file(folder.shed);
    text.assign(std::istreambuf_iterator<char>(file), {});
  }
  const std::size_t at = text.find("\"au\"");
  REQUIRE(at != std::string::npos);
  text.replace(at, 4, "\"own.toml\"");
  std::ofstream(folder.shed, std::ios::trunc) << text;
  Session session(folder.shed);
  REQUIRE(session.app.document);
  session.key(view::Key::O, {.ctrl = true});
  REQUIRE(session.clickItem("begin One window"));
  session.settle();
  REQUIRE(session.app.document);
  CHECK(session.app.file.path.filename() == "new-job.sillwright.toml");
  CHECK(session.app.document->job.practice == "au");  // the first of the list: its own is none of them
}
