/// What is ordered, bought and cut agrees with the plan: counted again, in another way than src/takeoff counts.
#pragma once

#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::fuzz {

void holdLists(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
               const check::Findings& findings);

}  // namespace sillwright::fuzz
