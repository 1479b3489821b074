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

}  // namespace sillwright::plan
