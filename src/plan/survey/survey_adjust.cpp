#include "plan/survey/survey_adjust.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace sillwright::plan {

namespace {

constexpr double kStill = 1e-7;  ///< Done when the step would be shorter than this, mm.
constexpr int kMostIterations = 100;
/// A stand-in is held this much harder than the best reading while the shape is sought. It settles only what the
/// readings leave open, so to first order its weight makes no difference; held hard, it also keeps a mistake of
/// centimetres in a width from tilting an edge whose fall nobody read. Its true standard error enters the covariance.
constexpr double kHold = 1e4;

/// The readings, and after them what stands in. On the stack: there are never more than these.
constexpr int kMostStatements = static_cast<int>(kReadings + kUnknowns);
using Stated = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, kMostStatements, 1>;
using StatedRows = Eigen::Matrix<double, Eigen::Dynamic, kUnknowns, 0, kMostStatements, kUnknowns>;

/// What is given of each statement.
struct Given {
  Stated value, weight;  ///< Weight 1/σ²; 0 where nothing was read.
  Stated carried;        ///< Weight times true standard error.

  Given(const SurveyInput& input, const StandIns& stand_ins) {
    const Eigen::Index count = stand_ins.count;
    value.resize(kReadings + count);
    weight.setZero(kReadings + count);
    double heaviest = 1 / (input.middle_sigma * input.middle_sigma);
    for (std::size_t k = 0; k < kReadings; ++k) {
      value[k] = input.value[k];
      if (!input.read[k]) continue;
      const double times_read = input.again && indexOf(*input.again) == k ? 2 : 1;
      weight[k] = times_read / (input.sigma[k] * input.sigma[k]);
      if (!input.held[k]) heaviest = std::max(heaviest, weight[k]);
    }
    value.tail(count) = stand_ins.value.head(count);
    weight.tail(count).setConstant(kHold * heaviest);
    carried = weight.cwiseSqrt();
    carried.tail(count) = weight.tail(count).cwiseProduct(stand_ins.sigma.head(count));
  }
};

/// The lower half of AᵀB, which is symmetric. Products are lazy here: Eigen would divide matrices of this size into
/// blocks, which takes several times as long.
Matrix6 lowerProduct(const StatedRows& a, const StatedRows& b) {
  Matrix6 product = Matrix6::Zero();
  product.triangularView<Eigen::Lower>() = a.transpose().lazyProduct(b);
  return product;
}

/// N⁻¹ = L⁻ᵀ L⁻¹, column by column: Eigen solves for one column of this size in place, and for six by blocks.
Matrix6 inverseOf(const Eigen::LLT<Matrix6>& factor) {
  Matrix6 inverse = Matrix6::Identity();
  for (Eigen::Index c = 0; c < inverse.cols(); ++c) factor.matrixL().solveInPlace(inverse.col(c));
  return inverse.transpose().lazyProduct(inverse);
}

/// The statements at a shape.
struct Statements {
  Stated value;
  StatedRows rows;

  Statements(const Sight& at, const StandIns& stand_ins) {
    const Eigen::Index count = stand_ins.count;
    value.resize(kReadings + count);
    rows.resize(kReadings + count, kUnknowns);
    value.head<kReadings>() = at.value;
    rows.topRows<kReadings>() = at.rows;
    if (count == 0) return;
    const auto coefficient = stand_ins.coefficient.topRows(count);
    value.tail(count) = coefficient.lazyProduct(at.value);
    rows.bottomRows(count) = coefficient.lazyProduct(at.rows);
  }
  /// Of the normal equations.
  [[nodiscard]] Eigen::LLT<Matrix6> factor(const Given& given) const {
    return Eigen::LLT<Matrix6>(lowerProduct(rows, given.weight.asDiagonal() * rows));
  }
};

/// Where the iteration starts: widths, heights and leans as given, each put where it belongs in a rectangle.
Vector6 startOf(const SurveyInput& input) {
  const Vector6 at = roughCorners(input);
  const auto given = [&input](Reading reading) { return input.value[indexOf(reading)]; };
  const double fall = given(Reading::OutOfLevel);
  return Vector6{
      {at[0], fall, at[0] + given(Reading::OutOfPlumbRight), at[3] + fall, given(Reading::OutOfPlumbLeft), at[5]}};
}

/// Gauss–Newton. True when it has come to rest: no corner moves. The normal equations are factored anew as long as the
/// shape moves by more than what changes derivatives of metres in their sixth digit.
bool iterate(const Given& given, Adjusted& adjusted) {
  constexpr double kNear = 1e-2;  // mm
  Vector6 step = Vector6::Zero();
  std::optional<Eigen::LLT<Matrix6>> factor;
  double least = std::numeric_limits<double>::infinity();
  double length = 0;  // of the last step, along the axis it is longest on
  for (; adjusted.iterations < kMostIterations; ++adjusted.iterations) {
    Sight& at = adjusted.sight;
    at = sightOf(adjusted.corners);
    const Statements all(at, adjusted.stand_ins);
    const Stated missing = given.value - all.value;
    const Stated pull = given.weight.cwiseProduct(missing);
    const double misfit = pull.dot(missing);
    if (misfit > least * (1 + 1e-9) + 1e-9 && length > kStill) {  // it overshot: half the way back
      step /= 2;
      length /= 2;
      adjusted.corners -= step;
      factor.reset();
      continue;
    }
    least = misfit;
    if (!factor || length > kNear) factor.emplace(all.factor(given));
    step = factor->solve(all.rows.transpose().lazyProduct(pull));
    if (factor->info() != Eigen::Success || !step.allFinite()) return false;
    adjusted.corners += step;
    length = step.cwiseAbs().maxCoeff();
    if (length > kStill) continue;
    at.value += at.rows.lazyProduct(step);
    return true;
  }
  return false;
}

void describe(const SurveyInput& input, const Given& given, Adjusted& adjusted) {
  const Statements all(adjusted.sight, adjusted.stand_ins);
  // Errors of readings and stand-ins, carried through the estimator N⁻¹ Aᵀ P.
  const StatedRows estimator = all.rows.lazyProduct(inverseOf(all.factor(given)));
  const StatedRows carried = given.carried.asDiagonal() * estimator;
  const Matrix6 covariance = lowerProduct(carried, carried);
  Eigen::Map<Matrix6>(adjusted.covariance[0].data()) = covariance.selfadjointView<Eigen::Lower>();
  for (std::size_t k = 0; k < kReadings; ++k) {
    const double residual = adjusted.sight.value[k] - input.value[k];
    adjusted.residual[k] = residual;
    if (!input.read[k]) continue;
    adjusted.redundancy[k] = std::clamp(1 - given.weight[k] * all.rows.row(k).dot(estimator.row(k)), 0.0, 1.0);
    adjusted.chi_square += given.weight[k] * residual * residual;
    if (adjusted.redundancy[k] < kLeastRedundancy) continue;
    adjusted.standardised[k] = std::abs(residual) * std::sqrt(given.weight[k] / adjusted.redundancy[k]);
  }
}

/// Index of a corner's x among the unknowns; its z follows. BL is the origin and comes after them.
constexpr Eigen::Index kBR = 0, kTR = 2, kTL = 4, kOrigin = 6;

/// Corners that a distance is read between. Its derivative is its direction, + at `to`, − at `from`.
struct Span {
  Eigen::Index from, to;
};
constexpr std::array<Span, kDistances> kSpans = {
    {{kOrigin, kBR}, {kTL, kTR}, {kOrigin, kTL}, {kBR, kTR}, {kOrigin, kTR}, {kTL, kBR}}};

constexpr auto kFall = static_cast<Eigen::Index>(Reading::OutOfLevel);
constexpr auto kLeft = static_cast<Eigen::Index>(Reading::OutOfPlumbLeft);
constexpr auto kRight = static_cast<Eigen::Index>(Reading::OutOfPlumbRight);

/// A side no longer than this is that of a triangle's corner, and is read plumb, mm.
constexpr double kNoSide = 1;

}  // namespace

Vector6 roughCorners(const SurveyInput& input) {
  if (!input.line.level()) {
    const auto given = [&input](Reading reading) { return input.value[indexOf(reading)]; };
    const double width = given(Reading::WidthBottom);
    return Vector6{{width, 0, width, given(Reading::HeightRight), 0, given(Reading::HeightLeft)}};
  }
  const auto mean = [&input](Reading first, Reading second) {
    const std::size_t a = indexOf(first);
    const std::size_t b = indexOf(second);
    if (input.read[a] != input.read[b]) return input.read[a] ? input.value[a] : input.value[b];
    return (input.value[a] + input.value[b]) / 2;
  };
  const double width = mean(Reading::WidthBottom, Reading::WidthTop);
  const double height = mean(Reading::HeightLeft, Reading::HeightRight);
  return Vector6{{width, 0, width, height, 0, height}};
}

Adjusted adjust(const SurveyInput& input) {
  Adjusted adjusted;
  const auto count = std::count(input.read.begin(), input.read.end(), true);
  if (count < static_cast<int>(kReadings)) adjusted.stand_ins = standInsFor(input);  // all nine leave nothing open
  adjusted.freedom = static_cast<int>(count + adjusted.stand_ins.count) - static_cast<int>(kUnknowns);
  adjusted.corners = startOf(input);
  const Given given(input, adjusted.stand_ins);
  adjusted.converged = iterate(given, adjusted);
  if (adjusted.converged) describe(input, given, adjusted);
  return adjusted;
}

Eigen::Matrix<double, kReadings, kReadings> residualCorrelation(const SurveyInput& input, const Vector6& corners) {
  using Matrix9 = Eigen::Matrix<double, kReadings, kReadings>;
  const Sight at = sightOf(corners);
  const StandIns stand_ins = standInsFor(input);
  const Eigen::LLT<Matrix6> factor = Statements(at, stand_ins).factor(Given(input, stand_ins));
  Matrix9 correlation = Matrix9::Zero();
  if (factor.info() != Eigen::Success) return correlation;
  const Eigen::Map<const Vector9> sigma(input.sigma.data());
  const Matrix9 cofactor = Matrix9(sigma.cwiseAbs2().asDiagonal()) - at.rows * inverseOf(factor) * at.rows.transpose();
  for (std::size_t i = 0; i < kReadings; ++i) {
    for (std::size_t j = 0; j < kReadings; ++j) {
      const double spread = cofactor(i, i) * cofactor(j, j);
      const double least = kLeastRedundancy * sigma[i] * sigma[j];
      if (!input.read[i] || !input.read[j] || !(spread > least * least)) continue;
      correlation(i, j) = cofactor(i, j) / std::sqrt(spread);
    }
  }
  return correlation;
}

std::array<double, kReadings> nineReadings(const OpeningShape& shape) {
  const auto& [bl, br, tr, tl] = shape.corner;
  const Vector6 corners{{br.x - bl.x, br.z - bl.z, tr.x - bl.x, tr.z - bl.z, tl.x - bl.x, tl.z - bl.z}};
  std::array<double, kReadings> readings{};
  Eigen::Map<Vector9>(readings.data()) = sightOf(corners).value;
  return readings;
}

Sight sightOf(const Vector6& corners) {
  Eigen::Matrix<double, kUnknowns + 2, 1> x;
  x << corners, 0, 0;
  Eigen::Matrix<double, kReadings, kUnknowns + 2> rows = decltype(rows)::Zero();
  Sight sight;
  for (std::size_t d = 0; d < kDistances; ++d) {
    const auto row = static_cast<Eigen::Index>(d);
    const auto [from, to] = kSpans[d];
    const Eigen::Vector2d apart = x.segment<2>(to) - x.segment<2>(from);
    const double length = apart.norm();
    const bool is_corner = length < kNoSide;
    const Eigen::Vector2d along = is_corner ? Eigen::Vector2d::UnitY().eval() : (apart / length).eval();
    sight.value[row] = is_corner ? apart.y() : length;
    rows.block<1, 2>(row, to) = along.transpose();
    rows.block<1, 2>(row, from) = -along.transpose();
  }
  rows(kFall, kBR + 1) = rows(kLeft, kTL) = rows(kRight, kTR) = 1;
  rows(kRight, kBR) = -1;
  sight.value.tail<3>() = rows.bottomRows<3>() * x;
  sight.rows = rows.leftCols<kUnknowns>();
  return sight;
}

}  // namespace sillwright::plan
