/// A building model of another program (IFC 2x3 or IFC 4, as a STEP file) as a job: its outside walls, their openings,
/// and the windows and doors in these.
///
/// The file is read piece by piece (step/step_reader.h). A wall's outside is the side from which no other wall is met;
/// a wall that has others on both sides, or that says it is inside, is left out. Walls of all storeys are read, each at
/// its height above the lowest. An opening that its unit fills without a gap gets the practice's usual gaps round it.
/// Nothing that is left out or taken in place of what the model doesn't say goes without a note.
#pragma once

#include <istream>
#include <string>
#include <vector>

#include "base/error.h"
#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::exchange {

struct ModelFor {
  const practice::Practice* practice = nullptr;  ///< Its usual gaps.
  std::string practice_name;                     ///< As the job is to name it.
};

struct ModelReading {
  job::Job job;
  std::vector<std::string> notes;  ///< What was left out, and what was taken; a sentence each, without its full stop.
};

/// `file`: for messages.
[[nodiscard]] base::Result<ModelReading> readIfc(std::istream& in, const std::string& file, const ModelFor& wanted);

}  // namespace sillwright::exchange
