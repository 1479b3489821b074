// Any job that the reader allows, written as TOML by the test's own writer, reads back as the same job.
#include "job/read.h"
#include "job_maker.h"
#include "support.h"
#include "support/catch.h"
#include "write_toml.h"

namespace sillwright::job::test {
TEST_CASE("a job written as TOML reads back as it was") {
  std::size_t openings = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    Chance chance(seed);
    const Job made = JobMaker(chance).job();
    const auto text = writeToml(made, chance);
    const auto result = read(text, "made.toml");
    INFO("seed " << seed << "\n" << text << allLines(result.errors));
    REQUIRE(result.ok());
    CHECK(withoutPlaces(*result.value) == made);
    openings += made.openings.size();
  }
  CHECK(openings > 400);
}

TEST_CASE("each place in a job is that of its text") {
  for (std::uint64_t seed = 1; seed <= 50; ++seed) {
    Chance chance(seed);
    const auto text = writeToml(JobMaker(chance).job(), chance);
    const auto result = read(text, "made.toml");
    REQUIRE(result.ok());
    std::vector<std::uint32_t> walls, openings;  // lines of the headers, found by hand
    std::uint32_t line = 1;
    for (std::size_t at = 0; at < text.size(); at = text.find('\n', at) + 1, ++line) {
      if (text.compare(at, 8, "[[wall]]") == 0) walls.push_back(line);
      if (text.compare(at, 11, "[[opening]]") == 0) openings.push_back(line);
    }
    REQUIRE(result.value->walls.size() == walls.size());
    REQUIRE(result.value->openings.size() == openings.size());
    for (std::size_t i = 0; i < walls.size(); ++i) CHECK(result.value->walls[i].place == base::Place{walls[i], 1});
    for (std::size_t i = 0; i < openings.size(); ++i)
      CHECK(result.value->openings[i].place == base::Place{openings[i], 1});
  }
}

}  // namespace sillwright::job::test
