/// Adjustment of a plane network: any points, distances and coordinate differences, by weighted least squares.
///
/// The survey of an opening (survey.h) is one case of it, four points and at most nine observations, and is solved
/// there without allocation; this is the general routine, for networks of any size, and what the survey is held
/// against. Gauss–Newton on the normal equations (Ghilani & Wolf, Adjustment Computations). What neither the fixed
/// points nor the observations settle — where the network lies, how it is turned — is settled by the least movement of
/// the free points away from where they were put: the inner constraints of a free network, by the pseudo-inverse of the
/// normal matrix.
///
/// Lengths in any one unit; standard errors in the same.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "plan/shape.h"

namespace sillwright::outside {

using plan::Point;

struct NetworkPoint {
  Point at;            ///< Where it is fixed, or about where it lies: within the network's size of its place.
  bool fixed = false;  ///< Known without error.
};

enum class Observed : std::uint8_t {
  Distance,  ///< Between the two points.
  AcrossX,   ///< x of `to` less x of `from`.
  UpZ        ///< z of `to` less z of `from`.
};

struct Observation {
  Observed kind = Observed::Distance;
  std::size_t from = 0;  ///< Index of a point.
  std::size_t to = 0;
  double value = 0;
  double sigma = 1;  ///< Standard error, above 0; the weight is 1 / σ².
};

struct AdjustedObservation {
  double residual = 0;      ///< Adjusted less observed.
  double redundancy = 0;    ///< r_i, 0 to 1.
  double standardised = 0;  ///< |v| / (σ √r); 0 where nothing checks it.
};

struct NetworkResult {
  std::vector<Point> points;
  /// Of x0, z0, x1, z1, … row by row, from the standard errors as given (not scaled by `sigmaZero`).
  std::vector<double> covariance;
  std::vector<AdjustedObservation> observations;
  double chi_square = 0;
  int freedom = 0;  ///< Observations less unknowns, plus `defect`.
  int defect = 0;   ///< How many directions the inner constraints settle: 3 for a free network of distances.
  int iterations = 0;
  bool converged = false;  ///< False: the rest means nothing.

  /// √(χ² / freedom), the standard error of unit weight after the adjustment; 0 where the freedom is 0.
  [[nodiscard]] double sigmaZero() const;
  /// Standard errors of a point's x and z, from the standard errors as given.
  [[nodiscard]] std::array<double, 2> sigmaOf(std::size_t point) const;
};

/// Adjusts the network. Indices past the points, an observation from a point to itself and a standard error not above
/// 0 are the caller's mistake.
[[nodiscard]] NetworkResult adjustNetwork(const std::vector<NetworkPoint>& points,
                                          const std::vector<Observation>& observations);

}  // namespace sillwright::outside
