#include <cassert>
#include <cmath>
#include <span>

#include "plan/survey/survey_adjust.h"

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

}  // namespace sillwright::plan
