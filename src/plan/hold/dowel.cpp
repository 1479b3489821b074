#include "plan/hold/dowel.h"

#include <cmath>

namespace sillwright::plan {
namespace {

/// Positive root of A·P² + B·P + C = 0 for A > 0, C ≤ 0, written without cancellation: P = −2C / (B + √(B² − 4AC)).
double positiveRoot(double a, double b, double c) {
  const double denominator = b + std::sqrt(b * b - 4 * a * c);
  return denominator > 0 ? -2 * c / denominator : 0;
}

}  // namespace

const char* toWord(YieldMode mode) {
  static constexpr std::array<const char*, kYieldModes> kWords{"Im", "Is", "II", "IIIm", "IIIs", "IV"};
  return kWords[static_cast<std::size_t>(mode)];
}

const char* inWords(YieldMode mode) {
  static constexpr std::array<const char*, kYieldModes> kWords{
      "the stud's wood is crushed",
      "the reveal's wood is crushed",
      "the screw tips over in both woods",
      "the screw bends in the reveal and tips over in the stud",
      "the screw bends in the stud and tips over in the reveal",
      "the screw bends in both woods"};
  return kWords[static_cast<std::size_t>(mode)];
}

std::array<double, kYieldModes> yieldLoads(const DowelJoint& joint) {
  const double qm = joint.bearing_main;
  const double qs = joint.bearing_side;
  const double lm = joint.length_main;
  const double ls = joint.length_side;
  const double g = joint.gap;
  if (qm <= 0 || qs <= 0) return {};  // a member that bears nothing holds nothing
  const double main_bears = qm * lm * lm / 4;
  const double side_bears = qs * ls * ls / 4;
  const double main_moment = joint.moment_main;
  const double side_moment = joint.moment_side;
  return {
      qm * lm,
      qs * ls,
      positiveRoot(1 / (4 * qs) + 1 / (4 * qm), ls / 2 + g + lm / 2, -side_bears - main_bears),
      positiveRoot(1 / (2 * qs) + 1 / (4 * qm), g + lm / 2, -side_moment - main_bears),
      positiveRoot(1 / (4 * qs) + 1 / (2 * qm), ls / 2 + g, -side_bears - main_moment),
      positiveRoot(1 / (2 * qs) + 1 / (2 * qm), g, -side_moment - main_moment),
  };
}

}  // namespace sillwright::plan
