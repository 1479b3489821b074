#include <algorithm>
#include <cmath>

#include "plan/hold/fixing_hold.h"
#include "words/length.h"

namespace sillwright::plan {
namespace {

constexpr double kLeastMove = 1;    // mm; less than anyone sets out
constexpr double kWorstTold = 100;  // times too much; what is worse is as bad

FixingHelp startingFrom(const Fixings& now, FixingHelpKind kind) {
  FixingHelp help;
  help.kind = kind;
  help.ratio = now.worst_ratio;
  return help;
}

/// Worst demand over capacity on a jamb; without end where a fixing can take nothing.
double worstOn(const Fixings& fixings, Side side) {
  double worst = 0;
  for (const Fixing& fixing : fixings.points) {
    if (fixing.side == side && fixing.capacity_n) worst = std::max(worst, ratioOf(fixing));
  }
  return worst;
}

/// A move that does, or the one that brings the worst about lowest: the side that is moved to gets easier, the other
/// harder. Both curves bend upwards, so that the straight lines between no move and the most never tell too little.
FixingHelp smallerPacker(const Hold& hold, const Fixings& now, const FixingSpots& spots, const ScrewStock& stock) {
  FixingHelp help = startingFrom(now, FixingHelpKind::SmallerPacker);
  const Side side = now.points[static_cast<std::size_t>(now.worst)].side;
  if (isLevel(side) || !hold.stand.fits) return help;
  const Side other = side == Side::Left ? Side::Right : Side::Left;
  const double least = side == Side::Left ? hold.stand.least.left : hold.stand.least.right;
  const double room = hold.stand.gaps.closest[static_cast<std::size_t>(side)] - least;
  if (room < kLeastMove) return help;
  const double sign = side == Side::Left ? -1 : 1;
  const Fixings moved = holdAt(hold, spots, stock, sign * room);
  const double eased = now.worst_ratio - worstOn(moved, side);
  if (!(eased > 0)) return help;  // nothing is held now, and nothing then
  if (std::isinf(eased)) {
    help.move = sign * room;
    help.ratio = moved.worst_ratio;
    return help;
  }
  const double apart = now.worst_ratio - worstOn(now, other);
  const double closing = eased + std::min(worstOn(moved, other), kWorstTold) - worstOn(now, other);
  const double does = std::max(room * (now.worst_ratio - 1) / eased, kLeastMove);
  const double meets = closing > 0 ? room * apart / closing : room;
  const double move = std::min({does, meets, room});
  if (move < kLeastMove) return help;
  help.move = sign * move;
  help.ratio = holdAt(hold, spots, stock, help.move).worst_ratio;
  return help;
}

std::string nameOf(const practice::Gauge& gauge, double length, practice::Display display) {
  return gauge.name + " x " + words::bareLength(length, display);
}

/// The thinnest larger gauge that does, in lengths that can be bought; else the one that comes nearest.
FixingHelp largerGauge(const Hold& hold, const Fixings& now, const FixingSpots& spots) {
  FixingHelp help = startingFrom(now, FixingHelpKind::LargerGauge);
  const std::int32_t screw = now.points[static_cast<std::size_t>(now.worst)].screw;
  const double shank = now.screws[static_cast<std::size_t>(screw)].shank;
  for (const practice::Gauge& gauge : hold.practice.strength.gauges) {
    if (gauge.shank.value <= shank) continue;
    const Fixings then = holdAt(hold, spots, screwsOf(gauge), 0);
    if (then.worst < 0 || then.length_wanted > 0 || then.worst_ratio >= help.ratio) continue;
    double longest = 0;
    for (const ChosenScrew& chosen : then.screws) longest = std::max(longest, chosen.length);
    help.screw = nameOf(gauge, longest, hold.practice.display);
    help.ratio = then.worst_ratio;
    if (then.worst_ratio <= 1) break;
  }
  return help;
}

}  // namespace

std::vector<FixingHelp> helpFor(const Hold& hold, const Fixings& fixings, const FixingSpots& spots,
                                const ScrewStock& stock) {
  std::vector<FixingHelp> help;
  if (fixings.points[static_cast<std::size_t>(fixings.worst)].kind == FixingKind::ThroughReveal) {
    help.push_back(smallerPacker(hold, fixings, spots, stock));
  }
  help.push_back(largerGauge(hold, fixings, spots));
  // What isn't enough alone isn't named.
  std::erase_if(help, [](const FixingHelp& each) { return !(each.ratio <= 1); });
  return help;
}

}  // namespace sillwright::plan
