// More load asks for no less: wind, glass, span, and less room.

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "check/judge.h"
#include "invariants/random_jobs.h"
#include "support/catch.h"
#include "support/simple_job.h"

namespace sillwright::testing {
namespace {

constexpr double kRounding = 1e-9;

job::Job underPressure(job::Job job, double kpa) {
  job.wind = job::StatedPressure{kpa};
  return job;
}

bool has(const std::vector<check::Finding>& findings, const char* about, check::Severity severity) {
  return std::any_of(findings.begin(), findings.end(), [&](const check::Finding& finding) {
    return finding.about == about && finding.severity <= severity;
  });
}

}  // namespace

TEST_CASE("twice the wind loads every fixing more, with no fewer of them, and takes no finding about it away") {
  REQUIRE(holdsForJobs("twice the wind", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    const double kpa = draw.between(0.2, 4, 0.1);
    const Answer one = answerTo(underPressure(job, kpa), practice);
    const Answer two = answerTo(underPressure(job, 2 * kpa), practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      const auto& calm = one.plan.openings[i].fixings;
      const auto& storm = two.plan.openings[i].fixings;
      RC_ASSERT(storm.points.size() >= calm.points.size());
      const bool alike = storm.more == calm.more;  // else held by more
      RC_ASSERT(!alike || storm.worst_ratio >= calm.worst_ratio * (1 - kRounding));
      for (std::size_t k = 0; alike && k < calm.points.size(); ++k) {
        RC_ASSERT(std::abs(storm.points[k].wind_n - 2 * calm.points[k].wind_n) <= 1e-6);
        RC_ASSERT(storm.points[k].demand_n >= calm.points[k].demand_n - kRounding);
      }
      for (const char* about : {"fixing load", "head of water"}) {
        const bool was = has(one.findings.openings[i], about, check::Severity::Attend);
        RC_ASSERT(!was || has(two.findings.openings[i], about, check::Severity::Attend));
      }
    }
  }));
}

TEST_CASE("the fixings together carry the whole wind on the unit, a door's floor its part") {
  REQUIRE(holdsForJobs("sum of wind", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const plan::Plan plan = plan::makePlan(underPressure(job, 1), practice);
    for (const auto& planned : plan.openings) {
      double sum = 0;
      for (const auto& fixing : planned.fixings.points) sum += fixing.wind_n;
      const bool limit_states = practice.strength.fixing_design.method == practice::Method::LimitStates;
      const auto& kpa = limit_states ? planned.wind.ultimate_kpa : planned.wind.serviceability_kpa;
      if (planned.fixings.points.empty() || !kpa) continue;
      const double whole = *kpa * 1e-3 * planned.unit.width * planned.unit.height;
      // The floor takes the sill's part, and half of what comes to each mullion and meeting stile.
      const bool floor = planned.unit.isDoor() && (planned.fixings.more.all_round || planned.fixings.bar_ends > 0);
      RC_ASSERT(sum <= whole * (1 + 1e-6));
      RC_ASSERT(floor || sum >= whole * (1 - 1e-6));
    }
  }));
}

TEST_CASE("thicker glass weighs more, presses more on its packers and is lifted by no fewer people") {
  REQUIRE(holdsForJobs("thicker glass", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    job::Job light = job;
    for (auto& opening : light.openings) {
      opening.unit.mass_kg.reset();
      opening.unit.glass = job::Glass{draw.between(3, 8), 1 + draw.upTo(1), true};
    }
    job::Job heavy = light;
    for (auto& opening : heavy.openings) opening.unit.glass->thickness += draw.between(1, 12);
    const plan::Plan one = plan::makePlan(light, practice);
    const plan::Plan two = plan::makePlan(heavy, practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      const auto& thin = one.openings[i];
      const auto& thick = two.openings[i];
      RC_ASSERT(thick.mass.total_kg > thin.mass.total_kg);
      // A panel taken out leaves less to lift, and it is taken out of none but the heavier.
      RC_ASSERT((thick.mass.panel_kg > 0) >= (thin.mass.panel_kg > 0));
      if ((thick.mass.panel_kg > 0) == (thin.mass.panel_kg > 0)) {
        RC_ASSERT(thick.mass.people.value_or(0) >= thin.mass.people.value_or(0));
        RC_ASSERT(thick.mass.mechanical_help || !thin.mass.mechanical_help);
      }
      if (thick.fixings.more != thin.fixings.more) continue;  // held by more, on more packers
      RC_ASSERT(thick.packing.points.size() == thin.packing.points.size());
      RC_ASSERT(thick.fixings.points.size() == thin.fixings.points.size());
      for (std::size_t k = 0; k < thin.fixings.points.size(); ++k) {
        RC_ASSERT(thick.fixings.points[k].demand_n >= thin.fixings.points[k].demand_n - kRounding);
      }
    }
  }));
}

TEST_CASE("a smaller unit in the same opening has more to spare, and one as large as is said to fit does") {
  REQUIRE(holdsForJobs("smaller unit", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    job::Job smaller = job;
    const double by = draw.between(0.5, 20, 0.5);
    for (auto& opening : smaller.openings) {
      opening.unit.width = std::max(100.0, opening.unit.width - by);
      opening.unit.height = std::max(100.0, opening.unit.height - by);
    }
    const plan::Plan one = plan::makePlan(job, practice);
    const plan::Plan two = plan::makePlan(smaller, practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      RC_ASSERT(two.openings[i].stand.spare >= one.openings[i].stand.spare - 1e-9);
      const auto& largest = one.openings[i].stand.largest_unit;
      if (largest[0] < 100) continue;
      job::Job fitted = job;
      fitted.openings[i].unit.width = largest[0];
      RC_ASSERT(planAlone(fitted, i, practice).stand.spare >= -1e-6);
    }
  }));
}

TEST_CASE("a heavier load or a wider opening works a lintel harder") {
  REQUIRE(holdsForJobs("lintel", [](const job::Job& drawn, const practice::Practice& practice, Draw& draw) {
    job::Job job = drawn;
    for (auto& wall : job.walls) wall.supports = job::Supports{3000, draw.between(0.3, 2, 0.1)};
    for (auto& opening : job.openings) opening.lintel = job::Lintel{190, 45, 2};
    job::Job more = job;
    for (auto& wall : more.walls) wall.supports->load_kpa *= 2;
    const plan::Plan one = plan::makePlan(job, practice);
    const plan::Plan two = plan::makePlan(more, practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      const auto& easy = *one.openings[i].lintel_check;
      const auto& hard = *two.openings[i].lintel_check;
      for (const auto part : {&plan::LintelCheck::bending, &plan::LintelCheck::shear, &plan::LintelCheck::deflection,
                              &plan::LintelCheck::bearing}) {
        RC_ASSERT((easy.*part).has_value() == (hard.*part).has_value());
        if (easy.*part) RC_ASSERT(*(hard.*part) > *(easy.*part));
      }
    }
  }));
}

}  // namespace sillwright::testing
