#include <algorithm>
#include <cmath>

#include "plan/fixing_hold.h"
#include "practice/display.h"

namespace sillwright::plan {
namespace {

constexpr int kMostPerJamb = 16;
/// Fixings nearer to each other than this split the reveal. Common practice, no source.
constexpr double kClosest = 100;
constexpr double kLeastMove = 0.25;  // mm; less than anyone can set out
constexpr int kHalvings = 24;

FixingHelp startingFrom(const Fixings& now, FixingHelpKind kind) {
  FixingHelp help;
  help.kind = kind;
  help.ratio = now.worst_ratio;
  return help;
}

FixingHelp moreFixings(const Hold& hold, const Fixings& now, const ScrewStock& stock) {
  const auto on_left = std::count_if(now.points.begin(), now.points.end(),
                                     [](const Fixing& fixing) { return fixing.side == Side::Left; });
  FixingHelp help = startingFrom(now, FixingHelpKind::MoreFixings);
  help.per_jamb = static_cast<int>(on_left);
  const int most = std::min(kMostPerJamb, static_cast<int>(hold.unit.height / kClosest));
  for (int count = help.per_jamb + 1; count <= most; ++count) {
    const Fixings then = holdAt(hold, fixingSpots(hold.unit, hold.practice, count), stock, 0);
    if (then.worst < 0 || then.worst_ratio >= help.ratio) continue;
    help.per_jamb = count;
    help.ratio = then.worst_ratio;
    if (then.worst_ratio <= 1) break;
  }
  return help;
}

/// The least move that does, or the one that brings the worst lowest: the side that is moved to gets easier, the
/// other harder.
FixingHelp smallerPacker(const Hold& hold, const Fixings& now, const FixingSpots& spots, const ScrewStock& stock) {
  FixingHelp help = startingFrom(now, FixingHelpKind::SmallerPacker);
  const Side side = now.points[static_cast<std::size_t>(now.worst)].side;
  if (side == Side::Sill || !hold.stand.fits) return help;
  const LeastGaps& least = hold.stand.least;
  const auto closest = [&](Side of) { return hold.stand.gaps.closest[static_cast<std::size_t>(of)]; };
  const double room = side == Side::Left ? closest(side) - least.left : closest(side) - least.right;
  const double sign = side == Side::Left ? -1 : 1;
  if (room < kLeastMove) return help;
  const auto ratioAt = [&](double by) { return holdAt(hold, spots, stock, sign * by); };
  // Worst on the side that is moved to falls with the move, the other side's rises: halve to where they meet.
  double low = 0;
  double high = room;
  for (int i = 0; i < kHalvings && high - low > kLeastMove / 8; ++i) {
    const double middle = (low + high) / 2;
    const Fixings then = ratioAt(middle);
    const bool same = then.worst >= 0 && then.points[static_cast<std::size_t>(then.worst)].side == side;
    if (then.worst_ratio < help.ratio) {
      help.ratio = then.worst_ratio;
      help.move = sign * middle;
    }
    (same && then.worst_ratio > 1 ? low : high) = middle;
  }
  return help;
}

std::string nameOf(const practice::Gauge& gauge, double length, practice::Display display) {
  return gauge.name + " x " + practice::showLength(length, display);
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
  std::vector<FixingHelp> help{moreFixings(hold, fixings, stock)};
  if (fixings.points[static_cast<std::size_t>(fixings.worst)].kind == FixingKind::ThroughReveal) {
    help.push_back(smallerPacker(hold, fixings, spots, stock));
  }
  help.push_back(largerGauge(hold, fixings, spots));
  // What brings nothing isn't named.
  std::erase_if(help, [&](const FixingHelp& each) { return !(each.ratio < fixings.worst_ratio); });
  return help;
}

}  // namespace sillwright::plan
