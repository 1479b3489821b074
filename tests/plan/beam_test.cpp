#include "plan/hold/beam.h"

#include "support/catch.h"
#include "support/simple_job.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using testing::shipped;

namespace {

job::Wall carrying(double width, double kpa, std::optional<std::string> grade = std::nullopt) {
  job::Wall wall;
  wall.supports = job::Supports{width, kpa};
  wall.timber = std::move(grade);
  return wall;
}

const job::Lintel kLintel{190, 45, 2};

}  // namespace

TEST_CASE("more load, a longer span or less timber is never better") {
  const auto& practice = shipped("us");
  const auto base = plan::checkLintel(kLintel, 1800, 38, carrying(2400, 1), practice);
  REQUIRE((base.bending && base.shear && base.deflection && base.bearing));
  const auto worse = [&](const plan::LintelCheck& check) {
    CHECK(*check.bending > *base.bending);
    CHECK(*check.shear > *base.shear);
    CHECK(*check.deflection > *base.deflection);
    CHECK(*check.bearing > *base.bearing);
  };
  worse(plan::checkLintel(kLintel, 1800, 38, carrying(2400, 1.5), practice));
  worse(plan::checkLintel(kLintel, 2400, 38, carrying(2400, 1), practice));
  worse(plan::checkLintel({190, 45, 1}, 1800, 38, carrying(2400, 1), practice));
  CHECK(*plan::checkLintel({140, 45, 2}, 1800, 38, carrying(2400, 1), practice).bending > *base.bending);
  CHECK_THAT(*plan::checkLintel(kLintel, 1800, 38, carrying(4800, 1), practice).bending / *base.bending,
             WithinAbs(2, 1e-12));
}

TEST_CASE("what isn't known isn't judged, and is named") {
  const auto& au = shipped("au");
  const auto no_load = plan::checkLintel(kLintel, 1800, 45, job::Wall{}, au);
  CHECK_FALSE(no_load.bending.has_value());
  CHECK(no_load.missing.find("supports") != std::string::npos);
  const auto no_grade = plan::checkLintel(kLintel, 1800, 45, carrying(2400, 1, "oak"), au);
  CHECK_FALSE(no_grade.bending.has_value());
  CHECK(no_grade.missing.find("grade") != std::string::npos);
  const auto too_deep = plan::checkLintel({400, 45, 2}, 1800, 45, carrying(2400, 1), au);
  CHECK_FALSE(too_deep.bending.has_value());
  CHECK(too_deep.shear.has_value());
  // New Zealand's practice has no factors for the simple check.
  const auto nz = plan::checkLintel(kLintel, 1800, 45, carrying(2400, 1), shipped("nz"));
  CHECK_FALSE(nz.bending.has_value());
  CHECK_FALSE(nz.missing.empty());
  // Britain's has no limits of deflection.
  const auto uk = plan::checkLintel(kLintel, 1800, 45, carrying(2400, 1), shipped("uk"));
  CHECK(uk.bending.has_value());
  CHECK_FALSE(uk.deflection.has_value());
  // Housed between jamb studs there is nothing under its ends.
  const auto housed = plan::checkLintel(kLintel, 1800, 0, carrying(2400, 1), shipped("us"));
  CHECK_FALSE(housed.bearing.has_value());
}

TEST_CASE("the wall's grade is taken before the practice's usual one") {
  const auto& au = shipped("au");
  CHECK(plan::gradeOf(carrying(1, 1), au)->name == "MGP10");
  CHECK(plan::gradeOf(carrying(1, 1, "MGP15"), au)->name == "MGP15");
  const auto usual = plan::checkLintel(kLintel, 1800, 45, carrying(2400, 1), au);
  const auto strong = plan::checkLintel(kLintel, 1800, 45, carrying(2400, 1, "MGP15"), au);
  CHECK(*strong.bending < *usual.bending);
  CHECK(*strong.deflection < *usual.deflection);
}

TEST_CASE("bearing at the ends is the reaction over the area on the studs") {
  // 10 N/mm over 2000: 10 000 N an end; on 38 of two plies of 38, C_D 1.15: 2.930 N/mm² · 1.15.
  const auto check = plan::checkLintel({184, 38, 2}, 2000 - 38, 38, carrying(10000, 1), shipped("us"));
  CHECK_THAT(*check.bearing, WithinRel(10000 / (76 * 38 * 2.930 * 1.15), 1e-12));
}
