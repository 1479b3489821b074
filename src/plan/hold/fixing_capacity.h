/// What one screw holds: across its packer by the general dowel equations, or pulled straight out of a fin's timber.
///
/// The practice's own material data and factors go in; a figure that it doesn't name gives no capacity, and `missing`
/// says which. Threads cross the joint, so bending and bearing count on the root's diameter. The formulas stand
/// below. By EN 1995-1-1 a gauge whose tensile strength is named bends by that, and bends and bears on 1.1
/// times its root (8.7.1, 8.30); one of which only the bending yield strength is known counts on its root alone, on the
/// safe side.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>

#include "practice/practice.h"

namespace sillwright::plan {

// The lateral resistance of a dowel-type fastener across a gap, by the general dowel equations.
//
// American Wood Council, Technical Report 12 (2015), Table 1-1, solid members, single shear: six yield modes. The
// equations are unit-free; here newtons and millimetres. With no gap they are the yield equations of NDS 12.3.1 and,
// without its factors, of EN 1995-1-1 8.2.2. Friction and head tension are left out, on the safe side.

enum class YieldMode : std::uint8_t { Im, Is, II, IIIm, IIIs, IV };
inline constexpr std::size_t kYieldModes = 6;

/// "Im", "IIIs", …
[[nodiscard]] const char* toWord(YieldMode mode);
/// How a screw through a reveal gives way in that mode, after "gives way where …".
[[nodiscard]] const char* inWords(YieldMode mode);

struct DowelJoint {
  double bearing_main = 0;  ///< q_m, N/mm: embedding strength times diameter, point-side member.
  double bearing_side = 0;  ///< q_s, N/mm: head-side member.
  double length_main = 0;   ///< Bearing length in the point-side member, mm.
  double length_side = 0;
  double moment_main = 0;  ///< Plastic moment where the hinge forms in the main member, N·mm.
  double moment_side = 0;
  double gap = 0;  ///< Clear, mm.
};

/// Resistance of each mode before any safety divisor, N, in the order of YieldMode.
[[nodiscard]] std::array<double, kYieldModes> yieldLoads(const DowelJoint& joint);

// What wood bears under a dowel, what a dowel bears in bending, and what holds along its length: the material side of
// the dowel equations, by the American (NDS 2018) and the European (EN 1995-1-1:2004 + A1:2008) method.
//
// Millimetres, newtons and N/mm²; specific gravities have no unit, characteristic densities are in kg/m³, angles are
// between the force and the grain, in degrees. The American formulas are in inches and pounds and are turned here.
//
// A reveal is bored wide for the shank and a stud not at all, so both take the value of wood that is not bored.

/// Bearing strength of wood under a dowel thinner than 1/4 in, any direction of grain: 16600·G^1.84 psi (12.3.3).
[[nodiscard]] inline double embeddingNds(double specific_gravity) {
  constexpr double kPsi = 0.006894757293168361;  // N/mm²
  return 16600 * std::pow(specific_gravity, 1.84) * kPsi;
}
/// Bearing strength of wood that is not bored: 0.082·ρ·d^−0.3 (eq. 8.15).
[[nodiscard]] inline double embeddingEc5(double density, double diameter) {
  return 0.082 * density * std::pow(diameter, -0.3);
}
/// Plastic moment of a round section, N·mm: F_yb·D³/6.
[[nodiscard]] inline double plasticMoment(double yield, double diameter) {
  return yield * diameter * diameter * diameter / 6;
}
/// Characteristic yield moment, N·mm: 0.3·f_u·d^2.6, f_u the tensile strength (eq. 8.14, 8.30).
[[nodiscard]] inline double yieldMomentEc5(double tensile, double diameter) {
  return 0.3 * tensile * std::pow(diameter, 2.6);
}

/// Withdrawal from side grain for each mm of thread or of depth, N/mm. Wood screw: 2850·G²·D lb/in (12.2-2).
[[nodiscard]] inline double withdrawalNds(double specific_gravity, double shank) {
  constexpr double kPoundPerInch = 4.4482216152605 / practice::kInch;  // N/mm
  return 2850 * specific_gravity * specific_gravity * (shank / practice::kInch) * kPoundPerInch;
}

/// One screw in its joint, mm.
struct ScrewJoint {
  const practice::Gauge* gauge = nullptr;
  double under_head = 0;  ///< Wood of the reveal that the screw bears on: its thickness less the countersink.
  double gap = 0;
  /// Behind the gap, point included. Half the point, one shank diameter, doesn't bear.
  double embedment = 0;
  /// What timber there is: a screw that comes out behind it bears on no more than that.
  double timber = std::numeric_limits<double>::infinity();
};

struct Capacity {
  std::optional<double> n;  ///< Design value, to be set against the method's wind.
  YieldMode mode = YieldMode::II;
  const char* missing = nullptr;  ///< What the practice doesn't name; nullptr: nothing.
};

/// What all joints of one gauge have in common: looked up once, used for every gap.
struct LateralTerms {
  const practice::Gauge* gauge = nullptr;
  double bearing_stud = 0;    ///< N/mm
  double bearing_reveal = 0;  ///< N/mm
  double moment = 0;          ///< N·mm
  double factor = 0;          ///< From yield value to what may be counted on.
  const char* missing = nullptr;
};
[[nodiscard]] LateralTerms lateralTerms(const practice::Gauge& gauge, const practice::TimberGrade* stud,
                                        const practice::FixingDesign& design);

/// Square to the screw's length. `terms` are those of the joint's gauge.
[[nodiscard]] Capacity lateralCapacity(const ScrewJoint& joint, const LateralTerms& terms);
/// Along the screw's length, out of the timber. Only the NDS covers screws as thin as these.
[[nodiscard]] Capacity withdrawalCapacity(const ScrewJoint& joint, const practice::TimberGrade* stud,
                                          const practice::FixingDesign& design);

}  // namespace sillwright::plan
