#include "plan/survey/survey_sight.h"

#include <cmath>

namespace sillwright::plan {
namespace {

constexpr std::size_t kFall = indexOf(Reading::OutOfLevel);
constexpr std::size_t kLeft = indexOf(Reading::OutOfPlumbLeft);
constexpr std::size_t kRight = indexOf(Reading::OutOfPlumbRight);

/// A side no longer than this is that of a triangle's corner, and is read plumb, mm.
constexpr double kNoSide = 1;

}  // namespace

std::array<double, kReadings> nineReadings(const OpeningShape& shape) {
  const auto& [bl, br, tr, tl] = shape.corner;
  return sightOf({br.x - bl.x, br.z - bl.z, tr.x - bl.x, tr.z - bl.z, tl.x - bl.x, tl.z - bl.z}).value;
}

Sight sightOf(const Vector6& corners) {
  const std::array<double, 8> x = {corners[0], corners[1], corners[2], corners[3], corners[4], corners[5], 0, 0};
  Sight sight;
  for (std::size_t d = 0; d < kDistances; ++d) {
    const double dx = x[kSpans[d].to] - x[kSpans[d].from];
    const double dz = x[kSpans[d].to + 1] - x[kSpans[d].from + 1];
    const double length = std::sqrt(dx * dx + dz * dz);
    if (length < kNoSide) {
      sight.value[d] = dz;
      sight.along_z[d] = 1;
      continue;
    }
    const double inverse = 1 / length;
    sight.value[d] = length;
    sight.along_x[d] = dx * inverse;
    sight.along_z[d] = dz * inverse;
  }
  sight.value[kFall] = x[kBR + 1];
  sight.value[kLeft] = x[kTL];
  sight.value[kRight] = x[kTR] - x[kBR];
  return sight;
}

void follow(Sight& sight, const Vector6& step) {
  const std::array<double, 8> s = {step[0], step[1], step[2], step[3], step[4], step[5], 0, 0};
  for (std::size_t d = 0; d < kDistances; ++d) {
    const auto [from, to] = kSpans[d];
    sight.value[d] += sight.along_x[d] * (s[to] - s[from]) + sight.along_z[d] * (s[to + 1] - s[from + 1]);
  }
  sight.value[kFall] += s[kBR + 1];
  sight.value[kLeft] += s[kTL];
  sight.value[kRight] += s[kTR] - s[kBR];
}

Rows rowsOf(const Sight& sight) {
  Rows rows{};
  for (std::size_t d = 0; d < kDistances; ++d) {
    const auto [from, to] = kSpans[d];
    rows[d][to] = sight.along_x[d];
    rows[d][to + 1] = sight.along_z[d];
    if (from == kOrigin) continue;
    rows[d][from] = -sight.along_x[d];
    rows[d][from + 1] = -sight.along_z[d];
  }
  rows[kFall][kBR + 1] = 1;
  rows[kLeft][kTL] = 1;
  rows[kRight][kTR] = 1;
  rows[kRight][kBR] = -1;
  return rows;
}

Vector6 meanRow(const Rows& rows, std::size_t middle) {
  Vector6 mean{};
  addScaled(mean, 0.5, rows[2 * middle]);
  addScaled(mean, 0.5, rows[2 * middle + 1]);
  return mean;
}

std::array<double, kReadings> variancesOf(const Sight& sight, const Blocks& q) {
  const auto along = [&sight](Reading reading, const Block& spread) {
    const double x = sight.along_x[indexOf(reading)];
    const double z = sight.along_z[indexOf(reading)];
    return x * x * spread.xx + x * z * (spread.xz + spread.zx) + z * z * spread.zz;
  };
  // Of the difference of two corners: the spreads of both, less what they share.
  const auto apart = [](const Block& a, const Block& b, const Block& shared) {
    return a + b - shared - transposed(shared);
  };
  return {along(Reading::WidthBottom, q.d0),
          along(Reading::WidthTop, apart(q.d1, q.d2, q.b21)),
          along(Reading::HeightLeft, q.d2),
          along(Reading::HeightRight, apart(q.d0, q.d1, q.b10)),
          along(Reading::DiagonalFromBottomLeft, q.d1),
          along(Reading::DiagonalFromTopLeft, apart(q.d0, q.d2, q.b20)),
          q.d0.zz,
          q.d2.xx,
          q.d0.xx + q.d1.xx - 2 * q.b10.xx};
}

Blocks normalOf(const Sight& sight, const std::array<double, kReadings>& weight) {
  const auto stiffness = [&](Reading reading) {
    const std::size_t d = indexOf(reading);
    const double x = weight[d] * sight.along_x[d];
    const double z = weight[d] * sight.along_z[d];
    const double xz = x * sight.along_z[d];
    return Block{x * sight.along_x[d], xz, xz, z * sight.along_z[d]};
  };
  // Between any two corners runs one distance, and to each of them one from BL.
  const Block right = stiffness(Reading::HeightRight);
  const Block top = stiffness(Reading::WidthTop);
  const Block falling = stiffness(Reading::DiagonalFromTopLeft);
  Blocks m;
  m.d0 = stiffness(Reading::WidthBottom) + right + falling;
  m.d1 = stiffness(Reading::DiagonalFromBottomLeft) + right + top;
  m.d2 = stiffness(Reading::HeightLeft) + top + falling;
  m.b10 = Block{} - right;
  m.b20 = Block{} - falling;
  m.b21 = Block{} - top;
  m.d0.zz += weight[kFall];
  m.d2.xx += weight[kLeft];
  m.d0.xx += weight[kRight];
  m.d1.xx += weight[kRight];
  m.b10.xx -= weight[kRight];
  return m;
}

Vector6 gradientOf(const Sight& sight, const std::array<double, kReadings>& pull) {
  std::array<double, 8> g{};  // the last two are the origin's, which can't move
  for (std::size_t d = 0; d < kDistances; ++d) {
    const auto [from, to] = kSpans[d];
    const double x = pull[d] * sight.along_x[d];
    const double z = pull[d] * sight.along_z[d];
    g[to] += x;
    g[to + 1] += z;
    g[from] -= x;
    g[from + 1] -= z;
  }
  g[kBR + 1] += pull[kFall];
  g[kTL] += pull[kLeft];
  g[kTR] += pull[kRight];
  g[kBR] -= pull[kRight];
  return {g[0], g[1], g[2], g[3], g[4], g[5]};
}

}  // namespace sillwright::plan
