// What `check` prints for people.

#include <algorithm>
#include <sstream>
#include <string>

#include "cli/text.h"
#include "support/catch.h"
#include "support/demo_jobs.h"

namespace {

using namespace sillwright;

int charactersIn(const std::string& text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string table(const testing::DemoJob& demo, int columns, bool notes) {
  return cli::checkWords(demo.job, *demo.practice, columns, notes).text;
}

}  // namespace

TEST_CASE("no line is wider than the terminal, down to a phone's") {
  for (const auto& demo : testing::demoJobs()) {
    for (const int columns : {32, 40, 48, 72, 100}) {
      for (const bool notes : {false, true}) {
        std::istringstream lines(table(demo, columns, notes));
        std::string line;
        while (std::getline(lines, line)) {
          CAPTURE(columns, line);
          // A single word longer than the line is not broken: a file name, a long compound.
          const bool one_word = line.find(' ', line.find_first_not_of(' ')) == std::string::npos;
          CHECK((charactersIn(line) <= columns || one_word));
        }
      }
    }
  }
}

TEST_CASE("each opening is told with its verdict in words, and a stop with what to do") {
  const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/not-yet.toml");
  const std::string text = table(demo, 60, false);
  for (const auto& opening : demo.job.openings) CHECK(text.find("\n" + opening.name) != std::string::npos);
  CHECK(text.find("■ stop") != std::string::npos);
  CHECK(text.find("→ ") != std::string::npos);
  CHECK(text.find("indicative") != std::string::npos);
}

TEST_CASE("wrapping breaks at spaces and counts characters, not bytes") {
  CHECK(cli::wrapped("one two three", 7, 0) == "one two\nthree\n");
  CHECK(cli::wrapped("één twéé", 8, 0) == "één twéé\n");
  CHECK(cli::wrapped("one two", 5, 2) == "  one\n  two\n");
  CHECK(cli::wrapped("", 10, 2) == "  \n");
}
