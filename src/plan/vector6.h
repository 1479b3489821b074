/// Six-by-six linear algebra for the one place that needs it often: the opening's three free corners.
///
/// Fixed sizes, no allocation, plain loops that the compiler unrolls. Everything larger goes to Eigen (network.cpp).
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

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

/// The lower triangular L of m = L Lᵀ, with the reciprocals of its diagonal beside it.
struct Cholesky6 {
  Matrix6 lower{};
  Vector6 inverse_diagonal{};
  bool positive = false;  ///< False: m is not positive definite (or not finite); nothing else here means anything.

  explicit Cholesky6(const Matrix6& m) {
    for (std::size_t j = 0; j < 6; ++j) {
      double pivot = m[j][j];
      for (std::size_t k = 0; k < j; ++k) pivot -= lower[j][k] * lower[j][k];
      if (!(pivot > 0) || !std::isfinite(pivot)) return;
      lower[j][j] = std::sqrt(pivot);
      inverse_diagonal[j] = 1 / lower[j][j];
      for (std::size_t i = j + 1; i < 6; ++i) {
        double sum = m[i][j];
        for (std::size_t k = 0; k < j; ++k) sum -= lower[i][k] * lower[j][k];
        lower[i][j] = sum * inverse_diagonal[j];
      }
    }
    positive = true;
  }

  [[nodiscard]] Vector6 solve(Vector6 b) const {
    for (std::size_t i = 0; i < 6; ++i) {
      for (std::size_t k = 0; k < i; ++k) b[i] -= lower[i][k] * b[k];
      b[i] *= inverse_diagonal[i];
    }
    for (std::size_t i = 6; i-- > 0;) {
      for (std::size_t k = i + 1; k < 6; ++k) b[i] -= lower[k][i] * b[k];
      b[i] *= inverse_diagonal[i];
    }
    return b;
  }

  /// m⁻¹ = L⁻ᵀ L⁻¹, exactly symmetric.
  [[nodiscard]] Matrix6 inverse() const {
    Matrix6 l{};  // L⁻¹
    for (std::size_t j = 0; j < 6; ++j) {
      l[j][j] = inverse_diagonal[j];
      for (std::size_t i = j + 1; i < 6; ++i) {
        double sum = 0;
        for (std::size_t k = j; k < i; ++k) sum -= lower[i][k] * l[k][j];
        l[i][j] = sum * inverse_diagonal[i];
      }
    }
    Matrix6 result{};
    for (std::size_t i = 0; i < 6; ++i) {
      for (std::size_t j = 0; j <= i; ++j) {
        double sum = 0;
        for (std::size_t k = i; k < 6; ++k) sum += l[k][i] * l[k][j];
        result[i][j] = result[j][i] = sum;
      }
    }
    return result;
  }
};

}  // namespace sillwright::plan
