/// What the rooms' headers promise of anything that was read, asked of one value each.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::fuzz {

/// The practices that come with the program, read once.
[[nodiscard]] const std::vector<practice::Practice>& shippedPractices();
/// One of them; nullptr: none has the name.
[[nodiscard]] const practice::Practice* shippedPractice(const std::string& name);

/// The text is JSON (an independent reader says so) and holds no null: that stands for a number that isn't finite.
void holdJson(const std::string& text);

/// A job that was read or made: it is written as a text that reads as the same job, and a text stays as it was where
/// nothing changed.
void holdWriting(const job::Job& job);

/// Everything that is computed of a job under a practice: the plan's figures, the findings, the report, the lists, the
/// steps, the scene. A job that names what the practice lacks is left with its errors.
void holdPlan(const job::Job& job, const practice::Practice& practice);

}  // namespace sillwright::fuzz
