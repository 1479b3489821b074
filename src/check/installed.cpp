// The set unit as measured, against what an installed unit may be off by.

#include <algorithm>
#include <cmath>

#include "check/rules.h"

namespace sillwright::check {
namespace {

void over(Bench& bench, const char* about, double measured, double limit, const practice::Figure& figure,
          const std::string& say, const char* remedy) {
  if (!above(std::abs(measured), limit)) return;
  auto& finding = bench.attend(about, say + " The limit is " + bench.len(limit) + ".");
  measuredAgainst(finding, measured, limit, "mm", &figure);
  finding.remedy = remedy;
}

void judgeDiagonals(Bench& bench, const job::Installed& read) {
  if (!read.diagonals[0] || !read.diagonals[1]) return;
  const auto& tolerance = bench.practice.installed_tolerance;
  const auto& unit = bench.planned().unit;
  const double area_m2 = unit.width * unit.height * 1e-6;
  const bool large = tolerance.large_from_area_m2 && aboveShare(area_m2, tolerance.large_from_area_m2->value);
  const auto* limit =
      ruleOrNote(bench, large ? tolerance.diagonals_large : tolerance.diagonals_small, "diagonals of the set unit");
  if (limit == nullptr) return;
  const double difference = *read.diagonals[0] - *read.diagonals[1];
  over(bench, "set square", difference, limit->value, *limit,
       "The set unit's diagonals differ by " + bench.len(std::abs(difference)) + ".",
       "Ease the fixings, pack it square and measure it again.");
}

/// What a length may be off by: in proportion up to the rule's own length, and no more than its figure for a longer
/// one.
double scaled(const practice::Figure& figure, double over_length, double length) {
  return figure.value * std::min(length / over_length, 1.0);
}

void judgeLevelPlumb(Bench& bench, const job::Installed& read) {
  const auto& tolerance = bench.practice.installed_tolerance;
  const auto& unit = bench.planned().unit;
  if (read.out_of_level) {
    if (tolerance.level_mm && tolerance.level_over) {
      const double limit = scaled(*tolerance.level_mm, tolerance.level_over->value, unit.width);
      over(bench, "set level", *read.out_of_level, limit, *tolerance.level_mm,
           "The set unit is " + bench.len(std::abs(*read.out_of_level)) + " out of level.",
           "Pack the low end of the sill.");
    } else {
      bench.not_judged.emplace_back("level of the set unit");
    }
  }
  for (std::size_t i = 0; i < 2; ++i) {
    if (!read.out_of_plumb[i]) continue;
    if (!tolerance.plumb_mm || !tolerance.plumb_over) {
      bench.not_judged.emplace_back("plumb of the set unit");
      return;
    }
    const double limit = scaled(*tolerance.plumb_mm, tolerance.plumb_over->value, unit.height);
    over(bench, "set plumb", *read.out_of_plumb[i], limit, *tolerance.plumb_mm,
         std::string("The set unit's ") + (i == 0 ? "left" : "right") + " jamb is " +
             bench.len(std::abs(*read.out_of_plumb[i])) + " out of plumb.",
         "Ease the fixings, pack the jamb plumb and measure it again.");
  }
}

void judgeWorks(Bench& bench, const job::Installed& read) {
  if (read.opens && !*read.opens) {
    bench.add(Severity::Stop, "set unit", "The set unit does not open as it should.").remedy =
        "Look for a bowed jamb or a sill packed at the middle only, before the gap is sealed.";
  }
  if (read.locks && !*read.locks) {
    bench.add(Severity::Stop, "set unit", "The set unit does not lock.").remedy =
        "Set it square: the bolt misses its keep.";
  }
}

}  // namespace

void judgeInstalled(Bench& bench) {
  const auto& read = bench.opening().installed;
  if (!read) return;
  judgeDiagonals(bench, *read);
  judgeLevelPlumb(bench, *read);
  judgeWorks(bench, *read);
}

}  // namespace sillwright::check
