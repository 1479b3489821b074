// Readings misread or written down wrong by a usual slip: middles are checked by the straightness of edges, the wrong
// one is named where the others tell it, and the slip is asked about.
#include <cmath>

#include "plan/survey/survey.h"
#include "plan/survey/survey_adjust.h"
#include "support/catch.h"
#include "support/survey_rig.h"

using namespace sillwright;
using namespace sillwright::plan;
using Catch::Matchers::WithinAbs;

namespace {

AsBuilt read(const job::Measured& measured, double width, double height) {
  return survey({width, height}, measured, rig::tapeErrors());
}

/// Nine readings of a rectangle, with both middles.
job::Measured allOf(double width, double height) {
  auto measured = rig::measured(rig::exactReadings(rig::rectangle(width, height)));
  measured.widths[1] = width;
  measured.heights[1] = height;
  return measured;
}

}  // namespace

TEST_CASE("a middle of 805 between two ends of 850 is suspect, not a bow of 22 mm") {
  job::Measured measured = allOf(850, 1200);
  measured.widths[1] = 805;
  const AsBuilt built = read(measured, 850, 1200);
  CHECK(built.trust == Trust::Suspect);
  CHECK(built.suspects == rig::bit(Reading::MiddleWidth));
  CHECK(built.settle_by == Reading::MiddleWidth);
  CHECK_THAT(built.disagreement, WithinAbs(45, 0.01));

  job::Measured widths_alone;
  widths_alone.widths = {850, 805, 850};
  const AsBuilt alone = read(widths_alone, 850, 1200);
  CHECK(alone.trust == Trust::Suspect);
  CHECK(alone.suspects == rig::bit(Reading::MiddleWidth));
}

TEST_CASE("a bow within what studs are bowed by is a bow") {
  job::Measured measured = allOf(850, 1200);
  measured.widths[1] = 842;
  const AsBuilt built = read(measured, 850, 1200);
  CHECK(built.trust == Trust::Sound);
  CHECK_THAT(built.shape.bow.left, WithinAbs(4, 0.01));
  CHECK_FALSE(built.slip);
}

TEST_CASE("a transposed middle height is named and asked about") {
  job::Measured measured = allOf(1530, 1260);
  measured.heights[1] = 1620;
  const AsBuilt built = read(measured, 1530, 1260);
  REQUIRE(built.trust == Trust::Suspect);
  CHECK(built.suspects == rig::bit(Reading::MiddleHeight));
  REQUIRE(built.slip);
  CHECK(built.slip->read == 1620);
  CHECK(built.slip->meant == 1260);
}

TEST_CASE("an end that is out is named, not the middle that it makes look bent") {
  job::Measured measured;
  measured.widths = {1592, 1862, 1862};
  const AsBuilt built = read(measured, 1862, 1200);
  CHECK(built.trust == Trust::Suspect);
  CHECK(built.suspects == rig::bit(Reading::WidthBottom));
  CHECK_FALSE(built.slip);
}

TEST_CASE("1826: did you read 1862?") {
  auto value = rig::exactReadings(rig::rectangle(1862, 1200));
  value[0] = 1826;
  const AsBuilt built = read(rig::measured(value), 1862, 1200);
  REQUIRE(built.trust == Trust::Suspect);
  CHECK(built.suspects == rig::bit(Reading::WidthBottom));
  REQUIRE(built.slip);
  CHECK(built.slip->read == 1826);
  CHECK(built.slip->meant == 1862);
}

TEST_CASE("of a height and the diagonal that sees it, the one with a usual slip is to be read again first") {
  auto value = rig::exactReadings(rig::rectangle(1530, 1296));
  value[3] = 1269;
  const AsBuilt built = read(rig::measured(value), 1530, 1296);
  CHECK(built.trust == Trust::Disputed);
  CHECK(built.suspects == (rig::bit(Reading::HeightRight) | rig::bit(Reading::DiagonalFromBottomLeft)));
  REQUIRE(built.slip);
  CHECK(built.slip->reading == Reading::HeightRight);
  CHECK(built.slip->meant == 1296);
  CHECK(built.settle_by == Reading::HeightRight);
}

TEST_CASE("two mistakes that no single one explains are looked for by twos") {
  auto value = rig::exactReadings(rig::rectangle(1530, 1060));
  value[1] += 25;
  value[6] -= 22;
  const AsBuilt built = read(rig::measured(value), 1530, 1060);
  CHECK(built.trust == Trust::Disputed);
  CHECK((built.suspects & rig::bit(Reading::WidthTop)) != 0);
  CHECK((built.suspects & rig::bit(Reading::OutOfLevel)) != 0);
}

TEST_CASE("usual slips of a length") {
  CHECK(lengthMeant(1826, 1861, 7) == 1862);      // two digits changed places
  CHECK(lengthMeant(1862.5, 1826, 7) == 1826.5);  // what is behind the point stays
  CHECK(lengthMeant(1960, 1861, 7) == 1860);      // a hundred too much
  CHECK(lengthMeant(851, 1851, 7) == 1851);       // a metre lost
  CHECK(lengthMeant(1231, 1237, 2) == 1237);      // a 7 taken for a 1
  CHECK_FALSE(lengthMeant(1845, 1862, 3));        // no usual slip
  CHECK_FALSE(lengthMeant(1860, 1862, 7));        // nothing to explain
  CHECK_FALSE(lengthMeant(-5, 5, 7));
  CHECK_FALSE(lengthMeant(std::nan(""), 1862, 7));
}

TEST_CASE("an opening whose readings are disputed is taken as planned until they are taken again") {
  job::Measured measured = allOf(850, 1200);
  measured.widths[1] = 805;
  const AsBuilt built = withTrustedShape(read(measured, 850, 1200), {850, 1200}, rig::tapeErrors());
  CHECK(built.shape == plannedShape({850, 1200}));
  CHECK(built.covariance[0][0] == Approx(25));
  CHECK(built.trust == Trust::Suspect);
  CHECK(built.readings[0].read);
}
