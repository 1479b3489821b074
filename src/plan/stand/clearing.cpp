#include "plan/stand/clearing.h"

#include <algorithm>
#include <cmath>

namespace sillwright::plan {

namespace {

// A bound as α·x ≥ β·z + γ, whichever side it is of.
struct HalfPlane {
  double alpha = 0, beta = 0, gamma = 0;
};

HalfPlane halfPlaneOf(const Bound& bound, double spare) {
  const double gamma = bound.offset + spare;
  const double sign = inwardSign(bound.side);
  return isJamb(bound.side) ? HalfPlane{sign, bound.slope, gamma} : HalfPlane{-bound.slope, -sign, gamma};
}

struct HalfPlanes {
  std::array<HalfPlane, 2 * kSides> plane{};
  std::size_t count = 0;
};

HalfPlanes halfPlanesOf(const Choice& choice, double spare) {
  HalfPlanes all;
  for (std::size_t side = 0; side < kSides; ++side) {
    for (std::size_t i = 0; i < static_cast<std::size_t>(choice.bounds[side]); ++i) {
      all.plane[all.count++] = halfPlaneOf(choice.bound[side][i], spare);
    }
  }
  return all;
}

// Keeps what satisfies rate·t ≤ limit.
void keep(Range& range, double rate, double limit) {
  if (rate > 0) {
    range.high = std::min(range.high, limit / rate);
  } else if (rate < 0) {
    range.low = std::max(range.low, limit / rate);
  } else if (limit < 0) {
    range = {1, 0};  // empty, and stays so
  }
}

}  // namespace

Clearing::Clearing(const Profiles& edges, double width, double height, const LeastGaps& least)
    : reach_(reachesOf(edges, width, height)),
      least_{least.left, least.right, least.sill, least.head},
      width_(width),
      height_(height),
      size_along_{height - edges[0].shorter, height - edges[1].shorter, width, width},
      central_(choiceOf({reach_[0].central, reach_[1].central, reach_[2].central, reach_[3].central})) {
  if (!bowedInward()) central_from_ = -central_from_;  // there is only one choice, whatever the floor
}

double Clearing::gap(Side side, double x, double z) const {
  const bool jamb = isJamb(side);
  const double face = (jamb ? x : z) + (side == Side::Right ? width_ : side == Side::Head ? height_ : 0.0);
  return inwardSign(side) * face - reach(side)(jamb ? z : x);
}

double Clearing::spareAt(double x, double z) const {
  double spare = std::numeric_limits<double>::infinity();
  for (const Side side : kEverySide) spare = std::min(spare, gap(side, x, z) - leastGap(side));
  return spare;
}

Point Clearing::middle() const {
  const double x = (reach(Side::Left)(0) - reach(Side::Right)(0) - width_) / 2;
  const double z = (reach(Side::Sill)(x) - reach(Side::Head)(x) - height_) / 2;
  return {(reach(Side::Left)(z) - reach(Side::Right)(z) - width_) / 2, z};  // x once more, at that height
}

bool Clearing::bowedInward() const {
  return std::any_of(reach_.begin(), reach_.end(), [](const Reach& own) { return own.least; });
}

Bound Clearing::boundOf(Side side, const ReachLine& line, int index) const {
  Bound bound;
  bound.side = side;
  bound.line = index;
  bound.slope = line.slope;
  bound.offset = line.at_zero + leastGap(side);
  const double slide = line.at == At::End ? line.slope : 0.0;  // its far end goes along the slope as it grows
  (isJamb(side) ? bound.by_height : bound.by_width) = slide;
  if (side == Side::Right) {
    bound.offset += width_;  // the far side's face lies the unit's size on
    bound.by_width = 1;
  }
  if (side == Side::Head) {
    bound.offset += height_;
    const bool at_foot = line.at != At::Middle && sizeAlong(line.at == At::Start ? Side::Left : Side::Right) <= 0;
    bound.by_height = at_foot ? 0 : 1;  // a triangle's corner stays at its foot
  }
  return bound;
}

Choice Clearing::choiceOf(const std::array<int, kSides>& pick) const {
  Choice choice;
  for (const Side side : kEverySide) {
    const std::size_t s = indexOf(side);
    const Reach& own = reach_[s];
    const int first = own.least ? pick[s] : 0;
    choice.bounds[s] = own.least ? 1 : own.lines;  // bowed inward: it is enough to be clear of one line
    for (int i = 0; i < choice.bounds[s]; ++i) {
      choice.bound[s][static_cast<std::size_t>(i)] =
          boundOf(side, own.line[static_cast<std::size_t>(first + i)], first + i);
    }
  }
  return choice;
}

bool Clearing::centralHolds(double floor) const {
  double steepest = 0;
  for (const Reach& own : reach_) {
    for (std::size_t i = 0; i < static_cast<std::size_t>(own.lines); ++i) {
      steepest = std::max(steepest, std::abs(own.line[i].slope));
    }
  }

  // From any stand, a side's gap falls by no more than `steepest` for each mm moved along it. So every stand with
  // `floor` to spare lies in a box round this one, whatever lines it touches.
  const auto [x, z] = middle();
  const auto room = [&, x = x, z = z](Side side) { return std::max(0.0, gap(side, x, z) - leastGap(side) - floor); };
  const double sideways = std::max(room(Side::Left), room(Side::Right));
  const double upright = std::max(room(Side::Sill), room(Side::Head));
  const double most_z = (upright + steepest * sideways) / (1 - steepest * steepest);
  const double most_x = sideways + steepest * most_z;  // each widens the other: their series, summed
  const Range xs{x - room(Side::Left) - steepest * most_z, x + room(Side::Right) + steepest * most_z};
  const Range zs{z - room(Side::Sill) - steepest * most_x, z + room(Side::Head) + steepest * most_x};
  for (const Side side : kEverySide) {
    const Reach& own = reach(side);
    if (!own.least) continue;
    const ReachLine& central = own.line[static_cast<std::size_t>(own.central)];
    const Range& reached = isJamb(side) ? zs : xs;
    if (!(central.from <= reached.low && reached.high <= central.to)) return false;  // only there it is the reach
  }
  return true;
}

double spareOf(const Choice& choice) {
  double spare = std::numeric_limits<double>::infinity();
  forEachBasis(choice, [&](const Basis& basis) { spare = std::min(spare, basis.value()); });
  return spare;
}

double largestSpare(const Clearing& clearing) {
  const double central = spareOf(clearing.centralChoice());
  if (clearing.centralSuffices(central)) return central;
  double spare = central;  // to be clear by any one choice is enough
  clearing.forEachChoice([&](const Choice& choice) { spare = std::max(spare, spareOf(choice)); });
  return spare;
}

Range heightsOf(const Choice& choice, double spare) {
  // Fourier–Motzkin: every lower bound of x below every upper one.
  const HalfPlanes all = halfPlanesOf(choice, spare);
  Range range;
  for (std::size_t i = 0; i < all.count; ++i) {
    const HalfPlane& low = all.plane[i];
    if (low.alpha == 0) keep(range, low.beta, -low.gamma);  // x has no part in it
    if (low.alpha <= 0) continue;
    for (std::size_t j = 0; j < all.count; ++j) {
      const HalfPlane& high = all.plane[j];
      if (high.alpha >= 0) continue;
      keep(range, low.alpha * high.beta - high.alpha * low.beta, high.alpha * low.gamma - low.alpha * high.gamma);
    }
  }
  return range;
}

Range positionsOf(const Choice& choice, double z, double spare) {
  const HalfPlanes all = halfPlanesOf(choice, spare);
  Range range;
  for (std::size_t i = 0; i < all.count; ++i) {
    const HalfPlane& plane = all.plane[i];
    keep(range, -plane.alpha, -(plane.beta * z + plane.gamma));
  }
  return range;
}

}  // namespace sillwright::plan
