#include "plan/survey/survey_adjust.h"

#include <Eigen/LU>
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

/// The weights 1/σ² of the readings, 0 where nothing was read, and of all that stands in.
struct Weights {
  Vector9 reading = Vector9::Zero();
  double stand_in = 0;

  explicit Weights(const SurveyInput& input) {
    double heaviest = 1 / (input.middle_sigma * input.middle_sigma);
    for (std::size_t k = 0; k < kReadings; ++k) {
      if (!input.read[k]) continue;
      const double times_read = input.again && indexOf(*input.again) == k ? 2 : 1;
      reading[k] = times_read / (input.sigma[k] * input.sigma[k]);
      if (!input.held[k]) heaviest = std::max(heaviest, reading[k]);
    }
    stand_in = kHold * heaviest;
  }
};

/// The derivatives of what a stand-in says.
Vector6 rowOf(const StandIns& stand_ins, Eigen::Index i, const Rows& rows) {
  return rows.transpose().lazyProduct(stand_ins.coefficient.col(i));
}

/// The inverse of a half of the normal equations; empty where it isn't positive definite.
std::optional<Eigen::Matrix3d> inverseOfHalf(const Eigen::Matrix3d& half) {
  Eigen::Matrix3d inverse;
  double determinant = 0;
  bool exists = false;
  half.computeInverseAndDetWithCheck(inverse, determinant, exists, 0);
  return determinant > 0 ? std::optional(inverse) : std::nullopt;
}

/// N⁻¹ by halves of three unknowns, whose inverses Eigen has in closed form: its factors of six unknowns take three
/// times as long, for they loop over what is known beforehand.
std::optional<Matrix6> inverseOf(const Matrix6& normal) {
  const auto first = inverseOfHalf(normal.topLeftCorner<3, 3>());
  if (!first) return std::nullopt;
  const Eigen::Matrix3d cross = normal.bottomLeftCorner<3, 3>();
  const Eigen::Matrix3d carried = cross.lazyProduct(*first);
  const auto rest = inverseOfHalf(normal.bottomRightCorner<3, 3>() - carried.lazyProduct(cross.transpose()));
  if (!rest) return std::nullopt;
  const Eigen::Matrix3d across = rest->lazyProduct(carried);
  Matrix6 inverse;
  inverse << *first + carried.transpose().lazyProduct(across), -across.transpose(), -across, *rest;
  return inverse;
}

/// The normal equations' matrix. Most derivatives are 0: a distance tells of its own two corners, level and plumb of
/// one coordinate or two.
Matrix6 normalOf(const Rows& rows, const Weights& weights, const StandIns& stand_ins) {
  Matrix6 normal = Matrix6::Zero();
  for (std::size_t d = 0; d < kDistances; ++d) {
    const auto [from, to] = kSpans[d];
    const Eigen::Vector2d along = rows.block<1, 2>(static_cast<Eigen::Index>(d), to).transpose();
    const Eigen::Matrix2d part = (weights.reading[d] * along).lazyProduct(along.transpose());
    normal.block<2, 2>(to, to) += part;
    if (from == kOrigin) continue;
    normal.block<2, 2>(from, from) += part;
    normal.block<2, 2>(to, from) -= part;
    normal.block<2, 2>(from, to) -= part;
  }
  normal(kBR + 1, kBR + 1) += weights.reading[kFall];
  normal(kTL, kTL) += weights.reading[kLeft];
  normal(kTR, kTR) += weights.reading[kRight];
  normal(kBR, kBR) += weights.reading[kRight];
  normal(kBR, kTR) -= weights.reading[kRight];
  normal(kTR, kBR) -= weights.reading[kRight];
  for (Eigen::Index i = 0; i < stand_ins.count; ++i) {
    const Vector6 row = rowOf(stand_ins, i, rows);
    normal += (weights.stand_in * row).lazyProduct(row.transpose());
  }
  return normal;
}

/// Where the iteration starts: widths, heights and leans as given, each put where it belongs in a rectangle.
Vector6 startOf(const SurveyInput& input) {
  const Vector6 at = roughCorners(input);
  const auto given = [&input](Reading reading) { return input.value[indexOf(reading)]; };
  const double fall = given(Reading::OutOfLevel);
  return Vector6{
      {at[0], fall, at[0] + given(Reading::OutOfPlumbRight), at[3] + fall, given(Reading::OutOfPlumbLeft), at[5]}};
}

/// What the statements miss at a shape: their weighted squares, and which way they pull the corners.
struct Miss {
  double squares = 0;
  Vector6 pull;

  Miss(const SurveyInput& input, const Weights& weights, const Sight& at, const StandIns& stand_ins) {
    const Vector9 missing = Eigen::Map<const Vector9>(input.value.data()) - at.value;
    const Vector9 weighted = weights.reading.cwiseProduct(missing);
    squares = weighted.dot(missing);
    pull = at.rows.transpose().lazyProduct(weighted);
    for (Eigen::Index i = 0; i < stand_ins.count; ++i) {
      const double lacks = stand_ins.value[i] - stand_ins.coefficient.col(i).dot(at.value);
      squares += weights.stand_in * lacks * lacks;
      pull += weights.stand_in * lacks * rowOf(stand_ins, i, at.rows);
    }
  }
};

/// Gauss–Newton. True when it has come to rest: no corner moves. The normal equations are inverted anew as long as the
/// shape moves by more than what changes derivatives of metres in their sixth digit.
bool iterate(const SurveyInput& input, const Weights& weights, Adjusted& adjusted) {
  constexpr double kNear = 1e-2;  // mm
  Vector6 step = Vector6::Zero();
  std::optional<Matrix6> inverse;
  double least = std::numeric_limits<double>::infinity();
  double length = 0;  // of the last step, along the axis it is longest on
  for (; adjusted.iterations < kMostIterations; ++adjusted.iterations) {
    Sight& at = adjusted.sight;
    at = sightOf(adjusted.corners);
    const Miss miss(input, weights, at, adjusted.stand_ins);
    if (miss.squares > least * (1 + 1e-9) + 1e-9 && length > kStill) {  // it overshot: half the way back
      step /= 2;
      length /= 2;
      adjusted.corners -= step;
      inverse.reset();
      continue;
    }
    least = miss.squares;
    if (!inverse || length > kNear) inverse = inverseOf(normalOf(at.rows, weights, adjusted.stand_ins));
    if (!inverse) return false;
    step = inverse->lazyProduct(miss.pull);
    length = step.cwiseAbs().maxCoeff();
    if (!step.allFinite()) return false;
    adjusted.corners += step;
    if (length > kStill) continue;
    at.value += at.rows.lazyProduct(step);
    return true;
  }
  return false;
}

/// The errors of readings and stand-ins carried through the estimator N⁻¹ Aᵀ P. What the readings carry is N⁻¹; a
/// stand-in, held harder than its own error, adds by how much that is more.
Matrix6 covarianceOf(const Matrix6& inverse, const Weights& weights, const Adjusted& adjusted) {
  Matrix6 covariance = inverse;
  const StandIns& stand_ins = adjusted.stand_ins;
  for (Eigen::Index i = 0; i < stand_ins.count; ++i) {
    const double carried = weights.stand_in * stand_ins.sigma[i];
    const Vector6 moves = inverse.lazyProduct(rowOf(stand_ins, i, adjusted.sight.rows));
    covariance += ((carried * carried - weights.stand_in) * moves).lazyProduct(moves.transpose());
  }
  return covariance;
}

/// False where the normal equations have no solution.
bool describe(const SurveyInput& input, const Weights& weights, Adjusted& adjusted) {
  const Rows& rows = adjusted.sight.rows;
  const Matrix6 normal = normalOf(rows, weights, adjusted.stand_ins);
  auto inverse = inverseOf(normal);
  if (!inverse) return false;
  if (adjusted.stand_ins.count > 0) {  // held so hard that halves lose digits: once more, from what is left (Newton)
    const Matrix6 left = Matrix6::Identity() - normal.lazyProduct(*inverse);
    *inverse += inverse->lazyProduct(left).eval();
  }
  const Matrix6 covariance = covarianceOf(*inverse, weights, adjusted);  // whose halves differ by rounding
  Eigen::Map<Matrix6>(adjusted.covariance[0].data()) = covariance.selfadjointView<Eigen::Lower>();
  const Rows carried = rows.lazyProduct(*inverse);
  for (std::size_t k = 0; k < kReadings; ++k) {
    const double residual = adjusted.sight.value[k] - input.value[k];
    adjusted.residual[k] = residual;
    if (!input.read[k]) continue;
    const double weight = weights.reading[k];
    adjusted.redundancy[k] = std::clamp(1 - weight * rows.row(k).dot(carried.row(k)), 0.0, 1.0);
    adjusted.chi_square += weight * residual * residual;
    if (adjusted.redundancy[k] < kLeastRedundancy) continue;
    adjusted.standardised[k] = std::abs(residual) * std::sqrt(weight / adjusted.redundancy[k]);
  }
  return true;
}

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
  const Weights weights(input);
  adjusted.converged = iterate(input, weights, adjusted) && describe(input, weights, adjusted);
  return adjusted;
}

Eigen::Matrix<double, kReadings, kReadings> residualCorrelation(const SurveyInput& input, const Vector6& corners) {
  using Matrix9 = Eigen::Matrix<double, kReadings, kReadings>;
  const Sight at = sightOf(corners);
  const StandIns stand_ins = standInsFor(input);
  const auto inverse = inverseOf(normalOf(at.rows, Weights(input), stand_ins));
  Matrix9 correlation = Matrix9::Zero();
  if (!inverse) return correlation;
  const Eigen::Map<const Vector9> sigma(input.sigma.data());
  const Matrix9 cofactor = Matrix9(sigma.cwiseAbs2().asDiagonal()) - at.rows * *inverse * at.rows.transpose();
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
  Eigen::Matrix<double, kReadings, kUnknowns + 2, Eigen::RowMajor> rows = decltype(rows)::Zero();
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
  sight.value.tail<3>() << corners[kBR + 1], corners[kTL], corners[kTR] - corners[kBR];
  sight.rows = rows.leftCols<kUnknowns>();
  return sight;
}

}  // namespace sillwright::plan
