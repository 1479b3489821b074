#include <algorithm>
#include <cassert>
#include <cmath>
#include <span>
#include <vector>

#include "plan/survey/survey_adjust.h"
#include "plan/survey/survey_suspects.h"

namespace sillwright::plan {

namespace {

/// A direction of which the readings see less than this share is open: they would tell it 25 times worse than they
/// tell a size, and the plan knows better. Ordinary openings have it near 1 or exactly 0.
constexpr double kSeen = 0.04;

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

/// A group of planned values that stand in together, in the order they are asked.
constexpr std::array<Reading, 4> kSizes = {Reading::WidthBottom, Reading::WidthTop, Reading::HeightLeft,
                                           Reading::HeightRight};
constexpr std::array<Reading, 1> kLevel = {Reading::OutOfLevel};
constexpr std::array<Reading, 2> kPlumb = {Reading::OutOfPlumbLeft, Reading::OutOfPlumbRight};

void takeFromPlan(const SurveyInput& input, const Rows& row, std::span<const Reading> group, OpenDirections& open,
                  StandIns& stand_ins) {
  std::array<Vector6, 4> rows{};
  std::array<std::size_t, 4> who{};
  std::size_t count = 0;
  for (const Reading reading : group) {
    const std::size_t k = indexOf(reading);
    if (input.read[k]) continue;
    rows[count] = row[k];
    who[count++] = k;
  }
  take(open, std::span(rows).first(count), [&](const Seen& unit) {
    StandIn& stand_in = stand_ins.add(input.planned_sigma);
    for (std::size_t i = 0; i < count; ++i) {
      stand_in.coefficient[who[i]] = unit[i];
      stand_in.value += unit[i] * input.value[who[i]];
      if (std::abs(unit[i]) > kSeen) stand_ins.planned[who[i]] = true;
    }
  });
}

/// Each middle reading as the mean of its two edges' readings, which holds where the edges between are straight.
void takeFromMiddles(const SurveyInput& input, const Rows& row, OpenDirections& open, StandIns& stand_ins) {
  for (std::size_t m = 0; m < 2; ++m) {
    if (!input.middle[m]) continue;
    const Vector6 mean = meanRow(row, m);
    take(open, std::span(&mean, 1), [&](const Seen&) {
      StandIn& stand_in = stand_ins.add(input.middle_sigma);
      stand_in.coefficient[2 * m] = stand_in.coefficient[2 * m + 1] = 0.5;
      stand_in.value = *input.middle[m];
      stand_ins.middle[m] = true;
    });
  }
}

}  // namespace

StandIns standInsFor(const SurveyInput& input) {
  StandIns stand_ins;
  const Rows row = rowsOf(sightOf(roughCorners(input)));

  OpenDirections open;
  std::array<Vector6, kReadings> rows{};
  std::size_t count = 0;
  for (std::size_t k = 0; k < kReadings; ++k) {
    if (input.read[k]) rows[count++] = row[k];
  }
  take(open, std::span(rows).first(count), [](const Seen&) {});
  stand_ins.open = open.count;
  takeFromMiddles(input, row, open, stand_ins);
  takeFromPlan(input, row, kSizes, open, stand_ins);
  takeFromPlan(input, row, kLevel, open, stand_ins);
  takeFromPlan(input, row, kPlumb, open, stand_ins);
  assert(open.count == 0);  // sizes, level and plumb together see every direction of a rectangle
  return stand_ins;
}

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
