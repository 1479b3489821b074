#include "plan/stand/place.h"

#include <algorithm>
#include <cmath>

#include "plan/stand/place_parts.h"

namespace sillwright::plan {
namespace {

constexpr double kNamedWeight = 1e-9;  // a governor of less weight is rounding

double valueOf(const practice::Figure* figure) {
  return figure ? figure->value : 0.0;
}
double valueOf(const practice::Rule& rule, double otherwise) {
  return rule ? rule->value : otherwise;
}

Gaps gapsAt(const Profiles& edges, const Clearing& clearing, double x, double z) {
  const double right = x + clearing.width();
  const double top = z + clearing.height();
  const auto edge = [&](Side side, double t) { return edges[indexOf(side)].edgeAt(t); };
  Gaps gaps;
  const double left_top = z + clearing.sizeAlong(Side::Left);
  const double right_top = z + clearing.sizeAlong(Side::Right);
  gaps.left = {x - edge(Side::Left, z), x - edge(Side::Left, left_top)};
  gaps.right = {edge(Side::Right, z) - right, edge(Side::Right, right_top) - right};
  gaps.sill = {z - edge(Side::Sill, x), z - edge(Side::Sill, right)};
  const auto& drop = edges[indexOf(Side::Head)].drop;
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
  if (order_as_planned) {
    stand.order = {clearing.width(), clearing.height()};
    return;
  }

  Clearing usual = clearing.withGaps(rules.usual);
  usual.settleChoices(0);
  LargestSizes order = largestSizes(edges, usual, rules.usual);
  if (order.width < usual.width() || order.height < usual.height()) {
    // The planned size leaves less than the usual gaps: ordered from one that leaves them.
    const auto [width, height] = cutToMiddle(edges, usual, rules.usual, step);
    order = largestSizes(edges, Clearing(edges, width, height, rules.usual), rules.usual);
  }
  stand.order = {roundedDown(order.width, step), roundedDown(order.height, step)};
}

// Least spare that the stand was chosen with.
double keptSpare(double spare) {
  return std::min(spare, 0.0);
}

}  // namespace

PlaceRules placeRules(double opening_width, const UnitSpec& unit, const practice::Clearance& clearance) {
  const auto at = [opening_width](const practice::Bands& bands) { return valueOf(bands.at(opening_width)); };
  PlaceRules rules;
  rules.least.left = rules.least.right = at(clearance.side_least);
  rules.usual.left = rules.usual.right = at(clearance.side_usual);
  rules.least.head = at(clearance.head_least);
  rules.usual.head = at(clearance.head_usual);
  const bool door = unit.isDoor();
  rules.least.sill = door ? valueOf(clearance.door_sill_least, 0) : at(clearance.sill_least);
  rules.usual.sill = door ? valueOf(clearance.door_sill_usual, 0) : at(clearance.sill_usual);
  rules.usual_sill_packing = rules.usual.sill;
  rules.unit_tolerance = valueOf(clearance.unit_tolerance, 0);
  rules.size_step = valueOf(clearance.size_step, 1);
  return rules;
}

Stand place(const AsBuilt& opening, const HeadLine& unit, const PlaceRules& rules) {
  const Profiles edges = profilesOf(opening.shape, unit);
  Clearing clearing(edges, unit.width(), unit.top(), rules.least);
  Stand stand;
  stand.least = rules.least;
  stand.unit_tolerance = rules.unit_tolerance;
  stand.sill_packing = rules.usual_sill_packing;

  // How much is to spare, what governs it, how sure that is.
  const double central = spareOf(clearing.centralChoice());
  clearing.settleChoices(keptSpare(central));
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
                                   : Range{stand.z - stand.spare, stand.z + stand.spare};
  stand.z_low = heights.low;
  stand.z_high = heights.high;
  const Range even = evenHeightsIn(clearing, heights, stand.z, keptSpare(stand.spare));
  stand.even_low = even.low;
  stand.even_high = even.high;

  const bool sure = stand.chance >= kSureEnough || opening.trust == Trust::Planned;
  if (unit.level()) {
    setSizes(stand, edges, clearing, rules, stand.fits && sure);
  } else {
    stand.order = {unit.width(), unit.top()};
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
