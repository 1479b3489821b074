#include "plan/survey_sight.h"

#include <cmath>

namespace sillwright::plan {
namespace {

constexpr std::size_t kFall = indexOf(Reading::SillFall);
constexpr std::size_t kLeft = indexOf(Reading::LeanLeft);
constexpr std::size_t kRight = indexOf(Reading::LeanRight);

}  // namespace

Sight sightOf(const Vector6& corners) {
  const std::array<double, 8> x = {corners[0], corners[1], corners[2], corners[3], corners[4], corners[5], 0, 0};
  Sight sight;
  for (std::size_t d = 0; d < kDistances; ++d) {
    const double dx = x[kSpans[d].to] - x[kSpans[d].from];
    const double dz = x[kSpans[d].to + 1] - x[kSpans[d].from + 1];
    const double length = std::sqrt(dx * dx + dz * dz);
    const double inverse = length > 0 ? 1 / length : 0;
    sight.value[d] = length;
    sight.along_x[d] = dx * inverse;
    sight.along_z[d] = dz * inverse;
  }
  sight.value[kFall] = x[kBR + 1];
  sight.value[kLeft] = x[kTL];
  sight.value[kRight] = x[kTR] - x[kBR];
  return sight;
}

std::array<Vector6, kReadings> rowsOf(const Sight& sight) {
  std::array<Vector6, kReadings> rows{};
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

std::array<double, kReadings> variancesOf(const Sight& sight, const Matrix6& q) {
  std::array<double, kReadings> variance{};
  for (std::size_t d = 0; d < kDistances; ++d) {
    const auto [from, to] = kSpans[d];
    double xx = q[to][to];
    double xz = q[to + 1][to];
    double zz = q[to + 1][to + 1];
    if (from != kOrigin) {
      xx += q[from][from] - 2 * q[to][from];
      xz += q[from + 1][from] - q[to + 1][from] - q[to][from + 1];
      zz += q[from + 1][from + 1] - 2 * q[to + 1][from + 1];
    }
    const double x = sight.along_x[d];
    const double z = sight.along_z[d];
    variance[d] = x * x * xx + 2 * x * z * xz + z * z * zz;
  }
  variance[kFall] = q[kBR + 1][kBR + 1];
  variance[kLeft] = q[kTL][kTL];
  variance[kRight] = q[kTR][kTR] + q[kBR][kBR] - 2 * q[kTR][kBR];
  return variance;
}

Matrix6 normalOf(const Sight& sight, const std::array<double, kReadings>& weight) {
  Matrix6 m{};
  for (std::size_t d = 0; d < kDistances; ++d) {
    const auto [from, to] = kSpans[d];
    const double wx = weight[d] * sight.along_x[d];
    const double xx = wx * sight.along_x[d];
    const double xz = wx * sight.along_z[d];
    const double zz = weight[d] * sight.along_z[d] * sight.along_z[d];
    m[to][to] += xx;
    m[to + 1][to] += xz;
    m[to + 1][to + 1] += zz;
    if (from == kOrigin) continue;
    m[from][from] += xx;
    m[from + 1][from] += xz;
    m[from + 1][from + 1] += zz;
    // Between any two corners runs one distance: the block below the diagonal is its own, and symmetric.
    const std::size_t low = from > to ? from : to;
    const std::size_t high = from > to ? to : from;
    m[low][high] = -xx;
    m[low + 1][high] = m[low][high + 1] = -xz;
    m[low + 1][high + 1] = -zz;
  }
  m[kBR + 1][kBR + 1] += weight[kFall];
  m[kTL][kTL] += weight[kLeft];
  m[kTR][kTR] += weight[kRight];
  m[kBR][kBR] += weight[kRight];
  m[kTR][kBR] -= weight[kRight];
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
