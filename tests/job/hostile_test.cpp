// Texts that nobody would write on purpose: the reader answers each of them, and in time.
#include <random>

#include "job/mistakes.h"
#include "job/read.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::job::test {
namespace {

/// A result has either a value or errors, and each error fits on a line and names its file.
void checkAnswer(const base::Result<Job>& result) {
  REQUIRE(result.ok() == result.errors.empty());
  for (const auto& error : result.errors) {
    REQUIRE_FALSE(error.say.empty());
    REQUIRE(base::toLine(error).find('\n') == std::string::npos);
    REQUIRE(error.file == "text.toml");
  }
}

std::string manyWalls(std::size_t count) {
  std::string text = "[job]\ntitle = \"t\"\npractice = \"au\"\n";
  for (std::size_t i = 0; i < count; ++i) {
    text += "[[wall]]\nname = \"wall " + std::to_string(i) + "\"\nlength = 7200\ntop = 2440\n";
  }
  return text;
}

}  // namespace

TEST_CASE("every shorter beginning of the full example is answered") {
  const auto text = load(kFolder / "good" / "full.toml");
  REQUIRE(text.size() > 3000);
  std::size_t refused = 0;
  for (std::size_t size = 0; size <= text.size(); ++size) {
    const std::vector<char> exact(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(size));
    const auto result = read({exact.data(), exact.size()}, "text.toml");
    checkAnswer(result);
    if (!result.ok()) ++refused;
  }
  CHECK(refused > 500);  // up to the end of the first wall's top, nothing can be a job
}

TEST_CASE("every example changed at random is answered") {
  std::mt19937_64 random(20260314);
  const std::string pieces = "[]{}=.,\"'#\n\\ 0e_-:tnai\xC3\xFF\x01";
  for (const auto& path : filesIn(kFolder / "good", ".toml")) {
    const auto original = load(path);
    for (int i = 0; i < 400; ++i) {
      auto text = original;
      for (auto changes = 1 + random() % 4; changes > 0; --changes) {
        const auto at = static_cast<std::size_t>(random() % text.size());
        const char piece = pieces[random() % pieces.size()];
        switch (random() % 4) {
          case 0:
            text[at] = piece;
            break;
          case 1:
            text.insert(at, 1, piece);
            break;
          case 2:
            text.erase(at, 1 + random() % 20);
            break;
          default:
            text.insert(static_cast<std::size_t>(random() % text.size()), text.substr(at, random() % 40));
            break;
        }
      }
      INFO(text);
      checkAnswer(read(text, "text.toml"));
    }
  }
}

TEST_CASE("nothing is too deep for the stack") {
  const std::size_t depth = 1'000'000;
  std::string dotted;
  for (std::size_t i = 0; i < depth; ++i) dotted += "a.";
  const auto refused = [](const std::string& text) {
    const auto result = read(text, "text.toml");
    checkAnswer(result);
    return !result.ok();
  };
  CHECK(refused(dotted + "a = 1\n"));
  CHECK(refused("[" + dotted + "a]\n"));
  CHECK(refused("[[" + dotted + "a]]\n"));
  CHECK(refused("a = { " + dotted + "a = 1 }\n"));
  CHECK(refused("a = \"\"\"\"x\"\"\"\"\"\n" + dotted + "a = 1\n"));  // after strings that end in more quotes
  CHECK(refused("a = '''''x'''''\n" + dotted + "a = 1\n"));
  CHECK(refused("a = [\"\\\"\", '\\', \"\", ''] # \"\n" + dotted + "a = 1\n"));
  CHECK(refused("a = " + std::string(depth, '[') + "\n"));
  CHECK(refused("a = " + std::string(depth, '[') + std::string(depth, ']') + "\n"));
  std::string tables = "a = ";
  for (std::size_t i = 0; i < depth; ++i) tables += "{ a = ";
  CHECK(refused(tables));
  std::string deepest = "z = ";  // as deep as is let through: 250 tables of 16-part keys
  for (int i = 0; i < 250; ++i) deepest += "{ a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a = ";
  CHECK(refused(deepest + "1" + std::string(250, '}') + "\n"));
}

TEST_CASE("dots in strings, comments and numbers are not dots of keys") {
  const std::string dots(100, '.');
  CHECK(read(kMinimal + "timber = \"" + std::string(50, '.') + "\" # " + dots + "\n", "").ok());
  CHECK(read("# " + dots + "\n" + kMinimal, "").ok());
  CHECK(read(replaced(kMinimal, "\"t\"", "'''" + dots + "'''"), "").ok());
  CHECK(read(replaced(kMinimal, "\"t\"", "\"\"\"\"" + dots + "\\\"\"\"\"\"\""), "").ok());
  CHECK(
      read(kMinimal + "[stock]\npackers = [1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5,1.5]\n",
           "")
          .ok());
}

TEST_CASE("a job has at most so many walls and openings") {
  CHECK(read(manyWalls(kMostWalls), "").ok());
  const auto walls = read(manyWalls(kMostWalls + 1), "text.toml");
  CHECK(allLines(walls.errors) == "text.toml:40004:1: wall: must be at most 10000; found 10001\n");

  std::string openings = kMinimal;
  for (std::size_t i = 0; i < kMostOpenings + 2; ++i) openings += "[[opening]]\n";
  const auto result = read(openings, "text.toml");
  // Each of the 100,000 empty openings lacks its 7 required keys: what is past the most errors is only counted.
  REQUIRE(result.errors.size() == Mistakes::kMostErrors + 1);
  CHECK(result.errors.back().say == "and 690001 more errors");
}

TEST_CASE("wrong wall names in a big job don't take longer than the job is long") {
  std::string text = manyWalls(10'000);
  for (int i = 0; i < 10'000; ++i) {
    text += replaced(replaced(kOpening, "N1", "N" + std::to_string(i)), "north", "wal " + std::to_string(i));
  }
  const auto result = read(text, "text.toml");
  REQUIRE(result.errors.size() == 10'000);
  CHECK(result.errors.front().say == "there is no wall \"wal 0\"; did you mean \"wall 0\"?");
  CHECK(result.errors.back().say == "there is no wall \"wal 9999\"");
}

TEST_CASE("a name in a message is cut to a line's length") {
  const auto result = read(kMinimal + replaced(kOpening, "\"north\"", "\"" + std::string(90, 'w') + "\""), "");
  REQUIRE(result.errors.size() == 1);
  CHECK(result.errors[0].say == "there is no wall \"" + std::string(60, 'w') + "…\"; the walls are \"north\"");
}

}  // namespace sillwright::job::test
