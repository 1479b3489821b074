/// The nine readings as they follow from three corners, and how they change when a corner moves. Private to the room.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstddef>

#include "plan/survey/survey.h"

namespace sillwright::plan {

inline constexpr std::size_t kUnknowns = 6;   ///< BR.x, BR.z, TR.x, TR.z, TL.x, TL.z
inline constexpr std::size_t kDistances = 6;  ///< The first six readings are distances between corners.

// Of fixed sizes: the adjustment asks the heap for nothing.
using Vector6 = Eigen::Matrix<double, kUnknowns, 1>;
using Matrix6 = Eigen::Matrix<double, kUnknowns, kUnknowns>;
using Vector9 = Eigen::Matrix<double, kReadings, 1>;
/// Derivatives of the readings by the unknowns.
using Rows = Eigen::Matrix<double, kReadings, kUnknowns>;

[[nodiscard]] constexpr std::size_t indexOf(Reading reading) { return static_cast<std::size_t>(reading); }

/// What a shape's readings are and how they change. A distance of nothing is taken plumb.
struct Sight {
  Vector9 value = Vector9::Zero();
  Rows rows = Rows::Zero();
};

[[nodiscard]] Sight sightOf(const Vector6& corners);

/// Of the mean of the two ends that the middle width (0), the middle height (1) lies between: readings 2m and 2m + 1.
[[nodiscard]] inline Vector6 meanRow(const Rows& rows, std::size_t middle) {
  return rows.middleRows<2>(static_cast<Eigen::Index>(2 * middle)).colwise().mean();
}

}  // namespace sillwright::plan
