#include "plan/survey/survey_adjust.h"

#include <algorithm>
#include <cmath>

namespace sillwright::plan {
namespace {

/// Done when the next step would be shorter than this, mm, were it shorter than the last by the same ratio as that one
/// than the one before; but a gain of more than kGain is not believed (one step can do well by chance).
constexpr double kStill = 1e-7;
constexpr double kGain = 0.005;
/// Derivatives are taken anew when the shape has moved this far since, mm. Until then a step with the old ones errs by
/// the ratio of this to the opening's size, and the covariance by the same share.
constexpr double kFresh = 0.02;
/// A step that is not this much shorter than the one before asks for new derivatives too.
constexpr double kSlow = 0.1;
constexpr int kMostIterations = 100;
/// A stand-in is held this much harder than the best reading while the shape is sought. It settles only what the
/// readings leave open, so to first order its weight makes no difference; held hard, it also keeps a mistake of
/// centimetres in a width from tilting an edge whose fall nobody read. Its true standard error enters the covariance.
constexpr double kHold = 1e4;

/// The nine weights 1/σ², 0 where not read, and the weight that stand-ins are held with.
struct Weights {
  std::array<double, kReadings> reading{};
  double stand_in = 0;

  explicit Weights(const SurveyInput& input) {
    double heaviest = 1 / (input.middle_sigma * input.middle_sigma);
    for (std::size_t k = 0; k < kReadings; ++k) {
      if (!input.read[k]) continue;
      if (input.held[k]) {
        reading[k] = 1 / (input.sigma[k] * input.sigma[k]);
        continue;
      }
      const double times_read = input.again && indexOf(*input.again) == k ? 2 : 1;
      reading[k] = times_read / (input.sigma[k] * input.sigma[k]);
      heaviest = std::max(heaviest, reading[k]);
    }
    stand_in = kHold * heaviest;
  }
};

/// The normal equations with the derivatives of one shape.
struct Derivatives {
  Sight sight;
  std::array<Vector6, kUnknowns> stand_in_row;
  Blocks from_readings;
  BlockFactor factor;

  void take(const Sight& at, const StandIns& stand_ins, const Weights& weights) {
    sight = at;
    from_readings = normalOf(at, weights.reading);
    if (stand_ins.count == 0) {
      factor = BlockFactor(from_readings);
      return;
    }
    Matrix6 normal = toMatrix(from_readings);
    const auto rows = rowsOf(at);
    for (std::size_t s = 0; s < stand_ins.count; ++s) {
      Vector6& row = stand_in_row[s];
      row = {};
      for (std::size_t k = 0; k < kReadings; ++k) addScaled(row, stand_ins.all[s].coefficient[k], rows[k]);
      addOuter(normal, weights.stand_in, row);
    }
    factor = BlockFactor(toBlocks(normal));
  }
};

/// How a shape misses what was read and what stands in.
struct Misfit {
  std::array<double, kReadings> pull{};  ///< Weight times observed less computed.
  std::array<double, kUnknowns> stand_in_pull{};
  double total = 0;  ///< Weighted sum of squares.

  Misfit(const SurveyInput& input, const StandIns& stand_ins, const Weights& weights, const Sight& at) {
    for (std::size_t k = 0; k < kReadings; ++k) {
      const double missing = input.value[k] - at.value[k];
      pull[k] = weights.reading[k] * missing;
      total += pull[k] * missing;
    }
    for (std::size_t s = 0; s < stand_ins.count; ++s) {
      double missing = stand_ins.all[s].value;
      for (std::size_t k = 0; k < kReadings; ++k) missing -= stand_ins.all[s].coefficient[k] * at.value[k];
      stand_in_pull[s] = weights.stand_in * missing;
      total += stand_in_pull[s] * missing;
    }
  }
};

/// Where the iteration starts: widths, heights and leans as given, each put where it belongs in a rectangle.
Vector6 startOf(const SurveyInput& input) {
  const Vector6 at = roughCorners(input);
  const auto given = [&input](Reading reading) { return input.value[indexOf(reading)]; };
  const double fall = given(Reading::OutOfLevel);
  return {at[0], fall, at[0] + given(Reading::OutOfPlumbRight), at[3] + fall, given(Reading::OutOfPlumbLeft), at[5]};
}

double longestOf(const Vector6& step) {
  double longest = 0;
  for (const double component : step) longest = std::max(longest, std::abs(component));
  return longest;
}

/// Gauss–Newton, with derivatives kept while they serve. True when it has come to rest.
bool iterate(const SurveyInput& input, const Weights& weights, Adjusted& adjusted, Derivatives& derivatives) {
  Vector6& x = adjusted.corners;
  Vector6 step{};
  double longest = 0;
  double moved = 0;
  double total = 0;
  bool stale = true;
  for (; adjusted.iterations < kMostIterations; ++adjusted.iterations) {
    Sight& at = adjusted.sight;
    at = sightOf(x);
    const Misfit misfit(input, adjusted.stand_ins, weights, at);
    const bool first = adjusted.iterations == 0;
    if (!first && longest > kStill && misfit.total > total * (1 + 1e-9) + 1e-9) {  // overshot: half the way back
      for (double& component : step) component /= 2;
      longest /= 2;
      addScaled(x, -1, step);
      stale = true;
      continue;
    }
    total = misfit.total;
    if (stale || moved > kFresh) {
      derivatives.take(at, adjusted.stand_ins, weights);
      if (!derivatives.factor.positive()) return false;
      moved = 0;
    }
    Vector6 right = gradientOf(at, misfit.pull);
    for (std::size_t s = 0; s < adjusted.stand_ins.count; ++s) {
      addScaled(right, misfit.stand_in_pull[s], derivatives.stand_in_row[s]);
    }
    step = derivatives.factor.solve(right);
    const double before = longest;
    longest = longestOf(step);
    addScaled(x, 1, step);
    moved += longest;
    stale = !first && longest > kSlow * before;
    const double next = first ? longest : longest * std::clamp(longest / before, kGain, 1.0);
    if (next <= kStill) {
      follow(at, step);
      return std::isfinite(longest);
    }
  }
  return false;
}

/// Covariance of the corners: errors of readings and stand-ins carried through the estimator N⁻¹ Aᵀ P.
Matrix6 covarianceOf(const Derivatives& derivatives, const StandIns& stand_ins, const Weights& weights,
                     const Matrix6& inverse) {
  if (stand_ins.count == 0) return inverse;
  Matrix6 middle = toMatrix(derivatives.from_readings);
  for (std::size_t s = 0; s < stand_ins.count; ++s) {
    const double carried = weights.stand_in * stand_ins.all[s].sigma;
    addOuter(middle, carried * carried, derivatives.stand_in_row[s]);
  }
  Matrix6 covariance{};
  Matrix6 half{};  // middle · inverse
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

void describe(const SurveyInput& input, const Weights& weights, const Derivatives& derivatives, Adjusted& adjusted) {
  const Blocks inverse = derivatives.factor.inverse();
  adjusted.covariance = covarianceOf(derivatives, adjusted.stand_ins, weights, toMatrix(inverse));
  const auto explained = variancesOf(derivatives.sight, inverse);
  for (std::size_t k = 0; k < kReadings; ++k) {
    const double residual = adjusted.sight.value[k] - input.value[k];
    adjusted.residual[k] = residual;
    if (!input.read[k]) continue;
    adjusted.redundancy[k] = std::clamp(1 - weights.reading[k] * explained[k], 0.0, 1.0);
    adjusted.chi_square += weights.reading[k] * residual * residual;
    if (adjusted.redundancy[k] < kLeastRedundancy) continue;
    adjusted.standardised[k] = std::abs(residual) * std::sqrt(weights.reading[k] / adjusted.redundancy[k]);
  }
}

}  // namespace

Vector6 roughCorners(const SurveyInput& input) {
  if (!input.line.level()) {
    const auto given = [&input](Reading reading) { return input.value[indexOf(reading)]; };
    const double width = given(Reading::WidthBottom);
    return {width, 0, width, given(Reading::HeightRight), 0, given(Reading::HeightLeft)};
  }
  const auto mean = [&input](Reading first, Reading second) {
    const std::size_t a = indexOf(first);
    const std::size_t b = indexOf(second);
    if (input.read[a] != input.read[b]) return input.read[a] ? input.value[a] : input.value[b];
    return (input.value[a] + input.value[b]) / 2;
  };
  const double width = mean(Reading::WidthBottom, Reading::WidthTop);
  const double height = mean(Reading::HeightLeft, Reading::HeightRight);
  return {width, 0, width, height, 0, height};
}

Adjusted adjust(const SurveyInput& input) {
  Adjusted adjusted;
  const auto count = std::count(input.read.begin(), input.read.end(), true);
  if (count < static_cast<int>(kReadings)) adjusted.stand_ins = standInsFor(input);  // all nine leave nothing open
  adjusted.freedom = static_cast<int>(count) - static_cast<int>(kUnknowns - adjusted.stand_ins.open);

  const Weights weights(input);
  Derivatives derivatives;
  adjusted.corners = startOf(input);
  adjusted.converged = iterate(input, weights, adjusted, derivatives);
  // A stand-in's error is large: even a little out of its direction it would show in what was read well.
  if (adjusted.converged && adjusted.stand_ins.count > 0) {
    derivatives.take(sightOf(adjusted.corners), adjusted.stand_ins, weights);
  }
  if (adjusted.converged) describe(input, weights, derivatives, adjusted);
  return adjusted;
}

std::array<std::array<double, kReadings>, kReadings> residualCorrelation(const SurveyInput& input,
                                                                         const Vector6& corners) {
  std::array<std::array<double, kReadings>, kReadings> correlation{};
  const Sight at = sightOf(corners);
  Derivatives derivatives;
  derivatives.take(at, standInsFor(input), Weights(input));
  if (!derivatives.factor.positive()) return correlation;
  const Matrix6 inverse = toMatrix(derivatives.factor.inverse());
  const auto rows = rowsOf(at);
  const auto cofactor = [&](std::size_t i, std::size_t j) {
    const double observed = i == j ? input.sigma[i] * input.sigma[i] : 0;
    return observed - between(rows[i], inverse, rows[j]);
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
