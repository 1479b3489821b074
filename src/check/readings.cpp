// The opening as read: what the readings say of each other, and of level, plumb, square, straight and flat.

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/judge.h"
#include "check/rules.h"

namespace sillwright::check {
namespace {

using plan::Reading;
using plan::Trust;

void notRead(Bench& bench) {
  auto& finding =
      add(bench.findings, Severity::Note, "readings", "Nothing was read on site: everything here is as planned.");
  finding.remedy =
      "Read widths, heights, both diagonals, the sill by level and both studs by plumb before the unit is lifted.";
}

std::string candidates(const plan::AsBuilt& built, const char* last = " or ") {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < plan::kReadings; ++i) {
    if ((built.suspects >> i & 1U) != 0) names.emplace_back(plan::wordsFor(static_cast<Reading>(i)));
  }
  return words::listed(names, last);
}

/// "Read the left height again: that settles it." — or for the first time, where it was not taken.
std::string settling(const plan::AsBuilt& built) {
  if (!built.settle_by) return "Read them again.";
  const bool taken = built.readings[static_cast<std::size_t>(*built.settle_by)].read;
  return std::string("Read the ") + plan::wordsFor(*built.settle_by) + (taken ? " again" : " too") +
         ": that settles it.";
}

void readingsDisagree(Bench& bench) {
  const auto& built = bench.planned().as_built;
  if (!built.converged) {
    auto& finding = add(bench.findings, Severity::Attend, "readings",
                        "The readings make no four-cornered opening near the sizes they say. The fit can't be judged.");
    finding.remedy = "Read them all again: one is far out, or two were written into each other's place.";
    return;
  }
  if (built.trust == Trust::Suspect) {
    auto& finding = add(bench.findings, Severity::Attend, "readings",
                        "The " + candidates(built) + " does not agree with the other readings; by them it is off by " +
                            bench.len(built.disagreement) + ". Until it is read again the fit can't be judged.");
    finding.remedy = "Read the " + candidates(built) + " again.";
    return;
  }
  auto& finding = add(bench.findings, Severity::Attend, "readings",
                      "The readings disagree by " + bench.len(built.disagreement) +
                          ", and they alone can't tell which is wrong: it may be " + candidates(built) +
                          ". The fit can't be judged.");
  finding.remedy = settling(built);
}

/// Sizes that rest on the plan alone: no reading of any width, or of any height.
std::string sizesNotRead(const job::Measured& measured) {
  const auto none = [](const std::array<std::optional<double>, 3>& readings) {
    return std::none_of(readings.begin(), readings.end(), [](const auto& reading) { return reading.has_value(); });
  };
  const bool no_width = none(measured.widths);
  const bool no_height = none(measured.heights);
  if (no_width && no_height) return "neither a width nor a height was";
  if (no_width) return "no width was";
  return no_height ? "no height was" : "";
}

void judgeSizesRead(Bench& bench) {
  const std::string missing = sizesNotRead(*bench.opening().measured);
  if (missing.empty()) return;
  auto& finding = add(bench.findings, Severity::Attend, "readings",
                      "Not enough was read: " + missing + ", so its size is still the planned one.");
  finding.remedy = "Read widths and heights before the unit is lifted.";
}

void judgeTrust(Bench& bench) {
  const auto& built = bench.planned().as_built;
  if (built.trust == Trust::Planned) return notRead(bench);
  judgeSizesRead(bench);
  if (built.trust == Trust::Suspect || built.trust == Trust::Disputed) readingsDisagree(bench);
  std::vector<std::string> missing;
  for (const auto& reading : built.readings) {
    if (!reading.read) missing.emplace_back(plan::wordsFor(reading.reading));
  }
  if (!missing.empty()) {
    auto& finding = add(bench.findings, Severity::Note, "readings", "Not measured: " + words::listed(missing) + ".");
    if (built.turned_free) finding.say += " Without level or plumb the sill is taken as level.";
    if (built.trust == Trust::Unchecked) {
      finding.say += " No reading checks another: a misread figure would not show.";
      finding.severity = Severity::Attend;
    }
    finding.remedy = "Read them too; each more reading checks the others.";
  }
}

/// A limit on one figure of the opening: judged where the practice names it.
void judgeLimit(Bench& bench, const practice::Rule& rule, const char* about, const char* name, double measured,
                const std::string& say, const char* remedy, std::optional<plan::Side> side) {
  const auto* limit = ruleOrNote(bench, rule, name);
  if (limit == nullptr || !above(std::abs(measured), limit->value)) return;
  auto& finding = add(bench.findings, Severity::Attend, about, say + " The limit is " + bench.len(limit->value) + ".");
  measuredAgainst(finding, measured, limit->value, "mm", limit);
  finding.remedy = remedy;
  finding.spot.side = side;
}

/// Each stud out of plumb through the wall, by the limit of its plumb along the wall.
void judgeInAndOut(Bench& bench, const std::array<double, 2>& height) {
  const auto& tolerance = bench.practice.opening_tolerance;
  for (std::size_t i = 0; i < 2; ++i) {
    const auto& off = bench.opening().measured->out_of_plumb_in[i];
    const double limit = tolerance.plumb_mm->value * height[i] / tolerance.plumb_over->value;
    if (!off || !above(std::abs(*off), limit)) continue;
    auto& finding = add(bench.findings, Severity::Attend, "studs plumb",
                        std::string(i == 0 ? "The left" : "The right") + " stud's top stands " +
                            bench.len(std::abs(*off)) + " further " + (*off > 0 ? "in" : "out") +
                            " than its foot; the limit there is " + bench.len(limit) + ".");
    measuredAgainst(finding, *off, limit, "mm", &*tolerance.plumb_mm);
    finding.remedy =
        "Bring the wall plumb there before the unit goes in: the unit is set plumb whatever the wall does.";
    finding.spot.side = i == 0 ? plan::Side::Left : plan::Side::Right;
  }
}

void judgePlumb(Bench& bench) {
  const auto& tolerance = bench.practice.opening_tolerance;
  if (!tolerance.plumb_mm || !tolerance.plumb_over) {
    bench.not_judged.emplace_back("studs out of plumb");
    return;
  }
  const auto& corner = bench.planned().as_built.shape.corner;
  const std::array<double, 2> lean{corner[3].x - corner[0].x, corner[2].x - corner[1].x};
  const std::array<double, 2> height{corner[3].z - corner[0].z, corner[2].z - corner[1].z};
  for (std::size_t i = 0; i < 2; ++i) {
    const double limit = tolerance.plumb_mm->value * height[i] / tolerance.plumb_over->value;
    if (!above(std::abs(lean[i]), limit)) continue;
    auto& finding = add(bench.findings, Severity::Attend, "studs plumb",
                        std::string(i == 0 ? "The left" : "The right") + " stud leans " + bench.len(std::abs(lean[i])) +
                            " to the " + (lean[i] > 0 ? "right" : "left") + " over its height; the limit there is " +
                            bench.len(limit) + ".");
    measuredAgainst(finding, lean[i], limit, "mm", &*tolerance.plumb_mm);
    finding.remedy = "Straighten the stud, or take the lean up in the packers and say so to whoever lines the wall.";
    finding.spot.side = i == 0 ? plan::Side::Left : plan::Side::Right;
  }
  judgeInAndOut(bench, height);
}

double spreadOf(const std::array<std::optional<double>, 3>& readings) {
  double low = 0;
  double high = 0;
  bool any = false;
  for (const auto& reading : readings) {
    if (!reading) continue;
    low = any ? std::min(low, *reading) : *reading;
    high = any ? std::max(high, *reading) : *reading;
    any = true;
  }
  return high - low;
}

void judgeShape(Bench& bench) {
  const auto& tolerance = bench.practice.opening_tolerance;
  const auto& built = bench.planned().as_built;
  const auto& measured = *bench.opening().measured;
  const double fall = built.shape.corner[1].z;
  judgeLimit(
      bench, tolerance.sill_level, "sill level", "fall of the sill", fall,
      "The sill's right end is " + bench.len(std::abs(fall)) + (fall > 0 ? " higher" : " lower") + " than its left.",
      "Take it up in the sill packers: the unit is set level whatever the sill does.", plan::Side::Sill);
  const double lean = plan::squareLean(built.shape);
  judgeLimit(bench, tolerance.diagonals, "square", "difference of the diagonals", built.out_of_square,
             "The opening is out of square: its diagonals differ by " + bench.len(std::abs(built.out_of_square)) +
                 ", which is a lean of " + bench.len(std::abs(lean)) + " over its height.",
             "The unit is set square whatever the opening does; see that the gaps carry it.", std::nullopt);
  judgeLimit(bench, tolerance.width_spread, "widths", "spread of the widths", spreadOf(measured.widths),
             "The widths differ by " + bench.len(spreadOf(measured.widths)) + " between foot and head.",
             "Read them again; straighten the studs if they stand so.", std::nullopt);
  judgeLimit(bench, tolerance.height_spread, "heights", "spread of the heights", spreadOf(measured.heights),
             "The heights differ by " + bench.len(spreadOf(measured.heights)) + " from side to side.",
             "Read them again; level the sill or the head if they stand so.", std::nullopt);
  if (built.tilt_alone) {
    add(bench.findings, Severity::Note, "twist", "One stud's tilt was read without the other's: twist can't be told.")
        .remedy = "Read the other stud's tilt too.";
  }
  if (built.twist) {
    judgeLimit(bench, tolerance.twist, "twist", "twist between the studs", *built.twist,
               "The studs are twisted against each other by " + bench.len(std::abs(*built.twist)) +
                   " out of the wall's plane.",
               "Bring the studs into one plane: a unit screwed to both would be twisted with them.", std::nullopt);
  }
}

void judgeBow(Bench& bench) {
  const auto& built = bench.planned().as_built;
  if (built.bow_sigma <= 0) return;  // no middle reading: nothing is known of the bow
  const auto& bow = built.shape.bow;
  const std::array<std::pair<plan::Side, double>, 4> bows{{{plan::Side::Left, bow.left},
                                                           {plan::Side::Right, bow.right},
                                                           {plan::Side::Sill, bow.sill},
                                                           {plan::Side::Head, bow.head}}};
  const auto worst = std::max_element(
      bows.begin(), bows.end(), [](const auto& a, const auto& b) { return std::abs(a.second) < std::abs(b.second); });
  const bool across = worst->first == plan::Side::Left || worst->first == plan::Side::Right;
  judgeLimit(bench, bench.practice.opening_tolerance.bow, "bow", "bow of the studs, sill and head", worst->second,
             std::string(across ? "The studs are bowed " : "Sill and head are bowed ") +
                 (worst->second > 0 ? "into" : "out of") + " the opening by " + bench.len(std::abs(worst->second)) +
                 " each, if both share it.",
             "Find which of the two it is with a straightedge, and straighten it or follow it with the packers.",
             worst->first);
}

}  // namespace

bool enoughRead(const job::Opening& opening) {
  return opening.measured && sizesNotRead(*opening.measured).empty();
}

void judgeReadings(Bench& bench) {
  judgeTrust(bench);
  const auto& opening = bench.opening();
  const auto& built = bench.planned().as_built;
  if (!opening.measured || built.read_count == 0 || !shapeIsTrusted(built)) return;
  judgePlumb(bench);
  judgeShape(bench);
  judgeBow(bench);
}

}  // namespace sillwright::check
