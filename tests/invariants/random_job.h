/// One job from a row of numbers.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "job/job.h"

namespace sillwright::testing {

/// The row is cut into lengths, one for the house, for each wall and for each opening, and the rest for the property:
/// an opening whose numbers become zeros goes away and leaves the others as they are.
inline constexpr std::size_t kHouseNumbers = 40;
inline constexpr std::size_t kWallNumbers = 32;
inline constexpr std::size_t kMostRandomWalls = 4;
inline constexpr std::size_t kOpeningNumbers = 72;
inline constexpr std::size_t kMostRandomOpenings = 9;
inline constexpr std::size_t kJobNumbers =
    kHouseNumbers + kMostRandomWalls * kWallNumbers + kMostRandomOpenings * kOpeningNumbers;
inline constexpr std::size_t kPropertyNumbers = 32;

[[nodiscard]] job::Job jobFrom(const std::vector<std::uint32_t>& numbers);

}  // namespace sillwright::testing
