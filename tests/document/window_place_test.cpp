#include "document/settings.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "support/catch.h"

using namespace sillwright::document;
namespace fs = std::filesystem;

namespace {

fs::path freshFolder(const std::string& name) {
  const fs::path folder = fs::temp_directory_path() / ("sillwright-place-" + name);
  fs::remove_all(folder);
  fs::create_directories(folder);
  return folder;
}

}  // namespace

TEST_CASE("a window's place written is the place read") {
  const fs::path file = freshFolder("round") / "deep" / "window.toml";
  const WindowPlace place{-1200, 30, 1600, 900, true, true, 1.35};
  CHECK(writeWindowPlace(file, place).empty());
  CHECK(readWindowPlace(file) == place);
  // Nothing is left beside it.
  CHECK(std::distance(fs::directory_iterator(file.parent_path()), fs::directory_iterator{}) == 1);
}

TEST_CASE("a setting that makes no sense stays as it was") {
  const fs::path file = freshFolder("spoilt") / "window.toml";
  const auto read = [&](const char* text) {
    std::ofstream(file, std::ios::binary) << text;
    return readWindowPlace(file).value_or(WindowPlace{});
  };
  const WindowPlace usual;
  CHECK(read("") == usual);
  CHECK(read("width = wide\nheight 900\n= 3\nx = 1e9\n\x01\xff") == usual);
  CHECK(read("width = 99999999999999999999\n").width == usual.width);
  CHECK(read("width = \"wide\"\nheight = 500").width == usual.width);
  CHECK(read("text_scale = nan\n").text_scale == usual.text_scale);
  CHECK(read("width = 1\nheight = 0\n").width >= 320);
  CHECK(read("x = -9000000000\n").x < -1000);
  CHECK(read("  width =  700 \r\nunknown = 4\nheight = 500").width == 700);
  CHECK(read("  width =  700 \r\nunknown = 4\nheight = 500").height == 500);
}

TEST_CASE("a folder that can't be made is told in a sentence") {
  const fs::path folder = freshFolder("refused");
  std::ofstream(folder / "file") << "not a folder";
  const std::string said = writeWindowPlace(folder / "file" / "window.toml", {});
  CHECK(said.find("the window's place is not kept") != std::string::npos);
}

TEST_CASE("no place is remembered where there is no file") {
  CHECK_FALSE(readWindowPlace(freshFolder("none") / "window.toml"));
  CHECK_FALSE(readWindowPlace({}));
  CHECK(writeWindowPlace({}, {}).empty());
}

TEST_CASE("the file lies where the XDG base directory rules put it") {
  // XDG Base Directory Specification: $XDG_CONFIG_HOME, an absolute path, else $HOME/.config.
  setenv("HOME", "/home/someone", 1);
  setenv("XDG_CONFIG_HOME", "/settings", 1);
  CHECK(windowPlaceFile() == "/settings/sillwright/window.toml");
  setenv("XDG_CONFIG_HOME", "relative", 1);
  CHECK(windowPlaceFile() == "/home/someone/.config/sillwright/window.toml");
  unsetenv("XDG_CONFIG_HOME");
  CHECK(windowPlaceFile() == "/home/someone/.config/sillwright/window.toml");
  unsetenv("HOME");
  CHECK(windowPlaceFile().empty());
}
