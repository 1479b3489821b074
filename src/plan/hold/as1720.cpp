#include "plan/hold/as1720.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace sillwright::plan {
namespace {

constexpr std::array<int, 7> kGauges{4, 6, 8, 10, 12, 14, 18};
constexpr std::size_t kGroups = 6;
using Table = std::array<std::array<double, kGauges.size()>, kGroups>;

// As quoted in a public file that names AS 1720.1; JD1 to JD6.
constexpr Table kAcross{{{1720, 2560, 3570, 4720, 6000, 7380, 10550},
                         {1280, 1950, 2700, 3570, 4520, 5560, 7950},
                         {1010, 1520, 2120, 2800, 3570, 4380, 6270},
                         {710, 1080, 1520, 2020, 2530, 3130, 4480},
                         {510, 780, 1080, 1420, 1790, 2220, 3170},
                         {370, 570, 780, 1010, 1310, 1620, 2290}}};
constexpr Table kWithdrawal{{{81, 102, 125, 147, 168, 189, 232},
                             {62, 79, 97, 112, 127, 145, 178},
                             {48, 62, 73, 87, 100, 112, 137},
                             {37, 46, 56, 66, 75, 85, 104},
                             {29, 37, 44, 52, 60, 68, 83},
                             {23, 29, 35, 41, 46, 52, 64}}};

std::optional<double> lookUp(const Table& table, int group, int gauge) {
  const auto found = std::find(kGauges.begin(), kGauges.end(), gauge);
  if (group < 1 || group > static_cast<int>(kGroups) || found == kGauges.end()) return std::nullopt;
  return table[static_cast<std::size_t>(group - 1)][static_cast<std::size_t>(found - kGauges.begin())];
}

}  // namespace

double jointCapacityAs1720(const JointFactors& factors, double fasteners, double characteristic_n) {
  return factors.capacity * factors.duration * factors.grain * factors.planes * factors.side_plate * factors.rows *
         fasteners * characteristic_n;
}

double thicknessShareAs1720(double under_head, double penetration, double shank) {
  constexpr double kFullHead = 10;
  constexpr double kFullPoint = 7;
  constexpr double kNothing = 4;
  if (std::min(under_head, penetration) < kNothing * shank) return 0;
  return std::min({1.0, under_head / (kFullHead * shank), penetration / (kFullPoint * shank)});
}

std::optional<double> screwAcrossAs1720(int group, int gauge) {
  return lookUp(kAcross, group, gauge);
}

std::optional<double> screwWithdrawalAs1720(int group, int gauge) {
  return lookUp(kWithdrawal, group, gauge);
}

}  // namespace sillwright::plan
