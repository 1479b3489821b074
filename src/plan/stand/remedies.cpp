// What would make a unit fit. The least to take off a side is a least ratio over the bases of clearing.h; the turn is
// searched for, because turning is not linear, and because it is only ever told as a reason not to.

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "plan/stand/clearing.h"

namespace sillwright::plan {

namespace {

// The least to take off a side so that the unit fits; infinity where no amount does.
double leastOff(const Clearing& clearing, Side side) {
  double most = -std::numeric_limits<double>::infinity();  // the most that could still be put on: it is negative
  clearing.forEachChoice([&](const Choice& choice) {
    LargestStep put_on;
    forEachBasis(choice, [&](const Basis& basis) {
      put_on.hold(basis.value(), basis.sum([side](const Bound& bound) { return bound.side == side ? 1.0 : 0.0; }));
    });
    most = std::max(most, put_on.step());  // any choice that holds will do
  });
  return -most;
}

Remedy takeOff(Side side, double amount, int together = 0) {
  const RemedyKind kind = isJamb(side)         ? RemedyKind::TakeOffStud
                          : side == Side::Sill ? RemedyKind::TakeOffSill
                                               : RemedyKind::TakeOffHead;
  return {kind, side, amount, together};
}

bool offered(double amount) { return amount > 0 && amount <= kMostTakenOff; }

// One of sill and head, then what is left to take off one of the studs.
void addPairs(std::vector<Remedy>& remedies, const OpeningShape& opening, double width, double height,
              const LeastGaps& least) {
  const Clearing clearing(opening, width, height, least);
  const Point middle = clearing.middle();
  double short_by = 0;
  for (const Side side : {Side::Sill, Side::Head}) {  // short in height, at sill and head together
    short_by += clearing.leastGap(side) - clearing.gap(side, middle.x, middle.z);
  }
  if (!offered(short_by)) return;
  int together = 0;
  for (const Side first : {Side::Sill, Side::Head}) {
    // The unit gets just as much more gap there: for what fits it is as if that side's least gap were smaller.
    LeastGaps left = least;
    bySide(left, first) -= short_by;
    const Clearing cut(opening, width, height, left);
    for (const Side second : {Side::Left, Side::Right}) {
      const double rest = leastOff(cut, second);
      if (!offered(rest)) continue;
      ++together;
      remedies.push_back(takeOff(first, short_by, together));
      remedies.push_back(takeOff(second, rest, together));
    }
  }
}

// A smaller unit in both directions: the height that the middle has room for, then the largest width at it.
void addSmallerUnit(std::vector<Remedy>& remedies, const OpeningShape& opening, double width, double height,
                    const PlaceRules& rules) {
  const Profiles edges = profilesOf(opening);
  const double lower = cutToMiddle(edges, Clearing(edges, width, height, rules.least), rules.least, rules.size_step)[1];
  const LargestSizes largest = largestSizes(edges, Clearing(edges, width, lower, rules.least), rules.least);
  const double narrower = roundedDown(largest.width, rules.size_step);
  if (lower <= 0 || narrower <= 0 || narrower >= width) return;
  const int together = remedies.empty() ? 1 : remedies.back().together + 1;  // numbered on from the pairs above
  remedies.push_back({RemedyKind::NarrowerUnit, Side::Right, narrower, together});
  remedies.push_back({RemedyKind::LowerUnit, Side::Head, lower, together});
}

// --- Turned ---

// The opening as a unit sees it that is turned anticlockwise by `angle`.
OpeningShape seenTurned(OpeningShape opening, double angle) {  // its bows stay: so small a turn leaves them as deep
  const double c = std::cos(angle);
  const double s = std::sin(angle);
  for (Point& point : opening.corner) point = {c * point.x + s * point.z, c * point.z - s * point.x};
  return opening;
}

// The smallest turn that lets the unit in, anticlockwise for a `sign` of 1, else clockwise, radians; infinity where
// there is none. Turned further and further the spare rises to one peak and falls.
double smallestTurn(double sign, const OpeningShape& opening, double width, double height, const LeastGaps& least) {
  const auto spare = [&](double turn) {
    return largestSpare({seenTurned(opening, sign * turn), width, height, least});
  };
  double low = 0;
  double high = kMostTurnDegrees / 180 * std::numbers::pi;
  for (int i = 0; i < 80; ++i) {  // (2/3)^80 of three degrees: no double tells more
    const double third = (high - low) / 3;
    const bool rises = spare(low + third) < spare(high - third);
    (rises ? low : high) += rises ? third : -third;
  }
  if (spare(high) < 0) return std::numeric_limits<double>::infinity();
  for (low = 0; high - low > 1e-12;) {  // radians: nothing of it is seen over a unit's width
    const double half = (low + high) / 2;
    (spare(half) >= 0 ? high : low) = half;
  }
  return high;
}

void addTurn(std::vector<Remedy>& remedies, const OpeningShape& opening, double width, double height,
             const LeastGaps& least) {
  const double rising = smallestTurn(1, opening, width, height, least);
  const double falling = smallestTurn(-1, opening, width, height, least);
  const double turn = rising <= falling ? rising : -falling;
  if (std::isfinite(turn)) remedies.push_back({RemedyKind::TurnUnit, Side::Sill, width * std::sin(turn)});
}

/// By how much the unit may grow, the one way or the other.
LargestSizes stepsOf(const Choice& choice) {
  LargestStep width, height;
  forEachBasis(choice, [&](const Basis& basis) {
    const double value = basis.value();
    width.hold(value, basis.sum([](const Bound& bound) { return bound.by_width; }));  // the gaps fall as the unit grows
    height.hold(value, basis.sum([](const Bound& bound) { return bound.by_height; }));
  });
  return {width.step(), height.step()};
}

}  // namespace

std::vector<Remedy> remedies(const AsBuilt& opening, const HeadLine& unit, const PlaceRules& rules,
                             const Stand& stand) {
  std::vector<Remedy> found;
  if (stand.fits) return found;
  const OpeningShape& shape = opening.shape;
  const double width = unit.width();
  const double height = unit.top();
  const Clearing clearing(profilesOf(shape, unit), width, height, rules.least);
  for (const Side side : kEverySide) {
    const double amount = leastOff(clearing, side);
    if (offered(amount)) found.push_back(takeOff(side, amount));
  }
  if (!unit.level()) return found;                                        // what follows looks at rectangles
  if (found.empty()) addPairs(found, shape, width, height, rules.least);  // only where none cures alone

  const bool narrower = stand.largest_unit[0] > 0 && stand.largest_unit[0] < width;
  const bool lower = stand.largest_unit[1] > 0 && stand.largest_unit[1] < height;
  if (narrower) found.push_back({RemedyKind::NarrowerUnit, Side::Right, stand.largest_unit[0]});
  if (lower) found.push_back({RemedyKind::LowerUnit, Side::Head, stand.largest_unit[1]});
  if (!narrower && !lower) addSmallerUnit(found, shape, width, height, rules);

  addTurn(found, shape, width, height, rules.least);
  return found;
}

LargestSizes largestSizes(const Profiles& edges, const Clearing& clearing, const LeastGaps& least) {
  const double width = clearing.width();
  const double height = clearing.height();
  LargestSizes steps = stepsOf(clearing.centralChoice());
  // The central choice is the answer where no unit at least as large as the one it allows could touch any other line:
  // that one's stands hold the stands of all larger ones.
  const auto settled = [&](double w, double h) {
    if (w >= width && h >= height && clearing.centralSuffices(0)) return true;
    return std::isfinite(w) && std::isfinite(h) && Clearing(edges, w, h, least).centralSuffices(0);
  };
  if (clearing.bowedInward() && !(settled(width + steps.width, height) && settled(width, height + steps.height))) {
    clearing.forEachChoice([&](const Choice& choice) {
      const LargestSizes other = stepsOf(choice);
      steps = {std::max(steps.width, other.width), std::max(steps.height, other.height)};
    });
  }
  return {width + steps.width, height + steps.height};
}

double roundedDown(double size, double step) {
  if (!(size > 0)) return 0;
  // A size that misses its step by rounding only still counts as that step.
  return step > 0 ? std::floor(size / step + 1e-9) * step : size;
}

std::array<double, 2> cutToMiddle(const Profiles& edges, const Clearing& clearing, const LeastGaps& least,
                                  double step) {
  const auto cut = [step](double size, double room) { return room < -kTouch ? roundedDown(size + room, step) : size; };
  const auto room = [](const Clearing& in, Side near, Side far) {
    const auto [x, z] = in.middle();
    return in.gap(near, x, z) - in.leastGap(near) + in.gap(far, x, z) - in.leastGap(far);
  };
  const double width = cut(clearing.width(), room(clearing, Side::Left, Side::Right));
  const Clearing narrowed = width < clearing.width() ? Clearing(edges, width, clearing.height(), least) : clearing;
  return {width, cut(clearing.height(), room(narrowed, Side::Sill, Side::Head))};
}

}  // namespace sillwright::plan
