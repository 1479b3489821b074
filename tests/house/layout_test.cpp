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

using Names = std::set<std::string>;

Names with(Names names, const Names& more) {
  names.insert(more.begin(), more.end());
  return names;
}

/// What each room may include, itself apart.
std::map<std::string, Names> mayInclude() {
  std::map<std::string, Names> may{{"base", {}}, {"job", {"base"}}, {"practice", {"base", "job"}}};
  may["words"] = {"base", "job", "practice"};
  may["plan"] = with(may["words"], {"words"});
  may["check"] = with(may["plan"], {"plan"});
  may["takeoff"] = with(may["check"], {"check"});
  may["scene"] = with(may["plan"], {"plan"});
  may["document"] = with(may["takeoff"], {"takeoff", "scene"});
  may["sheet"] = may["exchange"] = with(may["document"], {"document"});
  may["render"] = {"base", "scene"};
  may["view"] = with(may["sheet"], {"document", "sheet", "exchange", "render"});
  may["pocket"] = with(may["exchange"], {"exchange", "render", "view"});  // of the viewer its values alone
  may["cli"] = with(may["view"], {"view"});
  return may;
}

/// Third-party headers by a part of their name, and the rooms that may name them.
const std::map<std::string, Names> kForeign{
    {"imgui", {"view"}},
    {"GLFW/", {"view"}},
    {"epoxy/", {"render", "view"}},
    {"GL/", {}},
    {"GLES", {"render"}},
    {"emscripten", {"pocket"}},
    {"EGL/", {"render"}},
    {"cairo", {"sheet"}},
    {"pango", {"sheet"}},
    {"toml++", {"job", "practice", "document", "view"}},
    {"Eigen", {"plan", "takeoff"}},
    {"tbb/", {"base"}},
    {"CLI/", {"cli"}},
    {"tiny_obj_loader", {"scene", "pocket"}},
    {"xlsxwriter", {"exchange"}},
    {"unzip.h", {"exchange"}},
    {"expat.h", {"exchange"}},
};

/// A room's folders and what each may include of the others. A file that stands apart from its folder has a row.
const std::map<std::string, std::map<std::string, Names>> kSubRooms{
    {"plan",
     {{"shape", {}},
      {"settle", {"shape"}},
      {"panes", {"settle", "shape"}},
      {"house_corners", {"panes", "shape"}},
      {"work/step_kind", {}},
      {"frame", {"settle", "shape"}},
      {"survey", {"settle", "shape"}},
      {"stand", {"settle", "panes", "shape", "survey"}},
      {"hold", {"settle", "panes", "shape", "house_corners", "survey", "stand", "frame"}},
      {"weather", {"settle", "panes", "shape", "survey", "stand", "work/step_kind"}},
      // The top: `plan` composes all but the steps, which are read off a whole plan.
      {"", {"settle", "panes", "shape", "house_corners", "frame", "survey", "stand", "hold", "weather"}},
      {"work", {"", "settle", "panes", "shape", "survey", "stand", "hold", "weather", "work/step_kind"}}}},
    {"scene",
     {{"", {"mesh", "section", "build"}},
      {"mesh", {""}},
      {"section", {"", "mesh", "build"}},
      {"build", {"", "mesh", "section"}}}},
    {"sheet",
     {{"", {"paper", "drawing", "pages"}},
      {"paper", {""}},
      {"drawing", {"", "paper"}},
      {"pages", {"", "paper", "drawing"}}}},
    {"view",
     {{"values", {}},
      {"session", {"values"}},
      {"marks", {"values", "session"}},
      {"panels", {"values", "session", "marks"}},
      {"window", {"values", "session", "marks", "panels"}}}},
};

/// The row of `kSubRooms` that a file of a room belongs to: "plan/work/step_kind.h" to "work/step_kind".
std::string subRoomOf(const std::map<std::string, Names>& rows, const fs::path& in_room) {
  const std::string stem = (in_room.parent_path() / in_room.stem()).generic_string();
  return rows.count(stem) == 1 ? stem : in_room.parent_path().generic_string();
}

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
  const auto may = mayInclude();
  REQUIRE(all.size() > 100);  // the scan found the sources
  for (const auto& include : all) {
    REQUIRE(may.count(include.room) == 1);
    const auto slash = include.what.find('/');
    if (slash == std::string::npos) continue;
    const std::string other = include.what.substr(0, slash);
    if (may.count(other) == 0) continue;  // not a room of ours
    CAPTURE(include.file.string(), include.what);
    CHECK((other == include.room || may.at(include.room).count(other) == 1));
  }
}

TEST_CASE("inside a divided room includes run one way too") {
  for (const auto& include : allIncludes()) {
    const auto room = kSubRooms.find(include.room);
    if (room == kSubRooms.end() || include.what.rfind(include.room + "/", 0) != 0) continue;
    const std::string from = subRoomOf(room->second, fs::relative(include.file, kSource / "src" / include.room));
    const std::string to = subRoomOf(room->second, include.what.substr(include.room.size() + 1));
    CAPTURE(include.file.string(), include.what, from, to);
    REQUIRE(room->second.count(from) == 1);
    CHECK((from == to || room->second.at(from).count(to) == 1));
  }
}

TEST_CASE("no folder holds more files than one can keep in mind") {
  std::map<std::string, int> files;
  for (const auto& entry : fs::recursive_directory_iterator(kSource / "src")) {
    const auto extension = entry.path().extension();
    if (extension == ".h" || extension == ".cpp") ++files[entry.path().parent_path().string()];
  }
  for (const auto& [folder, count] : files) {
    CAPTURE(folder, count);
    CHECK(count <= 34);
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

TEST_CASE("verbs that draw nothing include nothing of the viewer") {
  const Names drawing{"picture.cpp", "handbook.cpp", "film.cpp", "drawing_verbs.h"};
  for (const auto& include : allIncludes()) {
    if (include.room != "cli" || drawing.count(include.file.filename().string()) == 1) continue;
    CAPTURE(include.file.string(), include.what);
    CHECK((include.what != "cli/drawing_verbs.h" || include.file.filename() == "main.cpp"));
    CHECK(include.what.rfind("view/", 0) != 0);
    CHECK(include.what.rfind("render/", 0) != 0);
  }
}
