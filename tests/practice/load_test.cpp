// Finding a practice: by name among those that come with the program, or by path beside the job.
#include <filesystem>
#include <fstream>

#include "practice/read.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::practice::test {

namespace {

/// A folder of its own that is gone afterwards.
struct Folder {
  std::filesystem::path path;

  explicit Folder(const std::string& name) : path(std::filesystem::temp_directory_path() / ("sillwright-" + name)) {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }

  void write(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories((path / name).parent_path());
    std::ofstream(path / name, std::ios::binary) << text;
  }
};

}  // namespace

TEST_CASE("a name is looked for among the shipped practices") {
  CHECK(load("au", kAssets, "/nowhere").ok());
  const auto result = load("fr", kAssets, "/nowhere");
  REQUIRE(result.errors.size() == 1);
  CHECK(toLine(result.errors[0]) ==
        "there is no practice \"fr\"; there are: au, nz, uk, us; or name a .toml file beside the job");
  CHECK(load("", kAssets, "/nowhere").errors.size() == 1);
}

TEST_CASE("a name never leads out of the folder of practices") {
  for (const char* name : {"..", ".", "AU", "au.tom", "au\\..\\us", "*"}) {
    INFO(name);
    CHECK_FALSE(load(name, kAssets, "/nowhere").ok());
  }
}

TEST_CASE("a path is looked for beside the job") {
  const Folder folder("practice-beside");
  folder.write("ours.toml", completed(kTopKeys));
  folder.write("rules/ours.toml", completed(kTopKeys));
  folder.write("rules/bare", completed(kTopKeys));
  CHECK(load("ours.toml", kAssets, folder.path).ok());
  CHECK(load("rules/ours.toml", kAssets, folder.path).ok());
  CHECK(load("rules/bare", kAssets, folder.path).ok());
  CHECK(load((folder.path / "ours.toml").string(), kAssets, "/nowhere").ok());
  const auto missing = load("theirs.toml", kAssets, folder.path);
  REQUIRE(missing.errors.size() == 1);
  CHECK(toLine(missing.errors[0]).find((folder.path / "theirs.toml").string()) == 0);
}

TEST_CASE("a folder, and a program without its assets, are answered") {
  const Folder folder("practice-none");
  CHECK(names(folder.path).empty());
  const auto none = load("au", folder.path, folder.path);
  REQUIRE(none.errors.size() == 1);
  CHECK(none.errors[0].say.find("none were found in") != std::string::npos);
  CHECK(readFile(folder.path).errors.size() == 1);
  folder.write("practice/b.toml", "");
  folder.write("practice/a.toml", "");
  folder.write("practice/notes.txt", "");
  CHECK(names(folder.path) == std::vector<std::string>{"a", "b"});
}

TEST_CASE("a file that is far too large is refused without being read") {
  const Folder folder("practice-large");
  folder.write("large.toml", "");
  std::filesystem::resize_file(folder.path / "large.toml", kLargestFile + 1);
  const auto result = readFile(folder.path / "large.toml");
  REQUIRE(result.errors.size() == 1);
  CHECK(result.errors[0].say.find("16 MiB") != std::string::npos);
}

}  // namespace sillwright::practice::test
