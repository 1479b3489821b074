/// The same house seen in a mirror: what was at the left is at the right.
#pragma once

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::testing {

/// Walls with their ends changed and the house mirrored on plan; openings set out from the other end; units hung at the
/// other side; readings as they would be taken then.
[[nodiscard]] job::Job mirrored(const job::Job& job, const practice::Practice& practice);

/// The walls' lengths in whole bays. Studs are set out from the left end: only then are they so from the right, too.
[[nodiscard]] job::Job inWholeBays(job::Job job, const practice::Practice& practice);

/// A point of an opening's frame as the mirror shows it: its origin is the opening's other lower corner then.
[[nodiscard]] plan::Point mirrored(const plan::OpeningShape& shape, plan::Point point);

[[nodiscard]] plan::Side mirrored(plan::Side side);

}  // namespace sillwright::testing
