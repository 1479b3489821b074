#include <algorithm>
#include <cmath>
#include <vector>

#include "plan/survey/chi_square.h"
#include "plan/survey/survey_adjust.h"

namespace sillwright::plan {
namespace {

/// One thing said of the peak: how much it is missed by, its direction, its weight, and the corner that it is from.
struct Statement {
  double missing = 0, along_x = 0, along_z = 0, weight = 0;
  std::size_t corner = 0;
};

/// A distance, with the doubt of the corner that it is read from along it.
Statement distanceFrom(std::size_t corner, double read, double sigma, const AsBuilt& built) {
  const Point& from = built.shape.corner[corner];
  const double dx = built.shape.peak->x - from.x;
  const double dz = built.shape.peak->z - from.z;
  const double length = std::max(std::hypot(dx, dz), 1.0);
  Statement say{read - length, dx / length, dz / length, sigma * sigma, corner};
  if (corner > 0) {
    const std::size_t k = 2 * (corner - 1);
    const auto& q = built.covariance;
    say.weight += say.along_x * say.along_x * q[k][k] + 2 * say.along_x * say.along_z * q[k][k + 1] +
                  say.along_z * say.along_z * q[k + 1][k + 1];
  }
  say.weight = 1 / say.weight;
  return say;
}

/// The inverse of the normal equations.
struct Spread {
  double xx = 0, xz = 0, zz = 0;

  explicit Spread(const std::vector<Statement>& all) {
    double a = 0, b = 0, c = 0;
    for (const Statement& say : all) {
      a += say.weight * say.along_x * say.along_x;
      b += say.weight * say.along_x * say.along_z;
      c += say.weight * say.along_z * say.along_z;
    }
    const double det = a * c - b * b;
    if (det > 0) xx = c / det, xz = -b / det, zz = a / det;
  }
};

/// Whether the distances agree; where they don't, the one that stands out, if it can be told.
void judgePeak(const std::vector<Statement>& all, const Spread& spread, PeakFix& peak) {
  double chi_square = 0;
  for (const Statement& say : all) chi_square += say.weight * say.missing * say.missing;
  const auto freedom = static_cast<int>(all.size()) - 2;
  peak.agrees = freedom < 1 || chiSquareTail(chi_square, freedom) >= kSignificance;
  if (peak.agrees || freedom < 2) return;
  double largest = 0;
  double second = 0;
  for (const Statement& say : all) {
    const double explained = say.along_x * say.along_x * spread.xx + 2 * say.along_x * say.along_z * spread.xz +
                             say.along_z * say.along_z * spread.zz;
    const double redundancy = std::max(1 - say.weight * explained, kLeastRedundancy);
    const double stands = std::abs(say.missing) * std::sqrt(say.weight / redundancy);
    if (stands > largest) peak.suspect = say.corner;
    second = std::max(second, std::min(stands, largest));
    largest = std::max(largest, stands);
  }
  if (largest < kStandsOut || second >= (1 - kTie) * largest) peak.suspect.reset();
}

}  // namespace

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
      all.insert(all.end(), {{expected.x - peak.x, 1, 0, plans}, {expected.z - peak.z, 0, 1, plans}});
    }
    const Spread spread(all);
    if (round == kRounds) {
      judgePeak(all, spread, built.peak);
      // The peak is the middle of the head's edge, known as a bow of its own would be.
      built.bow_doubt[1].sigma = built.bow_doubt[1].own_sigma = std::sqrt(spread.xx + spread.zz);
      break;
    }
    double x = 0, z = 0;
    for (const Statement& say : all) {
      x += say.weight * say.along_x * say.missing;
      z += say.weight * say.along_z * say.missing;
    }
    peak = {peak.x + spread.xx * x + spread.xz * z, peak.z + spread.xz * x + spread.zz * z};
  }
  if (!built.peak.agrees && built.trust != Trust::Suspect) built.trust = Trust::Disputed;
}

}  // namespace sillwright::plan
