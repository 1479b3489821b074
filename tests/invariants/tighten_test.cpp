// A limit that is made stricter takes no finding away and makes none milder.

#include <rapidcheck.h>

#include <algorithm>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "invariants/random_jobs.h"
#include "support/catch.h"

namespace sillwright::testing {
namespace {

using practice::Practice;
using practice::Rule;

/// One limit and how it is made stricter. `about`: the findings that rest on it, where the limit also changes the plan
/// and so what else there is to find; empty: all findings.
struct Limit {
  const char* name;
  std::function<void(Practice&, double)> tighten;  ///< By a factor above 1.
  const char* about = "";
  std::string_view not_about = {};  ///< What the abouts begin with that it may take away.
};

void up(Rule& rule, double by) {
  if (rule) rule->value *= by;
}
void down(Rule& rule, double by) {
  if (rule) rule->value /= by;
}
void up(practice::Bands& bands, double by) {
  for (auto& band : bands.bands) band.figure.value *= by;
}
void down(practice::Bands& bands, double by) {
  for (auto& band : bands.bands) band.figure.value /= by;
}

#define SILLWRIGHT_LIMIT(direction, member) #member, [](Practice & p, double by) { direction(p.member, by); }

/// What only judges.
std::vector<Limit> limitsThatOnlyJudge() {
  return {
      {SILLWRIGHT_LIMIT(down, clearance.side_most)},
      {SILLWRIGHT_LIMIT(down, clearance.sill_most)},
      {SILLWRIGHT_LIMIT(down, clearance.head_most)},
      {SILLWRIGHT_LIMIT(down, packing.most_left_over)},
      {SILLWRIGHT_LIMIT(down, opening_tolerance.plumb_mm)},
      {SILLWRIGHT_LIMIT(up, opening_tolerance.plumb_over)},
      {SILLWRIGHT_LIMIT(down, opening_tolerance.sill_level)},
      {SILLWRIGHT_LIMIT(down, opening_tolerance.diagonals)},
      {SILLWRIGHT_LIMIT(down, opening_tolerance.width_spread)},
      {SILLWRIGHT_LIMIT(down, opening_tolerance.height_spread)},
      {SILLWRIGHT_LIMIT(down, opening_tolerance.bow)},
      {SILLWRIGHT_LIMIT(up, opening_tolerance.bow_over)},
      {SILLWRIGHT_LIMIT(down, opening_tolerance.twist)},
      {SILLWRIGHT_LIMIT(down, installed_tolerance.plumb_mm)},
      {SILLWRIGHT_LIMIT(up, installed_tolerance.plumb_over)},
      {SILLWRIGHT_LIMIT(down, installed_tolerance.level_mm)},
      {SILLWRIGHT_LIMIT(up, installed_tolerance.level_over)},
      {SILLWRIGHT_LIMIT(down, installed_tolerance.diagonals_small)},
      {SILLWRIGHT_LIMIT(down, installed_tolerance.diagonals_large)},
      {SILLWRIGHT_LIMIT(down, framing.jamb_notch_most)},
      {SILLWRIGHT_LIMIT(up, unit.fin_cover_least)},
      {SILLWRIGHT_LIMIT(down, unit.reveal_flush_tolerance)},
      {SILLWRIGHT_LIMIT(up, clearance.unit_tolerance)},
      {SILLWRIGHT_LIMIT(up, weather.flashing.sill_past.least)},
      {SILLWRIGHT_LIMIT(up, weather.flashing.head_past.least)},
      {SILLWRIGHT_LIMIT(up, weather.flashing.jamb_over_sill.least)},
      {SILLWRIGHT_LIMIT(up, weather.membrane.lap.least)},
      {SILLWRIGHT_LIMIT(up, weather.membrane.flap_over_head.least)},
      {SILLWRIGHT_LIMIT(up, weather.cladding.over_upstand_least)},
      {SILLWRIGHT_LIMIT(up, weather.cladding.under_sill_least)},
      {SILLWRIGHT_LIMIT(down, weather.membrane.support_from_studs)},
      {SILLWRIGHT_LIMIT(down, weather.sealing.backing_from)},
  };
}

/// Glass, falls, wet rooms and lifting.
std::vector<Limit> limitsOfSafety() {
  const auto falls = [](auto change) {
    return [change](Practice& p, double by) {
      for (auto& rule : p.safety.falls) change(rule, by);
    };
  };
  return {
      {SILLWRIGHT_LIMIT(up, safety.glass.low_below)},
      {SILLWRIGHT_LIMIT(down, safety.glass.low_area_most)},
      {SILLWRIGHT_LIMIT(up, safety.glass.low_thickness_least)},
      {SILLWRIGHT_LIMIT(up, safety.glass.beside_door_within)},
      {SILLWRIGHT_LIMIT(up, safety.glass.beside_door_below)},
      {SILLWRIGHT_LIMIT(up, safety.glass.wet_area_below)},
      {SILLWRIGHT_LIMIT(down, safety.glass.pane_area_above)},
      {SILLWRIGHT_LIMIT(up, safety.glass.pane_bottom_below)},
      {SILLWRIGHT_LIMIT(down, safety.glass.pane_top_above)},
      {SILLWRIGHT_LIMIT(down, safety.glass.band_height_exempt)},
      {SILLWRIGHT_LIMIT(down, safety.glass.band_width_exempt)},
      {SILLWRIGHT_LIMIT(up, safety.glass.band_sight_line_exempt)},
      {SILLWRIGHT_LIMIT(up, safety.wet_area.waterproof_height)},
      {"falls.above_ground_from", falls([](auto& rule, double by) { down(rule.above_ground_from, by); })},
      {"falls.opening_above_ground_from",
       falls([](auto& rule, double by) { down(rule.opening_above_ground_from, by); })},
      {"falls.opening_below", falls([](auto& rule, double by) { up(rule.opening_below, by); })},
      {"falls.barrier", falls([](auto& rule, double by) { up(rule.barrier, by); })},
      // With more people each lifts less: the way up, by index or height, is another question.
      {SILLWRIGHT_LIMIT(down, safety.lifting.one_person), "", "lifting "},
      {SILLWRIGHT_LIMIT(down, safety.lifting.two_share), "", "lifting "},
      {SILLWRIGHT_LIMIT(down, safety.lifting.three_share), "", "lifting "},
      {SILLWRIGHT_LIMIT(down, safety.lifting.niosh_raised)},
  };
}

/// Strength, and limits that the plan follows: what doesn't rest on them may change either way.
std::vector<Limit> limitsOfPlan() {
  const auto grades = [](auto change) {
    return [change](Practice& p, double by) {
      for (auto& grade : p.strength.timber.grades) change(grade, by);
    };
  };
  return {
      {SILLWRIGHT_LIMIT(up, clearance.side_least), "fit"},
      {SILLWRIGHT_LIMIT(up, clearance.sill_least), "fit"},
      {SILLWRIGHT_LIMIT(up, clearance.head_least), "fit"},
      {SILLWRIGHT_LIMIT(up, clearance.door_sill_least), "fit"},
      {SILLWRIGHT_LIMIT(up, strength.fixing.embedment_least), "fixing length"},
      {SILLWRIGHT_LIMIT(up, strength.fixing.embedment_diameters), "fixing length"},
      {SILLWRIGHT_LIMIT(up, strength.timber.lintel.load_factor), "lintel"},
      {SILLWRIGHT_LIMIT(up, strength.timber.lintel.total_deflection_ratio), "lintel"},
      {SILLWRIGHT_LIMIT(up, strength.timber.lintel.live_deflection_ratio), "lintel"},
      {SILLWRIGHT_LIMIT(up, strength.timber.lintel.creep), "lintel"},
      {SILLWRIGHT_LIMIT(down, strength.timber.lintel.deflection_most), "lintel"},
      {SILLWRIGHT_LIMIT(down, strength.timber.lintel.capacity_factor), "lintel"},
      {SILLWRIGHT_LIMIT(down, strength.fixing_design.capacity_factor), "fixing load"},
      {"grade.bending", grades([](auto& grade, double by) { down(grade.bending, by); })},
      {"grade.shear", grades([](auto& grade, double by) { down(grade.shear, by); })},
      {"grade.stiffness", grades([](auto& grade, double by) { down(grade.stiffness, by); })},
      {"grade.across", grades([](auto& grade, double by) { down(grade.across, by); })},
  };
}
#undef SILLWRIGHT_LIMIT

/// Wide gaps are one finding, named for the first side that has one, with the backing that they want: another limit may
/// name another side, or tell of the gap where the packers alone were told of.
std::string familyOf(const std::string& about) {
  return about.ends_with(" clearance") || about == "packing" ? "clearance" : about;
}

long countOf(const std::vector<check::Finding>& findings, const std::string& about, check::Severity at_most) {
  return std::count_if(findings.begin(), findings.end(), [&](const check::Finding& finding) {
    return familyOf(finding.about) == familyOf(about) && finding.severity <= at_most;
  });
}

/// For every finding there was, as many of its kind that are as severe or more.
void noneIsGone(const Limit& limit, const std::vector<check::Finding>& before,
                const std::vector<check::Finding>& after) {
  for (const auto& finding : before) {
    if (*limit.about != '\0' && finding.about != limit.about) continue;
    if (!limit.not_about.empty() && finding.about.starts_with(limit.not_about)) continue;
    // The chance of fitting is of first order in the slopes (place.h), and a stricter clearance changes what governs.
    if (finding.about == "fit" && finding.severity != check::Severity::Stop) continue;
    const auto fewer = [&](const std::string& about, const auto& than, const auto& there) {
      return countOf(than, about, finding.severity) < countOf(there, about, finding.severity);
    };
    // A screw too short for a gap isn't told beside the gap's own finding: one cause is one finding.
    if (finding.about == "fixing length" && fewer("packing", before, after)) continue;
    const bool gone = fewer(finding.about, after, before);
    if (gone) RC_LOG() << limit.name << " stricter takes away: " << finding.about << ": " << finding.say << "\n";
    RC_ASSERT(!gone);
  }
}

bool holdsFor(const std::string& says, const std::vector<Limit>& limits) {
  return holdsForJobs(says, [&](const job::Job& job, const Practice& practice, Draw& draw) {
    const Answer before = answerTo(job, practice);
    const double by = 1 + draw.oneOf<double>({0.5, 0.05, 2});
    const auto first = static_cast<std::size_t>(draw.upTo(static_cast<int>(limits.size()) - 1));
    for (std::size_t i = 0; i < 6; ++i) {  // six of them a job
      const Limit& limit = limits[(first + i) % limits.size()];
      Practice stricter = practice;
      limit.tighten(stricter, by);
      const Answer after = answerTo(job, stricter);
      for (std::size_t k = 0; k < job.openings.size(); ++k) {
        noneIsGone(limit, before.findings.openings[k], after.findings.openings[k]);
      }
    }
  });
}

}  // namespace

TEST_CASE("a stricter limit takes no finding away") {
  REQUIRE(holdsFor("limits that only judge", limitsThatOnlyJudge()));
}

TEST_CASE("a stricter limit on glass, falls, wet rooms or lifting takes no finding away") {
  REQUIRE(holdsFor("limits of safety", limitsOfSafety()));
}

TEST_CASE("a stricter limit that the plan follows takes no finding away that rests on it") {
  REQUIRE(holdsFor("limits that the plan follows", limitsOfPlan()));
}

}  // namespace sillwright::testing
