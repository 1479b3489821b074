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
constexpr Eigen::Index kBR = 0, kTR = 2, kTL = 4, kBL = -1;
/// The corners that the readings are taken between.
constexpr std::array<Eigen::Index, kReadings> kFrom{kBL, kTL, kBL, kBR, kBL, kTL, kBL, kBL, kBR},
    kTo{kBR, kTR, kTL, kTR, kTR, kBR, kBR, kTL, kTR};

/// A side no longer than this is that of a triangle's corner, and is read plumb, mm.
constexpr double kNoSide = 1;

/// The weights 1/σ² of the readings, 0 where nothing was read, and of all that stands in.
struct Weights {
  Vector9 reading;
  double stand_in = 0;

  explicit Weights(const SurveyInput& input) {
    reading = Eigen::Map<const Vector9>(input.sigma.data()).cwiseAbs2().cwiseInverse();
    if (input.again) reading[indexOf(*input.again)] *= 2;
    double heaviest = 1 / (input.middle_sigma * input.middle_sigma);
    for (std::size_t k = 0; k < kReadings; ++k) {
      if (!input.read[k]) reading[k] = 0;
      if (!input.held[k]) heaviest = std::max(heaviest, reading[k]);
    }
    stand_in = kHold * heaviest;
  }
};

/// Two by two: how one corner's coordinates act on another's.
using Block = Eigen::Matrix2d;

/// The normal equations' matrix with all that stands in.
Matrix6 normalOfAll(const Sight& at, const Weights& weights, const StandIns& stand_ins) {
  Matrix6 normal = normalOf(at, weights.reading);
  for (Eigen::Index i = 0; i < stand_ins.count; ++i) {
    const Vector6 row = sumOf(at, stand_ins.coefficient.col(i));
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
    pull = sumOf(at, weighted);
  }
};

/// The inverse of the normal equations and what was seen where they were made.
struct Derivatives {
  Sight at;
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
      derivatives.at = at;
      if (!invert(normalOfAll(at, weights, adjusted.stand_ins), derivatives.inverse)) return false;
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
    const Vector6 moves = derivatives.inverse.lazyProduct(sumOf(derivatives.at, stand_ins.coefficient.col(i)));
    covariance += (carried * carried - weights.stand_in) * moves.lazyProduct(moves.transpose());
  }
}

/// Of each adjusted reading, by the inverse of the normal equations.
Vector9 variancesOf(const Derivatives& derivatives) {
  const auto part = [&](Eigen::Index a, Eigen::Index b) { return derivatives.inverse.block<2, 2>(a, b); };
  Vector9 variance;
  for (std::size_t d = 0; d < kDistances; ++d) {
    const Eigen::Index from = kFrom[d], to = kTo[d];
    Block spread = part(to, to);
    if (from != kBL) spread += part(from, from) - part(from, to) - part(to, from);
    const Eigen::Vector2d& along = derivatives.at.along[d];
    variance[d] = along.dot(spread.lazyProduct(along));
  }
  const Matrix6& all = derivatives.inverse;
  variance.tail<3>() << all(kBR + 1, kBR + 1), all(kTL, kTL), all(kBR, kBR) + all(kTR, kTR) - 2 * all(kTR, kBR);
  return variance;
}

void describe(const SurveyInput& input, const Weights& weights, const Derivatives& derivatives, Adjusted& adjusted) {
  tellCovariance(derivatives, weights, adjusted);
  const Vector9 variance = variancesOf(derivatives);
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

Vector6 sumOf(const Sight& sight, const Vector9& times) {
  const auto of = [&](Reading reading) -> Eigen::Vector2d {
    return times[indexOf(reading)] * sight.along[indexOf(reading)];
  };
  const Eigen::Vector2d right = of(Reading::HeightRight) + of(Reading::OutOfPlumbRight);
  const Eigen::Vector2d top = of(Reading::WidthTop);
  const Eigen::Vector2d falling = of(Reading::DiagonalFromTopLeft);
  Vector6 sum;
  sum.segment<2>(kBR) = of(Reading::WidthBottom) + of(Reading::OutOfLevel) - right + falling;
  sum.segment<2>(kTR) = of(Reading::DiagonalFromBottomLeft) + right + top;
  sum.segment<2>(kTL) = of(Reading::HeightLeft) + of(Reading::OutOfPlumbLeft) - top - falling;
  return sum;
}

Matrix6 normalOf(const Sight& sight, const Vector9& weights) {
  const auto of = [&](Reading reading) -> Block {
    const Eigen::Vector2d& along = sight.along[indexOf(reading)];
    return (weights[indexOf(reading)] * along).lazyProduct(along.transpose());
  };
  const Block right = of(Reading::HeightRight);
  const Block top = of(Reading::WidthTop);
  const Block falling = of(Reading::DiagonalFromTopLeft);
  const Block plumb = of(Reading::OutOfPlumbRight);
  Matrix6 normal;
  normal.block<2, 2>(kBR, kBR) = of(Reading::WidthBottom) + right + falling + of(Reading::OutOfLevel) + plumb;
  normal.block<2, 2>(kTR, kTR) = of(Reading::DiagonalFromBottomLeft) + right + top + plumb;
  normal.block<2, 2>(kTL, kTL) = of(Reading::HeightLeft) + top + falling + of(Reading::OutOfPlumbLeft);
  normal.block<2, 2>(kBR, kTR) = normal.block<2, 2>(kTR, kBR) = -right - plumb;
  normal.block<2, 2>(kBR, kTL) = normal.block<2, 2>(kTL, kBR) = -falling;
  normal.block<2, 2>(kTR, kTL) = normal.block<2, 2>(kTL, kTR) = -top;
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
  const Sight at = sightOf(corners);
  Eigen::Matrix<double, kReadings, kUnknowns> rows;
  for (std::size_t k = 0; k < kReadings; ++k) rows.row(k) = sumOf(at, Vector9::Unit(k));
  const StandIns stand_ins = standInsFor(input);
  Matrix6 inverse;
  Matrix9 correlation = Matrix9::Zero();
  if (!invert(normalOfAll(at, Weights(input), stand_ins), inverse)) return correlation;
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
  const auto apart = [&](std::size_t k) -> Eigen::Vector2d {
    if (kFrom[k] == kBL) return corners.segment<2>(kTo[k]);
    return corners.segment<2>(kTo[k]) - corners.segment<2>(kFrom[k]);
  };
  Sight sight;
  // By twos: values written one by one would have to reach the cache before two can be read.
  for (std::size_t d = 0; d < kDistances; d += 2) {
    const Eigen::Vector2d first = apart(d), second = apart(d + 1);
    const Eigen::Vector2d length = Eigen::Vector2d(first.squaredNorm(), second.squaredNorm()).cwiseSqrt();
    sight.value.segment<2>(static_cast<Eigen::Index>(d)) = length;
    sight.along[d] = first / length[0];
    sight.along[d + 1] = second / length[1];
  }
  for (std::size_t d = 0; d < kDistances; ++d) {
    if (!(sight.value[d] < kNoSide)) continue;
    sight.value[d] = apart(d).y();
    sight.along[d] = Eigen::Vector2d::UnitY();
  }
  sight.value.tail<3>() << corners[kBR + 1], corners[kTL], corners[kTR] - corners[kBR];
  sight.along[6] = Eigen::Vector2d::UnitY();
  sight.along[7] = sight.along[8] = Eigen::Vector2d::UnitX();
  return sight;
}

}  // namespace sillwright::plan
