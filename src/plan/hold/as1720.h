/// Wood screws by the Australian joint tables (AS 1720.1, section 4.3): tables and factors.
///
/// Not used for fixings: the tables want ten diameters of wood under the head and know no packer, so a reveal of 18 to
/// 20 is outside them, as the finding says (FixingDesign::side_diameters); and they were read in a public file, not in
/// the standard. They are here to be held against, and for joints that they cover. N and mm.
#pragma once

#include <optional>

namespace sillwright::plan {

/// Factors of a joint loaded across its fasteners (type 1): φ·k1·k13·k14·k16·k17·n·Q_k.
struct JointFactors {
  double capacity = 1;    ///< φ
  double duration = 1;    ///< k1; wind 1.14.
  double grain = 1;       ///< k13: side grain 1, end grain 0.6.
  double planes = 1;      ///< k14: single shear 1, double 2.
  double side_plate = 1;  ///< k16: close-fitting metal 1.2, plywood 1.1.
  double rows = 1;        ///< k17
};
/// Of `fasteners` whose characteristic capacity is `characteristic_n` each, N.
[[nodiscard]] double jointCapacityAs1720(const JointFactors& factors, double fasteners, double characteristic_n);

/// Share of the full value: in proportion where the member under the head is thinner than 10 diameters or the point is
/// in by less than 7; nothing below 4 (that from memory).
[[nodiscard]] double thicknessShareAs1720(double under_head, double penetration, double shank);

/// Q_k across a screw, N, in seasoned timber of joint group JD1 … JD6. Empty: no such group or gauge (4, 6, 8, 10, 12,
/// 14, 18).
[[nodiscard]] std::optional<double> screwAcrossAs1720(int group, int gauge);
/// Q_k of withdrawal for each mm of thread, N/mm.
[[nodiscard]] std::optional<double> screwWithdrawalAs1720(int group, int gauge);

}  // namespace sillwright::plan
