#include <algorithm>
#include <cmath>

#include "plan/hold/fixing_hold.h"
#include "words/length.h"

namespace sillwright::plan {
namespace {

constexpr int kMostPerJamb = 16;
/// Fixings nearer to each other than this split the reveal. Common practice, no source.
constexpr double kClosest = 100;
constexpr double kLeastMove = 0.25;  // mm; less than anyone can set out
constexpr double kWorstTold = 100;   // times too much

FixingHelp startingFrom(const Fixings& now, FixingHelpKind kind) {
  FixingHelp help;
  help.kind = kind;
  help.ratio = now.worst_ratio;
  return help;
}

/// About how many a jamb would do: wind on a fixing goes by the length of jamb nearest to it, which is its spacing, or
/// at the ends half of that and the distance to the corner.
double aboutEnough(const Hold& hold, const Fixings& now, int on_jamb) {
  const Fixing& worst = now.points[static_cast<std::size_t>(now.worst)];
  double on_side = 0;
  double end = hold.unit.height;
  for (const Fixing& fixing : now.points) {
    if (fixing.side != worst.side) continue;
    on_side += fixing.wind_n;
    end = std::min(end, fixing.at);
  }
  const double length = worst.wind_n / on_side * hold.unit.height / std::min(now.worst_ratio, kWorstTold);
  const double spacing = std::min(length, 2 * (length - end));
  return spacing > 0 ? 1 + (hold.unit.height - 2 * end) / spacing : on_jamb + 1;
}

/// The fewest a jamb that do.
FixingHelp moreFixings(const Hold& hold, const Fixings& now, const ScrewStock& stock) {
  const auto on_left = static_cast<int>(std::count_if(now.points.begin(), now.points.end(),
                                                      [](const Fixing& fixing) { return fixing.side == Side::Left; }));
  FixingHelp help = startingFrom(now, FixingHelpKind::MoreFixings);
  help.per_jamb = on_left;
  const int most = std::min(kMostPerJamb, static_cast<int>(hold.unit.height / kClosest));
  const auto tries = [&](int count) {
    const Fixings then = holdAt(hold, fixingSpots(hold.unit, hold.practice, count), stock, 0);
    if (then.worst < 0 || then.worst_ratio >= help.ratio) return false;
    help.per_jamb = count;
    help.ratio = then.worst_ratio;
    return help.ratio <= 1;
  };
  const double guess = std::min(aboutEnough(hold, now, on_left), static_cast<double>(most));
  const int first = std::max(static_cast<int>(guess), on_left + 1);
  int count = first;
  while (count <= most && !tries(count)) ++count;
  if (count != first) return help;
  // It did at once: fewer may do too.
  while (count > on_left + 1) {
    const Fixings then = holdAt(hold, fixingSpots(hold.unit, hold.practice, --count), stock, 0);
    if (then.worst < 0 || then.worst_ratio > 1) break;
    help.per_jamb = count;
    help.ratio = then.worst_ratio;
  }
  return help;
}

/// Worst demand over capacity on a jamb.
double worstOn(const Fixings& fixings, Side side) {
  double worst = 0;
  for (const Fixing& fixing : fixings.points) {
    if (fixing.side == side && fixing.capacity_n && *fixing.capacity_n > 0) {
      worst = std::max(worst, fixing.demand_n / *fixing.capacity_n);
    }
  }
  return worst;
}

/// A move that does, or the one that brings the worst about lowest: the side that is moved to gets easier, the other
/// harder. Both curves bend upwards, so that the straight lines between no move and the most never tell too little.
FixingHelp smallerPacker(const Hold& hold, const Fixings& now, const FixingSpots& spots, const ScrewStock& stock) {
  FixingHelp help = startingFrom(now, FixingHelpKind::SmallerPacker);
  const Side side = now.points[static_cast<std::size_t>(now.worst)].side;
  if (side == Side::Sill || !hold.stand.fits) return help;
  const Side other = side == Side::Left ? Side::Right : Side::Left;
  const double least = side == Side::Left ? hold.stand.least.left : hold.stand.least.right;
  const double room = hold.stand.gaps.closest[static_cast<std::size_t>(side)] - least;
  if (room < kLeastMove) return help;
  const double sign = side == Side::Left ? -1 : 1;
  const Fixings moved = holdAt(hold, spots, stock, sign * room);
  const double eased = now.worst_ratio - worstOn(moved, side);
  if (eased <= 0) return help;
  const double apart = now.worst_ratio - worstOn(now, other);
  const double closing = eased + worstOn(moved, other) - worstOn(now, other);
  const double does = room * (now.worst_ratio - 1) / eased;
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
