#include <algorithm>
#include <cmath>

#include "plan/stand/place_parts.h"

namespace sillwright::plan {
namespace {

constexpr std::size_t kMostChoices = 81;  // three lines on each of four edges
// The height on the even line is a fixed point of a piecewise linear contraction: it is exact once its lines repeat,
// which takes two or three rounds; the limit only bounds what a shape made to be awkward could ask for.
constexpr int kMostRounds = 16;

double evenPosition(const Clearing& clearing, double z) {
  const double left = clearing.reach(Side::Left)(z) + clearing.leastGap(Side::Left);
  const double right = clearing.reach(Side::Right)(z) + clearing.width() + clearing.leastGap(Side::Right);
  return (left - right) / 2;
}

// The height at which the unit, standing evenly between the jambs, has just `gap` at sill or head.
double evenHeight(const Clearing& clearing, Side side, double gap) {
  const double sign = inwardSign(side);
  const double offset = gap + (side == Side::Head ? clearing.height() : 0.0);
  const ReachLine* lines[3] = {};
  double z = sign * (clearing.reach(side)(evenPosition(clearing, 0)) + offset);
  for (int round = 0; round < kMostRounds; ++round) {
    const ReachLine& left = clearing.reach(Side::Left).lineAt(z);
    const ReachLine& right = clearing.reach(Side::Right).lineAt(z);
    const ReachLine& held = clearing.reach(side).lineAt(evenPosition(clearing, z));
    if (lines[0] == &left && lines[1] == &right && lines[2] == &held) break;
    lines[0] = &left;
    lines[1] = &right;
    lines[2] = &held;
    // x = x0 + lean·z, and z = ±(at_zero + slope·x + offset).
    const double lean = (left.slope - right.slope) / 2;
    const double x0 = evenPosition(clearing, z) - lean * z;
    z = sign * (held.at_zero + held.slope * x0 + offset) / (1 - sign * held.slope * lean);
  }
  return z;
}

// Stands evenly between the jambs with `spare` all round?
bool evenStandHolds(const Clearing& clearing, double z, double spare) {
  return clearing.spareAt(evenPosition(clearing, z), z) >= spare - 2 * kTouch;
}

struct Nearest {
  double wanted = 0;
  double found = 0;
  bool any = false;

  void offer(double value) {
    if (!any || std::abs(value - wanted) < std::abs(found - wanted)) found = value;
    any = true;
  }
};

// The even stand nearest to `wanted` in height: at it, or where a gap along the even line is just its least.
Nearest nearestEven(const Clearing& clearing, double wanted, double spare) {
  Nearest nearest{wanted};
  const auto offerIfHolds = [&](double z) {
    if (evenStandHolds(clearing, z, spare)) nearest.offer(z);
  };
  offerIfHolds(evenHeight(clearing, Side::Sill, clearing.leastGap(Side::Sill) + spare));
  offerIfHolds(evenHeight(clearing, Side::Head, clearing.leastGap(Side::Head) + spare));
  const Reach& left = clearing.reach(Side::Left);
  const Reach& right = clearing.reach(Side::Right);
  const double taken = clearing.width() + clearing.leastGap(Side::Left) + clearing.leastGap(Side::Right) + 2 * spare;
  for (std::size_t i = 0; i < static_cast<std::size_t>(left.lines); ++i) {
    for (std::size_t j = 0; j < static_cast<std::size_t>(right.lines); ++j) {
      const double narrowing = left.line[i].slope + right.line[j].slope;
      if (narrowing == 0) continue;
      offerIfHolds(-(left.line[i].at_zero + right.line[j].at_zero + taken) / narrowing);
    }
  }
  return nearest;
}

}  // namespace

double sidewaysAt(const Clearing& clearing, double z, double spare) {
  const double even = evenPosition(clearing, z);
  if (clearing.spareAt(even, z) >= spare - 2 * kTouch) return even;
  Nearest nearest{even};
  clearing.forEachChoiceAbove(spare, [&](const Choice& choice) {
    const Range range = positionsOf(choice, z, spare - 2 * kTouch);
    if (!range.empty()) nearest.offer(std::clamp(even, range.low, range.high));
  });
  return nearest.any ? nearest.found : even;
}

Point preferredStand(const Clearing& clearing, double spare, double packing) {
  const double wanted = evenHeight(clearing, Side::Sill, packing);
  if (evenStandHolds(clearing, wanted, spare)) return {evenPosition(clearing, wanted), wanted};
  Nearest nearest = nearestEven(clearing, wanted, spare);
  if (nearest.any) return {evenPosition(clearing, nearest.found), nearest.found};
  // Only stands that are uneven between the jambs hold.
  clearing.forEachChoiceAbove(spare, [&](const Choice& choice) {
    const Range range = heightsOf(choice, spare - kTouch);
    if (!range.empty()) nearest.offer(std::clamp(wanted, range.low, range.high));
  });
  const double z = nearest.any ? nearest.found : wanted;
  return {sidewaysAt(clearing, z, spare), z};
}

Range heightsRound(const Clearing& clearing, double z, double spare) {
  if (clearing.centralSuffices(spare)) return heightsOf(clearing.centralChoice(), spare - kTouch);
  std::array<Range, kMostChoices> ranges;
  std::size_t count = 0;
  clearing.forEachChoice([&](const Choice& choice) {
    const Range range = heightsOf(choice, spare - kTouch);
    if (!range.empty()) ranges[count++] = range;
  });
  Range reached{z, z};
  for (bool grown = true; grown;) {
    grown = false;
    for (std::size_t i = 0; i < count; ++i) {
      const bool touches = ranges[i].low <= reached.high + kTouch && reached.low <= ranges[i].high + kTouch;
      if (!touches || (ranges[i].low >= reached.low && ranges[i].high <= reached.high)) continue;
      reached = {std::min(reached.low, ranges[i].low), std::max(reached.high, ranges[i].high)};
      grown = true;
    }
  }
  return reached;
}

Range evenHeightsIn(const Clearing& clearing, Range heights, double z, double spare) {
  if (!evenStandHolds(clearing, z, spare)) return heights;
  const Range even{std::max(heights.low, evenHeight(clearing, Side::Sill, clearing.leastGap(Side::Sill) + spare)),
                   std::min(heights.high, evenHeight(clearing, Side::Head, clearing.leastGap(Side::Head) + spare))};
  // A rounding can leave the preferred height itself just outside.
  return {std::min(even.low, z), std::max(even.high, z)};
}

}  // namespace sillwright::plan
