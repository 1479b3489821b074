#include "plan/hold/mass.h"

#include "plan/panes.h"
#include "support/catch.h"
#include "support/simple_job.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using testing::shipped;
using testing::simpleJob;

namespace {

plan::OpeningPlan planned(const job::Job& job, const char* practice = "au") {
  return testing::planAlone(job, 0, shipped(practice));
}

constexpr job::UnitKind kKinds[] = {job::UnitKind::SlidingWindow,  job::UnitKind::AwningWindow,
                                    job::UnitKind::CasementWindow, job::UnitKind::FixedWindow,
                                    job::UnitKind::SlidingDoor,    job::UnitKind::HingedDoor};

}  // namespace

TEST_CASE("a fixed window weighs what its parts do, reckoned by hand") {
  const auto mass = planned(simpleJob(job::UnitKind::FixedWindow, 1236, 1036, "au")).mass;
  // Frame outside 1200 × 1000, inside 1110 × 910; glass reaches 10 into its rebates.
  CHECK_THAT(mass.glass_kg, WithinAbs(1.130 * 0.930 * 5 * 2.5, 1e-9));
  // Ring along its middle 2 · (1155 + 955), section 100 × 45 with 12 % of metal; fin 3 thick from the frame to 30 past.
  const double frame = 2 * (1.155 + 0.955) * (100 * 45 * 0.12) * 1e-6 * 2700;
  const double fin = (1.296 * 1.096 - 1.2 * 1.0) * 0.003 * 2700;
  CHECK_THAT(mass.frame_kg, WithinAbs(frame + fin, 1e-9));
  CHECK_THAT(mass.reveal_kg, WithinAbs((1.236 * 1.036 - 1.2 * 1.0) * 0.1 * 550, 1e-9));
  CHECK_THAT(mass.total_kg, WithinAbs(mass.glass_kg + mass.frame_kg + mass.reveal_kg, 1e-9));
  CHECK_FALSE(mass.stated);
}

TEST_CASE("every kind weighs something, and more with more glass") {
  for (const auto kind : kKinds) {
    job::Job job = simpleJob(kind, 1510, 2000, "au");
    const double one = planned(job).mass.total_kg;
    CHECK(one > 10);
    job.openings[0].unit.glass->panes = 2;
    CHECK(planned(job).mass.total_kg > one);
  }
}

TEST_CASE("a light of thicker glass weighs by it") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1236, 1036, "au");
  job.openings[0].unit.lights = {job::Light(job::UnitKind::FixedWindow), job::Light(job::UnitKind::FixedWindow)};
  const auto parts = plan::partsOf(planned(job).unit);
  const double before = planned(job).mass.glass_kg;
  job.openings[0].unit.glass_of = {{1, 2, 10.0, {}, {}, {}, {}}};
  const double area = parts.pane[1].inset(-plan::kGlassBite).area() / 1e6;
  CHECK_THAT(planned(job).mass.glass_kg - before, WithinAbs(area * (10 - 5) * 2.5, 1e-9));
}

TEST_CASE("the mass that the job states is taken") {
  job::Job job = simpleJob(job::UnitKind::SlidingWindow, 1510, 1040, "au");
  const auto by_parts = planned(job).mass;
  job.openings[0].unit.mass_kg = 36;
  const auto stated = planned(job).mass;
  CHECK(stated.total_kg == 36);
  CHECK(stated.stated);
  CHECK(stated.glass_kg == by_parts.glass_kg);
}

TEST_CASE("people by the practice's lifting rule, with mechanical help above it") {
  const auto& rules = shipped("au").safety.lifting;
  const auto people = [&](double mass, double longest) { return plan::teamFor(mass, longest, rules).people; };
  CHECK(people(25, 750) == 1);
  CHECK(people(25, 751) == 2);  // too long for one
  CHECK(people(25.1, 750) == 2);
  CHECK(people(33.3, 2000) == 2);
  CHECK(people(37.5, 2000) == 3);
  CHECK_FALSE(plan::teamFor(37.5, 2000, rules).mechanical_help);
  CHECK(people(37.6, 2000) == 3);
  // The filter is no limit: a lifter is asked for from the practice's own figure.
  CHECK_FALSE(plan::teamFor(75, 2000, rules).mechanical_help);
  CHECK(plan::teamFor(75.1, 2000, rules).mechanical_help);
  practice::Lifting no_figure = rules;
  no_figure.lifter_from.reset();
  CHECK(plan::teamFor(37.6, 2000, no_figure).mechanical_help);
  const auto nothing = plan::teamFor(50, 1000, practice::Lifting{});
  CHECK_FALSE(nothing.people.has_value());
  CHECK_FALSE(nothing.mechanical_help);
}
