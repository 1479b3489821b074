/// The lateral resistance of a dowel-type fastener across a gap, by the general dowel equations.
///
/// American Wood Council, Technical Report 12 (2015), Table 1-1, solid members, single shear: six yield modes. The
/// equations are unit-free; here newtons and millimetres. With no gap they are the yield equations of NDS 12.3.1 and,
/// without its factors, of EN 1995-1-1 8.2.2. Friction and head tension are left out, on the safe side.
#pragma once

#include <array>
#include <cstdint>

namespace sillwright::plan {

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

/// EN 1995-1-1 (8.6), N, in the same order: the loads without a gap, 1.05 times in the modes of one hinge and 1.15 in
/// that of two; the head's pull is left out. Not used for fixings: both factors are for members that touch, so a screw
/// across a packer takes the general equations with the European material data instead.
[[nodiscard]] std::array<double, kYieldModes> yieldLoadsEc5(const DowelJoint& joint);

/// A dowel through three members in two shear planes, the joint's whole load in N: `main` is the middle member, both
/// sides are alike, `gap` is at each plane. II and IIIm cannot happen: infinity. Not used for fixings, which are in
/// single shear. With no gap the double-shear column of NDS 12.3.1; the form with a gap is from memory.
[[nodiscard]] std::array<double, kYieldModes> doubleShearLoads(const DowelJoint& joint);

/// Sway of a round bar of diameter `root` across a gap, fixed at both faces, under a load in N: F·g³/(12·E·I), mm.
[[nodiscard]] double swayAcrossGap(double load_n, double gap, double root, double modulus_mpa);

}  // namespace sillwright::plan
