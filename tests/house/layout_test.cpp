// The house rules that a compiler doesn't check: which room may include which, and what stands at the top level.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "support/catch.h"

namespace {

namespace fs = std::filesystem;

const fs::path kSource = SILLWRIGHT_SOURCE_DIR;

/// Rooms, lowest first: a room may include itself and those before it in its own list.
const std::map<std::string, std::set<std::string>> kMayInclude{
    {"base", {}},
    {"job", {"base"}},
    {"practice", {"base", "job"}},
    {"words", {"base", "job", "practice"}},
    {"plan", {"base", "job", "practice", "words"}},
    {"check", {"base", "job", "practice", "words", "plan"}},
    {"takeoff", {"base", "job", "practice", "words", "plan", "check"}},
    {"scene", {"base", "job", "practice", "words", "plan"}},
    {"document", {"base", "job", "practice", "words", "plan", "check", "takeoff", "scene"}},
    {"sheet", {"base", "job", "practice", "words", "plan", "check", "takeoff", "scene", "document"}},
    {"exchange", {"base", "job", "practice", "words", "plan", "check", "takeoff", "scene", "document"}},
    {"render", {"base", "scene"}},
    {"view",
     {"base", "job", "practice", "words", "plan", "check", "takeoff", "scene", "document", "sheet", "exchange",
      "render"}},
    {"cli",
     {"base", "job", "practice", "words", "plan", "check", "takeoff", "scene", "document", "sheet", "exchange",
      "render", "view"}},
};

/// Third-party headers by a part of their name, and the rooms that may name them.
const std::map<std::string, std::set<std::string>> kForeign{
    {"imgui", {"view"}},
    {"GLFW/", {"view"}},
    {"epoxy/", {"render", "view"}},
    {"cairo", {"sheet"}},
    {"pango", {"sheet"}},
    {"toml", {"job", "practice", "document"}},
    {"CLI/", {"cli"}},
    {"tiny_obj_loader", {"scene"}},
    {"xlsxwriter", {"exchange"}},
};

struct Include {
  fs::path file;
  std::string room;
  std::string what;
};

std::vector<Include> includesOf(const fs::path& file, const std::string& room) {
  static const std::regex kLine(R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])");
  std::ifstream in(file);
  std::vector<Include> found;
  std::string line;
  std::smatch match;
  while (std::getline(in, line)) {
    if (std::regex_search(line, match, kLine)) found.push_back({file, room, match[1]});
  }
  return found;
}

std::vector<Include> allIncludes() {
  std::vector<Include> all;
  for (const auto& entry : fs::recursive_directory_iterator(kSource / "src")) {
    const auto extension = entry.path().extension();
    if (extension != ".h" && extension != ".cpp") continue;
    const std::string room = fs::relative(entry.path(), kSource / "src").begin()->string();
    const auto found = includesOf(entry.path(), room);
    all.insert(all.end(), found.begin(), found.end());
  }
  return all;
}

}  // namespace

TEST_CASE("includes run downwards only") {
  const auto all = allIncludes();
  REQUIRE(all.size() > 100);  // the scan found the sources
  for (const auto& include : all) {
    REQUIRE(kMayInclude.count(include.room) == 1);
    const auto slash = include.what.find('/');
    if (slash == std::string::npos) continue;
    const std::string other = include.what.substr(0, slash);
    if (kMayInclude.count(other) == 0) continue;  // not a room of ours
    CAPTURE(include.file.string(), include.what);
    CHECK((other == include.room || kMayInclude.at(include.room).count(other) == 1));
  }
}

TEST_CASE("third-party headers stay in their rooms") {
  for (const auto& include : allIncludes()) {
    for (const auto& [name, rooms] : kForeign) {
      if (include.what.find(name) == std::string::npos) continue;
      CAPTURE(include.file.string(), include.what);
      CHECK(rooms.count(include.room) == 1);
    }
  }
}

TEST_CASE("public headers name no third-party header but glm") {
  for (const auto& include : allIncludes()) {
    if (include.file.extension() != ".h") continue;
    for (const auto& name : {"toml++", "Eigen", "tiny_obj", "CLI/", "cairo", "pango"}) {
      // An inner header of a room may; it then says so in its first line.
      if (include.what.find(name) == std::string::npos) continue;
      std::ifstream in(include.file);
      std::string first;
      std::getline(in, first);
      CAPTURE(include.file.string(), include.what);
      CHECK(first.find("Inside the room") != std::string::npos);
    }
  }
}

TEST_CASE("the top level is what the house allows") {
  const std::set<std::string> allowed{"CMakeLists.txt", "README.md",   "DEVELOPERS.md", "src",
                                      "shaders",        "third_party", "assets",        "tests"};
  for (const auto& entry : fs::directory_iterator(kSource)) {
    const std::string name = entry.path().filename().string();
    if (name.front() == '.' || name.rfind("build", 0) == 0) continue;  // dotfiles, and what git ignores
    CAPTURE(name);
    CHECK(allowed.count(name) == 1);
  }
}

TEST_CASE("every header opens with what it is for") {
  for (const auto& entry : fs::recursive_directory_iterator(kSource / "src")) {
    if (entry.path().extension() != ".h") continue;
    std::ifstream in(entry.path());
    std::string first;
    std::getline(in, first);
    CAPTURE(entry.path().string());
    CHECK(first.rfind("///", 0) == 0);
  }
}

TEST_CASE("the viewer's sub-rooms include downwards only") {
  const std::vector<std::string> kLowestFirst{"values", "session", "marks", "panels", "window"};
  const auto place = [&](const std::string& name) {
    return std::find(kLowestFirst.begin(), kLowestFirst.end(), name) - kLowestFirst.begin();
  };
  for (const auto& include : allIncludes()) {
    if (include.room != "view" || include.what.rfind("view/", 0) != 0) continue;
    CAPTURE(include.file.string(), include.what);
    CHECK(place(*std::next(fs::path(include.what).begin())) <= place(include.file.parent_path().filename()));
  }
}

TEST_CASE("verbs that draw nothing include nothing of the viewer") {
  for (const auto& include : allIncludes()) {
    if (include.room != "cli" || include.file.filename() == "picture.cpp") continue;
    CAPTURE(include.file.string(), include.what);
    CHECK(include.what.rfind("view/", 0) != 0);
    CHECK(include.what.rfind("render/", 0) != 0);
  }
}
