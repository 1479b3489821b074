// Saving, the file changed elsewhere, and edits that outlive a crash: whole frames off-screen, on copies of demo jobs.

#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include "session.h"
#include "support/catch.h"
#include "support/folder.h"
#include "support/read_job.h"

using namespace sillwright;
using tests::Session;
using view::DimensionKind;
using view::EditAct;
using view::EditWish;
namespace fs = std::filesystem;

namespace {

std::string textOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A folder with a copy of the boatshed.
struct Folder : tests::TemporaryFolder {
  fs::path job = path / "shed.toml";
  fs::path recovery = path / "state";
  Folder() { fs::copy_file(tests::demoJob("boatshed"), job); }
};

void setSill(Session& session, const std::string& name, double value) {
  EditWish wish{.act = EditAct::Set};
  wish.dimension = {DimensionKind::Sill, static_cast<std::size_t>(session.opening(name))};
  wish.value = value;
  view::grant(session.app, wish);
  session.settle();
}

/// Lines that differ, of two texts of as many lines.
std::vector<std::string> changedLines(const std::string& before, const std::string& after) {
  std::istringstream a(before);
  std::istringstream b(after);
  std::vector<std::string> changed;
  std::string x;
  std::string y;
  while (std::getline(a, x)) {
    if (!std::getline(b, y)) return {"fewer lines"};
    if (x != y) changed.push_back(y);
  }
  if (std::getline(b, y)) return {"more lines"};
  return changed;
}

}  // namespace

TEST_CASE("a save writes the one figure that changed, and the comment behind it stays") {
  const Folder folder;
  const std::string before = textOf(folder.job);
  Session session(folder.job);
  setSill(session, "J2", 1075);
  CHECK(textOf(folder.job) == before);
  session.key(view::Key::S, {.ctrl = true});
  const auto changed = changedLines(before, textOf(folder.job));
  REQUIRE(changed.size() == 1);
  CHECK(changed[0].find("sill") == 0);
  CHECK(changed[0].find("1075") != std::string::npos);
  CHECK_FALSE(session.app.typing.anyNotInFile(session.app.document->job));
  // Undone and saved again: the very bytes that were there.
  session.key(view::Key::Z, {.ctrl = true});
  session.key(view::Key::S, {.ctrl = true});
  CHECK(textOf(folder.job) == before);
}

TEST_CASE("adding, copying and removing are saved, and read back as they are shown") {
  const Folder folder;
  Session session(folder.job);
  const auto save = [&] {
    session.key(view::Key::S, {.ctrl = true});
    CAPTURE(session.app.notice.words);
    REQUIRE_FALSE(session.app.notice.stops);
    const auto read = testing::readJob(folder.job);
    REQUIRE(read.ok());
    REQUIRE(read.value->openings.size() == session.app.document->job.openings.size());
    for (std::size_t i = 0; i < read.value->openings.size(); ++i) {
      job::Opening a = read.value->openings[i];
      job::Opening b = session.app.document->job.openings[i];
      a.place = b.place = {};
      a.unit.mesh_place = b.unit.mesh_place = {};
      CHECK(a == b);
    }
  };
  view::grant(session.app, EditWish{.act = EditAct::CopyOpening, .of = 1});
  save();
  view::grant(session.app, EditWish{.act = EditAct::AddWall, .of = 3});
  view::grant(session.app, EditWish{.act = EditAct::AddOpening, .of = 4});
  save();
  view::grant(session.app, EditWish{.act = EditAct::RemoveOpening, .of = 0});
  view::grant(session.app, view::SetKey{{job::TableKind::Unit, 0, "reveal", "depth"}, {}});
  save();
  while (session.app.history.canUndo()) view::grant(session.app, view::TakeBack{});
  save();
}

TEST_CASE("a file that another program has changed is asked about before it is written over") {
  const Folder folder;
  Session session(folder.job);
  setSill(session, "J2", 1075);
  std::ofstream(folder.job, std::ios::app) << "# a line of somebody else's\n";
  session.key(view::Key::S, {.ctrl = true});
  CHECK(session.app.shown.asking == view::Asking::SaveOver);
  CHECK(textOf(folder.job).find("somebody else's") != std::string::npos);
  session.key(view::Key::Escape);
  CHECK(session.app.shown.asking == view::Asking::Nothing);
  session.key(view::Key::S, {.ctrl = true});
  session.key(view::Key::S, {.ctrl = true});  // the key that raised the question is no answer to it
  CHECK(session.app.shown.asking == view::Asking::SaveOver);
  CHECK(textOf(folder.job).find("somebody else's") != std::string::npos);
  session.key(view::Key::S, {.ctrl = true, .shift = true});
  CHECK(textOf(folder.job).find("somebody else's") == std::string::npos);
  CHECK(textOf(folder.path / "shed-other.toml").find("somebody else's") != std::string::npos);
  CHECK(textOf(folder.job).find("1075") != std::string::npos);
}

TEST_CASE("a file changed elsewhere is read again where nothing would be lost, and told of where it would") {
  const Folder folder;
  Session session(folder.job);
  const auto changeOutside = [&](const char* title) {
    std::string text = textOf(folder.job);
    const std::size_t at = text.find("title");
    const std::size_t end = text.find('\n', at);
    text.replace(at, end - at, std::string("title = \"") + title + "\"");
    std::ofstream(folder.job, std::ios::trunc) << text;
    fs::last_write_time(folder.job, fs::last_write_time(folder.job) + std::chrono::seconds(2));
    view::checkDisk(session.app);
    session.settle();
  };
  changeOutside("Another");
  CHECK(session.app.document->job.title == "Another");
  setSill(session, "J2", 1075);
  changeOutside("A third");
  CHECK(session.app.document->job.title == "Another");
  CHECK(session.app.notice.words.find("another program") != std::string::npos);
}

TEST_CASE("a file that was broken elsewhere leaves the last good job, and a save over it asks first") {
  const Folder folder;
  Session session(folder.job);
  const std::string good = textOf(folder.job);
  const auto write = [&](const std::string& text) {
    std::ofstream(folder.job, std::ios::trunc) << text;
    fs::last_write_time(folder.job, fs::last_write_time(folder.job) + std::chrono::seconds(2));
    view::checkDisk(session.app);
    session.settle();
  };
  write(good + "\n[[opening]]\nname = 3\n");
  REQUIRE(session.app.document);
  CHECK(session.app.file.errors.size() > 1);
  setSill(session, "J2", 1075);
  session.key(view::Key::S, {.ctrl = true});
  CHECK(session.app.shown.asking == view::Asking::SaveOver);
  session.key(view::Key::S, {.ctrl = true, .shift = true});
  CHECK(session.app.file.errors.empty());
  CHECK(changedLines(good, textOf(folder.job)).size() == 1);

  // Broken and put back as it was: the errors are gone again.
  const std::string saved = textOf(folder.job);
  write("[");
  CHECK_FALSE(session.app.file.errors.empty());
  write(saved);
  CHECK(session.app.file.errors.empty());
}

TEST_CASE("a folder that can't be written is told in words, and nothing is lost") {
  if (::geteuid() == 0) {
    WARN("not tried: root may write anywhere; job's own tests make the disk full instead");
    return;
  }
  const Folder folder;
  const std::string before = textOf(folder.job);
  Session session(folder.job);
  setSill(session, "J2", 1075);
  fs::permissions(folder.path, fs::perms::owner_read | fs::perms::owner_exec);
  session.key(view::Key::S, {.ctrl = true});
  CHECK(session.app.notice.stops);
  CHECK(textOf(folder.job) == before);
  CHECK(session.app.typing.anyNotInFile(session.app.document->job));
}

TEST_CASE("a job whose folder is gone can't be saved: the edits stay") {
  const Folder folder;
  Session session(folder.job);
  setSill(session, "J2", 1075);
  fs::remove_all(folder.path);
  session.key(view::Key::S, {.ctrl = true});  // changed on disk: asked
  session.key(view::Key::S, {.ctrl = true, .shift = true});
  CHECK(session.app.notice.stops);
  CHECK(session.app.notice.words.find("Nothing is lost") != std::string::npos);
  CHECK(session.app.typing.anyNotInFile(session.app.document->job));
  fs::create_directories(folder.path);
}

TEST_CASE("edits outlive a viewer that was killed, and are offered at the next start") {
  const Folder folder;
  const std::string before = textOf(folder.job);
  {
    Session session(folder.job);
    session.app.file.recovery = folder.recovery;
    setSill(session, "J2", 1075);
    setSill(session, "H1", 925);
    // Nothing is said to this one: it is gone as if it had been killed.
  }
  CHECK(textOf(folder.job) == before);
  const auto open = [&](Session& session) {
    session.app = view::open(folder.job, SILLWRIGHT_ASSETS_DIR, folder.recovery);
    session.app.eye.instant = true;
    session.settle();
  };
  {
    Session session(folder.job);
    open(session);
    REQUIRE(session.app.shown.asking == view::Asking::Recover);
    session.key(view::Key::Escape);  // wants an answer
    CHECK(session.app.shown.asking == view::Asking::Recover);
    REQUIRE(session.clickItem("restore them"));
    const auto& openings = session.app.document->job.openings;
    CHECK(openings[static_cast<std::size_t>(session.opening("J2"))].sill == 1075);
    CHECK(openings[static_cast<std::size_t>(session.opening("H1"))].sill == 925);
    session.key(view::Key::S, {.ctrl = true});
    CHECK(changedLines(before, textOf(folder.job)).size() == 2);
  }
  Session session(folder.job);
  open(session);
  CHECK(session.app.shown.asking == view::Asking::Nothing);
}

TEST_CASE("an edit of the last moment is kept before its save begins, and until that is whole") {
  const Folder folder;
  view::App app = view::open(folder.job, SILLWRIGHT_ASSETS_DIR, folder.recovery);
  view::edit(app, "title", [](job::Job& job) { job.title = "of the last moment"; });
  const fs::path in_the_way = folder.job.parent_path() / ("." + folder.job.filename().string() + ".saving");
  fs::create_directory(in_the_way);
  view::saveJob(app);
  CHECK(app.notice.words.starts_with("Not saved"));
  const auto kept = document::kept(folder.recovery, folder.job);
  REQUIRE(kept);
  CHECK(kept->text.find("of the last moment") != std::string::npos);
  fs::remove(in_the_way);
  view::saveJob(app);
  CHECK_FALSE(document::kept(folder.recovery, folder.job));
}

TEST_CASE("edits that were kept can be forgotten, and closing without saving forgets them too") {
  const Folder folder;
  {
    Session session(folder.job);
    session.app.file.recovery = folder.recovery;
    setSill(session, "J2", 1075);
    session.key(view::Key::Q, {.ctrl = true});
    CHECK(session.app.shown.asking == view::Asking::Close);
    session.key(view::Key::Q, {.ctrl = true});
    CHECK(session.app.closing);
  }
  Session session(folder.job);
  session.app = view::open(folder.job, SILLWRIGHT_ASSETS_DIR, folder.recovery);
  session.app.eye.instant = true;
  session.settle();
  CHECK(session.app.shown.asking == view::Asking::Nothing);
}

TEST_CASE("what is asked before closing can be saved from there") {
  const Folder folder;
  Session session(folder.job);
  setSill(session, "J2", 1075);
  session.key(view::Key::Q, {.ctrl = true});
  REQUIRE(session.clickItem("save it"));
  CHECK(session.app.closing);
  CHECK(textOf(folder.job).find("1075") != std::string::npos);
}

TEST_CASE("while F2 is held the job is seen as it was saved last, and nothing is lost by it") {
  const Folder folder;
  Session session(folder.job);
  session.app.file.recovery = folder.recovery;
  const auto index = static_cast<std::size_t>(session.opening("J2"));
  const double saved = session.app.document->job.openings[index].sill;
  setSill(session, "J2", saved + 7);
  const auto sill = [&] { return session.app.document->job.openings[index].sill; };
  const auto hold = [&](bool down) {
    session.app.input.push(view::KeyChanged{view::Key::F2, down, {}});
    session.settle();
  };
  hold(true);
  CHECK(sill() == saved);
  CHECK(session.app.notice.words.starts_with("As it was saved last."));
  view::keepInTime(session.app, true);
  session.move(640, 400);
  session.settle();
  CHECK(sill() == saved);  // a pointer that only moves ends nothing
  hold(false);
  CHECK(sill() == saved + 7);
  hold(true);
  view::grant(session.app, view::Close{});  // asks about the edits, not about the saved job
  CHECK(sill() == saved + 7);
  CHECK_FALSE(session.app.closing);
  CHECK(session.app.shown.asking == view::Asking::Close);
}
