// What uses each figure of a practice, as the program finds out by changing it.
#include <algorithm>

#include "cli/uses.h"
#include "support/catch.h"
#include "support/simple_job.h"

using namespace sillwright;

namespace {

/// What a key begins with whose figure may be unused, and why.
constexpr std::array<std::string_view, 4> kMayBeUnused{
    "stock.about",                // the source of a list of sizes, its value only counts them
    "fixing_design.divisor[to ",  // of thicker screws than the stock has, for a firm's own
    "fixing.from_corner_least",   // binds where packers stand nearer to the corner than it
    "timber.grade[C"              // the British grades' stiffness: for a firm that names a deflection
};

bool mayBeUnused(const std::string& key) {
  return std::any_of(kMayBeUnused.begin(), kMayBeUnused.end(), [&](auto begin) { return key.starts_with(begin); });
}

std::string unusedOf(const char* name) {
  practice::Practice practice = testing::shipped(name);
  const auto uses = cli::usesOf(practice);
  const auto figures = practice::figuresOf(practice);
  REQUIRE(uses.size() == figures.size());
  std::string unused;
  for (std::size_t i = 0; i < uses.size(); ++i) {
    if (uses[i].unused() && !mayBeUnused(figures[i].key)) unused += figures[i].key + "\n";
  }
  return unused;
}

cli::Use useOf(const practice::Practice& practice, const std::string& key) {
  practice::Practice copy = practice;
  const auto figures = practice::figuresOf(copy);
  const auto found = std::find_if(figures.begin(), figures.end(), [&](const auto& each) { return each.key == key; });
  REQUIRE(found != figures.end());
  return cli::usesOf(practice)[static_cast<std::size_t>(found - figures.begin())];
}

}  // namespace

TEST_CASE("every figure of the shipped practices is used") {
  for (const char* name : {"au", "nz", "uk", "us"}) {
    INFO(name);
    CHECK(unusedOf(name) == "");
  }
}

TEST_CASE("a figure is told with the findings that it changes, or where else it counts") {
  const auto& uk = testing::shipped("uk");
  CHECK(useOf(uk, "safety.glass.low_below").findings == std::vector<std::string>{"safety glass"});
  CHECK(useOf(uk, "weather.membrane.end_lap").elsewhere == "the order of work");
}
