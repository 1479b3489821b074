// Practices that are wrong, and the very words that answer them. tests/practice/bad holds pairs: NAME.toml, a fragment
// that is completed from least.toml (support.h), and NAME.errors, one line an error. A line that ends in `*` stands for
// any end: what follows is the TOML parser's own sentence.
#include "practice/read.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::practice::test {

namespace {

bool agrees(const std::string& line, const std::string& expected) {
  if (expected.empty() || expected.back() != '*') {
    return line == expected;
  }
  return line.compare(0, expected.size() - 1, expected, 0, expected.size() - 1) == 0;
}

}  // namespace

TEST_CASE("each bad practice is answered in the expected words") {
  const auto files = filesIn(kFolder / "bad", ".toml");
  CHECK(files.size() >= 40);
  CHECK(filesIn(kFolder / "bad", ".errors").size() == files.size());
  for (const auto& path : files) {
    const auto result = read(completed(fileText(path)), path.filename().string());
    auto expected_path = path;
    const auto expected = linesOf(fileText(expected_path.replace_extension(".errors")));
    INFO(path.filename().string() << " answers\n" << allLines(result.errors));
    CHECK_FALSE(result.ok());
    CHECK_FALSE(expected.empty());
    REQUIRE(result.errors.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
      INFO("expected " << expected[i]);
      CHECK(agrees(toLine(result.errors[i]), expected[i]));
    }
  }
}

TEST_CASE("a bad practice keeps its fragment's lines when it is completed") {
  for (const auto& path : filesIn(kFolder / "bad", ".toml")) {
    const std::string fragment = fileText(path);
    const auto first = linesOf(fragment);
    const auto whole = linesOf(completed(fragment));
    INFO(path.filename().string());
    REQUIRE(whole.size() >= first.size());
    CHECK(whole.front() == first.front());
  }
}

TEST_CASE("no beginning of a practice reads, and none is answered without a place or a word") {
  const std::string whole = completed(kTopKeys);
  REQUIRE(read(whole, "whole").ok());
  std::size_t tried = 0;
  for (std::size_t size = 0; size + 1 < whole.size(); size += 37) {
    const auto result = read(whole.substr(0, size), "cut");
    INFO("cut at " << size);
    CHECK_FALSE(result.ok());
    REQUIRE_FALSE(result.errors.empty());
    for (const base::Error& error : result.errors) {
      CHECK_FALSE(error.say.empty());
      CHECK((error.at.line > 0 || !error.key.empty()));
    }
    ++tried;
  }
  CHECK(tried > 100);
}

TEST_CASE("a practice whose every value is wrong is answered for each, not only for the first") {
  std::string text = completed(kTopKeys);
  std::size_t spoilt = 0;
  const std::string unit = "unit = \"mm\"";
  for (std::size_t at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1)) {
    text.replace(at, unit.size(), "unit = \"ft\"");
    ++spoilt;
  }
  const auto result = read(text, "spoilt");
  CHECK(spoilt > 30);
  CHECK(result.errors.size() == spoilt);
}

}  // namespace sillwright::practice::test
