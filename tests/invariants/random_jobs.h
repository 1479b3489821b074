/// Random jobs that the reader allows and whose practice knows every name in them: walls with level, raking and gable
/// tops, under eaves and not, round the corners of a house; openings that fit and that don't, of every kind of unit;
/// readings of all sorts, few or many, true or with a slip; every practice that comes with the program.
///
/// What is drawn may be wrong on site in every way that a finding speaks of. It is never a job that can't be read.
#pragma once

#include <functional>
#include <string>

#include "check/finding.h"
#include "invariants/draw.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::testing {

/// What a property is given: a job, its practice, and more choices to draw for itself.
using Property = std::function<void(const job::Job&, const practice::Practice&, Draw&)>;

/// Whether the property holds for some hundreds of jobs. It says that it doesn't by RC_ASSERT; the smallest job found
/// is then printed as a job file. The same jobs on every run and machine; RC_PARAMS in the environment ("seed=…
/// max_success=…") asks for others.
[[nodiscard]] bool holdsForJobs(const std::string& says, const Property& property);

/// A job's whole answer.
struct Answer {
  plan::Plan plan;
  check::Findings findings;
};
[[nodiscard]] Answer answerTo(const job::Job& job, const practice::Practice& practice);

/// The report of one opening and of one wall by themselves, byte for byte as in the report of the job.
[[nodiscard]] std::string openingReport(const job::Job& job, const practice::Practice& practice, const Answer& answer,
                                        std::size_t opening);
[[nodiscard]] std::string wallReport(const job::Job& job, const practice::Practice& practice, const Answer& answer,
                                     std::size_t wall);

}  // namespace sillwright::testing
