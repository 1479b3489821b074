#include "plan/survey/survey_adjust.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sillwright::plan {

namespace {

/// Done when the next step would be shorter than this, mm, were it shorter than the last by the same ratio as that one
/// than the one before.
constexpr double kStill = 1e-7;
constexpr int kMostIterations = 100;
/// A stand-in is held this much harder than the best reading while the shape is sought. It settles only what the
/// readings leave open, so to first order its weight makes no difference; held hard, it also keeps a mistake of
/// centimetres in a width from tilting an edge whose fall nobody read. Its true standard error enters the covariance.
constexpr double kHold = 1e4;

/// Index of a corner's x among the unknowns; its z follows. BL is the origin.
constexpr Eigen::Index kBR = 0, kTR = 2, kTL = 4;

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

/// Two by two: how one corner's coordinates act on another's.
using Block = Eigen::Matrix2d;

/// The derivatives of what a stand-in says.
Vector6 rowOf(const StandIns& stand_ins, Eigen::Index i, const Rows& rows) {
  return rows.transpose().lazyProduct(stand_ins.coefficient.col(i));
}

/// The normal equations' matrix with all that stands in.
Matrix6 normalOfAll(const Rows& rows, const Weights& weights, const StandIns& stand_ins) {
  Matrix6 normal = normalOf(rows, weights.reading);
  for (Eigen::Index i = 0; i < stand_ins.count; ++i) {
    const Vector6 row = rowOf(stand_ins, i, rows);
    normal += (weights.stand_in * row).lazyProduct(row.transpose());
  }
  return normal;
}

/// The inverse of one corner's part; false where it isn't positive definite.
inline bool invertPart(const Block& part, Block& inverse) {
  const double determinant = part(0, 0) * part(1, 1) - part(1, 0) * part(1, 0);
  if (!(part(0, 0) > 0 && determinant > 0)) return false;  // so that NaN fails too
  inverse << part(1, 1), -part(1, 0), -part(1, 0), part(0, 0);
  inverse /= determinant;
  return true;
}

/// The inverse of the corners up to the one at `n`, from that of those before it. Eigen's factors of six unknowns take
/// three times as long, for they loop over what is known beforehand.
template <int n>
bool border(const Matrix6& normal, Matrix6& inverse) {
  const Eigen::Matrix<double, 2, n> cross = normal.block<2, n>(n, 0);
  const Eigen::Matrix<double, 2, n> carried = cross.lazyProduct(inverse.topLeftCorner<n, n>());
  const Eigen::Matrix<double, n, 2> tall = carried.transpose();
  Block rest;
  if (!invertPart(normal.block<2, 2>(n, n) - cross.lazyProduct(tall), rest)) return false;
  const Eigen::Matrix<double, 2, n> across = rest.lazyProduct(carried);
  inverse.topLeftCorner<n, n>() += tall.lazyProduct(across);
  inverse.block<2, n>(n, 0) = -across;
  inverse.block<n, 2>(0, n) = -across.transpose();
  inverse.block<2, 2>(n, n) = rest;
  return true;
}

/// Where the iteration starts: widths, heights and leans as read, else as in a rectangle, each put where it belongs.
Vector6 startOf(const SurveyInput& input) {
  const Vector6 rough = roughCorners(input);
  const auto given = [&input](Reading reading) { return input.value[indexOf(reading)]; };
  const auto read = [&input](Reading reading, double otherwise) {
    return input.read[indexOf(reading)] ? input.value[indexOf(reading)] : otherwise;
  };
  const double width = read(Reading::WidthBottom, rough[kBR]);
  const double fall = given(Reading::OutOfLevel);  // not read: 0, the plan's
  return Vector6{{width, fall, width + given(Reading::OutOfPlumbRight),
                  read(Reading::HeightRight, rough[kTR + 1]) + fall, given(Reading::OutOfPlumbLeft),
                  read(Reading::HeightLeft, rough[kTL + 1])}};
}

/// What the statements miss at a shape: their weighted squares, and which way they pull the corners.
struct Miss {
  double squares = 0;
  Vector6 pull;

  Miss(const SurveyInput& input, const Weights& weights, const Sight& at, const StandIns& stand_ins) {
    const Vector9 missing = Eigen::Map<const Vector9>(input.value.data()) - at.value;
    Vector9 weighted = weights.reading.cwiseProduct(missing);  // what wasn't read weighs 0
    squares = weighted.dot(missing);
    for (Eigen::Index i = 0; i < stand_ins.count; ++i) {
      const double lacks = stand_ins.value[i] - stand_ins.coefficient.col(i).dot(at.value);
      squares += weights.stand_in * lacks * lacks;
      weighted += weights.stand_in * lacks * stand_ins.coefficient.col(i);
    }
    pull = at.rows.transpose().lazyProduct(weighted);
  }
};

/// The inverse of the normal equations and the derivatives that they were made of.
struct Derivatives {
  Rows rows;
  Matrix6 inverse;
};

/// Gauss–Newton. True when it has come to rest: no corner moves. The normal equations are inverted anew where steps
/// grow short slowly, and once more near the end: the covariance is wanted of the derivatives there.
bool iterate(const SurveyInput& input, const Weights& weights, Adjusted& adjusted, Derivatives& derivatives) {
  constexpr double kClose = 2e-2;  // mm: steps as short as this lead nearly home
  constexpr double kNear = 1e-3;   // mm: what changes derivatives of metres in their sixth digit
  constexpr double kSlow = 0.1;
  constexpr double kMostGain = 0.005;  // more isn't believed: one step can do well by chance
  Vector6 step = Vector6::Zero();
  double least = std::numeric_limits<double>::infinity();
  double length = std::numeric_limits<double>::infinity();  // of the last step, along the axis it is longest on
  double moved = 0;                                         // since derivatives were taken
  bool renew = true;
  for (; adjusted.iterations < kMostIterations; ++adjusted.iterations) {
    const Sight at = sightOf(adjusted.corners);
    const Miss miss(input, weights, at, adjusted.stand_ins);
    if (miss.squares > least * (1 + 1e-9) + 1e-9 && length > kStill) {  // it overshot: half the way back
      step /= 2;
      length /= 2;
      adjusted.corners -= step;
      renew = true;  // the old ones led too far
      continue;
    }
    least = miss.squares;
    if (renew || (length < kClose && moved > kNear)) {
      derivatives.rows = at.rows;
      if (!invert(normalOfAll(at.rows, weights, adjusted.stand_ins), derivatives.inverse)) return false;
      moved = 0;
    }
    const double before = length;
    step = derivatives.inverse.lazyProduct(miss.pull);
    length = step.cwiseAbs().maxCoeff();
    if (!std::isfinite(length)) return false;  // no shape has such readings
    adjusted.corners += step;
    moved += length;
    const double gain = length < before ? length / before : 1;  // the first step has none before it: gain 0
    // What stands in is held so hard that the next step can't be told.
    const double next = adjusted.stand_ins.count > 0 ? length : length * std::max(gain, kMostGain);
    if (next <= kStill && moved <= kNear) {  // the covariance wants derivatives of so near
      adjusted.sight = sightOf(adjusted.corners);
      return true;
    }
    renew = gain > kSlow;
  }
  return false;
}

/// The errors of readings and stand-ins carried through the estimator N⁻¹ Aᵀ P. What the readings carry is N⁻¹; a
/// stand-in, held harder than its own error, adds by how much that is more.
void tellCovariance(const Derivatives& derivatives, const Weights& weights, Adjusted& adjusted) {
  const StandIns& stand_ins = adjusted.stand_ins;
  Eigen::Map<Matrix6> covariance(adjusted.covariance[0].data());
  covariance = derivatives.inverse.selfadjointView<Eigen::Lower>();  // its halves differ by rounding
  for (Eigen::Index i = 0; i < stand_ins.count; ++i) {
    const double carried = weights.stand_in * stand_ins.sigma[i];
    const Vector6 moves = derivatives.inverse.lazyProduct(rowOf(stand_ins, i, derivatives.rows));
    covariance += (carried * carried - weights.stand_in) * moves.lazyProduct(moves.transpose());
  }
}

void describe(const SurveyInput& input, const Weights& weights, const Derivatives& derivatives, Adjusted& adjusted) {
  tellCovariance(derivatives, weights, adjusted);
  const Rows& rows = derivatives.rows;
  const Vector9 variance = rows.lazyProduct(derivatives.inverse).cwiseProduct(rows).rowwise().sum();
  for (std::size_t k = 0; k < kReadings; ++k) {
    const double residual = adjusted.sight.value[k] - input.value[k];
    adjusted.residual[k] = residual;
    if (!input.read[k]) continue;  // what stands in checks nothing
    const double weight = weights.reading[k];
    adjusted.redundancy[k] = std::clamp(1 - weight * variance[k], 0.0, 1.0);  // rounding may pass 0 and 1
    adjusted.chi_square += weight * residual * residual;
    if (adjusted.redundancy[k] < kLeastRedundancy) continue;
    adjusted.standardised[k] = std::abs(residual) * std::sqrt(weight / adjusted.redundancy[k]);
  }
}

}  // namespace

Matrix6 normalOf(const Rows& rows, const Vector9& weights) {
  // Most derivatives are 0: a distance tells of its own two corners, level and plumb of one coordinate or two.
  const auto stiffness = [&]<Reading reading, Eigen::Index corner>() -> Block {
    constexpr auto k = static_cast<Eigen::Index>(reading);
    const Eigen::Vector2d along = rows.block<1, 2>(k, corner).transpose();
    return (weights[k] * along).lazyProduct(along.transpose());
  };
  const Block top = stiffness.operator()<Reading::WidthTop, kTR>();
  const Block right = stiffness.operator()<Reading::HeightRight, kTR>();
  const Block falling = stiffness.operator()<Reading::DiagonalFromTopLeft, kBR>();
  Matrix6 normal;
  normal.block<2, 2>(kBR, kBR) = stiffness.operator()<Reading::WidthBottom, kBR>() + right + falling;
  normal.block<2, 2>(kTR, kTR) = stiffness.operator()<Reading::DiagonalFromBottomLeft, kTR>() + right + top;
  normal.block<2, 2>(kTL, kTL) = stiffness.operator()<Reading::HeightLeft, kTL>() + top + falling;
  normal.block<2, 2>(kBR, kTR) = normal.block<2, 2>(kTR, kBR) = -right;
  normal.block<2, 2>(kBR, kTL) = normal.block<2, 2>(kTL, kBR) = -falling;
  normal.block<2, 2>(kTR, kTL) = normal.block<2, 2>(kTL, kTR) = -top;
  const double plumb = weights[indexOf(Reading::OutOfPlumbRight)];
  normal(kBR + 1, kBR + 1) += weights[indexOf(Reading::OutOfLevel)];
  normal(kTL, kTL) += weights[indexOf(Reading::OutOfPlumbLeft)];
  normal(kTR, kTR) += plumb;
  normal(kBR, kBR) += plumb;
  normal(kBR, kTR) -= plumb;
  normal(kTR, kBR) -= plumb;
  return normal;
}

bool invert(const Matrix6& normal, Matrix6& inverse) {
  Block first;
  if (!invertPart(normal.topLeftCorner<2, 2>(), first)) return false;
  inverse.topLeftCorner<2, 2>() = first;
  return border<2>(normal, inverse) && border<4>(normal, inverse);
}

Vector6 roughCorners(const SurveyInput& input) {
  if (!input.line.level()) {
    const auto given = [&input](Reading reading) { return input.value[indexOf(reading)]; };
    const double width = given(Reading::WidthBottom);
    return Vector6{{width, 0, width, given(Reading::HeightRight), 0, given(Reading::HeightLeft)}};
  }
  const auto mean = [&input](Reading first, Reading second) {  // of the pair, else the one that was read
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
  Derivatives derivatives;
  adjusted.converged = iterate(input, weights, adjusted, derivatives);
  if (adjusted.converged) {
    describe(input, weights, derivatives, adjusted);
  } else {
    adjusted.covariance = {};
    adjusted.sight = sightOf(adjusted.corners);
  }
  return adjusted;
}

Eigen::Matrix<double, kReadings, kReadings> residualCorrelation(const SurveyInput& input, const Vector6& corners) {
  using Matrix9 = Eigen::Matrix<double, kReadings, kReadings>;
  const Rows rows = sightOf(corners).rows;
  const StandIns stand_ins = standInsFor(input);
  Matrix6 inverse;
  Matrix9 correlation = Matrix9::Zero();
  if (!invert(normalOfAll(rows, Weights(input), stand_ins), inverse)) return correlation;
  const Eigen::Map<const Vector9> sigma(input.sigma.data());
  const Matrix9 cofactor =
      Matrix9(sigma.cwiseAbs2().asDiagonal()) - rows.lazyProduct(inverse).eval().lazyProduct(rows.transpose());
  for (std::size_t i = 0; i < kReadings; ++i) {
    for (std::size_t j = 0; j < kReadings; ++j) {
      const double spread = cofactor(i, i) * cofactor(j, j);
      const double least = kLeastRedundancy * sigma[i] * sigma[j];  // below it a reading is as good as unchecked
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
  constexpr std::array<Eigen::Index, kDistances> kFrom{-1, kTL, -1, kBR, -1, kTL}, kTo{kBR, kTR, kTL, kTR, kTR, kBR};
  Sight sight;
  Rows& rows = sight.rows;
  rows.setZero();
  for (std::size_t d = 0; d < kDistances; ++d) {
    Eigen::Vector2d along = corners.segment<2>(kTo[d]);
    if (kFrom[d] >= 0) along -= corners.segment<2>(kFrom[d]);
    const double length = along.norm();
    const bool is_corner = length < kNoSide;
    sight.value[d] = is_corner ? along.y() : length;
    along = is_corner ? Eigen::Vector2d::UnitY().eval() : (along / length).eval();
    rows.block<1, 2>(d, kTo[d]) = along.transpose();
    if (kFrom[d] >= 0) rows.block<1, 2>(d, kFrom[d]) = -along.transpose();
  }
  rows(6, kBR + 1) = rows(7, kTL) = rows(8, kTR) = 1;
  rows(8, kBR) = -1;
  sight.value.tail<3>() << corners[kBR + 1], corners[kTL], corners[kTR] - corners[kBR];
  return sight;
}

}  // namespace sillwright::plan
