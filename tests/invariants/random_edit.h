/// One edit of a job, drawn by chance: what a person does with a handle, a field or a key.
#pragma once

#include "invariants/draw.h"
#include "job/job.h"

namespace sillwright::testing {

/// Another value for one thing that is there.
void changeValue(job::Job& job, Draw& draw);

/// A key put in or taken out; done twice, the job says what it said.
void changeKey(job::Job& job, Draw& draw);

/// What reaches further than one opening: a wall put elsewhere, heads in line, another wind, an opening more, less, or
/// in another wall, other stock.
void changeHouse(job::Job& job, Draw& draw);

}  // namespace sillwright::testing
