/// The nine readings as they follow from three corners, and how they change when a corner moves. Private to the room.
#pragma once

#include <array>
#include <cstddef>

#include "plan/survey/survey.h"
#include "plan/survey/vector6.h"

namespace sillwright::plan {

inline constexpr std::size_t kUnknowns = 6;   ///< BR.x, BR.z, TR.x, TR.z, TL.x, TL.z
inline constexpr std::size_t kDistances = 6;  ///< The first six readings are distances between corners.

/// Index of a corner's x among the unknowns; its z follows. BL is the origin and none of them.
inline constexpr std::size_t kBR = 0, kTR = 2, kTL = 4, kOrigin = 6;

[[nodiscard]] constexpr std::size_t indexOf(Reading reading) {
  return static_cast<std::size_t>(reading);
}

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
