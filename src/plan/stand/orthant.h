/// Inside the room: the probability that several linear functions of independent standard normal variables are all
/// above zero: a normal orthant probability, by the sequential conditioning of A. Genz ("Numerical computation of
/// multivariate normal probabilities", 1992) over a fixed quasi-random sequence, so that the same input gives the same
/// answer on every run.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <span>

namespace sillwright::plan {

/// What the spare of a unit is uncertain by: six coordinates of corners, two bows, the unit's width and height.
inline constexpr std::size_t kDoubts = 10;
using Doubts = Eigen::Matrix<double, kDoubts, 1>;

/// normal · y ≤ distance, where y are independent standard normal variables and |normal| is 1.
struct HalfSpace {
  double distance = 0;
  Doubts normal = Doubts::Zero();
};

/// Φ, the standard normal distribution.
[[nodiscard]] double normalProbability(double x);
/// Its inverse for 0 < p < 1, to a relative error of 1e-8 (P. J. Acklam's rational approximations).
[[nodiscard]] double normalQuantile(double p);

/// The probability of being in all half-spaces, which are reordered. No allocation. Where bounds by the single
/// probabilities are within half a point of each other the middle of them is returned; else the error of the integral
/// is below half a point.
[[nodiscard]] double probabilityOfAll(std::span<HalfSpace> all);

}  // namespace sillwright::plan
