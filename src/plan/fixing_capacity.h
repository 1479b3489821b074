/// What one screw holds: across its packer by the general dowel equations, or pulled straight out of a fin's timber.
///
/// The practice's own material data and factors go in; a figure that it doesn't name gives no capacity, and `missing`
/// says which. Threads cross the joint, so bending and bearing count on the root's diameter.
#pragma once

#include <optional>

#include "plan/dowel.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// Bearing strength of wood under a dowel thinner than 1/4 in, any direction of grain, N/mm²: 16600·G^1.84 psi
/// (NDS 2018, 12.3.3).
[[nodiscard]] double embeddingNds(double specific_gravity);
/// The same without pre-drilling, d ≤ 6 mm: 0.082·ρ·d^−0.3 N/mm² (EN 1995-1-1:2004, eq. 8.15).
[[nodiscard]] double embeddingEc5(double density, double diameter);
/// Plastic moment of a round section, N·mm: F_yb·D³/6.
[[nodiscard]] double plasticMoment(double yield, double diameter);
/// Withdrawal of a wood screw from side grain for each mm of thread, N/mm: 2850·G²·D lb/in (NDS 2018, 12.2-2).
[[nodiscard]] double withdrawalNds(double specific_gravity, double shank);

/// One screw in its joint, mm.
struct ScrewJoint {
  const practice::Gauge* gauge = nullptr;
  double under_head = 0;  ///< Wood of the reveal that the screw bears on: its thickness less the countersink.
  double gap = 0;
  double embedment = 0;  ///< In the stud, point included. Half the point, one shank diameter, doesn't bear.
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
[[nodiscard]] Capacity lateralCapacity(const ScrewJoint& joint, const practice::TimberGrade* stud,
                                       const practice::FixingDesign& design);
/// Along the screw's length, out of the timber. Only the NDS covers screws as thin as these.
[[nodiscard]] Capacity withdrawalCapacity(const ScrewJoint& joint, const practice::TimberGrade* stud,
                                          const practice::FixingDesign& design);

}  // namespace sillwright::plan
