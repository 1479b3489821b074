/// What one screw holds: across its packer by the general dowel equations, or pulled straight out of a fin's timber.
///
/// The practice's own material data and factors go in; a figure that it doesn't name gives no capacity, and `missing`
/// says which. Threads cross the joint, so bending and bearing count on the root's diameter. The formulas are those of
/// dowel_material.h. By EN 1995-1-1 a gauge whose tensile strength is named bends by that, and bends and bears on 1.1
/// times its root (8.7.1, 8.30); one of which only the bending yield strength is known counts on its root alone, on the
/// safe side.
#pragma once

#include <limits>
#include <optional>

#include "plan/hold/dowel.h"
#include "plan/hold/dowel_material.h"
#include "practice/practice.h"

namespace sillwright::plan {

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
