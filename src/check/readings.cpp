// The opening as measured: whether the measurements agree, and how level, plumb, square, straight and flat it is.

#include <tuple>

#include "check/rules.h"

namespace sillwright::check {
namespace {

using plan::Reading;
using plan::Trust;

std::string candidates(const plan::AsBuilt& built, const char* last) {  // the doubted ones, listed
  std::vector<std::string> names;
  for (std::size_t i = 0; i < plan::kAllReadings; ++i) {
    if ((built.suspects >> i & 1U) != 0) names.emplace_back(plan::wordsFor(static_cast<Reading>(i)));  // a bit each
  }
  return words::listed(names, last);
}

/// "Measure the left height again: that settles it." — or for the first time, where it was not taken.
std::string settling(const plan::AsBuilt& built) {
  if (!built.settle_by) return "Measure them again.";  // no reading settles it alone
  return std::string("Measure the ") + plan::wordsFor(*built.settle_by) +
         (plan::wasRead(built, *built.settle_by) ? " again" : " too") + ": that settles it.";
}

/// " It reads 1826: did you read 1862?", by name where more than one is doubted. Slips are looked for in millimetres:
/// of measurements in inches nothing is asked.
std::string slipWords(const Bench& bench) {
  const auto& slip = bench.planned().as_built.slip;
  if (!slip || bench.practice.display != practice::Display::Millimetres) return {};
  const bool alone = bench.planned().as_built.trust == Trust::Suspect;
  return (alone ? std::string(" It reads") : std::string(" The ") + plan::wordsFor(slip->reading)) + " " +
         words::number(slip->read, 1) + ": did you read " + words::number(slip->meant, 1) + "?";
}

/// All that is said of an opening whose measurements disagree: which to take again.
void measurementsDisagree(Bench& bench) {
  const auto& built = bench.planned().as_built;
  const auto stop = [&](std::string say, std::string remedy) {
    bench.add(Severity::Stop, kMeasurements, std::move(say)).remedy = std::move(remedy);
  };
  if (!built.converged) {
    return stop("The measurements make no opening with four corners near the sizes that they give.",
                "Measure everything again: one figure is far out, or two stand in each other's place.");
  }
  if (built.suspects == 0 && !built.peak.agrees) {  // the corners agree, the peak doesn't
    constexpr std::array<const char*, 4> kCorners{"bottom left", "bottom right", "top right", "top left"};
    const std::string which =
        built.peak.suspect ? std::string("distance from the ") + kCorners[*built.peak.suspect] + " corner to the peak"
                           : std::string("distances to the peak");
    return stop("The " + which +
                    " does not agree with the other measurements. Nothing else is judged until it is "
                    "measured again.",
                built.peak.suspect ? "Measure the " + which + " again."
                                   : "Measure the peak from all four corners: three can tell that one is wrong, only "
                                     "four which.");
  }
  if (built.trust == Trust::Suspect) {
    const std::string which = candidates(built, " and ");
    return stop("The " + which + " does not agree with the other measurements: it is off by " +
                    bench.len(built.disagreement) + "." + slipWords(bench) +
                    " Nothing else is judged until it is measured again.",
                "Measure the " + which + " again.");
  }
  stop("The measurements disagree by " + bench.len(built.disagreement) + ": the " + candidates(built, " or ") +
           " is wrong." + slipWords(bench) + " Nothing else is judged until that is settled.",
       settling(built));
}

/// Sizes that rest on the plan alone: no width or no height was measured.
void judgeSizesMeasured(Bench& bench) {
  const auto& [widths, heights] = std::tie(bench.opening().measured->widths, bench.opening().measured->heights);
  const std::array<std::optional<double>, 3> none;  // three places, none read
  if (widths != none && heights != none) return;    // both were measured
  const std::string missing = widths != none    ? "no height"
                              : heights != none ? "no width"
                                                : "neither a width nor a height";
  bench.attend(kMeasurements, "Not enough was measured: " + missing + " was, so its size is still the planned one.", {},
               "Measure widths and heights before the unit is lifted.");
}

void judgeTrust(Bench& bench) {
  const auto& built = bench.planned().as_built;
  if (built.trust == Trust::Planned) {
    bench.note(
        kMeasurements, "Not measured: it is judged by its planned sizes. Measure before it is set.", {},
        "Measure widths, heights and both diagonals, the sill with a level and both studs with a plumb or long level.");
    return;
  }
  if (!shapeIsTrusted(built)) return measurementsDisagree(bench);
  judgeSizesMeasured(bench);
  std::vector<std::string> missing;
  for (const auto& reading : built.readings) {
    if (!reading.read) missing.emplace_back(plan::wordsFor(reading.reading));
  }
  if (!missing.empty()) {
    auto& finding = bench.note(kMeasurements, "Not measured: " + words::listed(missing) + ".", {},
                               "Measure them too: each one checks the others.");
    if (built.turned_free) finding.say += " With neither level nor plumb measured the sill is taken as level.";
    if (built.trust == Trust::Unchecked) {
      finding.say += " None of the measurements checks another: a wrong one would not show.";
      finding.severity = Severity::Attend;
    }
  }
}

/// A limit on one figure of the opening: judged where the practice names it.
/// `say` is given the figure in words, where the limit is passed alone: most openings pass.
template <class Say>
void judgeLimit(Bench& bench, const practice::Rule& rule, const char* about, const char* name, double measured,
                const Say& say, const char* remedy, std::optional<plan::Side> side = {}) {
  const auto* limit = ruleOrNote(bench, rule, name);
  if (limit == nullptr || !above(std::abs(measured), limit->value)) return;
  const auto [off, most] = bench.apart(std::abs(measured), limit->value);
  bench.attend(about, say(off) + " The limit is " + most + ".", {measured, limit->value, "mm", limit}, remedy, side);
}

/// Each stud out of plumb along the wall, and through it by the same limit.
void judgePlumb(Bench& bench) {
  const auto& tolerance = bench.practice.opening_tolerance;
  if (!tolerance.plumb_mm || !tolerance.plumb_over) return bench.notJudged("studs out of plumb");
  const auto& corner = bench.planned().as_built.shape.corner;
  const std::array<double, 2> height{corner[3].z - corner[0].z, corner[2].z - corner[1].z};  // as it was measured
  using Leans = std::array<std::optional<double>, 2>;
  const auto judge = [&](const Leans& off, const char* less, const char* more, const char* remedy) {
    for (const std::size_t i : {0U, 1U}) {
      const double limit = tolerance.plumb_mm->value * height[i] / tolerance.plumb_over->value;
      if (!off[i] || !above(std::abs(*off[i]), limit)) continue;  // not read, or within the limit
      const auto [lean, most] = bench.apart(std::abs(*off[i]), limit);
      bench.attend("studs plumb",
                   std::string(i == 0 ? "The left" : "The right") + " stud is " + lean + " out of plumb" +
                       (*off[i] > 0 ? more : less) + "; the limit over its height is " + most + ".",
                   {*off[i], limit, "mm", &*tolerance.plumb_mm}, remedy, i == 0 ? plan::Side::Left : plan::Side::Right);
    }
  };
  judge({corner[3].x - corner[0].x, corner[2].x - corner[1].x}, " along the wall, its top to the left",
        " along the wall, its top to the right",
        "Straighten the stud, or take it up in the packers and tell whoever lines the wall.");
  judge(bench.opening().measured->out_of_plumb_in, ", its top out", ", its top in",
        "Bring the wall plumb there before the unit goes in: the unit is set plumb.");
}

void judgeTwist(Bench& bench) {
  const auto& tolerance = bench.practice.opening_tolerance;
  const auto& built = bench.planned().as_built;
  if (built.tilt_alone) {
    bench.note("twist", "Only one stud was measured for plumb in and out: whether the studs are twisted isn't known.",
               {}, "Measure the other stud too.");
  }
  if (built.twist) {
    judgeLimit(
        bench, tolerance.twist, "twist", "twist between the studs", *built.twist,
        [](const std::string& twist) {
          return "The studs are twisted: one stands " + twist + " further in or out at its top than the other.";
        },
        "Bring the studs into one plane: a unit screwed to both would be twisted with them.");
  }
}

void judgeShape(Bench& bench) {
  const auto& tolerance = bench.practice.opening_tolerance;
  const auto& built = bench.planned().as_built;
  const auto& measured = *bench.opening().measured;
  const double fall = built.shape.corner[1].z;  // its left end is at height 0
  judgeLimit(
      bench, tolerance.sill_level, "sill level", "level of the sill", fall,
      [&](const std::string& off) {
        return "The sill is " + off + " out of level: its " + (fall > 0 ? "left" : "right") + " end is low.";
      },
      "Take it up in the sill packers: the unit is set level.", plan::Side::Sill);
  if (bench.opening().head) {  // its sizes differ as planned
    bench.notJudged("square, and spread of sizes, under a head that follows the roof");
    return judgeTwist(bench);
  }
  judgeLimit(
      bench, tolerance.diagonals, "square", "difference of the diagonals", built.out_of_square,
      [&](const std::string& off) {
        const double lean = plan::outOfSquare(built.shape).lean;
        return "The opening is out of square: its diagonals differ by " + off + ", as if it were racked by " +
               bench.len(std::abs(lean)) + " over its height.";
      },
      "The unit is set square: see that the gaps at the sides leave room for it.");
  judgeLimit(
      bench, tolerance.width_spread, "widths", "spread of the widths", job::spreadOf(measured.widths).value_or(0),
      [](const std::string& spread) { return "The widths differ by " + spread + " between sill and head."; },
      "Measure them again; straighten the studs if it is so.");
  judgeLimit(
      bench, tolerance.height_spread, "heights", "spread of the heights", job::spreadOf(measured.heights).value_or(0),
      [](const std::string& spread) { return "The heights differ by " + spread + " between left and right."; },
      "Measure them again; level the sill or the head if it is so.");
  judgeTwist(bench);
}

/// What the middle of a pair of edges differs by from its ends is the bow of both together, and may be of one alone: a
/// tape between them can't tell. So it is held against what one of them is allowed, in proportion to its length.
void judgeBow(Bench& bench) {
  const auto& built = bench.planned().as_built;
  const auto& tolerance = bench.practice.opening_tolerance;
  const auto& shape = built.shape;
  struct Pair {
    const char* edges;
    plan::Side side;
    double bow, length;
  };
  const std::array<Pair, 2> pairs{{{"studs", plan::Side::Left, shape.bow.left, shape.corner[3].z},
                                   {"sill and head", plan::Side::Sill, shape.bow.sill, shape.corner[1].x}}};
  for (std::size_t i = 0; i < 2; ++i) {
    if (built.bow_doubt[i].sigma <= 0) continue;  // nothing is known of the bow
    const auto* figure = ruleOrNote(bench, tolerance.bow, "bow of the studs, sill and head");
    if (figure == nullptr) return;
    const double limit =
        tolerance.bow_over ? figure->value * pairs[i].length / tolerance.bow_over->value : figure->value;
    const double together = 2 * pairs[i].bow;  // the plan gives half of the bow to each edge
    if (!above(std::abs(together), limit)) continue;
    const auto [bow, most] = bench.apart(std::abs(together), limit);
    bench.attend("bow",
                 "The " + std::string(pairs[i].edges) + " are bowed " + (together > 0 ? "into" : "out of") +
                     " the opening by " + bow + " together. The limit for one of them is " + most + " at this length.",
                 {together, limit, "mm", figure},
                 "Find which of the two it is with a straightedge, and straighten it or follow it with the " +
                     bench.words().packer + "s.",
                 pairs[i].side);
  }
}

}  // namespace

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
