/// Six-by-six linear algebra for the one place that needs it often: the opening's three free corners.
///
/// Fixed sizes, no allocation, plain loops that the compiler unrolls. Everything larger goes to Eigen (network.cpp).
#pragma once

#include <array>
#include <cstddef>
#include <limits>

namespace sillwright::plan {

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

/// m = L D Lᵀ, L unit lower triangular, D diagonal: no square roots, six divisions. Reads the lower triangle of m only.
struct Ldlt6 {
  Matrix6 lower{};             ///< L below its diagonal.
  Vector6 inverse_diagonal{};  ///< 1 / D
  bool positive = false;       ///< False: m is not positive definite (or not finite); nothing else here means anything.

  Ldlt6() = default;
  explicit Ldlt6(const Matrix6& m) {
    Vector6 diagonal{};
    Vector6 scaled{};  // row j of L times D
    for (std::size_t j = 0; j < 6; ++j) {
      double pivot = m[j][j];
      for (std::size_t k = 0; k < j; ++k) {
        scaled[k] = lower[j][k] * diagonal[k];
        pivot -= lower[j][k] * scaled[k];
      }
      if (!(pivot > 0) || !(pivot <= std::numeric_limits<double>::max())) return;
      diagonal[j] = pivot;
      inverse_diagonal[j] = 1 / pivot;
      for (std::size_t i = j + 1; i < 6; ++i) {
        double sum = m[i][j];
        for (std::size_t k = 0; k < j; ++k) sum -= lower[i][k] * scaled[k];
        lower[i][j] = sum * inverse_diagonal[j];
      }
    }
    positive = true;
  }

  [[nodiscard]] Vector6 solve(Vector6 b) const {
    for (std::size_t i = 1; i < 6; ++i) {
      for (std::size_t k = 0; k < i; ++k) b[i] -= lower[i][k] * b[k];
    }
    for (std::size_t i = 0; i < 6; ++i) b[i] *= inverse_diagonal[i];
    for (std::size_t i = 5; i-- > 0;) {
      for (std::size_t k = i + 1; k < 6; ++k) b[i] -= lower[k][i] * b[k];
    }
    return b;
  }

  /// m⁻¹ = L⁻ᵀ D⁻¹ L⁻¹, exactly symmetric.
  [[nodiscard]] Matrix6 inverse() const {
    Matrix6 l{};  // L⁻¹, unit lower triangular
    for (std::size_t j = 0; j < 6; ++j) {
      l[j][j] = 1;
      for (std::size_t i = j + 1; i < 6; ++i) {
        double sum = -lower[i][j];
        for (std::size_t k = j + 1; k < i; ++k) sum -= lower[i][k] * l[k][j];
        l[i][j] = sum;
      }
    }
    Matrix6 result{};
    for (std::size_t i = 0; i < 6; ++i) {
      for (std::size_t j = 0; j <= i; ++j) {
        double sum = 0;
        for (std::size_t k = i; k < 6; ++k) sum += l[k][i] * inverse_diagonal[k] * l[k][j];
        result[i][j] = result[j][i] = sum;
      }
    }
    return result;
  }
};

}  // namespace sillwright::plan
