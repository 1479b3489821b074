#include "plan/hold/fix.h"

#include <algorithm>
#include <cmath>

#include "plan/hold/fixing_capacity.h"
#include "plan/hold/mass.h"
#include "support/catch.h"
#include "support/openings.h"
#include "support/simple_job.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using testing::shipped;
using testing::simpleJob;

namespace {

job::Job window(double width, double height, const char* practice = "au", double pressure = 1.0) {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, width, height, practice);
  job.wind = job::StatedPressure{pressure};
  return job;
}

plan::OpeningPlan planned(const job::Job& job) {
  return testing::planAlone(job, 0, shipped(job.practice));
}

std::vector<double> atsOf(const plan::Fixings& fixings, plan::Side side) {
  std::vector<double> ats;
  for (const auto& fixing : fixings.points) {
    if (fixing.side == side) ats.push_back(fixing.at);
  }
  return ats;
}

double windOnSide(const plan::Fixings& fixings, plan::Side side) {
  double sum = 0;
  for (const auto& fixing : fixings.points) sum += fixing.side == side ? fixing.wind_n : 0;
  return sum;
}

/// The opening planned again with the same packing but a changed practice.
plan::Fixings fixWith(const job::Job& job, const practice::Practice& practice) {
  return testing::planAlone(job, 0, practice).fixings;
}

}  // namespace

TEST_CASE("fixings go through the packers, and no packer is wanted where there is none") {
  for (const char* practice : {"au", "nz", "uk", "us"}) {
    for (const double height : {400.0, 600.0, 1040.0, 1210.0, 1500.0, 2095.0}) {
      const auto plan = planned(window(1500, height, practice));
      REQUIRE(plan.fixings.points.size() >= 4);
      for (const auto& fixing : plan.fixings.points) {
        CAPTURE(practice, height, fixing.at);
        const auto packed =
            std::find_if(plan.packing.points.begin(), plan.packing.points.end(), [&](const plan::PackingPoint& point) {
              return point.side == fixing.side && std::abs(point.at - fixing.at) <= plan::kAtPacker;
            });
        REQUIRE(packed != plan.packing.points.end());
        CHECK_THAT(fixing.gap, WithinAbs(std::max(packed->gap - packed->backing, 0.0), 1e-9));
      }
      // Added packers stand in their places: sill, left, right, each in rising order.
      for (std::size_t i = 1; i < plan.packing.points.size(); ++i) {
        const auto& a = plan.packing.points[i - 1];
        const auto& b = plan.packing.points[i];
        if (a.side == b.side) CHECK(a.at < b.at);
      }
    }
  }
}

TEST_CASE("the stricter of practice and custom holds, and both are named") {
  // Australia: 450 centres from 150 at the ends ask for 3 at 1040; custom for 2.
  const auto au = planned(window(1500, 1040)).fixings;
  CHECK(au.by_practice == 3);
  CHECK(au.by_custom == 2);
  CHECK(au.governs == plan::FixingRule::Practice);
  CHECK(atsOf(au, plan::Side::Left) == std::vector<double>{150, 520, 890});
  // America names no spacing through a jamb: custom's 3 at 1300.
  const auto us = planned(window(1500, 1300, "us")).fixings;
  CHECK(us.by_custom == 3);
  CHECK(us.governs == plan::FixingRule::Customary);
  CHECK(atsOf(us, plan::Side::Left).size() == 3);
  // Where custom asks for more than the packers offer, it is spread evenly between the ends.
  practice::Practice strict = shipped("au");
  strict.strength.fixing.per_jamb.bands.front().figure.value = 5;
  const auto five = fixWith(window(1500, 1040), strict);
  CHECK(five.governs == plan::FixingRule::Customary);
  CHECK(atsOf(five, plan::Side::Right) == std::vector<double>{150, 335, 520, 705, 890});
}

TEST_CASE("doors have at least the practice's number on a jamb, and none through the sill") {
  for (const char* practice : {"au", "uk"}) {
    job::Job job = simpleJob(job::UnitKind::HingedDoor, 920, 2095, practice);
    const auto fixings = planned(job).fixings;
    CHECK(atsOf(fixings, plan::Side::Left).size() >= 4);
    CHECK(atsOf(fixings, plan::Side::Sill).empty());
  }
}

TEST_CASE("the jambs carry all the wind between them") {
  for (const double height : {600.0, 1040.0, 2000.0}) {
    const auto fixings = planned(window(1500, height, "au", 1.3)).fixings;
    const double whole = 1.3e-3 * 1500 * height;
    CHECK_THAT(windOnSide(fixings, plan::Side::Left), WithinAbs(whole / 2, 1e-6));
    CHECK_THAT(windOnSide(fixings, plan::Side::Right), WithinAbs(whole / 2, 1e-6));
  }
  // A fixed sill carries the triangle above it too: 1500²/4.
  const auto uk = planned(window(1500, 1040, "uk", 1.0)).fixings;
  CHECK_THAT(windOnSide(uk, plan::Side::Sill), WithinAbs(1e-3 * 1500 * 1500 / 4, 1e-6));
}

TEST_CASE("demand is wind and weight as vectors: weight is shared by the jambs") {
  const auto plan = planned(window(1500, 1040));
  double weight = 0;
  for (const auto& fixing : plan.fixings.points) {
    weight += fixing.weight_n;
    CHECK_THAT(fixing.demand_n, WithinAbs(std::hypot(fixing.wind_n, fixing.weight_n), 1e-9));
  }
  CHECK_THAT(weight, WithinAbs(plan.mass.total_kg * 9.81, 1e-9));
}

TEST_CASE("each screw is the shortest at hand that has its embedment behind its own packer") {
  job::Job job = window(1500, 1040);
  job.stock = job::Stock{};
  job.stock->screws = {"8g x 100", "8g x 50", "8g x 65", "10g x 65", "8g x 75"};
  const auto plan = planned(job);
  for (const auto& fixing : plan.fixings.points) {
    REQUIRE(fixing.screw >= 0);
    const auto& screw = plan.fixings.screws[static_cast<std::size_t>(fixing.screw)];
    // 18 of reveal less 3 of countersink, the packer, and 7 shank diameters (AS 1720.1 as quoted): 54.2 with 10 of gap.
    CHECK(screw.name == "8g x 65");
    CHECK_THAT(fixing.embedment, WithinAbs(65 - 15 - fixing.gap, 1e-9));
    CHECK(fixing.embedment >= 7 * 4.166);
  }
  CHECK(plan.fixings.countersink == 3);
  CHECK(plan.fixings.under_head == 15);
}

TEST_CASE("a wide gap takes a longer screw, and where none is long enough it is said how long one would do") {
  job::Job job = window(1500, 1040);
  job.openings[0].width += 30;  // 25 each side
  const auto wide = planned(job).fixings;
  REQUIRE(wide.points[0].screw >= 0);
  job.stock = job::Stock{};
  job.stock->screws = {"8g x 50"};
  const auto none = planned(job).fixings;
  CHECK(none.points[0].screw == -1);
  CHECK_FALSE(none.points[0].capacity_n.has_value());
  CHECK(none.length_wanted > 50);
  CHECK(none.worst == -1);
}

TEST_CASE("a timber backing is part of the stud") {
  job::Job job = window(1500, 1040);
  job.openings[0].width += 40;  // 30 each side; packers fill 20
  const auto plan = planned(job);
  REQUIRE(plan.packing.points[5].backing > 0);
  for (const auto& fixing : plan.fixings.points) CHECK(fixing.gap <= 20 + 1e-9);
}

TEST_CASE("a point that comes out behind the studs is told, by how far") {
  job::Job job = window(1500, 1040);
  job.walls[0].stud->thickness = 20;  // two of them beside the opening: 40
  job.stock = job::Stock{};
  job.stock->screws = {"8g x 100"};
  const auto fixings = planned(job).fixings;
  for (const auto& fixing : fixings.points) {
    CHECK_THAT(fixing.past_stud, WithinAbs(100 - 15 - fixing.gap - 40, 1e-9));
    CHECK(fixing.past_stud > 0);
  }
  job.walls[0].stud->thickness = 45;
  for (const auto& fixing : planned(job).fixings.points) CHECK(fixing.past_stud < 0);
}

TEST_CASE("what comes out behind the studs holds nothing") {
  // NDS 12.3.5: the dowel's bearing length in a member is no more than the member is thick (from memory).
  job::Job job = window(1500, 1040);
  job.wind = job::StatedPressure{1.5};
  job.walls[0].stud->thickness = 20;  // two of them beside the opening: 40
  job.stock = job::Stock{};
  job.stock->screws = {"8g x 100"};
  const auto shorter = planned(job).fixings;
  job.stock->screws = {"8g x 150"};
  const auto longer = planned(job).fixings;
  REQUIRE(shorter.points.size() == longer.points.size());
  for (std::size_t i = 0; i < shorter.points.size(); ++i) {
    CHECK(shorter.points[i].embedment == 40);
    CHECK(longer.points[i].embedment == 40);
    REQUIRE(shorter.points[i].capacity_n);
    CHECK(*longer.points[i].capacity_n == *shorter.points[i].capacity_n);
  }
}

TEST_CASE("a fixing half a packer from a packer goes through it at both ends of the sill") {
  job::Job job = window(1630, 480, "uk");  // packers every 518 1/3, fixings every 443 1/3: 37.5 apart
  job.openings[0].unit.kind = job::UnitKind::AwningWindow;
  std::vector<double> at;
  for (const auto& point : planned(job).packing.points) {
    if (point.side == plan::Side::Sill) at.push_back(point.at);
  }
  REQUIRE(at.size() == 6);  // 37.5, 150, 555 5/6 and the same from the other end
  for (std::size_t i = 0; i < at.size(); ++i) CHECK_THAT(at[i] + at[at.size() - 1 - i], WithinAbs(1630, 1e-6));
}

TEST_CASE("the screws' line is in the stud and clear of the aluminium frame") {
  const auto plan = planned(window(1500, 1040));
  CHECK(plan.fixings.line >= 45);
  CHECK(plan.fixings.line > 100 - 35);  // behind the frame, where a driver gets at the head
  CHECK(plan.fixings.line <= 90 - 12);
  job::Job shallow = window(1500, 1040);
  shallow.openings[0].unit.frame->depth = 60;
  CHECK(planned(shallow).fixings.line == 45);
}

TEST_CASE("bare frames are fixed through their fin, or through the frame where they have none") {
  job::Job job = window(1500, 1040);
  job.openings[0].unit.reveal.reset();
  const auto fin = planned(job).fixings;
  for (const auto& fixing : fin.points) {
    CHECK(fixing.kind == plan::FixingKind::ThroughFin);
    CHECK(fixing.withdrawal);
    CHECK(fixing.capacity_n.has_value());
    CHECK(fixing.demand_n == fixing.wind_n);
  }
  job.openings[0].unit.fin = 0;
  const auto frame = planned(job).fixings;
  for (const auto& fixing : frame.points) {
    CHECK(fixing.kind == plan::FixingKind::ThroughFrame);
    CHECK_FALSE(fixing.capacity_n.has_value());
  }
  CHECK_FALSE(frame.missing.empty());
  // America names a spacing for fins: along the sill too, no further apart than that.
  job.practice = "us";
  job.openings[0].unit.fin = 30;
  const auto us = planned(job).fixings;
  const auto sill = atsOf(us, plan::Side::Sill);
  REQUIRE(sill.size() > 2);
  for (std::size_t i = 1; i < sill.size(); ++i) CHECK(sill[i] - sill[i - 1] <= 203 + 1e-9);
}

TEST_CASE("what the practice doesn't name gives no capacity, and is named") {
  practice::Practice practice = shipped("au");
  practice.strength.fixing_design.reveal_gravity.reset();
  const auto fixings = fixWith(window(1500, 1040), practice);
  CHECK(fixings.worst == -1);
  CHECK(fixings.missing.find("reveal") != std::string::npos);
  practice = shipped("au");
  practice.strength.fixing_design.duration_wind.reset();
  CHECK(fixWith(window(1500, 1040), practice).missing.find("duration") != std::string::npos);
}

TEST_CASE("where the region's own tables stop short it is said") {
  const auto au = planned(window(1500, 1040)).fixings.not_covered;
  CHECK(au.find("AS 1720.1") != std::string::npos);
  CHECK(au.find("gap") != std::string::npos);
  CHECK(planned(window(1500, 1040, "uk")).fixings.not_covered.find("EN 1995-1-1") != std::string::npos);
  CHECK(planned(window(1500, 1040, "us")).fixings.not_covered.empty());
  // A reveal thick enough is covered.
  job::Job thick = window(1500, 1040);
  thick.openings[0].unit.reveal->thickness = 45;
  CHECK(planned(thick).fixings.not_covered.empty());
}

TEST_CASE("more wind never lowers demand, and no wind is judged against nothing") {
  double before = 0;
  for (double pressure = 0.1; pressure < 8; pressure *= 1.3) {
    const auto fixings = planned(window(1500, 1040, "au", pressure)).fixings;
    for (const auto& fixing : fixings.points) CHECK(fixing.demand_n >= fixing.weight_n);
    CHECK(fixings.worst_ratio > before);
    before = fixings.worst_ratio;
  }
  job::Job calm = window(1500, 1040);
  calm.wind.reset();
  const auto fixings = planned(calm).fixings;
  CHECK(fixings.worst == -1);
  CHECK(fixings.worst_ratio == 0);
}

TEST_CASE("more wind never lowers a demand nor the worst, whatever the unit, its kind and the practice") {
  constexpr job::UnitKind kKinds[] = {job::UnitKind::SlidingWindow,  job::UnitKind::AwningWindow,
                                      job::UnitKind::CasementWindow, job::UnitKind::FixedWindow,
                                      job::UnitKind::SlidingDoor,    job::UnitKind::HingedDoor};
  testing::Dice dice(45);
  for (const char* practice : {"au", "nz", "uk", "us"}) {
    for (int i = 0; i < 60; ++i) {
      job::Job job = simpleJob(kKinds[dice.upTo(5)], dice.between(450, 2700), dice.between(450, 2200), practice);
      if (dice.upTo(3) == 0) job.openings[0].unit.reveal.reset();
      const double low = dice.between(0.05, 4);
      job.wind = job::StatedPressure{low};
      const auto calm = planned(job).fixings;
      job.wind = job::StatedPressure{low + dice.between(0, 3)};
      const auto windy = planned(job).fixings;
      REQUIRE(calm.points.size() == windy.points.size());
      for (std::size_t k = 0; k < calm.points.size(); ++k) {
        CHECK(windy.points[k].demand_n >= calm.points[k].demand_n);
        CHECK(windy.points[k].capacity_n == calm.points[k].capacity_n);
      }
      CHECK(windy.worst_ratio >= calm.worst_ratio);
    }
  }
}

TEST_CASE("a wider opening never makes the same screws hold more") {
  testing::Dice dice(46);
  for (const char* practice : {"au", "uk", "us"}) {
    for (int i = 0; i < 60; ++i) {
      job::Job job = window(dice.between(450, 2700), dice.between(450, 2200), practice);
      job.stock = job::Stock{};
      job.stock->screws = {practice == std::string("us") ? "#10 x 4 in" : "10g x 100"};
      job.openings[0].unit.reveal->thickness = dice.between(16, 30);
      const auto here = planned(job).fixings;
      job.openings[0].width += dice.between(0, 20);
      const auto wider = planned(job).fixings;
      REQUIRE(wider.points.size() == here.points.size());
      for (std::size_t k = 0; k < here.points.size(); ++k) {
        const auto& a = here.points[k];
        const auto& b = wider.points[k];
        if (!a.capacity_n || !b.capacity_n) continue;
        // Packers come in steps: a gap packed by a timber backing may be crossed by less.
        if (b.gap >= a.gap) CHECK(*b.capacity_n <= *a.capacity_n * (1 + 1e-12));
      }
    }
  }
}

TEST_CASE("the allowable method sets serviceability against its capacities, limit states the ultimate pressure") {
  job::Job job = window(1500, 1040, "us");
  job.wind = job::Wind{std::string("DP30")};
  const auto plan = planned(job);
  CHECK_THAT(windOnSide(plan.fixings, plan::Side::Left),
             WithinAbs(*plan.wind.serviceability_kpa * 1e-3 * 750 * 1040, 1e-6));
  job.practice = "uk";
  job.wind = job::Wind{std::string("3")};
  const auto uk = planned(job);
  CHECK_THAT(windOnSide(uk.fixings, plan::Side::Left), WithinAbs(*uk.wind.ultimate_kpa * 1e-3 * 750 * 1040, 1e-6));
}

TEST_CASE("a wider gap, a thinner reveal or less embedment never holds more") {
  testing::Dice dice(4);
  for (const char* name : {"au", "uk", "us"}) {
    const auto& strength = shipped(name).strength;
    for (int i = 0; i < 2000; ++i) {
      plan::ScrewJoint joint;
      joint.gauge = &strength.gauges[static_cast<std::size_t>(dice.upTo(static_cast<int>(strength.gauges.size()) - 1))];
      joint.under_head = dice.between(5, 30);
      joint.gap = dice.between(0, 30);
      joint.embedment = dice.between(10, 80);
      const auto* grade = &strength.timber.grades.front();
      const double here = *plan::lateralCapacity(joint, grade, strength.fixing_design).n;
      REQUIRE(here > 0);
      const auto never_more = [&](double gap, double reveal, double embedment) {
        plan::ScrewJoint other = joint;
        other.gap += gap;
        other.under_head -= reveal;
        other.embedment -= embedment;
        CHECK(*plan::lateralCapacity(other, grade, strength.fixing_design).n <= here * (1 + 1e-12));
      };
      never_more(dice.between(0, 10), 0, 0);
      never_more(0, dice.between(0, 5), 0);
      never_more(0, 0, dice.between(0, 5));
    }
  }
}

TEST_CASE("what would help is computed: it does what it says") {
  job::Job job = window(1500, 1040, "au", 1.7);
  const auto now = planned(job);
  REQUIRE(now.fixings.worst_ratio > 1);
  REQUIRE(now.fixings.help.size() >= 2);
  CHECK(now.fixings.help.front().kind == plan::FixingHelpKind::MoreFixings);
  for (const auto& help : now.fixings.help) {
    CHECK(help.ratio < now.fixings.worst_ratio);
    if (help.kind == plan::FixingHelpKind::MoreFixings) {
      practice::Practice more = shipped("au");
      for (auto& band : more.strength.fixing.per_jamb.bands) band.figure.value = help.per_jamb;
      // Between packers the gap is taken along a line; planned again each fixing has a packer of its own.
      CHECK_THAT(fixWith(job, more).worst_ratio, WithinAbs(help.ratio, 0.02));
      for (auto& band : more.strength.fixing.per_jamb.bands) band.figure.value = help.per_jamb - 1;
      if (help.ratio <= 1) CHECK(fixWith(job, more).worst_ratio > 1);
    }
    if (help.kind == plan::FixingHelpKind::LargerGauge) {
      job::Job larger = job;
      larger.stock = job::Stock{};
      larger.stock->screws = {help.screw};
      CHECK_THAT(planned(larger).fixings.worst_ratio, WithinAbs(help.ratio, 1e-9));
    }
  }
}

TEST_CASE("moving the unit towards its worst side brings thinner packers there") {
  job::Job job = window(1500, 1040, "au", 1.55);
  // The right stud leans away at its head: the gap is wider there, and there is room to move to the right.
  job.openings[0].measured = job::Measured{};
  auto& measured = *job.openings[0].measured;
  measured.widths = {1520.0, 1521.5, 1523.0};
  measured.heights = {1060.0, std::nullopt, 1060.0};
  measured.out_of_plumb = {0.0, 3.0};
  measured.out_of_level = 0.0;
  const auto now = planned(job);
  REQUIRE(now.fixings.worst_ratio > 1);
  const auto help = std::find_if(now.fixings.help.begin(), now.fixings.help.end(), [](const plan::FixingHelp& each) {
    return each.kind == plan::FixingHelpKind::SmallerPacker;
  });
  REQUIRE(help != now.fixings.help.end());
  CHECK(help->move > 0);
  CHECK(help->move <= now.stand.gaps.closest[1] - now.stand.least.right + 1e-9);
  CHECK(help->ratio < now.fixings.worst_ratio);
}

TEST_CASE("the screw sags across its packer by the formula of a bar fixed at both ends") {
  const auto fixings = planned(window(1500, 1040)).fixings;
  const auto& fixing = fixings.points.front();
  const double inertia = 3.14159265358979 * std::pow(3.327, 4) / 64;
  CHECK_THAT(fixing.sag, WithinAbs(fixing.weight_n * std::pow(fixing.gap, 3) / (12 * 200000 * inertia), 1e-12));
}
