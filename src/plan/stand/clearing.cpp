#include "plan/stand/clearing.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "plan/stand/orthant.h"

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
    range = {1, 0};
  }
}

// Bases whose values differ by less than this govern alike. Far below what can be read, far above rounding.
constexpr double kAlike = 1e-7;
// A basis this many standard errors above zero fails less than once in 100 000 times: it doesn't matter.
constexpr double kSafe = 4.5;

// 18 opposing pairs and 36 wedges at most: three bounds on each side.
constexpr std::size_t kMostBases = 54;

// One of the stands that leave the largest spare: the middle of them all.
Point optimumOf(const Choice& choice, double spare) {
  const Range zs = heightsOf(choice, spare - kTouch);
  const double z = (zs.low + zs.high) / 2;
  const Range xs = positionsOf(choice, z, spare - kTouch);
  return {(xs.low + xs.high) / 2, z};
}

// The errors of everything the spare depends on, told by independent standard normal variables: corners through a root
// of their covariance, each bow by the corners it is reckoned from and its own reading, the unit's size.
class Uncertainty {
 public:
  Uncertainty(const AsBuilt& opening, double unit_sigma) : bow_(opening.bow_doubt), unit_sigma_(unit_sigma) {
    const Eigen::LDLT<Matrix6> parts(Eigen::Map<const Matrix6>(opening.covariance[0].data()));
    const Matrix6 lower = parts.matrixL();
    root_ = parts.transpositionsP().transpose() * (lower * parts.vectorD().cwiseMax(0).cwiseSqrt().asDiagonal());
  }

  // How the gap of a bound moves with each of the variables, where the unit's lower left corner is at `at`.
  [[nodiscard]] Doubts of(const Profile& edge, const ReachLine& line, const Bound& bound, const Clearing& clearing,
                          const Point& at) const {
    using Corners = Eigen::Map<const Eigen::Matrix<double, kCorners, 1>>;
    constexpr std::size_t kFirst = 2;  // BL is the origin: known exactly
    const bool jamb = isJamb(bound.side);
    const ReachGradient reach = gradientOf(edge, line, jamb ? at.z : at.x, clearing.sizeAlong(bound.side));
    const std::size_t pair = jamb ? 0 : 1;
    Doubts doubts = Doubts::Zero();
    doubts.head<kCorners>() =
        -root_.transpose() * (Corners(&reach.corner[kFirst]) + reach.bow * Corners(bow_[pair].by_corner.data()));
    doubts[kCorners + pair] = -reach.bow * bow_[pair].own_sigma;
    doubts[kCorners + 2] = -bound.by_width * unit_sigma_;
    doubts[kCorners + 3] = -bound.by_height * unit_sigma_;
    return doubts;
  }

 private:
  static constexpr std::size_t kCorners = 6;
  using Matrix6 = Eigen::Matrix<double, kCorners, kCorners>;
  Matrix6 root_;
  const std::array<BowDoubt, 2>& bow_;
  double unit_sigma_;
};

// What a standard error below this is left by: rounding.
constexpr double kExactly = 1e-9;

// The bounds that the chance is reckoned from, each with how it moves.
struct Bounds {
  BoundSet<3> set;
  std::array<std::array<Doubts, 3>, kSides> doubts;
  double widest = 0;  // the largest standard error of any

  void add(Side side, const Profile& edge, const ReachLine& line, const Clearing& clearing,
           const Uncertainty& uncertainty, const Point& at) {
    const std::size_t s = indexOf(side);
    const int index = set.bounds[s]++;
    const auto i = static_cast<std::size_t>(index);
    set.bound[s][i] = clearing.boundOf(side, line, index);
    doubts[s][i] = uncertainty.of(edge, line, set.bound[s][i], clearing, at);
    widest = std::max(widest, doubts[s][i].norm());
  }
  [[nodiscard]] const Doubts& of(const Bound& bound) const {
    return doubts[indexOf(bound.side)][static_cast<std::size_t>(bound.line)];
  }
};

// Every point of the unit's sides and of the edges that can come nearest once the opening is a little other than it was
// read: a stud that leans in at its foot may lean in at its head. Where the largest spare comes of another choice of
// lines (the unit stands beside the middle of an edge that is bowed inward) that choice's own lines are taken.
Bounds boundsOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing, double spare,
                const Uncertainty& uncertainty) {
  Bounds bounds;
  std::optional<Choice> best;
  if (spareOf(clearing.centralChoice()) < spare - kAlike) {
    clearing.forEachChoice([&](const Choice& choice) {
      if (!best && spareOf(choice) >= spare - kAlike) best = choice;
    });
  }
  const Point at = clearing.middle();
  for (const Side side : kEverySide) {
    const std::size_t s = indexOf(side);
    if (best) {
      for (std::size_t i = 0; i < static_cast<std::size_t>(best->bounds[s]); ++i) {
        bounds.add(side, edges[s], clearing.lineOf(best->bound[s][i]), clearing, uncertainty, at);
      }
      continue;
    }
    const Profile& edge = edges[s];
    const bool straight = edge.straight && opening.bow_doubt[isJamb(side) ? 0 : 1].sigma <= 0;
    for (const ReachLine& line : linesByPoint(edge, clearing.sizeAlong(side))) {
      if (straight && line.at == At::Middle) continue;  // never nearer than both ends
      bounds.add(side, edge, line, clearing, uncertainty, at);
    }
  }
  return bounds;
}

// What an opposing pair of sides gains, on the mean, because the unit goes to the end where they turn out to stand
// wider: a basis counts that by the slopes as read (half a narrowing n over the room between the two other sides, |n|
// room / 4), but the mean of |n| is more than |n| of the mean where the slopes are hardly known.
double gainByTurning(const Profiles& edges, const Clearing& clearing, const Bounds& bounds, const Point& at,
                     bool jambs) {
  const Side near = jambs ? Side::Left : Side::Sill;
  const Side far = jambs ? Side::Right : Side::Head;
  const std::size_t n = indexOf(near);
  const std::size_t f = indexOf(far);
  double room = 0;
  for (const Side across : {jambs ? Side::Sill : Side::Left, jambs ? Side::Head : Side::Right}) {
    room += clearing.gap(across, at.x, at.z) - clearing.leastGap(across);
  }
  const auto last = [&](std::size_t side) { return static_cast<std::size_t>(bounds.set.bounds[side]) - 1; };
  if (room <= 0 || last(n) == 0 || last(f) == 0 || edges[f].peaked) return 0;
  const double size = std::min(clearing.sizeAlong(near), clearing.sizeAlong(far));
  const auto& doubts = bounds.doubts;
  const Doubts turns = doubts[n][last(n)] - doubts[n][0] + doubts[f][last(f)] - doubts[f][0];
  if (!(size > 0 && turns.norm() > kExactly)) return 0;  // a triangle's corner has no other end to go to
  const double sigma = turns.norm() / size;
  const double mean = (edges[n].slope[0] + edges[n].slope[1] + edges[f].slope[0] + edges[f].slope[1]) / 2;
  const double z = mean / sigma;
  const double mean_size =
      mean * (2 * normalProbability(z) - 1) + sigma * std::sqrt(2 / std::numbers::pi) * std::exp(-z * z / 2);
  return room / 4 * (mean_size - std::abs(mean));
}

// The chance that all bases are above zero.
double chanceOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing, double spare,
                const Uncertainty& uncertainty) {
  const Bounds bounds = boundsOf(opening, edges, clearing, spare, uncertainty);
  if (!(bounds.widest > kExactly)) return spare >= -kTouch ? 1.0 : 0.0;

  const Point at = clearing.middle();
  const std::array<double, 2> gain{gainByTurning(edges, clearing, bounds, at, true),
                                   gainByTurning(edges, clearing, bounds, at, false)};
  std::array<HalfSpace, kMostBases> spaces;
  std::size_t matter = 0;
  bool short_for_certain = false;
  Basis last;
  double last_value = 0;
  Doubts last_moves = Doubts::Zero();
  int alike = 0;
  const auto settle = [&] {
    if (last.bounds == 0) return;
    const double sigma = last_moves.norm() / alike;
    short_for_certain = short_for_certain || (last_value < -kTouch && !(sigma > kExactly));
    if (last_value > kSafe * sigma || !(sigma > kExactly)) return;
    spaces[matter++] = {last_value / sigma, -last_moves / (alike * sigma)};
  };
  forEachBasis(bounds.set, [&](const Basis& basis) {
    const Side first = basis.bound[0]->side;
    const double own = basis.value() + (first != basis.bound[1]->side ? gain[isJamb(first) ? 0 : 1] : 0.0);
    if (own > kSafe * bounds.widest) return;
    // The same two held by another point of the third side: the tighter one counts, of those alike the mean.
    const bool same_pair = last.bounds > 0 && last.bound[0] == basis.bound[0] && last.bound[1] == basis.bound[1] &&
                           basis.bound[0]->side != basis.bound[1]->side;
    if (same_pair && own > last_value + kAlike) return;
    if (!same_pair) settle();
    if (!same_pair || own < last_value - kAlike) {
      last = basis;
      last_value = own;
      last_moves.setZero();
      alike = 0;
    }
    ++alike;
    for (std::size_t b = 0; b < static_cast<std::size_t>(basis.bounds); ++b) {
      last_moves += basis.weight[b] * bounds.of(*basis.bound[b]);
    }
  });
  settle();
  if (short_for_certain) return 0;
  return probabilityOfAll(std::span(spaces).first(matter));
}

}  // namespace

Clearing::Clearing(const Profiles& edges, double width, double height, const LeastGaps& least)
    : reach_(reachesOf(edges, width, height)),
      least_{least.left, least.right, least.sill, least.head},
      width_(width),
      height_(height),
      size_along_{height - edges[0].shorter, height - edges[1].shorter, width, width},
      central_(choiceOf({reach_[0].central, reach_[1].central, reach_[2].central, reach_[3].central})) {}

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
  return {(reach(Side::Left)(z) - reach(Side::Right)(z) - width_) / 2, z};
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
  const double slide = line.at == At::End ? line.slope : 0.0;
  (isJamb(side) ? bound.by_height : bound.by_width) = slide;
  if (side == Side::Right) {
    bound.offset += width_;
    bound.by_width = 1;
  }
  if (side == Side::Head) {
    bound.offset += height_;
    bound.by_height = 1;
  }
  return bound;
}

Choice Clearing::choiceOf(const std::array<int, kSides>& pick) const {
  Choice choice;
  for (const Side side : kEverySide) {
    const std::size_t s = indexOf(side);
    const Reach& own = reach_[s];
    const int first = own.least ? pick[s] : 0;
    choice.bounds[s] = own.least ? 1 : own.lines;
    for (int i = 0; i < choice.bounds[s]; ++i) {
      choice.bound[s][static_cast<std::size_t>(i)] =
          boundOf(side, own.line[static_cast<std::size_t>(first + i)], first + i);
    }
  }
  return choice;
}

bool Clearing::centralSuffices(double floor) const {
  if (!bowedInward()) return true;
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
  const double most_x = sideways + steepest * most_z;
  const Range xs{x - room(Side::Left) - steepest * most_z, x + room(Side::Right) + steepest * most_z};
  const Range zs{z - room(Side::Sill) - steepest * most_x, z + room(Side::Head) + steepest * most_x};
  for (const Side side : kEverySide) {
    const Reach& own = reach(side);
    if (!own.least) continue;
    const ReachLine& central = own.line[static_cast<std::size_t>(own.central)];
    const Range& reached = isJamb(side) ? zs : xs;
    if (!(central.from <= reached.low && reached.high <= central.to)) return false;
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
  double spare = central;
  clearing.forEachChoice([&](const Choice& choice) { spare = std::max(spare, spareOf(choice)); });
  return spare;
}

Range heightsOf(const Choice& choice, double spare) {
  // Fourier–Motzkin: every lower bound of x below every upper one.
  const HalfPlanes all = halfPlanesOf(choice, spare);
  Range range;
  for (std::size_t i = 0; i < all.count; ++i) {
    const HalfPlane& low = all.plane[i];
    if (low.alpha == 0) keep(range, low.beta, -low.gamma);
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

Governing governingOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing, double spare,
                      double unit_sigma) {
  Governing governing;
  const Uncertainty uncertainty(opening, unit_sigma);
  Doubts moves = Doubts::Zero();
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
        const ReachLine& line = clearing.lineOf(bound);
        governing.weight[indexOf(bound.side)][static_cast<std::size_t>(line.at)] += basis.weight[i];
        moves += basis.weight[i] * uncertainty.of(edges[indexOf(bound.side)], line, bound, clearing, at);
      }
    });
  });
  if (alike == 0) return governing;  // not a number came in
  const double share = 1.0 / alike;
  for (auto& side : governing.weight) {
    for (double& weight : side) weight *= share;
  }
  governing.sigma = moves.norm() * share;
  governing.chance = chanceOf(opening, edges, clearing, spare, uncertainty);
  return governing;
}

}  // namespace sillwright::plan
