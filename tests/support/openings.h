/// Openings for the tests of where a unit stands: random ones, mirrored ones, and the gap of a unit reckoned the long
/// way, straight from an edge's three points.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <utility>

#include "plan/shape.h"
#include "plan/stand/place.h"
#include "plan/survey/survey.h"

namespace sillwright::testing {

/// Numbers that are the same on every machine: the generator's bits scaled by hand.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : bits_(seed) {}

  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(bits_() >> 11) * 0x1.0p-53);
  }
  int upTo(int most) { return static_cast<int>(bits_() % static_cast<std::uint64_t>(most + 1)); }
  /// Standard normal (Box–Muller).
  double normal() {
    const double radius = std::sqrt(-2 * std::log(1 - between(0, 1)));
    return radius * std::cos(2 * std::numbers::pi * between(0, 1));
  }

 private:
  std::mt19937_64 bits_;
};

struct Problem {
  plan::OpeningShape shape;
  double width = 0;
  double height = 0;
  plan::LeastGaps least;
};

/// As framed on a site: a few mm out of level, plumb and straight, the unit ordered for it.
inline Problem siteProblem(Dice& dice, bool bowed) {
  Problem p;
  const double w = dice.between(450, 4000);
  const double h = dice.between(450, 2700);
  const auto off = [&] { return dice.between(-8, 8); };
  p.shape.corner = {plan::Point{0, 0}, plan::Point{w + off(), off()}, plan::Point{w + off(), h + off()},
                    plan::Point{off(), h + off()}};
  if (bowed) p.shape.bow = {off() / 2, off() / 2, off() / 2, off() / 2};
  p.width = w - dice.between(0, 30);
  p.height = h - dice.between(0, 30);
  p.least = {dice.between(0, 10), dice.between(0, 10), dice.between(0, 12), dice.between(0, 12)};
  return p;
}

/// Far out of shape, and units of any size down to a tenth of it, so that every point of every edge gets its turn.
inline Problem wildProblem(Dice& dice, bool bowed) {
  Problem p;
  const double w = dice.between(450, 2000);
  const double h = dice.between(450, 2000);
  const auto off = [&] { return dice.between(-60, 60); };
  p.shape.corner = {plan::Point{0, 0}, plan::Point{w + off(), off()}, plan::Point{w + off(), h + off()},
                    plan::Point{off(), h + off()}};
  if (bowed) p.shape.bow = {off() / 2, off() / 2, off() / 2, off() / 2};
  p.width = w * dice.between(0.1, 1.02);
  p.height = h * dice.between(0.1, 1.02);
  p.least = {dice.between(0, 10), dice.between(0, 10), dice.between(0, 12), dice.between(0, 12)};
  return p;
}

/// As seen from inside: left and right changed.
inline Problem mirrored(const Problem& p) {
  Problem m = p;
  const auto flip = [](plan::Point point) { return plan::Point{-point.x, point.z}; };
  m.shape.corner = {flip(p.shape.corner[1]), flip(p.shape.corner[0]), flip(p.shape.corner[3]), flip(p.shape.corner[2])};
  std::swap(m.shape.bow.left, m.shape.bow.right);
  std::swap(m.least.left, m.least.right);
  return m;
}

inline plan::AsBuilt knownExactly(const plan::OpeningShape& shape) {
  plan::AsBuilt opening;
  opening.shape = shape;
  return opening;
}

inline plan::PlaceRules rulesWith(const plan::LeastGaps& least) {
  plan::PlaceRules rules;
  rules.least = rules.usual = least;
  rules.usual_sill_packing = least.sill;
  return rules;
}

/// Where an edge is at `t` along it (x of a jamb at a height; z of sill or head at an x), from its three points.
inline double edgeFromPoints(const plan::OpeningShape& shape, plan::Side side, double t) {
  const bool jamb = side == plan::Side::Left || side == plan::Side::Right;
  const plan::Edge edge = shape.edge(side);
  const auto along = [&](std::size_t i) { return jamb ? edge[i].z : edge[i].x; };
  const auto across = [&](std::size_t i) { return jamb ? edge[i].x : edge[i].z; };
  const std::size_t i = t <= along(1) ? 0 : 1;
  return across(i) + (across(i + 1) - across(i)) * (t - along(i)) / (along(i + 1) - along(i));
}

/// Least gap over a side of the unit: at its two corners, and at the edge's middle where that is between them.
inline double gapTheLongWay(const Problem& p, plan::Side side, double x, double z) {
  const bool jamb = side == plan::Side::Left || side == plan::Side::Right;
  const bool far = side == plan::Side::Right || side == plan::Side::Head;
  const double face = jamb ? x + (far ? p.width : 0) : z + (far ? p.height : 0);
  const double from = jamb ? z : x;
  const double to = from + (jamb ? p.height : p.width);
  const auto gap = [&](double t) {
    const double edge = edgeFromPoints(p.shape, side, t);
    return far ? edge - face : face - edge;
  };
  double least = std::min(gap(from), gap(to));
  const plan::Point middle = p.shape.edge(side)[1];
  const double at = jamb ? middle.z : middle.x;
  if (from < at && at < to) least = std::min(least, gap(at));
  return least;
}

/// Least of gap less least gap, over the four sides.
inline double spareTheLongWay(const Problem& p, double x, double z) {
  return std::min({gapTheLongWay(p, plan::Side::Left, x, z) - p.least.left,
                   gapTheLongWay(p, plan::Side::Right, x, z) - p.least.right,
                   gapTheLongWay(p, plan::Side::Sill, x, z) - p.least.sill,
                   gapTheLongWay(p, plan::Side::Head, x, z) - p.least.head});
}

/// The same problem with every least gap greater by `by`: its largest spare is less by just as much, and at the stand
/// of a problem that doesn't fit every governing gap is short by the spare.
inline Problem tighter(Problem p, double by) {
  p.least.left += by;
  p.least.right += by;
  p.least.sill += by;
  p.least.head += by;
  return p;
}

}  // namespace sillwright::testing
