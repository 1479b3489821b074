#include <Eigen/LU>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

#include "plan/survey/survey_adjust.h"

namespace sillwright::plan {

namespace {

/// A direction of which the readings see less than this share is open: they would tell it 25 times worse than they
/// tell a size, and the plan knows better. Ordinary openings have it near 1 or exactly 0.
constexpr double kSeen = 0.04;

/// The directions not yet spoken for, the first `count` columns.
struct Directions {
  Matrix6 each = Matrix6::Identity();
  Eigen::Index count = kUnknowns;
};

/// Lets a group of statements take the open directions that it sees (`seen`: how, column by column), best seen first: a
/// modified Gram–Schmidt with pivots. `taken(u)` gets, for each direction taken, the unit combination u of the
/// statements that settles it. Directions that the group doesn't see stay open.
template <int statements, typename Taken>
void take(Eigen::Matrix<double, statements, kUnknowns> seen, Directions& open, Taken taken) {
  while (open.count > 0) {
    Eigen::Index best = 0;
    double share = -1;
    for (Eigen::Index i = 0; i < open.count; ++i) {
      const double own = seen.col(i).squaredNorm() / open.each.col(i).squaredNorm();  // a square, as the limit below
      if (own > share) best = i;
      share = std::max(share, own);
    }
    if (share < kSeen * kSeen) return;
    const double length = seen.col(best).norm();
    const Eigen::Matrix<double, statements, 1> unit = seen.col(best) / length;
    const Vector6 direction = open.each.col(best) / length;
    --open.count;
    seen.col(best) = seen.col(open.count);  // the last takes its place
    open.each.col(best) = open.each.col(open.count);
    for (Eigen::Index i = 0; i < open.count; ++i) {
      const double along = unit.dot(seen.col(i));
      seen.col(i) -= along * unit;  // the rest is made blind to what is settled
      open.each.col(i) -= along * direction;
    }
    taken(unit);
  }
}

/// Whether the readings surely see every direction: no direction is seen less than 1 / √λ of the inverse's largest λ
/// says, and that is no more than the sum of all.
bool seesAll(const SurveyInput& input, const Sight& at) {
  Vector9 read;
  for (std::size_t k = 0; k < kReadings; ++k) read[k] = input.read[k] ? 1 : 0;  // weights of structure alone
  Matrix6 inverse;
  return invert(normalOf(at, read), inverse) && inverse.trace() * kSeen * kSeen < 1;
}

/// One thing said of the peak: how much it is missed by, its direction, its weight, and the corner that it is from.
struct Statement {
  double missing = 0, weight = 0;
  Eigen::Vector2d along;
  std::size_t corner = 0;
};

/// A distance, with the doubt of the corner that it is read from along it.
Statement distanceFrom(std::size_t corner, double read, double sigma, const AsBuilt& built) {
  const Point& from = built.shape.corner[corner];
  const Eigen::Vector2d apart(built.shape.peak->x - from.x, built.shape.peak->z - from.z);
  const double length = std::max(apart.norm(), 1.0);  // on its corner it has no direction
  const Eigen::Vector2d along = apart / length;
  double variance = sigma * sigma;
  if (corner > 0) {  // BL is the origin: known exactly
    const Eigen::Map<const Matrix6> covariance(built.covariance[0].data());
    const auto k = static_cast<Eigen::Index>(2 * (corner - 1));
    variance += along.dot(covariance.block<2, 2>(k, k) * along);
  }
  return {read - length, 1 / variance, along, corner};
}

/// The inverse of the normal equations; 0 where they have none.
Eigen::Matrix2d spreadOf(const std::vector<Statement>& all) {
  Eigen::Matrix2d normal = Eigen::Matrix2d::Zero();
  for (const Statement& say : all) normal += say.weight * say.along * say.along.transpose();
  return normal.determinant() > 0 ? normal.inverse().eval() : Eigen::Matrix2d(Eigen::Matrix2d::Zero());
}

/// Whether the distances agree; where they don't, the one that stands out, if it can be told.
void judgePeak(const std::vector<Statement>& all, const Eigen::Matrix2d& spread, PeakFix& peak) {
  double chi_square = 0;
  for (const Statement& say : all) chi_square += say.weight * say.missing * say.missing;
  const auto freedom = static_cast<int>(all.size()) - 2;
  peak.agrees = freedom < 1 || chiSquareTail(chi_square, freedom) >= kSignificance;
  if (peak.agrees || freedom < 2) return;
  double largest = 0;
  double second = 0;
  for (const Statement& say : all) {
    const double redundancy = std::max(1 - say.weight * say.along.dot(spread * say.along), kLeastRedundancy);
    const double stands = std::abs(say.missing) * std::sqrt(say.weight / redundancy);
    if (stands > largest) peak.suspect = say.corner;
    second = std::max(second, std::min(stands, largest));
    largest = std::max(largest, stands);
  }
  if (largest < kStandsOut || second >= (1 - kTie) * largest) peak.suspect.reset();
}

}  // namespace

StandIns standInsFor(const SurveyInput& input) {
  /// Planned values that stand in together, from the first to the last, in the order they are asked.
  static constexpr std::array<std::array<Reading, 2>, 3> kGroups{{{Reading::WidthBottom, Reading::HeightRight},
                                                                  {Reading::OutOfLevel, Reading::OutOfLevel},
                                                                  {Reading::OutOfPlumbLeft, Reading::OutOfPlumbRight}}};
  StandIns stand_ins;
  const Sight at = sightOf(roughCorners(input));
  if (seesAll(input, at)) return stand_ins;
  Directions open;
  const auto seenOnly = [&]<int statements>(std::size_t from, std::size_t to, bool read) {
    Eigen::Matrix<double, statements, kUnknowns> rows = decltype(rows)::Zero();
    for (std::size_t k = from; k <= to; ++k) {
      if (input.read[k] == read) rows.row(k - from) = sumOf(at, Vector9::Unit(k));
    }
    return rows;
  };
  take(seenOnly.operator()<kReadings + 1>(0, kReadings - 1, true), open,
       [](const auto&) {});  // an even number is quicker
  // Each middle reading as the mean of its two edges' readings, which holds where the edges between are straight.
  for (std::size_t m = 0; m < 2; ++m) {
    if (!input.middle[m] || open.count == 0) continue;
    take<1>(sumOf(at, meanOf(m)).transpose().lazyProduct(open.each), open, [&](const auto&) {
      stand_ins.add(meanOf(m), *input.middle[m], input.middle_sigma);
      stand_ins.middle[m] = true;
    });
  }
  for (const auto& group : kGroups) {
    if (open.count == 0) break;
    const std::size_t first = indexOf(group[0]), last = indexOf(group[1]);
    take<4>(seenOnly.operator()<4>(first, last, false).lazyProduct(open.each), open, [&](const Eigen::Vector4d& unit) {
      Vector9 coefficient = Vector9::Zero();
      for (std::size_t k = first; k <= last; ++k) {  // a mix of the group's readings may settle one direction
        coefficient[k] = unit[k - first];
        stand_ins.planned[k] |= std::abs(unit[k - first]) > kSeen;
      }
      stand_ins.add(coefficient, coefficient.dot(Eigen::Map<const Vector9>(input.value.data())), input.planned_sigma);
    });
  }
  assert(open.count == 0);  // sizes, level and plumb together see every direction of a rectangle
  return stand_ins;
}

void fixPeak(const SurveyInput& input, const std::array<std::optional<double>, 4>& between, AsBuilt& built) {
  const Point planned = input.line.middle();
  const auto& corner = built.shape.corner;
  const Point expected{planned.x, planned.z + (corner[2].z + corner[3].z - input.line.left() - input.line.right()) / 2};
  built.shape.peak = expected;
  const double sigma = input.sigma[indexOf(Reading::DiagonalFromBottomLeft)];
  const double plans = 1 / (input.planned_sigma * input.planned_sigma);
  constexpr int kRounds = 8;  // quadratic from a start that is centimetres off over metres
  for (int round = 0; round <= kRounds; ++round) {
    Point& peak = *built.shape.peak;
    std::vector<Statement> all;
    for (std::size_t i = 0; i < between.size(); ++i) {
      if (between[i]) all.push_back(distanceFrom(i, *between[i], sigma, built));
    }
    if (all.size() < 2) {  // the plan speaks only where the distances leave the peak open
      all.push_back({expected.x - peak.x, plans, Eigen::Vector2d::UnitX()});
      all.push_back({expected.z - peak.z, plans, Eigen::Vector2d::UnitY()});
    }
    const Eigen::Matrix2d spread = spreadOf(all);
    if (round == kRounds) {  // it moves no more and is judged where it stands
      judgePeak(all, spread, built.peak);
      // The peak is the middle of the head's edge, known as a bow of its own would be.
      built.bow_doubt[1].sigma = built.bow_doubt[1].own_sigma = std::sqrt(spread.trace());
      break;
    }
    Eigen::Vector2d pull = Eigen::Vector2d::Zero();
    for (const Statement& say : all) pull += say.weight * say.missing * say.along;
    const Eigen::Vector2d step = spread * pull;
    peak = {peak.x + step.x(), peak.z + step.y()};
  }
  if (!built.peak.agrees && built.trust != Trust::Suspect) built.trust = Trust::Disputed;
}

}  // namespace sillwright::plan
