// A file that is read in pieces is read as the whole file is; where pieces can't tell, it is left to be read whole.
#include <algorithm>
#include <random>

#include "job/read.h"
#include "job_maker.h"
#include "support.h"
#include "support/catch.h"
#include "write_toml.h"

namespace sillwright::job::test {
namespace {

std::string openings(std::size_t first, std::size_t count) {
  std::string text;
  for (std::size_t i = first; i < first + count; ++i) {
    text += replaced(kOpening, "N1", "N" + std::to_string(i)) + "mesh = \"window.obj\"\n";
  }
  return text;
}

}  // namespace

TEST_CASE("a job read in pieces is the same job, with the same places") {
  std::size_t by_pieces = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Chance chance(seed);
    const auto text = writeToml(JobMaker(chance).job(), chance);
    const auto whole = read(text, "made.toml");
    REQUIRE(whole.ok());
    for (const std::size_t bytes : {std::size_t{1}, std::size_t{1000}}) {
      const auto pieces = readPieces(text, "made.toml", bytes, {2});
      if (!pieces) continue;  // an unusual order of tables
      ++by_pieces;
      INFO("seed " << seed << "\n" << text);
      CHECK(*pieces == *whole.value);
    }
  }
  CHECK(by_pieces > 100);
}

TEST_CASE("a file changed at random reads in pieces as it reads whole") {
  std::mt19937_64 random(20261126);
  const std::string original = kMinimal + openings(0, 4) + "[stock]\npackers = [2, 5]\nscrews = [\"8g x 75\"]\n";
  const std::vector<std::string> bits{
      "\n", "[[opening]]\n",   "\n[stock]\n",   "\"\"\"",       "'''", "[", "]",  "{",  "}",
      "#",  "opening.x = 1\n", "\n[opening]\n", "\n[[wall]]\n", "=",   ".", "\"", "N1", "1"};
  std::size_t good = 0;
  for (int i = 0; i < 30'000; ++i) {
    std::string text = original;
    for (auto changes = 1 + random() % 3; changes > 0; --changes) {
      auto at = static_cast<std::size_t>(random() % text.size());
      if (random() % 2 == 0) at = text.find('\n', at) + 1;  // where a line begins, or the text
      const auto length = static_cast<std::size_t>(random() % 40);
      switch (random() % 3) {
        case 0:
          text.insert(at, bits[random() % bits.size()]);
          break;
        case 1:
          text.erase(at, length);
          break;
        default:
          text.insert(text.rfind('\n', random() % text.size()) + 1, text.substr(at, length));
      }
    }
    const auto pieces = readPieces(text, "text.toml", 1, {1});
    if (!pieces) continue;
    ++good;
    const auto whole = read(text, "text.toml");
    INFO(text << "\n" << allLines(whole.errors));
    REQUIRE(whole.ok());
    REQUIRE(*pieces == *whole.value);
  }
  CHECK(good > 500);
}

TEST_CASE("a file whose pieces can't be read by themselves is read whole") {
  const auto alone = [](const std::string& text) { return readPieces(text, "text.toml", 1, {1}).has_value(); };
  const std::string usual = kMinimal + openings(0, 3);
  CHECK(alone(usual));
  CHECK(alone(usual + "[stock]\npackers = [2]\n"));
  CHECK(alone(kMinimal));
  CHECK_FALSE(alone(usual + "[stock]\npackers = [2]\n" + openings(3, 1) + "[stock]\npackers = [3]\n"));
  CHECK_FALSE(alone(usual + "[[wall]]\nname = \"late\"\nlength = 7200\ntop = 2440\n"));
  CHECK_FALSE(alone(usual + openings(1, 1)));                                 // a name twice
  CHECK_FALSE(alone(replaced(usual, "\"north\"\nleft", "\"south\"\nleft")));  // no such wall
  CHECK_FALSE(alone(kMinimal + "note = \"\"\"" + openings(0, 1) + "\"\"\"\n"));
  CHECK_FALSE(alone("opening = []\n" + usual));
}

TEST_CASE("mistakes in a large file are told as in a small one, at their lines") {
  const std::size_t enough = kWorthPieces / kOpening.size() + 10;
  const std::string good = kMinimal + openings(0, enough);
  const auto read_well = read(good, "text.toml");
  REQUIRE(read_well.ok());
  CHECK(read_well.value->openings.size() == enough);
  const auto result = read(good + openings(7, 1) + replaced(openings(enough, 1), "= 900", "= \"low\""), "text.toml");
  INFO(allLines(result.errors));
  REQUIRE(result.errors.size() == 2);
  const auto lines = static_cast<std::uint32_t>(std::count(good.begin(), good.end(), '\n'));
  CHECK(result.errors[0].at.line == lines + 2);
  CHECK(result.errors[0].say.find("N7") != std::string::npos);
  CHECK(result.errors[1].key.find("sill") != std::string::npos);
}

}  // namespace sillwright::job::test
