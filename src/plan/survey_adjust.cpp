#include "plan/survey_adjust.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <span>
#include <utility>

namespace sillwright::plan {
namespace {

/// A direction of which the readings see less than this share is open: they would tell it 25 times worse than they
/// tell a size, and the plan knows better. Ordinary openings have it near 1 or exactly 0.
constexpr double kSeen = 0.04;
/// Gauss–Newton stops when no corner moves further than this, mm. The error left is smaller by the ratio of residuals
/// to sizes.
constexpr double kStill = 1e-7;
constexpr int kMostIterations = 100;

/// The value of each reading and its derivative by the unknowns.
struct Observed {
  std::array<double, kReadings> value{};
  std::array<Vector6, kReadings> row{};
};

constexpr std::size_t kNoUnknown = kUnknowns;  // BL is the origin
constexpr std::size_t kBR = 0, kTR = 2, kTL = 4;

/// A distance between two corners, named by the index of their x among the unknowns: the derivative is the direction.
struct DistanceOf {
  Reading reading;
  std::size_t from, to;
};
constexpr std::array<DistanceOf, 6> kDistances = {{{Reading::WidthBottom, kNoUnknown, kBR},
                                                   {Reading::WidthTop, kTL, kTR},
                                                   {Reading::HeightLeft, kNoUnknown, kTL},
                                                   {Reading::HeightRight, kBR, kTR},
                                                   {Reading::DiagonalRising, kNoUnknown, kTR},
                                                   {Reading::DiagonalFalling, kTL, kBR}}};

void observe(const Vector6& x, Observed& observed) {
  for (const auto& [reading, from, to] : kDistances) {
    const bool from_origin = from == kNoUnknown;
    const double dx = x[to] - (from_origin ? 0 : x[from]);
    const double dz = x[to + 1] - (from_origin ? 0 : x[from + 1]);
    const double length = std::sqrt(dx * dx + dz * dz);
    const double inverse = length > 0 ? 1 / length : 0;
    const std::size_t k = indexOf(reading);
    observed.value[k] = length;
    observed.row[k][to] = dx * inverse;
    observed.row[k][to + 1] = dz * inverse;
    if (!from_origin) {
      observed.row[k][from] = -dx * inverse;
      observed.row[k][from + 1] = -dz * inverse;
    }
  }
  const std::size_t fall = indexOf(Reading::SillFall);
  const std::size_t left = indexOf(Reading::LeanLeft);
  const std::size_t right = indexOf(Reading::LeanRight);
  observed.value[fall] = x[kBR + 1];
  observed.row[fall][kBR + 1] = 1;
  observed.value[left] = x[kTL];
  observed.row[left][kTL] = 1;
  observed.value[right] = x[kTR] - x[kBR];
  observed.row[right][kTR] = 1;
  observed.row[right][kBR] = -1;
}

/// The directions not yet spoken for. Starts as all six.
struct OpenDirections {
  std::array<Vector6, kUnknowns> direction{};
  std::size_t count = kUnknowns;

  OpenDirections() {
    for (std::size_t i = 0; i < kUnknowns; ++i) direction[i][i] = 1;
  }
};

/// How a group of statements sees an open direction: one number a statement.
using Seen = std::array<double, kReadings>;

double dotSeen(const Seen& a, const Seen& b, std::size_t count) {
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i) sum += a[i] * b[i];
  return sum;
}

/// Lets a group of statements (the rows) take the open directions that they see, best seen first: a modified
/// Gram–Schmidt with pivots. `taken(u)` gets, for each direction taken, the unit combination u of the rows that
/// settles it. Directions that the group doesn't see stay open.
template <typename Taken>
void take(OpenDirections& open, std::span<const Vector6> rows, Taken taken) {
  std::array<Seen, kUnknowns> seen{};
  for (std::size_t j = 0; j < open.count; ++j) {
    for (std::size_t i = 0; i < rows.size(); ++i) seen[j][i] = dot(rows[i], open.direction[j]);
  }
  while (open.count > 0) {
    std::size_t best = 0;
    double best_share = -1;
    for (std::size_t j = 0; j < open.count; ++j) {
      const double share = dotSeen(seen[j], seen[j], rows.size()) / dot(open.direction[j], open.direction[j]);
      if (share > best_share) {
        best = j;
        best_share = share;
      }
    }
    if (best_share < kSeen * kSeen) return;

    const double inverse = 1 / std::sqrt(dotSeen(seen[best], seen[best], rows.size()));
    Seen unit = seen[best];
    for (std::size_t i = 0; i < rows.size(); ++i) unit[i] *= inverse;
    Vector6 direction = open.direction[best];
    for (double& component : direction) component *= inverse;
    --open.count;
    seen[best] = seen[open.count];
    open.direction[best] = open.direction[open.count];
    for (std::size_t j = 0; j < open.count; ++j) {
      const double along = dotSeen(unit, seen[j], rows.size());
      for (std::size_t i = 0; i < rows.size(); ++i) seen[j][i] -= along * unit[i];
      addScaled(open.direction[j], -along, direction);
    }
    taken(unit);
  }
}

/// A width and height near the opening's, from what was read or else planned: where the structure is judged and where
/// the iteration starts.
std::array<double, 2> roughSize(const SurveyInput& input) {
  const auto mean = [&](Reading first, Reading second) {
    const std::size_t a = indexOf(first);
    const std::size_t b = indexOf(second);
    if (input.read[a] != input.read[b]) return input.read[a] ? input.value[a] : input.value[b];
    return (input.value[a] + input.value[b]) / 2;
  };
  return {mean(Reading::WidthBottom, Reading::WidthTop), mean(Reading::HeightLeft, Reading::HeightRight)};
}

Vector6 rectangle(double width, double height) {
  return {width, 0, width, height, 0, height};
}

/// A group of planned values that stand in together, in the order they are asked.
constexpr std::array<Reading, 4> kSizes = {Reading::WidthBottom, Reading::WidthTop, Reading::HeightLeft,
                                           Reading::HeightRight};
constexpr std::array<Reading, 1> kLevel = {Reading::SillFall};
constexpr std::array<Reading, 2> kPlumb = {Reading::LeanLeft, Reading::LeanRight};

void takeFromPlan(const SurveyInput& input, const Observed& at, std::span<const Reading> group, OpenDirections& open,
                  StandIns& stand_ins) {
  std::array<Vector6, 4> rows{};
  std::array<std::size_t, 4> who{};
  std::size_t count = 0;
  for (const Reading reading : group) {
    const std::size_t k = indexOf(reading);
    if (input.read[k]) continue;
    rows[count] = at.row[k];
    who[count++] = k;
  }
  take(open, std::span(rows).first(count), [&](const Seen& unit) {
    StandIn& stand_in = stand_ins.all[stand_ins.count++];
    stand_in.sigma = input.planned_sigma;
    for (std::size_t i = 0; i < count; ++i) {
      stand_in.coefficient[who[i]] = unit[i];
      stand_in.value += unit[i] * input.value[who[i]];
      if (std::abs(unit[i]) > kSeen) stand_ins.planned[who[i]] = true;
    }
  });
}

/// Each middle reading as the mean of its two edges' readings, which holds where the edges between are straight.
void takeFromMiddles(const SurveyInput& input, const Observed& at, OpenDirections& open, StandIns& stand_ins) {
  for (std::size_t m = 0; m < 2; ++m) {
    if (!input.middle[m]) continue;
    const std::size_t first = indexOf(m == 0 ? Reading::WidthBottom : Reading::HeightLeft);
    const std::size_t second = first + 1;
    Vector6 mean{};
    addScaled(mean, 0.5, at.row[first]);
    addScaled(mean, 0.5, at.row[second]);
    take(open, std::span(&mean, 1), [&](const Seen&) {
      StandIn& stand_in = stand_ins.all[stand_ins.count++];
      stand_in.coefficient[first] = stand_in.coefficient[second] = 0.5;
      stand_in.value = *input.middle[m];
      stand_in.sigma = input.middle_sigma;
      stand_ins.middle[m] = true;
    });
  }
}

/// A stand-in is held this much harder than the best reading while the shape is sought. It settles only what the
/// readings leave open, so to first order its weight makes no difference; held hard, it also keeps a mistake of
/// centimetres in a width from tilting an edge whose fall nobody read. Its true standard error enters the covariance.
constexpr double kHold = 1e4;

/// The normal equations at a shape, and how badly it fits.
struct Normal {
  Matrix6 matrix{};
  Vector6 right{};
  double misfit = 0;        ///< Weighted sum of squares, stand-ins counted.
  Matrix6 from_readings{};  ///< The readings' part of the matrix.
  std::array<Vector6, kUnknowns> stand_in_row{};
  double stand_in_weight = 0;
};

Normal normalAt(const SurveyInput& input, const StandIns& stand_ins, const Observed& at) {
  Normal normal;
  const auto add = [&normal](const Vector6& row, double missing, double weight) {
    addOuter(normal.matrix, weight, row);
    addScaled(normal.right, weight * missing, row);
    normal.misfit += weight * missing * missing;
  };
  double heaviest = 1 / (input.middle_sigma * input.middle_sigma);
  for (std::size_t k = 0; k < kReadings; ++k) {
    if (!input.read[k]) continue;
    const double times_read = input.again && indexOf(*input.again) == k ? 2 : 1;
    const double weight = times_read / (input.sigma[k] * input.sigma[k]);
    add(at.row[k], input.value[k] - at.value[k], weight);
    heaviest = std::max(heaviest, weight);
  }
  if (stand_ins.count == 0) return normal;

  normal.from_readings = normal.matrix;
  normal.stand_in_weight = kHold * heaviest;
  for (std::size_t s = 0; s < stand_ins.count; ++s) {
    const StandIn& stand_in = stand_ins.all[s];
    Vector6& row = normal.stand_in_row[s];
    double missing = stand_in.value;
    for (std::size_t k = 0; k < kReadings; ++k) {
      if (stand_in.coefficient[k] == 0) continue;
      addScaled(row, stand_in.coefficient[k], at.row[k]);
      missing -= stand_in.coefficient[k] * at.value[k];
    }
    add(row, missing, normal.stand_in_weight);
  }
  return normal;
}

/// Covariance of the corners: errors of readings and stand-ins carried through the estimator N⁻¹ Aᵀ P.
Matrix6 covarianceOf(const Normal& normal, const StandIns& stand_ins, const Matrix6& inverse) {
  if (stand_ins.count == 0) return inverse;
  Matrix6 middle = normal.from_readings;
  for (std::size_t s = 0; s < stand_ins.count; ++s) {
    const double carried = normal.stand_in_weight * stand_ins.all[s].sigma;
    addOuter(middle, carried * carried, normal.stand_in_row[s]);
  }
  Matrix6 covariance{};
  Matrix6 half{};  // middle · inverse, row by row
  for (std::size_t i = 0; i < kUnknowns; ++i) half[i] = times(inverse, middle[i]);
  for (std::size_t i = 0; i < kUnknowns; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = 0;
      for (std::size_t k = 0; k < kUnknowns; ++k) sum += inverse[i][k] * half[k][j];
      covariance[i][j] = covariance[j][i] = sum;
    }
  }
  return covariance;
}

/// Where the iteration starts: widths, heights and leans as given, each put where it belongs in a rectangle.
Vector6 startOf(const SurveyInput& input) {
  const auto [width, height] = roughSize(input);
  const auto given = [&input](Reading reading) { return input.value[indexOf(reading)]; };
  Vector6 x = rectangle(width, height);
  x[kBR + 1] = given(Reading::SillFall);
  x[kTR] += given(Reading::LeanRight);
  x[kTR + 1] += given(Reading::SillFall);
  x[kTL] = given(Reading::LeanLeft);
  return x;
}

void describe(const SurveyInput& input, const Observed& at, const Matrix6& inverse, Adjusted& adjusted) {
  adjusted.row = at.row;
  for (std::size_t k = 0; k < kReadings; ++k) {
    adjusted.residual[k] = at.value[k] - input.value[k];
    if (!input.read[k]) continue;
    const double variance = input.sigma[k] * input.sigma[k];
    const double explained = between(at.row[k], inverse, at.row[k]) / variance;
    adjusted.redundancy[k] = std::clamp(1 - explained, 0.0, 1.0);
    adjusted.chi_square += adjusted.residual[k] * adjusted.residual[k] / variance;
  }
}

int countRead(const SurveyInput& input) {
  return static_cast<int>(std::count(input.read.begin(), input.read.end(), true));
}

}  // namespace

std::array<double, kReadings> readingsOf(const Vector6& corners) {
  Observed observed;
  observe(corners, observed);
  return observed.value;
}

StandIns standInsFor(const SurveyInput& input) {
  StandIns stand_ins;
  if (countRead(input) == static_cast<int>(kReadings)) return stand_ins;  // all nine leave nothing open
  const auto [width, height] = roughSize(input);
  Observed at;
  observe(rectangle(width, height), at);

  OpenDirections open;
  std::array<Vector6, kReadings> rows{};
  std::size_t count = 0;
  for (std::size_t k = 0; k < kReadings; ++k) {
    if (input.read[k]) rows[count++] = at.row[k];
  }
  take(open, std::span(rows).first(count), [](const Seen&) {});
  stand_ins.open = open.count;
  takeFromMiddles(input, at, open, stand_ins);
  takeFromPlan(input, at, kSizes, open, stand_ins);
  takeFromPlan(input, at, kLevel, open, stand_ins);
  takeFromPlan(input, at, kPlumb, open, stand_ins);
  assert(open.count == 0);  // sizes, level and plumb together see every direction of a rectangle
  return stand_ins;
}

Adjusted adjust(const SurveyInput& input) {
  Adjusted adjusted;
  adjusted.stand_ins = standInsFor(input);
  adjusted.freedom = countRead(input) - static_cast<int>(kUnknowns - adjusted.stand_ins.open);

  Observed at;
  Vector6 x = startOf(input);
  Vector6 step{};
  double misfit = 0;
  for (; adjusted.iterations < kMostIterations; ++adjusted.iterations) {
    observe(x, at);
    const Normal normal = normalAt(input, adjusted.stand_ins, at);
    const bool worse = adjusted.iterations > 0 && normal.misfit > misfit * (1 + 1e-9) + 1e-9;
    double longest = 0;
    for (const double component : step) longest = std::max(longest, std::abs(component));
    if (worse && longest > kStill) {  // overshot: half the way back
      for (double& component : step) component /= 2;
      addScaled(x, -1, step);
      continue;
    }
    const Cholesky6 factor(normal.matrix);
    if (!factor.positive) return adjusted;
    if (adjusted.iterations > 0 && longest <= kStill) {
      const Matrix6 inverse = factor.inverse();
      adjusted.corners = x;
      adjusted.converged = true;
      adjusted.covariance = covarianceOf(normal, adjusted.stand_ins, inverse);
      describe(input, at, inverse, adjusted);
      break;
    }
    misfit = normal.misfit;
    step = factor.solve(normal.right);
    addScaled(x, 1, step);
  }
  return adjusted;
}

std::array<std::array<double, kReadings>, kReadings> residualCorrelation(const SurveyInput& input,
                                                                         const Vector6& corners) {
  std::array<std::array<double, kReadings>, kReadings> correlation{};
  Observed at;
  observe(corners, at);
  const Cholesky6 factor(normalAt(input, standInsFor(input), at).matrix);
  if (!factor.positive) return correlation;
  const Matrix6 inverse = factor.inverse();
  const auto cofactor = [&](std::size_t i, std::size_t j) {
    const double observed = i == j ? input.sigma[i] * input.sigma[i] : 0;
    return observed - between(at.row[i], inverse, at.row[j]);
  };
  for (std::size_t i = 0; i < kReadings; ++i) {
    for (std::size_t j = 0; j < kReadings; ++j) {
      const double spread = cofactor(i, i) * cofactor(j, j);
      const double least = kLeastRedundancy * input.sigma[i] * input.sigma[j];
      if (input.read[i] && input.read[j] && spread > least * least) {
        correlation[i][j] = cofactor(i, j) / std::sqrt(spread);
      }
    }
  }
  return correlation;
}

}  // namespace sillwright::plan
