/// The nine readings as they follow from three corners, and how they change when a corner moves. Private to the room.
#pragma once

#include <array>
#include <cstddef>
#include <limits>

#include "plan/survey/survey.h"

namespace sillwright::plan {

// Six-by-six linear algebra for the one place that needs it often: the opening's three free corners.
//
// Fixed sizes, no allocation. The six unknowns are three corners of two coordinates, and a symmetric matrix over them
// is kept as blocks of two by two: factoring it then takes three small inverses in a row, and no square roots.

using Vector6 = std::array<double, 6>;
using Matrix6 = std::array<Vector6, 6>;  ///< Row by row.

[[nodiscard]] inline double dot(const Vector6& a, const Vector6& b) {
  double sum = 0;
  for (std::size_t i = 0; i < 6; ++i) sum += a[i] * b[i];
  return sum;
}

/// a += factor · b
inline void addScaled(Vector6& a, double factor, const Vector6& b) {
  for (std::size_t i = 0; i < 6; ++i) a[i] += factor * b[i];
}

[[nodiscard]] inline Vector6 times(const Matrix6& m, const Vector6& v) {
  Vector6 product{};
  for (std::size_t i = 0; i < 6; ++i) product[i] = dot(m[i], v);
  return product;
}

/// aᵀ m b
[[nodiscard]] inline double between(const Vector6& a, const Matrix6& m, const Vector6& b) {
  return dot(a, times(m, b));
}

/// m += weight · v vᵀ
inline void addOuter(Matrix6& m, double weight, const Vector6& v) {
  for (std::size_t i = 0; i < 6; ++i) addScaled(m[i], weight * v[i], v);
}

/// Two by two: how one corner's coordinates act on another's.
struct Block {
  double xx = 0, xz = 0, zx = 0, zz = 0;
};

[[nodiscard]] constexpr Block operator+(const Block& a, const Block& b) {
  return {a.xx + b.xx, a.xz + b.xz, a.zx + b.zx, a.zz + b.zz};
}
[[nodiscard]] constexpr Block operator-(const Block& a, const Block& b) {
  return {a.xx - b.xx, a.xz - b.xz, a.zx - b.zx, a.zz - b.zz};
}
[[nodiscard]] constexpr Block operator*(const Block& a, const Block& b) {
  return {a.xx * b.xx + a.xz * b.zx, a.xx * b.xz + a.xz * b.zz, a.zx * b.xx + a.zz * b.zx, a.zx * b.xz + a.zz * b.zz};
}
[[nodiscard]] constexpr Block transposed(const Block& a) { return {a.xx, a.zx, a.xz, a.zz}; }

/// A symmetric matrix over the corners 0, 1, 2: the blocks on its diagonal and those below it.
struct Blocks {
  Block d0, d1, d2, b10, b20, b21;
};

/// The block of a full matrix in the rows of corner i, the columns of corner j.
[[nodiscard]] inline Block blockOf(const Matrix6& m, std::size_t i, std::size_t j) {
  return {m[2 * i][2 * j], m[2 * i][2 * j + 1], m[2 * i + 1][2 * j], m[2 * i + 1][2 * j + 1]};
}
[[nodiscard]] inline Blocks toBlocks(const Matrix6& m) {
  return {blockOf(m, 0, 0), blockOf(m, 1, 1), blockOf(m, 2, 2), blockOf(m, 1, 0), blockOf(m, 2, 0), blockOf(m, 2, 1)};
}
/// The whole of it, exactly symmetric.
[[nodiscard]] inline Matrix6 toMatrix(const Blocks& b) {
  return {{{b.d0.xx, b.d0.zx, b.b10.xx, b.b10.zx, b.b20.xx, b.b20.zx},
           {b.d0.zx, b.d0.zz, b.b10.xz, b.b10.zz, b.b20.xz, b.b20.zz},
           {b.b10.xx, b.b10.xz, b.d1.xx, b.d1.zx, b.b21.xx, b.b21.zx},
           {b.b10.zx, b.b10.zz, b.d1.zx, b.d1.zz, b.b21.xz, b.b21.zz},
           {b.b20.xx, b.b20.xz, b.b21.xx, b.b21.xz, b.d2.xx, b.d2.zx},
           {b.b20.zx, b.b20.zz, b.b21.zx, b.b21.zz, b.d2.zx, b.d2.zz}}};
}

/// m = L D Lᵀ by blocks, L with units on its diagonal.
class BlockFactor {
 public:
  BlockFactor() = default;
  explicit BlockFactor(const Blocks& m) {
    if (!invert(m.d0, p0_)) return;
    l10_ = m.b10 * p0_;
    l20_ = m.b20 * p0_;
    if (!invert(m.d1 - l10_ * transposed(m.b10), p1_)) return;
    const Block under = m.b21 - l20_ * transposed(m.b10);
    l21_ = under * p1_;
    positive_ = invert(m.d2 - l20_ * transposed(m.b20) - l21_ * transposed(under), p2_);
  }

  /// False: the matrix is not positive definite (or not finite); nothing else here means anything.
  [[nodiscard]] bool positive() const { return positive_; }

  [[nodiscard]] Vector6 solve(const Vector6& b) const {
    const Pair y0{b[0], b[1]};
    const Pair y1 = less({b[2], b[3]}, l10_, y0);
    const Pair y2 = less(less({b[4], b[5]}, l20_, y0), l21_, y1);
    const Pair x2 = less({}, p2_, y2, -1);
    const Pair x1 = less(less({}, p1_, y1, -1), transposed(l21_), x2);
    const Pair x0 = less(less(less({}, p0_, y0, -1), transposed(l10_), x1), transposed(l20_), x2);
    return {x0.x, x0.z, x1.x, x1.z, x2.x, x2.z};
  }

  /// m⁻¹ = L⁻ᵀ D⁻¹ L⁻¹
  [[nodiscard]] Blocks inverse() const {
    const Block m20 = l20_ - l21_ * l10_;  // L⁻¹ has −l10, −l21 and −m20 below its diagonal
    const Block q21 = Block{} - p2_ * l21_;
    const Block q20 = Block{} - p2_ * m20;
    const Block q10 = Block{} - p1_ * l10_ - transposed(l21_) * q20;
    const Block q11 = p1_ - transposed(l21_) * q21;
    const Block q00 = p0_ + transposed(l10_) * p1_ * l10_ - transposed(m20) * q20;
    return {q00, q11, p2_, q10, q20, q21};
  }

 private:
  struct Pair {
    double x = 0, z = 0;
  };

  /// a − factor · m b
  [[nodiscard]] static Pair less(const Pair& a, const Block& m, const Pair& b, double factor = 1) {
    return {a.x - factor * (m.xx * b.x + m.xz * b.z), a.z - factor * (m.zx * b.x + m.zz * b.z)};
  }

  /// The inverse of a symmetric block by its lower part; false where it is not positive definite.
  [[nodiscard]] static bool invert(const Block& m, Block& inverse) {
    const double determinant = m.xx * m.zz - m.zx * m.zx;
    if (!(m.xx > 0 && determinant > 0 && determinant <= std::numeric_limits<double>::max())) return false;
    const double scale = 1 / determinant;
    inverse = {m.zz * scale, -m.zx * scale, -m.zx * scale, m.xx * scale};
    return true;
  }

  Block p0_, p1_, p2_;     ///< D⁻¹
  Block l10_, l20_, l21_;  ///< L
  bool positive_ = false;
};

inline constexpr std::size_t kUnknowns = 6;   ///< BR.x, BR.z, TR.x, TR.z, TL.x, TL.z
inline constexpr std::size_t kDistances = 6;  ///< The first six readings are distances between corners.

/// Index of a corner's x among the unknowns; its z follows. BL is the origin and none of them.
inline constexpr std::size_t kBR = 0, kTR = 2, kTL = 4, kOrigin = 6;

[[nodiscard]] constexpr std::size_t indexOf(Reading reading) { return static_cast<std::size_t>(reading); }

/// Corners that a distance is read between. Its derivative is its direction, + at `to`, − at `from`.
struct Span {
  std::size_t from, to;
};
inline constexpr std::array<Span, kDistances> kSpans = {
    {{kOrigin, kBR}, {kTL, kTR}, {kOrigin, kTL}, {kBR, kTR}, {kOrigin, kTR}, {kTL, kBR}}};

/// What a shape's readings are, and the directions of its distances. A distance of
/// nothing is taken plumb.
struct Sight {
  std::array<double, kReadings> value{};
  std::array<double, kDistances> along_x{};
  std::array<double, kDistances> along_z{};
};

[[nodiscard]] Sight sightOf(const Vector6& corners);

/// Brings the values along with a last small step of the corners, to first order; the directions stay.
void follow(Sight& sight, const Vector6& step);

/// Derivatives of the readings by the unknowns.
using Rows = std::array<Vector6, kReadings>;
[[nodiscard]] Rows rowsOf(const Sight& sight);
/// Of the mean of the two ends that the middle width (0), the middle height (1) lies between: readings 2m and 2m + 1.
[[nodiscard]] Vector6 meanRow(const Rows& rows, std::size_t middle);

/// aᵀ Q a for the row of each reading: the variance of the adjusted reading where Q is the corners' covariance.
[[nodiscard]] std::array<double, kReadings> variancesOf(const Sight& sight, const Blocks& covariance);

/// Σ weight_k a_k a_kᵀ
[[nodiscard]] Blocks normalOf(const Sight& sight, const std::array<double, kReadings>& weight);

/// Σ pull_k a_k
[[nodiscard]] Vector6 gradientOf(const Sight& sight, const std::array<double, kReadings>& pull);

}  // namespace sillwright::plan
