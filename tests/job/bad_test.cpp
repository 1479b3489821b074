// Files that are wrong, and the very words that answer them. tests/job/bad holds pairs: NAME.toml and NAME.errors,
// one line an error. A line that ends in `*` stands for any end: what follows is the TOML parser's own sentence.
#include <sys/stat.h>

#include <cmath>
#include <sstream>

#include "job/read.h"
#include "support.h"
#include "support/catch.h"
#include "support/folder.h"
#include "support/read_job.h"

namespace sillwright::job::test {
namespace {

std::vector<std::string> linesOf(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

bool agrees(const std::string& line, const std::string& expected) {
  if (expected.empty() || expected.back() != '*') return line == expected;
  const auto start = expected.substr(0, expected.size() - 1);
  return line.size() > start.size() && line.compare(0, start.size(), start) == 0;
}

/// What stands in the text at a place; columns walked character by character.
std::string textAt(const std::string& text, base::Place place) {
  std::size_t at = text.compare(0, 3, "\xEF\xBB\xBF") == 0 ? 3 : 0;
  for (std::uint32_t line = 1; line < place.line; ++line) at = text.find('\n', at) + 1;
  for (std::uint32_t column = 1; column < place.column; ++column) {
    do {
      ++at;
    } while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U);
  }
  return text.substr(at);
}

bool startsWith(const std::string& text, const std::string& start) { return text.compare(0, start.size(), start) == 0; }

}  // namespace

TEST_CASE("each bad file is answered in the expected words") {
  const auto files = filesIn(kFolder / "bad", ".toml");
  CHECK(files.size() >= 60);
  CHECK(filesIn(kFolder / "bad", ".errors").size() == files.size());
  for (const auto& path : files) {
    const auto result = read(load(path), path.filename().string());
    auto expected_path = path;
    const auto expected = linesOf(load(expected_path.replace_extension(".errors")));
    INFO(path.filename().string() << " answers\n" << allLines(result.errors));
    CHECK_FALSE(result.ok());
    CHECK_FALSE(expected.empty());
    REQUIRE(result.errors.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
      INFO("expected " << expected[i]);
      CHECK(agrees(base::toLine(result.errors[i]), expected[i]));
    }
  }
}

TEST_CASE("what an error says was found stands at its place") {
  std::size_t checked = 0;
  for (const auto& path : filesIn(kFolder / "bad", ".toml")) {
    const auto text = load(path);
    for (const auto& error : read(text, "").errors) {
      INFO(path.filename().string() << ": " << base::toLine(error));
      const auto there = textAt(text, error.at);
      const auto says = [&](const std::string& words) { return error.say.find(words) != std::string::npos; };
      if (error.at.line == 0 || startsWith(error.say, "not ")) continue;
      if (says("unknown key")) {
        const auto key = error.key.substr(error.key.rfind('.') + 1);
        const bool as_written = key.find('\\') == std::string::npos && key.find("…") == std::string::npos;
        if (!as_written) continue;
        CHECK(startsWith(there, key));
      } else if (says("; found an array")) {
        CHECK(there[0] == '[');
      } else if (says("; found a string") || says("; found \"") || says("there is no wall") || says("already")) {
        CHECK((there[0] == '"' || there[0] == '\''));
      } else if (says("; found a number, ") || says("; found true") || says("; found false")) {
        const auto word = error.say.substr(error.say.rfind(' ') + 1);
        CHECK(startsWith(there, word));
      } else {
        continue;
      }
      ++checked;
    }
  }
  CHECK(checked > 60);
}

TEST_CASE("all errors of a file come at once, in the file's order, none twice") {
  const auto result = read(load(kFolder / "bad" / "several_out_of_order.toml"), "");
  REQUIRE(result.errors.size() >= 5);
  for (std::size_t i = 1; i < result.errors.size(); ++i) {
    const auto& before = result.errors[i - 1];
    const auto& after = result.errors[i];
    CHECK(std::make_pair(before.at.line, before.at.column) <= std::make_pair(after.at.line, after.at.column));
    CHECK_FALSE(before == after);
  }
}

TEST_CASE("an error is told with the parts that are known") {
  CHECK(base::toLine({"a.toml", {3, 5}, "job.title", "is odd"}) == "a.toml:3:5: job.title: is odd");
  CHECK(base::toLine({"a.toml", {3, 0}, "job.title", "is odd"}) == "a.toml:3: job.title: is odd");
  CHECK(base::toLine({"a.toml", {}, "job", "is missing"}) == "a.toml: job: is missing");
  CHECK(base::toLine({"a.toml", {3, 5}, "", "is odd"}) == "a.toml:3:5: is odd");
  CHECK(base::toLine({"", {3, 5}, "job", "is odd"}) == "3:5: job: is odd");
  CHECK(base::toLine({"", {}, "", "is odd"}) == "is odd");
}

TEST_CASE("files that the machine refuses are told without a line") {
  const auto folder = testing::readJob(kFolder);
  REQUIRE(folder.errors.size() == 1);
  CHECK(base::toLine(folder.errors[0]) == kFolder.string() + ": is a folder, not a file");

  const auto missing = testing::readJob(kFolder / "nowhere.toml");
  REQUIRE(missing.errors.size() == 1);
  CHECK(base::toLine(missing.errors[0]) == (kFolder / "nowhere.toml").string() + ": there is no such file");
  CHECK(missing.errors[0].at == base::Place{});
}

TEST_CASE("what is no plain file, or too large a one, is refused before it is read") {
  const sillwright::tests::TemporaryFolder folder;
  const auto said = [](const std::filesystem::path& path) {
    const auto result = testing::readJob(path);
    REQUIRE(result.errors.size() == 1);
    return result.errors[0].say;
  };
  CHECK(said("/dev/zero") == "is not a plain file but a pipe or a device");
  REQUIRE(::mkfifo((folder.path / "pipe").c_str(), 0600) == 0);
  CHECK(said(folder.path / "pipe") == "is not a plain file but a pipe or a device");
  std::filesystem::create_symlink("loop", folder.path / "loop");
  CHECK(said(folder.path / "loop") == "can't be read: its links lead in a circle");
  std::ofstream(folder.path / "large").close();
  std::filesystem::resize_file(folder.path / "large", base::kLargestFile + 1);  // a hole, which takes no room
  CHECK(said(folder.path / "large") == "is larger than 256 MiB, the most that is read");
}

}  // namespace sillwright::job::test
