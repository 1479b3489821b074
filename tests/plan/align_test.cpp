#include "plan/stand/reach.h"

#include "plan/frame_walls.h"
#include "support/catch.h"

using namespace sillwright;
using plan::commonHead;
using plan::HeadRange;

TEST_CASE("one level inside every range, with the least greatest move") {
  // Preferred 2100, 2104, 2110: the middle of the outermost is 2105; furthest move 5.
  const std::vector<HeadRange> loose{{2090, 2120, 2100}, {2090, 2120, 2104}, {2090, 2120, 2110}};
  const auto middle = commonHead(loose);
  REQUIRE(middle.level.has_value());
  CHECK(*middle.level == Approx(2105));
  CHECK(middle.apart.empty());
  // The second can't go above 2103: so that is the level, the nearest that all allow.
  const std::vector<HeadRange> tight{{2090, 2120, 2100}, {2090, 2103, 2101}, {2090, 2120, 2110}};
  CHECK(*commonHead(tight).level == Approx(2103));
}

TEST_CASE("where no level suits all, the fewest that prevent it are named") {
  const std::vector<HeadRange> ranges{{2090, 2100, 2095}, {2110, 2120, 2115}, {2095, 2105, 2100}, {2092, 2101, 2096}};
  const auto common = commonHead(ranges);
  CHECK_FALSE(common.level.has_value());
  CHECK(common.apart == std::vector<std::size_t>{1});
}

TEST_CASE("a unit that doesn't fit takes no part, and is named") {
  const std::vector<HeadRange> ranges{{2090, 2100, 2095}, {0, -1, 0}, {2095, 2105, 2099}};
  const auto common = commonHead(ranges);
  REQUIRE(common.level.has_value());
  CHECK(*common.level == Approx(2097));
  CHECK(common.apart == std::vector<std::size_t>{1});
  CHECK_FALSE(commonHead(std::vector<HeadRange>{{0, -1, 0}}).level.has_value());
  CHECK_FALSE(commonHead({}).level.has_value());
}

TEST_CASE("against trying every level and every set left out") {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    INFO("seed " << seed);
    test::Dice dice(seed);
    std::vector<HeadRange> ranges;
    const int n = dice.whole(1, 6);
    for (int i = 0; i < n; ++i) {
      const double low = dice.whole(0, 40);
      const double high = low + dice.whole(0, 30);
      ranges.push_back({low, high, static_cast<double>(dice.whole(static_cast<int>(low), static_cast<int>(high)))});
    }
    // All bounds and all halves of preferred heights are on a grid of halves: no finer level need be tried.
    double least_move = 1e9;
    int most_suited = 0;
    for (double level = 0; level <= 80; level += 0.5) {
      int suited = 0;
      double move = 0;
      for (const HeadRange& range : ranges) {
        if (level >= range.low && level <= range.high) ++suited;
        move = std::max(move, std::abs(level - range.preferred));
      }
      most_suited = std::max(most_suited, suited);
      if (suited == n) least_move = std::min(least_move, move);
    }
    const auto common = commonHead(ranges);
    REQUIRE(common.level.has_value() == (most_suited == n));
    REQUIRE(static_cast<int>(common.apart.size()) == n - most_suited);
    if (!common.level) continue;
    double move = 0;
    for (const HeadRange& range : ranges) {
      REQUIRE(*common.level >= range.low);
      REQUIRE(*common.level <= range.high);
      move = std::max(move, std::abs(*common.level - range.preferred));
    }
    REQUIRE(move == Approx(least_move));
  }
}
