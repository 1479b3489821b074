// Where plates that are longer than any stock are cut.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "takeoff/gather.h"

namespace sillwright::takeoff {
namespace {

constexpr double kSame = 1;  // mm: joints nearer than this are over the same stud

double leftOf(const plan::Member& member) {
  return std::min(member.corner[0].x, member.corner[3].x);
}

/// Middles of the common studs, left to right.
std::vector<double> studsOf(const plan::Frame& frame) {
  std::vector<double> middles;
  for (const plan::Member& member : frame.members) {
    if (member.part == plan::MemberPart::CommonStud) {
      middles.push_back((member.corner[0].x + member.corner[1].x) / 2);
    }
  }
  std::sort(middles.begin(), middles.end());
  return middles;
}

/// The furthest stud that a piece from `begin` reaches; one whose joint is `taken` only where there is no other.
std::optional<double> furthestStud(const std::vector<double>& studs, double begin, double reach,
                                   const std::vector<double>& taken) {
  std::optional<double> any;
  for (auto stud = studs.rbegin(); stud != studs.rend(); ++stud) {
    if (*stud > begin + reach || *stud < begin + kSame) continue;  // a piece rounded down ends just before its stud
    if (std::none_of(taken.begin(), taken.end(), [&](double joint) { return std::abs(joint - *stud) < kSame; })) {
      return *stud;
    }
    if (!any) any = *stud;
  }
  return any;
}

}  // namespace

PlateJoints::PlateJoints(const plan::Frame& frame, double longest_stock)
    : studs_(studsOf(frame)), longest_(tenthBelow(longest_stock)) {}

std::vector<double> PlateJoints::cut(const plan::Member& plate) {
  std::vector<double> pieces;
  const double along = std::hypot(1, std::tan(plate.slope_degrees * std::numbers::pi / 180));  // mm of plate a mm of x
  auto& taken = taken_[plate.part];
  double x = leftOf(plate);
  double left = toTenth(plate.length);
  while (longest_ > 0 && left > longest_) {
    const auto stud = furthestStud(studs_, x, longest_ / along, taken);
    // Neither longer than its stock nor beyond its stud.
    const double piece = stud ? tenthBelow((*stud - x) * along) : longest_;
    if (stud) taken.push_back(*stud);
    x += piece / along;
    left = toTenth(left - piece);
    pieces.push_back(piece);
  }
  pieces.push_back(left);
  return pieces;
}

}  // namespace sillwright::takeoff
