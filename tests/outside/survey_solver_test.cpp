// The survey against a general least-squares routine, on random openings.

#include <bit>
#include <cmath>
#include <vector>

#include "plan/survey/survey.h"
#include "support/catch.h"
#include "support/general_survey.h"
#include "support/survey_rig.h"

using namespace sillwright;
using namespace sillwright::plan;
using Catch::Matchers::WithinAbs;

namespace {

std::vector<rig::GeneralReading> listed(const rig::Nine& value, std::uint32_t which) {
  std::vector<rig::GeneralReading> readings;
  for (std::size_t k = 0; k < kReadings; ++k) {
    if ((which >> k & 1U) != 0) readings.push_back({k, value[k], rig::kTape[k]});
  }
  return readings;
}

void checkSame(const AsBuilt& built, const Eigen::VectorXd& general) {
  for (std::size_t c = 1; c < 4; ++c) {
    const auto at = static_cast<Eigen::Index>(2 * (c - 1));
    CHECK_THAT(built.shape.corner[c].x, WithinAbs(general(at), 1e-6));
    CHECK_THAT(built.shape.corner[c].z, WithinAbs(general(at + 1), 1e-6));
  }
}

}  // namespace

TEST_CASE(
    "nine readings of a random opening: a general routine finds the same corners to a millionth of a millimetre") {
  rig::Chance chance(41);
  for (int trial = 0; trial < 300; ++trial) {
    const double width = chance.between(400, 4800);
    const double height = chance.between(400, 2700);
    auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, width, height, 8)));
    if (trial % 3 == 0) value[static_cast<std::size_t>(trial / 3) % kReadings] += 25;  // mistakes too
    CAPTURE(trial, width, height);
    const AsBuilt built = survey({width, height}, rig::measured(value), rig::tapeErrors());
    REQUIRE(built.converged);
    const auto general = rig::generalSurveyPolished(listed(value, rig::kAllNine), width, height);
    checkSame(built, general);
    // The routine's own sum of squares is the chi-square.
    Eigen::VectorXd misfit(9);
    rig::GeneralMisfit{listed(value, rig::kAllNine)}(general.array() + rig::GeneralMisfit::kAway, misfit);
    CHECK_THAT(built.chi_square, WithinAbs(misfit.squaredNorm(), 1e-6));
  }
}

TEST_CASE("every subset that leaves nothing open: a general routine finds the same corners") {
  rig::Chance chance(42);
  int subsets = 0;
  for (std::uint32_t which = 0; which < 512; ++which) {
    if (std::popcount(which) < 6) continue;
    const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, 1530, 1060)));
    const AsBuilt built = survey({1530, 1060}, rig::measured(value, which), rig::tapeErrors());
    if (built.from != ShapeFrom::Measured) continue;
    ++subsets;
    CAPTURE(which);
    checkSame(built, rig::generalSurveyPolished(listed(value, which), 1530, 1060));
  }
  CHECK(subsets > 80);
}

TEST_CASE("distances alone with a level sill: a general routine finds the same corners") {
  rig::Chance chance(43);
  for (int trial = 0; trial < 100; ++trial) {
    const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, 1530, 1060)));
    auto readings = listed(value, 0x3f);
    readings.push_back({static_cast<std::size_t>(Reading::OutOfLevel), 0, 1});
    CAPTURE(trial);
    checkSame(survey({1530, 1060}, rig::measured(value, 0x3f), rig::tapeErrors()),
              rig::generalSurveyPolished(readings, 1530, 1060));
  }
}
