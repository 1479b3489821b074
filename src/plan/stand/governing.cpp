#include "plan/stand/governing.h"

#include <algorithm>
#include <cmath>

namespace sillwright::plan {
namespace {

// Bases whose values differ by less than this govern alike. Far below what can be read, far above rounding.
constexpr double kAlike = 1e-7;

// Derivatives of the largest spare by everything it was measured from.
struct Gradient {
  std::array<double, 8> corner{};
  std::array<double, kSides> bow{};
  double width = 0;
  double height = 0;
};

// One of the stands that leave the largest spare: the middle of them all.
Point optimumOf(const Choice& choice, double spare) {
  const Range zs = heightsOf(choice, spare - kTouch);
  const double z = (zs.low + zs.high) / 2;
  const Range xs = positionsOf(choice, z, spare - kTouch);
  return {(xs.low + xs.high) / 2, z};
}

void add(Gradient& gradient, const Profiles& edges, const Clearing& clearing, const Bound& bound, double weight,
         const Point& at) {
  const bool jamb = isJamb(bound.side);
  const ReachGradient reach = gradientOf(edges[indexOf(bound.side)], clearing.lineOf(bound), jamb ? at.z : at.x,
                                         jamb ? clearing.height() : clearing.width());
  for (std::size_t i = 0; i < reach.corner.size(); ++i) gradient.corner[i] -= weight * reach.corner[i];
  gradient.bow[indexOf(bound.side)] -= weight * reach.bow;
  gradient.width -= weight * bound.by_width;
  gradient.height -= weight * bound.by_height;
}

double squared(double value) {
  return value * value;
}

double varianceOf(const Gradient& gradient, const AsBuilt& opening, double unit_sigma) {
  double variance = 0;
  constexpr std::size_t kFirst = 2;  // BL is the origin: known exactly
  for (std::size_t i = 0; i < opening.covariance.size(); ++i) {
    for (std::size_t j = 0; j < opening.covariance.size(); ++j) {
      variance += gradient.corner[kFirst + i] * opening.covariance[i][j] * gradient.corner[kFirst + j];
    }
  }
  const double jambs = gradient.bow[indexOf(Side::Left)] + gradient.bow[indexOf(Side::Right)];
  const double sill_head = gradient.bow[indexOf(Side::Sill)] + gradient.bow[indexOf(Side::Head)];
  variance += (squared(jambs) + squared(sill_head)) * squared(opening.bow_sigma);
  variance += (squared(gradient.width) + squared(gradient.height)) * squared(unit_sigma);
  return std::max(0.0, variance);
}

}  // namespace

Governing governingOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing, double spare,
                      double unit_sigma) {
  Governing governing;
  Gradient gradient;
  int alike = 0;
  clearing.forEachChoiceAbove(spare, [&](const Choice& choice) {
    const double own = clearing.centralSuffices(spare) ? spare : spareOf(choice);
    if (own < spare - kAlike) return;
    const Point at = optimumOf(choice, std::min(spare, own));
    forEachBasis(choice, [&](const Basis& basis) {
      if (basis.value() > spare + kAlike) return;
      ++alike;
      for (std::size_t i = 0; i < static_cast<std::size_t>(basis.bounds); ++i) {
        const Bound& bound = *basis.bound[i];
        governing.weight[indexOf(bound.side)][static_cast<std::size_t>(clearing.lineOf(bound).at)] += basis.weight[i];
        add(gradient, edges, clearing, bound, basis.weight[i], at);
      }
    });
  });
  if (alike == 0) return governing;  // not a number came in
  const double share = 1.0 / alike;
  for (auto& side : governing.weight) {
    for (double& weight : side) weight *= share;
  }
  governing.sigma = std::sqrt(varianceOf(gradient, opening, unit_sigma)) * share;
  return governing;
}

}  // namespace sillwright::plan
