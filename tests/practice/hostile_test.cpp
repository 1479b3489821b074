// Practices that are cut short: the reader answers each beginning, and reads nothing past its end.
#include "practice/read.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::practice::test {
namespace {

/// Reads every `step`-th beginning of a text and the text itself; how many of them were refused.
std::size_t refusedOf(const std::string& text, std::size_t step) {
  std::size_t refused = 0;
  for (std::size_t size = 0; size <= text.size(); size += step) {
    // In memory of exactly its size, so that a sanitizer sees a read past its end.
    const std::vector<char> exact(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(size));
    const auto result = read({exact.data(), exact.size()}, "text.toml");
    REQUIRE(result.ok() == result.errors.empty());
    for (const auto& error : result.errors) {
      REQUIRE_FALSE(error.say.empty());
      REQUIRE(error.file == "text.toml");
      REQUIRE(toLine(error).find('\n') == std::string::npos);
    }
    if (!result.ok()) ++refused;
  }
  return refused;
}

}  // namespace

TEST_CASE("every shorter beginning of the smallest practice is answered") {
  const auto text = completed(kTopKeys);
  REQUIRE(text.size() > 5000);
  const auto refused = refusedOf(text, 1);
  CHECK(refused > text.size() / 2);  // what it must have stands up to its end, so nearly all
  CHECK(refused < text.size() + 1);  // but not the whole text
}

TEST_CASE("beginnings of the practices that come with the program are answered") {
  // Each byte of all four takes a minute and a half; a step that no line's length divides tries each part of a line.
  for (const auto& path : filesIn(kAssets / "practice", ".toml")) {
    const auto text = fileText(path);
    INFO(path.filename().string());
    CHECK(refusedOf(text, 97) > text.size() / 97 / 2);
  }
}

}  // namespace sillwright::practice::test
