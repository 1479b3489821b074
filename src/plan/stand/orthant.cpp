#include "plan/stand/orthant.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>

namespace sillwright::plan {
namespace {

/// Bounds within this of each other need no integral.
constexpr double kCloseEnough = 0.005;
/// Half-spaces that are together missed more rarely than this are left out of the integral.
constexpr double kRare = 2e-4;
/// A normal with less than this of itself outside the space of those before it is taken as lying within it.
constexpr double kDependent = 1e-4;
/// Points for the integral by how many variables there are to draw: the last one's chance is exact. Fewer, down to
/// half, where the bounds by the single probabilities are near each other: the integrand varies less then.
constexpr std::array<int, 4> kPoints{1, 48, 160, 512};
/// Square roots of primes as steps round the unit circle: Richtmyer's sequence.
constexpr std::array<double, kDoubts> kSteps = {
    1.4142135623730951, 1.7320508075688772, 2.2360679774997898, 2.6457513110645907, 3.3166247903553998,
    3.6055512754639891, 4.1231056256176606, 4.3588989435406740, 4.7958315233127191, 5.3851648071345037};

/// Φ between −8 and 8 by cubics between tabulated values and slopes, to 1e-9; beyond them 0 and 1. The integral asks
/// for it some thousand times, and erfc takes most of its time.
class QuickNormal {
 public:
  [[nodiscard]] double operator()(double x) const {
    if (!(x > -kReach)) return 0;  // this is also true of NaN
    if (!(x < kReach)) return 1;
    const double at = (x + kReach) * kPerUnit;
    const auto i = static_cast<std::size_t>(at);
    const double t = at - static_cast<double>(i), r = 1 - t;
    return value_[i] * r * r * (1 + 2 * t) + value_[i + 1] * t * t * (1 + 2 * r) +
           (slope_[i] * r - slope_[i + 1] * t) * t * r;
  }
  static const QuickNormal& get() {
    static const QuickNormal table;
    return table;
  }

 private:
  static constexpr double kReach = 8, kPerUnit = 64;  // a side; a unit
  static constexpr std::size_t kEntries = 2 * 8 * 64 + 2;

  QuickNormal() {
    for (std::size_t i = 0; i < kEntries; ++i) {
      const double x = static_cast<double>(i) / kPerUnit - kReach;
      value_[i] = normalProbability(x);
      slope_[i] = std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi) / kPerUnit;
    }
  }
  std::array<double, kEntries> value_, slope_;
};

constexpr double kTail = 0.02425;  ///< Of normalQuantile's formulas.

template <class Of, std::size_t terms>
Of polynomial(const Of& x, const double (&coefficients)[terms]) {
  Of sum = 0 * x + coefficients[0];
  for (std::size_t i = 1; i < terms; ++i) sum = sum * x + coefficients[i];
  return sum;
}

/// normalQuantile of 0.5 + q, not in a tail.
template <class Of>
Of centralQuantile(const Of& q) {
  const Of square = q * q;
  return q *
         polynomial(square, {-3.969683028665376e+01, 2.209460984245205e+02, -2.759285104469687e+02,
                             1.383577518672690e+02, -3.066479806614716e+01, 2.506628277459239e+00}) /
         polynomial(square, {-5.447609879822406e+01, 1.615858368580409e+02, -1.556989798598866e+02,
                             6.680131188771972e+01, -1.328068155288572e+01, 1});
}

/// Half-spaces over variables of their own: rows of a lower triangular matrix, each stated by the last variable in it.
class Triangle {
 public:
  explicit Triangle(std::span<const HalfSpace> all) {
    for (const HalfSpace& one : all) add(one);
    std::sort(row_.begin(), row_.begin() + rows_, [](const Row& a, const Row& b) { return a.last < b.last; });
    for (int r = 0; r < rows_; ++r) end_[row_[static_cast<std::size_t>(r)].last] = r + 1;
    for (std::size_t c = 1; c < columns_; ++c) end_[c] = std::max(end_[c], end_[c - 1]);
  }

  /// `apart`: how far apart the bounds are.
  [[nodiscard]] double probability(double apart) const {
    if (columns_ == 0) return 1;         // nothing bounds it
    const Share first = shareOf(0, {});  // the same at every point
    if (columns_ == 1 || !(first.size[0] > 0)) return std::max(first.size[0], 0.0);
    double sum = 0;
    const double share = std::max(0.5, std::sqrt(apart));
    const auto points = static_cast<int>(kPoints[std::min(columns_, kPoints.size()) - 1] * share);
    for (int i = 0; i < points; i += kTogether)
      sum += from(i, points, first).head(std::min(kTogether, points - i)).sum();  // the last lanes may be too many
    return first.size[0] * sum / points;
  }

 private:
  /// own·y[last] ≤ distance − Σ by·y of the variables before it, where own is 1 or −1.
  struct Row {
    double distance = 0;
    bool is_upper = true;
    std::size_t last = 0;
    std::array<double, kDoubts> by;
  };
  /// Points are worked out so many at a time, side by side.
  static constexpr int kTogether = 8;
  using Lanes = Eigen::Array<double, kTogether, 1>;
  using Drawn = std::array<Lanes, kDoubts>;
  /// What a variable may be, given those before it, as a share of its normal distribution.
  struct Share {
    Lanes below, size;
  };
  static constexpr int kMostRows = 64;

  void add(const HalfSpace& one) {
    if (rows_ == kMostRows) return;  // only the loosest are left out: the tightest come first
    Row& row = row_[static_cast<std::size_t>(rows_++)];
    Doubts rest = one.normal;  // Gram–Schmidt over the directions so far
    std::size_t last = 0;
    for (std::size_t c = 0; c < columns_; ++c) {
      row.by[c] = rest.dot(direction_[c]);
      rest -= row.by[c] * direction_[c];
      if (std::abs(row.by[c]) > kDependent) last = c;
    }
    if (rest.norm() > kDependent && columns_ < kDoubts) {
      last = columns_++;
      row.by[last] = rest.norm();
      direction_[last] = rest / rest.norm();
    }
    row.last = last;
    row.is_upper = row.by[last] > 0;  // divided by a negative, ≤ turns to ≥
    row.distance = one.distance / row.by[last];
    for (std::size_t k = 0; k < last; ++k) row.by[k] /= row.by[last];
  }

  [[nodiscard]] Share shareOf(std::size_t c, const Drawn& y) const {
    Lanes low = Lanes::Constant(-std::numeric_limits<double>::infinity());
    Lanes high = -low;
    for (int r = c == 0 ? 0 : end_[c - 1]; r < end_[c]; ++r) {
      const Row& row = row_[static_cast<std::size_t>(r)];
      Lanes left = Lanes::Constant(row.distance);
      for (std::size_t k = 0; k < c; ++k) left -= row.by[k] * y[k];
      (row.is_upper ? high : low) = row.is_upper ? high.min(left).eval() : low.max(left).eval();
    }
    const Lanes below = low.unaryExpr(std::cref(normal_));
    return {below, high.unaryExpr(std::cref(normal_)) - below};
  }

  /// The integrand at the points from `i` on of so many: the product of each variable's chance, given those before it,
  /// but the first's. The first variable takes even steps (Hammersley's set), the others those of the sequence.
  [[nodiscard]] Lanes from(int i, int points, Share share) const {
    const Lanes at = Lanes::LinSpaced(i, i + kTogether - 1);
    Drawn y;
    Lanes product = Lanes::Ones();
    Lanes u = (at + 0.5) / points;
    for (std::size_t c = 0; c + 1 < columns_; ++c) {
      y[c] = quantiles((share.below + u * share.size).max(1e-15).min(1 - 1e-15));  // the ends would be infinite
      share = shareOf(c + 1, y);
      product *= share.size.max(0);  // contradicting rows leave nothing, never less
      const Lanes turn = (at + 1) * kSteps[c + 1];
      u = (2 * (turn - turn.floor()) - 1).abs();  // folded: the integrand's ends then meet
    }
    return product;
  }
  /// Φ⁻¹ of each. Most are central, where it is a quotient of polynomials.
  static Lanes quantiles(const Lanes& p) {
    const Lanes q = p - 0.5;
    const Lanes central = centralQuantile(q);
    Lanes all;
    for (int i = 0; i < kTogether; ++i) all[i] = std::abs(q[i]) <= 0.5 - kTail ? central[i] : normalQuantile(p[i]);
    return all;
  }

  const QuickNormal& normal_ = QuickNormal::get();
  std::array<Row, kMostRows> row_;
  int rows_ = 0;
  std::array<int, kDoubts> end_{};  ///< Of each variable's rows.
  std::array<Doubts, kDoubts> direction_;
  std::size_t columns_ = 0;
};

/// The tightest first; of those alike, by how they lie to the others and to those already in order, so that a mirrored
/// opening is integrated alike.
void sortForIntegral(std::span<HalfSpace> all) {
  constexpr double kAlike = 1e-5;  // far above what a mirrored adjustment of few readings differs by
  Doubts others = Doubts::Zero();
  for (const HalfSpace& one : all) others += QuickNormal::get()(-one.distance) * one.normal;
  for (std::size_t sorted = 0; sorted + 1 < all.size(); ++sorted) {
    std::span<HalfSpace> next = all.subspan(sorted);
    const auto keepLeast = [&](const auto& key) {
      double least = std::numeric_limits<double>::infinity();
      for (const HalfSpace& one : next) least = std::min(least, key(one));
      const auto end =
          std::partition(next.begin(), next.end(), [&](const HalfSpace& one) { return key(one) <= least + kAlike; });
      next = next.first(static_cast<std::size_t>(end - next.begin()));
    };
    keepLeast([](const HalfSpace& one) { return one.distance; });
    keepLeast([&](const HalfSpace& one) { return one.normal.dot(others); });
    for (std::size_t i = 0; i < sorted && next.size() > 1; ++i) {
      keepLeast([&](const HalfSpace& one) { return -one.normal.dot(all[i].normal); });
    }
  }
}

}  // namespace

double normalProbability(double x) { return std::erfc(-x / std::numbers::sqrt2) / 2; }

double normalQuantile(double p) {
  assert(p > 0 && p < 1);
  if (p > 1 - kTail) return -normalQuantile(1 - p);  // the tails mirror each other
  if (p >= kTail) return centralQuantile(p - 0.5);
  const double q = std::sqrt(-2 * std::log(p));
  return polynomial(q, {-7.784894002430293e-03, -3.223964580411365e-01, -2.400758277161838e+00, -2.549732539343734e+00,
                        4.374664141464968e+00, 2.938163982698783e+00}) /
         polynomial(q, {7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00, 3.754408661907416e+00, 1});
}

double probabilityOfAll(std::span<HalfSpace> all) {
  std::sort(all.begin(), all.end(), [](const HalfSpace& a, const HalfSpace& b) { return a.distance < b.distance; });
  const QuickNormal& normal = QuickNormal::get();
  double missed = 0;
  std::size_t matter = all.size();
  for (std::size_t i = all.size(); i-- > 0;) {  // the loosest first
    missed += normal(-all[i].distance);
    if (missed < kRare) matter = i;
  }
  if (all.empty()) return 1;
  const double upper = normal(all.front().distance);  // no likelier than the tightest alone
  const double lower = std::max(0.0, 1 - missed);     // nor missed more often than all misses together
  if (upper - lower < kCloseEnough) return (upper + lower) / 2;
  sortForIntegral(all.first(matter));
  return Triangle(all.first(matter)).probability(upper - lower);
}

}  // namespace sillwright::plan
