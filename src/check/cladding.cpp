// What stands before the frame and its cavity: where it may be, what closes, drains and bridges it at an opening.

#include "check/rules.h"
#include "plan/stand/sill_support.h"

namespace sillwright::check {
namespace {

void judgeDirectFix(Bench& bench) {
  const auto& cladding = bench.wall().spec.cladding;
  const auto name = windClass(bench);
  if (cladding.thickness <= 0 || cladding.cavity > 0 || plan::isBrick(cladding)) return;
  if (!listed(bench.practice.weather.cladding.direct_fix_not_in, name)) return;
  auto& finding = bench.attend("cladding", "The " + bench.words().cladding +
                                               " is fixed direct, which the practice does not allow in wind class " +
                                               std::string(name) + ".");
  finding.remedy = "Put it on battens, with a cavity.";
}

void judgeMembraneSupport(Bench& bench) {
  const auto& rules = bench.practice.weather.membrane;
  const auto& layers = bench.wall().spec.cladding;
  if (layers.cavity <= 0 || plan::isBrick(layers) || !rules.support_from_studs || !rules.support_spacing_most) return;
  const double spacing = bench.wall().spec.spacing;
  if (!above(spacing, rules.support_from_studs->value)) return;
  auto& finding =
      bench.note("membrane support", "Studs stand " + bench.len(spacing) + " apart: behind the cavity the " +
                                         bench.words().membrane + " is held by battens or tape at no more than " +
                                         bench.len(rules.support_spacing_most->value) + ".");
  measuredAgainst(finding, spacing, rules.support_from_studs->value, "mm", &*rules.support_from_studs);
}

/// Tells a figure that the job gives nothing to hold against.
Finding& tell(Bench& bench, const char* about, std::string say, const practice::Figure& figure) {
  auto& finding = bench.note(about, std::move(say));
  restsOn(finding, figure);
  return finding;
}

void judgeCavity(Bench& bench) {
  if (bench.wall().spec.cladding.cavity <= 0) return;
  if (const practice::Rule least = plan::cavityCloser(bench.wall().spec, bench.practice)) {
    tell(bench, "cavity barrier",
         "The cavity is closed all round the opening against fire; timber that does it is " + bench.len(least->value) +
             " thick or more.",
         *least);
  }
  const auto& wider = bench.practice.packing.cavity_support_above;
  if (!plan::wantsSillSupport(bench.planned().unit, bench.opening().width, bench.wall().spec, bench.practice)) return;
  auto& finding = tell(bench, "sill support",
                       "The unit stands out over a cavity of " + bench.len(bench.wall().spec.cladding.cavity) +
                           ": its sill is carried by a support fixed across it.",
                       *wider);
  finding.spot.side = plan::Side::Sill;
}

/// A clear cavity wide enough to stay clean, and narrow enough for its ties.
void judgeBrickCavity(Bench& bench, double cavity) {
  const auto& rules = bench.practice.weather.cladding;
  const auto* least = ruleOrNote(bench, rules.brick_cavity_least, "the cavity behind brick");
  if (least == nullptr) return;
  const bool narrow = below(cavity, least->value);
  const bool wide = rules.brick_cavity_most && above(cavity, rules.brick_cavity_most->value);
  if (!narrow && !wide) return;
  const practice::Figure& limit = narrow ? *least : *rules.brick_cavity_most;
  auto& finding =
      bench.attend("brick cavity", "The cavity behind the brick is " + bench.len(cavity) + "; " +
                                       (narrow ? "at least " : "at most ") + bench.len(limit.value) + " is required.");
  measuredAgainst(finding, cavity, limit.value, "mm", &limit);
}

/// A door stands on the floor, with nothing under it that the frame comes down on.
void judgeMovementGap(Bench& bench) {
  if (bench.opening().sill <= 0) return;
  const double level = bench.wall().spec.level;
  const auto* least = ruleOrNote(bench, bench.practice.weather.cladding.movementGap(level),
                                 "the gap that a shrinking frame wants to masonry");
  if (least == nullptr) return;
  tell(bench, "movement gap",
       "The frame shrinks and the masonry doesn't: under the sill a gap of " + bench.len(least->value) +
           " or more is kept to it " +
           (level > 0 ? "at the storey above the ground's, and more higher up." : "at the ground storey."),
       *least)
      .spot.side = plan::Side::Sill;
}

void judgeMasonry(Bench& bench) {
  const auto& rules = bench.practice.weather.cladding;
  const auto& cladding = bench.wall().spec.cladding;
  if (!plan::isBrick(cladding)) return;
  judgeBrickCavity(bench, cladding.cavity);
  if (rules.sill_slope_least && bench.opening().sill > 0) {
    tell(bench, "sill bricks", "Sill bricks slope outwards by " + number(rules.sill_slope_least->value) + "° or more.",
         *rules.sill_slope_least)
        .spot.side = plan::Side::Sill;
  }
  judgeMovementGap(bench);
  if (const auto* most = ruleOrNote(bench, rules.weep_spacing_most, "weepholes over the head")) {
    tell(bench, "weepholes",
         "Over the head " + bench.words().flashing + " the masonry has weepholes no more than " +
             bench.len(most->value) + " apart.",
         *most)
        .spot.side = plan::Side::Head;
  }
}

}  // namespace

void judgeCladding(Bench& bench) {
  if (!bench.planned().isFlashed()) return;
  judgeDirectFix(bench);
  judgeMembraneSupport(bench);
  judgeCavity(bench);
  judgeMasonry(bench);
}

}  // namespace sillwright::check
