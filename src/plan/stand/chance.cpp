// How well the largest spare is known, and the chance that there is any.

#include <Eigen/Cholesky>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <optional>

#include "plan/stand/clearing.h"
#include "plan/stand/orthant.h"

namespace sillwright::plan {

namespace {

// Bases whose values differ by less than this govern alike. Far below what can be read, far above rounding.
constexpr double kAlike = 1e-7;
// A basis this many standard errors above zero fails less than once in 100 000 times: it doesn't matter.
constexpr double kSafe = 4.5;
// As many of the widest standard error of any bound, and of what sliding may add.
constexpr double kFarSafe = 6;
// Edges that narrow less than this along each other hold a unit alike wherever it stands.
constexpr double kParallel = 1e-3;

// Pairs of jambs 9, each held by 4 at most, and 18 wedges; of sill and head 12, held by 3, and 30.
constexpr std::size_t kMostBases = 120;

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
    const Eigen::Map<const Matrix6> covariance(opening.covariance[0].data());
    none_ = unit_sigma == 0 && bow_[0].sigma == 0 && bow_[1].sigma == 0 && covariance.isZero(0);
    if (none_) return;
    const Eigen::LDLT<Matrix6> parts(covariance);  // LDLT also takes one that isn't of full rank
    const Matrix6 lower = parts.matrixL();         // a pivot of 0 may be rounded below it
    root_ = parts.transpositionsP().transpose() * (lower * parts.vectorD().cwiseMax(0).cwiseSqrt().asDiagonal());
  }

  [[nodiscard]] bool isNone() const { return none_; }

  // How the gap of a bound moves with each of the variables, where the unit's lower left corner is at `at`.
  [[nodiscard]] Doubts of(const Profile& edge, const ReachLine& line, const Bound& bound, const Clearing& clearing,
                          const Point& at) const {
    using Corners = Eigen::Map<const Eigen::Matrix<double, kCorners, 1>>;
    constexpr std::size_t kFirst = 2;  // BL is the origin: known exactly
    const bool jamb = isJamb(bound.side);
    const ReachGradient reach = gradientOf(edge, line, jamb ? at.z : at.x, clearing.sizeAlong(bound.side));
    const std::size_t pair = jamb ? 0 : 1;
    Doubts doubts = Doubts::Zero();
    doubts.head<kCorners>() =  // minus: what reaches further leaves less
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
  bool none_;
};

// What a standard error below this is left by: rounding.
constexpr double kExactly = 1e-9;

// The bounds that the chance is reckoned from, each with how it moves where the unit stands in the middle, and how much
// more for each mm that the unit stands further along the side.
struct Bounds {
  BoundSet<4> set;
  std::array<std::array<Doubts, 4>, kSides> doubts;
  std::array<std::array<At, 4>, kSides> at;
  std::array<Doubts, kSides> along;
  double widest = 0;  // the largest standard error of any

  void add(Side side, const Profile& edge, const ReachLine& line, const Clearing& clearing,
           const Uncertainty& uncertainty, const Point& middle) {
    const std::size_t s = indexOf(side);
    const int index = set.bounds[s]++;
    const auto i = static_cast<std::size_t>(index);
    set.bound[s][i] = clearing.boundOf(side, line, index);
    doubts[s][i] = uncertainty.of(edge, line, set.bound[s][i], clearing, middle);
    at[s][i] = line.at;
    widest = std::max(widest, doubts[s][i].norm());
  }
  void settleAlong(Side side, double size) {
    const std::size_t s = indexOf(side);
    const auto last = static_cast<std::size_t>(set.bounds[s]) - 1;
    along[s].setZero();
    if (last > 0 && size > 0) along[s] = (doubts[s][last] - doubts[s][0]) / size;
  }
  [[nodiscard]] const Doubts& of(const Bound& bound) const {
    return doubts[indexOf(bound.side)][static_cast<std::size_t>(bound.line)];
  }
  [[nodiscard]] At atOf(const Bound& bound) const {
    return at[indexOf(bound.side)][static_cast<std::size_t>(bound.line)];
  }
};

// Every point of the unit's sides and of the edges that can come nearest once the opening is a little other than it was
// read: a stud that leans in at its foot may lean in at its head. Where the largest spare comes of another choice of
// lines (the unit stands beside the middle of an edge that is bowed inward) that choice's own lines are taken.
Bounds boundsOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing, double spare,
                const Uncertainty& uncertainty) {
  Bounds bounds;
  std::optional<Choice> best;
  if (spareOf(clearing.centralChoice()) < spare - kAlike) {  // another choice leaves more
    clearing.forEachChoice([&](const Choice& choice) {
      if (!best && spareOf(choice) >= spare - kAlike) best = choice;
    });
  }
  const Point at = clearing.middle();
  for (const Side side : kEverySide) {
    const std::size_t s = indexOf(side);
    const Profile& edge = edges[s];
    if (best) {
      for (std::size_t i = 0; i < static_cast<std::size_t>(best->bounds[s]); ++i) {
        bounds.add(side, edge, clearing.lineOf(best->bound[s][i]), clearing, uncertainty, at);
      }
      bounds.settleAlong(side, clearing.sizeAlong(side));
      continue;
    }
    const bool straight = edge.straight && opening.bow_doubt[isJamb(side) ? 0 : 1].sigma <= 0;  // its bow is known
    const std::array<ReachLine, 4> lines = linesByPoint(edge, clearing.sizeAlong(side));
    for (const ReachLine& line : lines) {
      if (straight && line.at == At::Middle) continue;   // never nearer than both ends
      if (!edge.peaked && &line == &lines[2]) continue;  // the same again
      bounds.add(side, edge, line, clearing, uncertainty, at);
    }
    bounds.settleAlong(side, clearing.sizeAlong(side));
  }
  // What stands for the jamb that a triangle hasn't got stands as far from the other jamb whatever that does.
  for (const Side side : {Side::Left, Side::Right}) {
    if (clearing.sizeAlong(side) > 0) continue;
    const std::size_t s = indexOf(side);
    const auto last = static_cast<std::size_t>(bounds.set.bounds[1 - s]) - 1;
    bounds.doubts[s].fill(-(bounds.doubts[1 - s][0] + bounds.doubts[1 - s][last]) / 2);
  }
  return bounds;
}

// Something that must stay above zero, and how it moves.
struct Margin {
  double value = 0;
  Doubts moves = Doubts::Zero();

  // Adds what the size of a slope, known to so much, gains: the tangent where the margin is used up.
  void addSizeOf(double slope, const Doubts& turns, double gain) {
    const double variance = moves.squaredNorm();
    if (!(variance > kExactly * kExactly)) return;  // known exactly: no tangent to take
    const double shared = turns.dot(moves) / variance;
    const double there = slope - shared * value;
    const double sigma = std::sqrt(std::max(turns.squaredNorm() - shared * shared * variance, 0.0));
    const double z = sigma > 0 ? there / sigma : std::copysign(HUGE_VAL, there);
    const double rate = 2 * normalProbability(z) - 1;  // `size` is the mean of a folded normal variable
    const double size = there * rate + sigma * std::sqrt(2 / std::numbers::pi) * std::exp(-z * z / 2);
    value += gain * (size - rate * (there - slope));
    moves += gain * rate * turns;
  }
};

// The chance from the margins of all bases and pairs.
class Chance {
 public:
  Chance(const Profiles& edges, const Clearing& clearing, const Bounds& bounds)
      : clearing_(clearing), bounds_(bounds), follows_(edges[indexOf(Side::Head)].follows), at_(clearing.middle()) {
    addPairs(Side::Left, Side::Right, Side::Sill, Side::Head, at_.z);
    if (!follows_) addPairs(Side::Sill, Side::Head, Side::Left, Side::Right, at_.x);
    forEachBasis(bounds.set, [&](const Basis& basis) {
      const Side first = basis.bound[0]->side;
      const bool pair = first != basis.bound[1]->side;   // else a wedge: two bounds of one side
      if (pair && (isJamb(first) || !follows_)) return;  // added already
      Margin margin{basis.value()};
      if (isFarSafe(margin.value)) return;
      for (std::size_t i = 0; i < static_cast<std::size_t>(basis.bounds); ++i) {
        margin.moves += basis.weight[i] * bounds.of(*basis.bound[i]);
      }
      add(margin);
    });
  }

  [[nodiscard]] double value() { return short_for_certain_ ? 0 : probabilityOfAll(std::span(spaces_).first(matter_)); }

 private:
  void add(const Margin& margin) {
    const double sigma = margin.moves.norm();
    short_for_certain_ = short_for_certain_ || (margin.value < -kTouch && !(sigma > kExactly));
    if (margin.value > kSafe * sigma || !(sigma > kExactly)) return;
    assert(matter_ < spaces_.size());
    spaces_[matter_++] = {margin.value / sigma, -margin.moves / sigma};
  }

  [[nodiscard]] std::span<const Bound> boundsOf(Side side) const {
    return std::span(bounds_.set.bound[indexOf(side)])
        .first(static_cast<std::size_t>(bounds_.set.bounds[indexOf(side)]));
  }
  [[nodiscard]] double slackOf(const Bound& bound) const {
    const bool jamb = isJamb(bound.side);
    return inwardSign(bound.side) * (jamb ? at_.x : at_.z) - bound.slope * (jamb ? at_.z : at_.x) - bound.offset;
  }
  [[nodiscard]] double beyond(Side side) const { return clearing_.gap(side, at_.x, at_.z) - clearing_.leastGap(side); }

  /// How far the unit can go along two opposing sides until one of the other two holds it.
  struct Way {
    Side low, high;
    double centre, room;
    bool ends_tell;  ///< Less than the unit is long.
  };

  /// What two opposing bounds leave between them.
  struct Pair {
    const Bounds& bounds;
    const Bound& a;
    const Bound& b;
    double middle;

    [[nodiscard]] bool meets(At at) const { return bounds.atOf(a) == at || bounds.atOf(b) == at; }
    [[nodiscard]] double narrowing() const { return a.slope + b.slope; }
    /// Where the unit stands so far from the middle.
    [[nodiscard]] double valueAt(double slide) const {
      return -(a.offset + b.offset + narrowing() * (middle + slide)) / 2;
    }
    [[nodiscard]] Doubts along() const {
      Doubts along = Doubts::Zero();
      if (bounds.atOf(a) != At::Middle) along += bounds.along[indexOf(a.side)];  // the edge's own middle doesn't slide
      if (bounds.atOf(b) != At::Middle) along += bounds.along[indexOf(b.side)];
      return along;
    }
    [[nodiscard]] Margin at(double slide) const {
      return {valueAt(slide), (bounds.of(a) + bounds.of(b) + slide * along()) / 2};
    }
  };

  [[nodiscard]] bool isFarSafe(double value) const { return value > kFarSafe * bounds_.widest; }

  // What two opposing sides leave between them, point by point, where the unit has room to go along them.
  void addPairs(Side near, Side far, Side low, Side high, double middle) {
    const double room = std::max(beyond(low) + beyond(high), 0.0);
    const double size = std::min(clearing_.sizeAlong(near), clearing_.sizeAlong(far));
    const Way way{low, high, (beyond(high) - beyond(low)) / 2, room, room < size};
    for (const Bound& a : boundsOf(near)) {
      for (const Bound& b : boundsOf(far)) addPair({bounds_, a, b, middle}, way);
    }
  }

  // The unit goes to the end where they stand wider, which may not be known. But two feet matter only where the opening
  // is wider above, two heads only where it is wider below: so those are looked at with the unit as high, these with it
  // as low as it goes. A foot against a head gains by either way.
  void addPair(const Pair& pair, const Way& way) {
    const bool foot = pair.meets(At::Start);
    if (foot != pair.meets(At::End) && way.ends_tell) return addHeld(pair, foot ? 1 : -1, foot ? way.high : way.low);
    if (isFarSafe(pair.valueAt(way.centre))) return;  // this is cheaper than summing its doubts
    Margin margin = pair.at(way.centre);
    margin.addSizeOf(pair.narrowing(), -pair.along(), way.room / 4);  // half the room, shared by two gaps
    add(margin);
  }

  // With the unit gone up (1) or down (−1) as far as each point lets it that it may be held by there.
  void addHeld(const Pair& pair, double way, Side held_by) {
    const double slide = way * beyond(held_by);
    if (isFarSafe(pair.valueAt(slide))) return;
    if (std::abs(pair.narrowing()) < kParallel) return add(pair.at(slide));
    for (const Bound& stop : boundsOf(held_by)) {
      Margin held = pair.at(way * slackOf(stop));
      held.moves -= way * pair.narrowing() / 2 * bounds_.of(stop);  // the stop's own doubt moves it too
      add(held);
    }
  }

  const Clearing& clearing_;
  const Bounds& bounds_;
  bool follows_;
  Point at_;
  std::array<HalfSpace, kMostBases> spaces_;
  std::size_t matter_ = 0;
  bool short_for_certain_ = false;
};

// The chance that all bases are above zero.
double chanceOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing, double spare,
                const Uncertainty& uncertainty) {
  const double certain = spare >= -kTouch ? 1.0 : 0.0;
  if (uncertainty.isNone()) return certain;
  const Bounds bounds = boundsOf(opening, edges, clearing, spare, uncertainty);
  return bounds.widest > kExactly ? Chance(edges, clearing, bounds).value() : certain;
}

}  // namespace

Governing governingOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing, double spare,
                      double unit_sigma) {
  Governing governing;
  const Uncertainty uncertainty(opening, unit_sigma);
  Doubts moves = Doubts::Zero();
  int alike = 0;
  clearing.forEachChoiceAbove(spare, [&](const Choice& choice) {
    const double own = clearing.centralSuffices(spare) ? spare : spareOf(choice);
    if (own < spare - kAlike) return;
    const Point at = optimumOf(choice, std::min(spare, own));  // the stand at which gradients are taken
    forEachBasis(choice, [&](const Basis& basis) {
      if (basis.value() > spare + kAlike) return;  // it doesn't govern
      ++alike;
      for (std::size_t i = 0; i < static_cast<std::size_t>(basis.bounds); ++i) {
        const Bound& bound = *basis.bound[i];
        const ReachLine& line = clearing.lineOf(bound);
        governing.weight[indexOf(bound.side)][static_cast<std::size_t>(line.at)] += basis.weight[i];
        if (!uncertainty.isNone())
          moves += basis.weight[i] * uncertainty.of(edges[indexOf(bound.side)], line, bound, clearing, at);
      }
    });
  });
  if (alike == 0) return governing;  // not a number came in
  const double share = 1.0 / alike;  // the mean, so that a mirrored opening has mirrored weights
  for (auto& side : governing.weight) {
    for (double& weight : side) weight *= share;
  }
  governing.sigma = moves.norm() * share;
  governing.chance = chanceOf(opening, edges, clearing, spare, uncertainty);
  return governing;
}

}  // namespace sillwright::plan
