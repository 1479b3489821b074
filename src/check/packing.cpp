// What packs it: stacks against their gaps, and the support of the sill.

#include <algorithm>

#include "check/judge.h"
#include "check/rules.h"

namespace sillwright::check {
namespace {

void judgeBacking(Bench& bench) {
  if (wideGapSaid(bench)) return;
  const plan::PackingPoint* deepest = nullptr;
  for (const auto& point : bench.planned().packing.points) {
    if (point.backing > 0 && (deepest == nullptr || point.gap > deepest->gap)) deepest = &point;
  }
  if (deepest == nullptr) return;
  // One sentence does for the opening; the points are listed under packing.
  auto& finding = bench.attend("packing", "The gap " + placeOf(bench, *deepest) + " is " + bench.len(deepest->gap) +
                                              ", too deep for " + bench.words().packer + "s alone.");
  const auto& most = bench.practice.packing.most_stack;
  if (most) measuredAgainst(finding, deepest->gap, most->value, "mm", &*most);
  finding.remedy = "Fix a timber backing " + bench.len(deepest->backing) + " thick to the framing first.";
  finding.spot.side = deepest->side;
}

void judgeLeftOver(Bench& bench) {
  const auto* most = ruleOrNote(bench, bench.practice.packing.most_left_over, "slack left by the packers");
  if (most == nullptr) return;
  const plan::PackingPoint* worst = nullptr;
  for (const auto& point : bench.planned().packing.points) {
    if (point.gap < 0) continue;  // doesn't fit: said elsewhere
    if (!above(point.left_over, most->value)) continue;
    if (worst == nullptr || point.left_over > worst->left_over) worst = &point;
  }
  if (worst == nullptr) return;
  auto& finding =
      bench.attend("packing", "The " + bench.words().packer + "s at hand leave " + bench.len(worst->left_over) +
                                  " of slack " + placeOf(bench, *worst) + ".");
  measuredAgainst(finding, worst->left_over, most->value, "mm", most);
  finding.remedy = "Bring a thinner " + bench.words().packer + "; never drive one in: that bows the frame.";
  finding.spot.side = worst->side;
}

void judgeSillSupport(Bench& bench) {
  const auto& planned = bench.planned();
  if (planned.packing.sill_full_bearing) {
    auto& finding = bench.note("sill support",
                               "The sill bears on its full length: the rule set packs no door sills at single points.");
    finding.remedy = "Level the floor under it, or bed it on packing that runs through.";
    finding.spot.side = plan::Side::Sill;
  }
  if (planned.unit.isDoor() || !planned.stand.fits) return;
  for (const auto& point : planned.packing.points) {
    if (point.side != plan::Side::Sill || point.stack.pieces > 0 || point.gap < 0.05) continue;
    auto& finding =
        bench.attend("sill support", "No " + bench.words().packer + " at hand is thin enough for the gap of " +
                                         bench.len(point.gap) + " " + placeOf(bench, point) +
                                         ": the unit's weight is not carried there.");
    finding.remedy = "Raise the unit within its clearance, or bring thinner " + bench.words().packer + "s.";
    finding.spot.side = plan::Side::Sill;
    return;
  }
}

}  // namespace

void judgePacking(Bench& bench) {
  judgeBacking(bench);
  judgeLeftOver(bench);
  judgeSillSupport(bench);
}

}  // namespace sillwright::check
