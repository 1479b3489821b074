/// The linear programme behind `place`: the largest m such that every gap of the unit is its least gap plus m.
///
/// With the reaches of reach.h, every gap is linear in the unit's lower left corner (x, z):
///
///     left  x − a·z − p ≥ m        sill  z − s·x − u ≥ m
///     right −x − b·z − q ≥ m       head −z − h·x − v ≥ m
///
/// where a, b, s, h are the slopes of the reaches and p, q, u, v their offsets with the least gaps (and, on the far
/// sides, the unit's size) added. At most two such bounds a side. By duality the largest m is the least value
/// −Σ λ·offset over the *bases*: sets of two or three bounds with weights λ ≥ 0, Σ λ = 1, whose pushes on x and z
/// balance. With slopes below 45° the only bases are an opposing pair with one bound of another side or of the same
/// side, and their weights are given in closed form by the slopes alone; so all of them (40 at most, 4 for straight
/// edges) are written out and the least is taken. Nothing iterates and nothing is compared with a tolerance.
///
/// The weights don't depend on the unit's size or on the least gaps. So each basis also says how its value changes
/// with them, and "the largest width that fits" or "the least to take off the left stud" is a least ratio over the
/// same bases.
#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <utility>

#include "plan/stand/reach.h"
#include "plan/survey/survey.h"

namespace sillwright::plan {

/// One gap as a linear bound: inward position of the unit's side − slope·t − offset ≥ m.
struct Bound {
  double slope = 0;
  double offset = 0;
  double by_width = 0;   ///< Growth of the offset with the unit's width…
  double by_height = 0;  ///< …and with its height.
  Side side = Side::Left;
  int line = 0;  ///< Of its side's reach.
};

/// Bounds that must all hold, at most so many a side.
template <std::size_t Most>
struct BoundSet {
  std::array<std::array<Bound, Most>, kSides> bound{};
  std::array<int, kSides> bounds{};
};
/// One line of each inward-bowed edge with all lines of the others.
using Choice = BoundSet<2>;

/// Up to three bounds that hold each other in balance.
struct Basis {
  std::array<const Bound*, 3> bound{};
  std::array<double, 3> weight{};
  int bounds = 0;

  template <class Of>
  [[nodiscard]] double sum(Of&& of) const {
    const double pair = weight[0] * of(*bound[0]) + weight[1] * of(*bound[1]);
    return bounds == 2 ? pair : pair + weight[2] * of(*bound[2]);
  }
  /// The spare that these bounds leave: an upper limit of the largest spare, reached by the governing basis.
  [[nodiscard]] double value() const {
    return -sum([](const Bound& b) { return b.offset; });
  }
};

struct Range {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  [[nodiscard]] bool empty() const { return !(low <= high); }
};

/// Slack for rounding where a stand touches its least gaps, mm. Not a tolerance of the search.
inline constexpr double kTouch = 1e-9;

/// A unit to be stood in an opening with its least gaps.
class Clearing {
 public:
  Clearing(const OpeningShape& opening, double width, double height, const LeastGaps& least)
      : Clearing(profilesOf(opening), width, height, least) {}
  Clearing(const Profiles& edges, double width, double height, const LeastGaps& least);

  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double height() const { return height_; }
  /// Of the unit's side along an edge: its width, or how high it is there.
  [[nodiscard]] double sizeAlong(Side side) const { return size_along_[indexOf(side)]; }
  [[nodiscard]] const Reach& reach(Side side) const { return reach_[indexOf(side)]; }
  [[nodiscard]] const ReachLine& lineOf(const Bound& bound) const {
    return reach(bound.side).line[static_cast<std::size_t>(bound.line)];
  }
  [[nodiscard]] double leastGap(Side side) const { return least_[indexOf(side)]; }

  /// Least gap of a side at a stand, over the unit's whole side.
  [[nodiscard]] double gap(Side side, double x, double z) const;
  /// Least of gap less least gap over the four sides.
  [[nodiscard]] double spareAt(double x, double z) const;

  /// The unit in the middle of the opening.
  [[nodiscard]] Point middle() const;
  /// Any edge bowed inward?
  [[nodiscard]] bool bowedInward() const;

  /// The choice with every inward-bowed middle opposite the unit.
  [[nodiscard]] const Choice& centralChoice() const { return central_; }
  /// True where no stand with at least `floor` to spare touches any line but the central ones; then the central
  /// choice alone holds every such stand.
  [[nodiscard]] bool centralSuffices(double floor) const { return floor >= central_from_ || centralHolds(floor); }
  /// Looks whether it does from this floor on, so that nobody looks again.
  void settle(double floor) {
    if (centralHolds(floor)) central_from_ = floor;
  }

  /// The bound that a line of a side makes; `index` is what the bound remembers it by.
  [[nodiscard]] Bound boundOf(Side side, const ReachLine& line, int index) const;

  /// Calls `visit(choice)` for every choice of lines (1 to 81).
  template <class Visit>
  void forEachChoice(Visit&& visit) const {
    std::array<int, kSides> pick{};
    Choice choice = choiceOf(pick);
    for (;;) {
      visit(std::as_const(choice));
      bool more = false;
      for (std::size_t side = 0; side < kSides && !more; ++side) {
        const Reach& own = reach_[side];
        if (!own.least) continue;
        more = ++pick[side] < own.lines;
        if (!more) pick[side] = 0;
        choice.bound[side][0] = boundOf(kEverySide[side], own.line[static_cast<std::size_t>(pick[side])], pick[side]);
      }
      if (!more) return;
    }
  }
  /// The choices that matter for stands with at least `floor` to spare: the central one where that suffices, else all.
  template <class Visit>
  void forEachChoiceAbove(double floor, Visit&& visit) const {
    if (centralSuffices(floor)) {
      visit(centralChoice());
    } else {
      forEachChoice(std::forward<Visit>(visit));
    }
  }

 private:
  [[nodiscard]] bool centralHolds(double floor) const;
  /// `pick`: of each side that is bowed inward, which of its lines.
  [[nodiscard]] Choice choiceOf(const std::array<int, kSides>& pick) const;

  Reaches reach_;
  std::array<double, kSides> least_{};
  double width_ = 0;
  double height_ = 0;
  std::array<double, kSides> size_along_{};
  Choice central_;
  double central_from_ = std::numeric_limits<double>::infinity();  ///< The least floor that it is known to suffice for.
};

namespace detail {

/// Bases whose opposing pair is `near` against `far`; `cross_near` and `cross_far` are the two other sides.
template <std::size_t Most, class Emit>
void forEachBasisAcross(const BoundSet<Most>& choice, Side near, Side far, Side cross_near, Side cross_far,
                        Emit&& emit) {
  const auto bounds = [&](Side side) { return choice.bounds[indexOf(side)]; };
  const auto bound = [&](Side side, int i) -> const Bound& {
    return choice.bound[indexOf(side)][static_cast<std::size_t>(i)];
  };
  const auto emitScaled = [&](const Bound& i, const Bound& j, const Bound& k, double wi, double wj, double wk) {
    const double scale = 1 / (wi + wj + wk);
    emit(Basis{{&i, &j, &k}, {wi * scale, wj * scale, wk * scale}, 3});
  };
  for (int i = 0; i < bounds(near); ++i) {
    const Bound& a = bound(near, i);
    for (int j = 0; j < bounds(far); ++j) {
      const Bound& b = bound(far, j);
      const double narrowing = a.slope + b.slope;  // how fast the two close in along the edge
      if (narrowing == 0) {
        emit(Basis{{&a, &b, nullptr}, {0.5, 0.5, 0}, 2});
        continue;
      }
      // Pushed back along the narrowing; the unit leans on the side it is pushed to.
      const Side held_by = narrowing > 0 ? cross_near : cross_far;
      const double sign = narrowing > 0 ? 1.0 : -1.0;
      for (int k = 0; k < bounds(held_by); ++k) {
        const Bound& c = bound(held_by, k);
        emitScaled(a, b, c, 1 + sign * c.slope * b.slope, 1 - sign * c.slope * a.slope, sign * narrowing);
      }
    }
  }
  // Two bounds of one side, of which one closes in and the other opens, against one of the opposite side.
  const auto emitWedge = [&](const Bound& a0, const Bound& a1, const Bound& b) {
    const double t0 = a0.slope + b.slope;
    const double t1 = a1.slope + b.slope;
    if ((t0 < 0 && t1 > 0) || (t0 > 0 && t1 < 0)) {
      const double share = t1 / (t1 - t0);
      emit(Basis{{&a0, &a1, &b}, {share / 2, (1 - share) / 2, 0.5}, 3});
    }
  };
  const auto emitWedges = [&](Side twice, Side once) {
    for (int j = 0; j < bounds(once); ++j) {
      for (int i = 0; i < bounds(twice); ++i) {
        for (int k = i + 1; k < bounds(twice); ++k) emitWedge(bound(twice, i), bound(twice, k), bound(once, j));
      }
    }
  };
  emitWedges(near, far);
  emitWedges(far, near);
}

}  // namespace detail

/// Calls `emit(basis)` for every basis of a choice.
template <std::size_t Most, class Emit>
void forEachBasis(const BoundSet<Most>& choice, Emit&& emit) {
  detail::forEachBasisAcross(choice, Side::Left, Side::Right, Side::Sill, Side::Head, emit);
  detail::forEachBasisAcross(choice, Side::Sill, Side::Head, Side::Left, Side::Right, emit);
}

/// The largest spare of one choice.
[[nodiscard]] double spareOf(const Choice& choice);
/// The largest spare of all choices: exact.
[[nodiscard]] double largestSpare(const Clearing& clearing);

/// The largest s that keeps every basis at 0 or more where its value falls by its own rate for each unit of s (s may be
/// negative: the values must then rise). −infinity where a basis is short and s doesn't change it.
class LargestStep {
 public:
  void hold(double value, double fall) {
    if (fall > 0) {
      // value/fall < step, without dividing where it isn't so
      if (value < step_ * fall) step_ = value / fall;
    } else if (value < -kTouch) {
      step_ = -std::numeric_limits<double>::infinity();
    }
  }
  [[nodiscard]] double step() const { return step_; }

 private:
  double step_ = std::numeric_limits<double>::infinity();
};

/// Heights z at which a choice leaves every gap its least gap plus `spare`, for some x.
[[nodiscard]] Range heightsOf(const Choice& choice, double spare);
/// Positions x at height z, likewise.
[[nodiscard]] Range positionsOf(const Choice& choice, double z, double spare);

// What `place` puts together: what governs the largest spare, how well it is known and the chance that there is any;
// the largest unit that goes in an opening.

struct Governing {
  std::array<std::array<double, 3>, kSides> weight{};  ///< λ by Side and At; all sum to 1.
  double sigma = 0;                                    ///< Standard error of the largest spare, to first order.
  double chance = 0;                                   ///< That the largest spare is above 0.
};

/// `edges` and `clearing`: of the opening. `spare`: the largest spare of `clearing`. `unit_sigma`: standard error of
/// the unit's width and of its height.
[[nodiscard]] Governing governingOf(const AsBuilt& opening, const Profiles& edges, const Clearing& clearing,
                                    double spare, double unit_sigma);

/// Largest width at the unit's height and largest height at its width that keep the least gaps, exact; −infinity:
/// none, whatever it is.
struct LargestSizes {
  double width = 0, height = 0;
};

/// `clearing`: of a unit of the planned size among `edges`, with the gaps `least`.
[[nodiscard]] LargestSizes largestSizes(const Profiles& edges, const Clearing& clearing, const LeastGaps& least);

/// Down to the practice's step, never below 0. A step of 0 or less leaves the size as it is.
[[nodiscard]] double roundedDown(double size, double step);

/// The unit's width and height, made smaller where the opening's middle has no room for them, and then rounded down
/// to the step.
[[nodiscard]] std::array<double, 2> cutToMiddle(const Profiles& edges, const Clearing& clearing, const LeastGaps& least,
                                                double step);

}  // namespace sillwright::plan
