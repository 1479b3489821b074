// What a person takes away from the window, and work that takes a while: whole frames off-screen, on copies of demo
// jobs in a folder of their own.

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <thread>

#include "session.h"
#include "support/catch.h"
#include "support/folder.h"
#include "support/pictures.h"

using namespace sillwright;
using tests::Session;
namespace fs = std::filesystem;

namespace {

struct Folder : tests::TemporaryFolder {
  fs::path job = path / "shed.toml";
  Folder() { fs::copy_file(tests::demoJob("boatshed"), job); }

  [[nodiscard]] std::set<std::string> files() const {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(path)) names.insert(entry.path().filename().string());
    return names;
  }
};

std::string headOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::string head(4, '\0');
  file.read(head.data(), 4);
  return head;
}

void typeInto(Session& session, const std::string& field, const std::u32string& text) {
  REQUIRE(session.clickItem(field));
  session.settle();
  for (const char32_t c : text) session.type(c);
  session.key(view::Key::Enter);
}

}  // namespace

TEST_CASE("a picture of the view is written at the size that was typed, and shows what the window shows") {
  const Folder folder;
  Session session(folder.job);
  view::grant(session.app, view::PickOpening{session.opening("J2"), true});
  session.settle();
  session.app.shown.labels = false;
  view::disturb(session.app);
  session.settle();
  session.type(U'p');
  session.settle();
  REQUIRE(session.app.shown.paper_open);
  typeInto(session, "set width in pixels", U"640");
  typeInto(session, "set height in pixels", U"400");
  REQUIRE(session.clickItem("of that size"));
  session.settle();
  CHECK(session.app.notice.words.find("shed-J2.png") != std::string::npos);
  CHECK_FALSE(session.app.notice.stops);
  const render::Image image = testing::readPng(folder.path / "shed-J2.png");
  CHECK(image.width == 640);
  CHECK(image.height == 400);

  // Half the window's size, the same eye: the middle of both shows the same colours.
  const render::Image window = session.picture();
  int alike = 0;
  int looked_at = 0;
  for (int y = 120; y < 280; y += 4) {
    for (int x = 220; x < 420; x += 4) {
      ++looked_at;
      const auto at = [](const render::Image& of, int px, int py, std::size_t channel) {
        return static_cast<int>(
            of.rgb[(static_cast<std::size_t>(py) * static_cast<std::size_t>(of.width) + static_cast<std::size_t>(px)) *
                       3 +
                   channel]);
      };
      bool same = true;
      for (std::size_t channel = 0; channel < 3; ++channel) {
        same = same && std::abs(at(image, x, y, channel) - at(window, 2 * x, 2 * y, channel)) < 40;
      }
      alike += same ? 1 : 0;
    }
  }
  CHECK(alike > looked_at * 8 / 10);

  // Once more: nothing is written over.
  session.type(U'p');
  session.settle();
  REQUIRE(session.clickItem("of that size"));
  session.settle();
  CHECK(folder.files() == std::set<std::string>{"shed.toml", "shed-J2.png", "shed-J2-2.png"});
}

TEST_CASE("a size that no picture can have is not taken, and says what can be") {
  const Folder folder;
  Session session(folder.job);
  session.type(U'p');
  session.settle();
  typeInto(session, "set width in pixels", U"9000");
  REQUIRE(session.app.typing.refusal);
  CHECK(session.app.typing.refusal->text.find("8192") != std::string::npos);
  CHECK(session.app.shown.picture_size.width == 1920);
}

TEST_CASE("an opening's sheets, a wall's, all, and the lists are written beside the job") {
  const Folder folder;
  Session session(folder.job);
  view::grant(session.app, view::PickOpening{session.opening("J2"), true});
  session.settle();
  const auto take = [&](const char* words) {
    session.type(U'p');
    session.settle();
    REQUIRE(session.clickItem(words));
    session.settle();
    CHECK_FALSE(session.app.work);
    CHECK_FALSE(session.app.notice.stops);
  };
  take("the sheets of J2");
  take("the elevation of jetty");
  take("all of the job");
  take("the lists as a workbook");
  CHECK(folder.files() ==
        std::set<std::string>{"shed.toml", "shed-J2.pdf", "shed-jetty.pdf", "shed-sheets.pdf", "shed-lists.xlsx"});
  CHECK(headOf(folder.path / "shed-J2.pdf") == "%PDF");
  CHECK(headOf(folder.path / "shed-lists.xlsx") == "PK\x03\x04");
  CHECK(fs::file_size(folder.path / "shed-sheets.pdf") > fs::file_size(folder.path / "shed-J2.pdf"));
}

TEST_CASE("sheets that are left off leave no file") {
  const Folder folder;
  Session session(folder.job);
  view::grant(session.app, view::TakeSheets{.records = true});
  REQUIRE(session.app.work);
  session.app.work->steps->stop = true;
  session.settle();
  CHECK(folder.files() == std::set<std::string>{"shed.toml"});
  CHECK(session.app.notice.words.find("left off") != std::string::npos);
}

TEST_CASE("what was written is opened by the desktop's opener, run as a program with the file alone") {
  const Folder folder;
  const fs::path bin = folder.path / "bin";
  const fs::path told = folder.path / "told";
  fs::create_directories(bin);
  std::ofstream(bin / "xdg-open") << "#!/bin/sh\nprintf '%s' \"$#:$1\" > '" << told.string() << "'\n";
  fs::permissions(bin / "xdg-open", fs::perms::owner_all);
  const std::string path = std::getenv("PATH") != nullptr ? std::getenv("PATH") : "";
  ::setenv("PATH", (bin.string() + ":" + path).c_str(), 1);
  Session session(folder.job);
  view::grant(session.app, view::TakeFile{view::FileKind::Lists});
  session.settle();
  REQUIRE(session.clickItem("open it"));
  std::string said;
  for (int i = 0; i < 200 && said.empty(); ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
    std::getline(std::ifstream(told), said);
  }
  ::setenv("PATH", path.c_str(), 1);
  CHECK(said == "1:" + (folder.path / "shed-lists.xlsx").string());
  CHECK(session.app.notice.words.empty());
}

TEST_CASE("the job can be changed while its sheets are drawn, which are those of before") {
  const Folder folder;
  Session session(folder.job);
  view::grant(session.app, view::TakeSheets{});
  CHECK_FALSE(view::isHeld(session.app));
  view::grant(session.app, view::SetKey{{job::TableKind::Opening, 0, "name", {}}, "\"J9\""});
  session.settle();
  CHECK(session.app.document->job.openings.front().name == "J9");
  CHECK(folder.files().count("shed-sheets.pdf") == 1);
}

TEST_CASE("a folder that is gone is told in words") {
  const Folder folder;
  Session session(folder.job);
  fs::remove_all(folder.path);
  view::grant(session.app, view::TakePicture{64, 64});
  session.settle();
  CHECK(session.app.notice.stops);
  view::grant(session.app, view::TakeSheets{.opening = 0});
  session.settle();
  CHECK(session.app.notice.stops);
  view::grant(session.app, view::TakeFile{});
  session.settle();
  CHECK(session.app.notice.stops);
  fs::create_directories(folder.path);
}

TEST_CASE("names are made fit for files") {
  CHECK(view::fileWord("N1") == "N1");
  CHECK(view::fileWord("../north side/2") == "---north-side-2");
  CHECK(view::fileWord("K\xC3\xBC"
                       "che") ==
        "K\xC3\xBC"
        "che");
  CHECK(view::fileWord(std::string(300, 'x')).size() <= 60);
}

TEST_CASE("a long file is read beside the window, which says so and lets nothing be changed meanwhile") {
  const Folder folder;
  std::string text =
      "[job]\ntitle = \"Many\"\npractice = \"nz\"\nwind = \"M\"\n\n[[wall]]\nname = \"north\"\nlength = 6000\n"
      "top = 2700\n\n";
  text.append(600 << 10, '#');
  std::ofstream(folder.job) << text << "\n";
  Session session(folder.job);
  REQUIRE(session.app.document);
  CHECK(session.app.document->job.title == "Many");
  CHECK_FALSE(session.app.work);

  view::grant(session.app, view::ReadAgain{});
  REQUIRE(view::isHeld(session.app));
  CHECK(view::wordsFor(*session.app.work) == "Loading shed.toml …");
  session.app.input.push(view::KeyChanged{view::Key::Z, true, {.ctrl = true}});
  session.settle();
  CHECK_FALSE(session.app.work);
  CHECK(session.app.file.errors.empty());

  // Broken meanwhile: the last good job stays.
  std::ofstream(folder.job) << text << "\nnonsense";
  session.key(view::Key::F5);
  CHECK(session.app.document);
  CHECK_FALSE(session.app.file.errors.empty());
}
