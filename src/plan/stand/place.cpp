#include "plan/stand/place.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "plan/stand/clearing.h"

namespace sillwright::plan {

namespace {

constexpr double kNamedWeight = 1e-9;  // a governor of less weight is rounding

double valueOf(const practice::Figure* figure) { return figure ? figure->value : 0.0; }
double valueOf(const practice::Rule& rule, double otherwise) { return rule ? rule->value : otherwise; }

Gaps gapsAt(const Profiles& edges, const Clearing& clearing, double x, double z) {
  const double right = x + clearing.width();
  const double top = z + clearing.height();
  const auto edge = [&](Side side, double t) { return edges[indexOf(side)].edgeAt(t); };
  Gaps gaps;
  const double left_top = z + clearing.sizeAlong(Side::Left);  // a jamb of a raked unit ends lower than the unit
  const double right_top = z + clearing.sizeAlong(Side::Right);
  gaps.left = {x - edge(Side::Left, z), x - edge(Side::Left, left_top)};
  gaps.right = {edge(Side::Right, z) - right, edge(Side::Right, right_top) - right};
  gaps.sill = {z - edge(Side::Sill, x), z - edge(Side::Sill, right)};
  const auto& drop = edges[indexOf(Side::Head)].drop;  // how far its corners lie under its highest point
  gaps.head = {edge(Side::Head, x) - top + drop[0], edge(Side::Head, right) - top + drop[2]};
  for (const Side side : kEverySide) gaps.closest[indexOf(side)] = clearing.gap(side, x, z);
  return gaps;
}

void setGovernors(Stand& stand, const Governing& governing) {
  stand.governors = 0;
  for (const Side side : kEverySide) {
    for (const At at : {At::Start, At::Middle, At::End}) {
      const double weight = governing.weight[indexOf(side)][static_cast<std::size_t>(at)];
      if (weight < kNamedWeight) continue;
      stand.governed_by[static_cast<std::size_t>(stand.governors++)] = {side, at, weight};
    }
  }
}

void setSizes(Stand& stand, const Profiles& edges, const Clearing& clearing, const PlaceRules& rules,
              bool order_as_planned) {
  const double step = rules.size_step;
  const LargestSizes largest = largestSizes(edges, clearing, rules.least);
  stand.largest_unit = {roundedDown(largest.width, step), roundedDown(largest.height, step)};
  if (order_as_planned) {  // no other size is told where it fits
    stand.order = {clearing.width(), clearing.height()};
    return;
  }

  const Clearing usual(edges, clearing.width(), clearing.height(), rules.usual);
  LargestSizes order = largestSizes(edges, usual, rules.usual);
  if (order.width < usual.width() || order.height < usual.height()) {
    // The planned size leaves less than the usual gaps: ordered from one that leaves them.
    const auto [width, height] = cutToMiddle(edges, usual, rules.usual, step);
    order = largestSizes(edges, Clearing(edges, width, height, rules.usual), rules.usual);
  }
  stand.order = {roundedDown(order.width, step), roundedDown(order.height, step)};
}

// Least spare that the stand was chosen with.
double keptSpare(double spare) { return std::min(spare, 0.0); }

constexpr std::size_t kMostChoices = 81;  // three lines on each of four edges
// The height on the even line is a fixed point of a piecewise linear contraction: it is exact once its lines repeat,
// which takes two or three rounds; the limit only bounds what a shape made to be awkward could ask for.
constexpr int kMostRounds = 16;

double evenPosition(const Clearing& clearing, double z) {
  const double left = clearing.reach(Side::Left)(z) + clearing.leastGap(Side::Left);
  const double right = clearing.reach(Side::Right)(z) + clearing.width() + clearing.leastGap(Side::Right);
  return (left - right) / 2;  // x ≥ left and −x ≥ right, with the same excess
}

// The height at which the unit, standing evenly between the jambs, has just `gap` at sill or head.
double evenHeight(const Clearing& clearing, Side side, double gap) {
  const double sign = inwardSign(side);
  const double offset = gap + (side == Side::Head ? clearing.height() : 0.0);
  std::array<const ReachLine*, 3> lines{};
  double z = sign * (clearing.reach(side)(evenPosition(clearing, 0)) + offset);
  for (int round = 0; round < kMostRounds; ++round) {
    const ReachLine& left = clearing.reach(Side::Left).lineAt(z);
    const ReachLine& right = clearing.reach(Side::Right).lineAt(z);
    const ReachLine& held = clearing.reach(side).lineAt(evenPosition(clearing, z));
    if (std::exchange(lines, {&left, &right, &held}) == std::array{&left, &right, &held}) break;
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
      if (narrowing == 0) continue;  // as much room at every height
      offerIfHolds(-(left.line[i].at_zero + right.line[j].at_zero + taken) / narrowing);
    }
  }
  return nearest;
}

/// Position at height z with as much more than its least gap at the left as at the right, moved no more than sill and
/// head ask for.
double sidewaysAt(const Clearing& clearing, double z, double spare) {
  const double even = evenPosition(clearing, z);
  if (clearing.spareAt(even, z) >= spare - 2 * kTouch) return even;
  Nearest nearest{even};
  clearing.forEachChoiceAbove(spare, [&](const Choice& choice) {
    const Range range = positionsOf(choice, z, spare - 2 * kTouch);  // twice the slack that z was found with
    if (!range.empty()) nearest.offer(std::clamp(even, range.low, range.high));
  });
  return nearest.any ? nearest.found : even;
}

/// The preferred stand (the unit's lower left corner) among those with at least `spare` (0, or the largest spare
/// where that is negative). `packing`: usual packing over the highest point of the sill under the unit.
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

/// The heights that can be reached from `z` without passing through one that leaves less than `spare`.
Range heightsRound(const Clearing& clearing, double z, double spare) {
  if (clearing.centralSuffices(spare)) return heightsOf(clearing.centralChoice(), spare - kTouch);
  std::array<Range, kMostChoices> ranges;
  std::size_t count = 0;
  clearing.forEachChoice([&](const Choice& choice) {
    const Range range = heightsOf(choice, spare - kTouch);
    if (!range.empty()) ranges[count++] = range;
  });
  Range reached{z, z};  // grows over every range that it touches, until none is left
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

/// The part of `heights` in which sill and head leave at least `spare` where the unit stands evenly between the jambs;
/// all of it where the even stand at `z` does not hold.
Range evenHeightsIn(const Clearing& clearing, Range heights, double z, double spare) {
  if (!evenStandHolds(clearing, z, spare)) return heights;
  const Range even{std::max(heights.low, evenHeight(clearing, Side::Sill, clearing.leastGap(Side::Sill) + spare)),
                   std::min(heights.high, evenHeight(clearing, Side::Head, clearing.leastGap(Side::Head) + spare))};
  // A rounding can leave the preferred height itself just outside.
  return {std::min(even.low, z), std::max(even.high, z)};
}

}  // namespace

PlaceRules placeRules(double opening_width, const UnitSpec& unit, const practice::Clearance& clearance) {
  const auto at = [opening_width](const practice::Bands& bands) { return valueOf(bands.at(opening_width)); };
  PlaceRules rules;
  rules.least.left = rules.least.right = at(clearance.side_least);  // the practice has one figure for both
  rules.usual.left = rules.usual.right = at(clearance.side_usual);
  rules.least.head = at(clearance.head_least);
  rules.usual.head = at(clearance.head_usual);
  const bool door = unit.isDoor();
  rules.least.sill = door ? valueOf(clearance.door_sill_least, 0) : at(clearance.sill_least);
  rules.usual.sill = door ? valueOf(clearance.door_sill_usual, 0) : at(clearance.sill_usual);
  rules.usual_sill_packing = rules.usual.sill;
  rules.unit_tolerance = valueOf(clearance.unit_tolerance, 0);
  rules.size_step = valueOf(clearance.size_step, 1);  // else whole millimetres
  return rules;
}

Stand place(const AsBuilt& opening, const HeadLine& unit, const PlaceRules& rules) {
  assert(unit.width() > 0 && unit.top() > 0 && rules.unit_tolerance >= 0);
  const Profiles edges = profilesOf(opening.shape, unit);
  Clearing clearing(edges, unit.width(), unit.top(), rules.least);
  Stand stand;
  stand.least = rules.least;
  stand.unit_tolerance = rules.unit_tolerance;
  stand.sill_packing = rules.usual_sill_packing;

  // How much is to spare, what governs it, how sure that is.
  const double central = spareOf(clearing.centralChoice());
  clearing.settle(keptSpare(central));  // settled once, because it is asked often below
  stand.spare = clearing.centralSuffices(central) ? central : largestSpare(clearing);
  stand.fits = stand.spare >= -kTouch;
  const Governing governing = governingOf(opening, edges, clearing, stand.spare, rules.unit_tolerance / 2);
  setGovernors(stand, governing);
  stand.spare_sigma = governing.sigma;
  stand.chance = governing.chance;

  // Where it is put.
  const Point corner = preferredStand(clearing, keptSpare(stand.spare), rules.usual_sill_packing);
  stand.x = corner.x;
  stand.z = corner.z;
  stand.gaps = gapsAt(edges, clearing, stand.x, stand.z);
  const Range heights = stand.fits ? heightsRound(clearing, stand.z, keptSpare(stand.spare))
                                   : Range{stand.z - stand.spare, stand.z + stand.spare};  // spare < 0: empty
  stand.z_low = heights.low;
  stand.z_high = heights.high;
  const Range even = evenHeightsIn(clearing, heights, stand.z, keptSpare(stand.spare));
  stand.even_low = even.low;
  stand.even_high = even.high;

  const bool sure = stand.chance >= kSureEnough || opening.trust == Trust::Planned;
  if (unit.level()) {
    setSizes(stand, edges, clearing, rules, stand.fits && sure);
  } else {
    stand.order = {unit.width(), unit.top()};  // its other sizes aren't looked for
  }
  return stand;
}

void raiseTo(Stand& stand, const AsBuilt& opening, const HeadLine& unit, double z) {
  const Profiles edges = profilesOf(opening.shape, unit);
  const Clearing clearing(edges, unit.width(), unit.top(), stand.least);
  if (stand.z_low <= stand.z_high) z = std::clamp(z, stand.z_low, stand.z_high);
  stand.z = z;
  stand.x = sidewaysAt(clearing, z, keptSpare(stand.spare));
  stand.gaps = gapsAt(edges, clearing, stand.x, stand.z);
}

std::array<double, 2> openingFor(double unit_width, double unit_height, const PlaceRules& rules) {
  return {unit_width + rules.usual.left + rules.usual.right, unit_height + rules.usual.sill + rules.usual.head};
}

}  // namespace sillwright::plan
