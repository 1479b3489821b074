/// Judging a plan against its practice.
///
/// Pure: reads the job, the practice and the plan, and says what stops the work, what needs attention and what is
/// worth knowing. A rule that the practice does not name makes a note "not judged: the practice names no value".
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::check {

/// Large jobs by several threads; the findings are the same for any number of them.
[[nodiscard]] Findings judge(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                             base::Threads threads = {});
/// The same findings, where `before` was made of a job that differs by `changes`, with the same practice: only walls
/// that they mark are judged, with all openings in them.
[[nodiscard]] Findings rejudge(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                               Findings before, const plan::Changes& changes, base::Threads threads = {});

/// Some of a job's walls with all the openings in them, worked out by themselves.
struct Part {
  std::vector<std::size_t> walls, openings;  ///< In the whole job.
  job::Job job{};
  plan::Plan plan{};
  Findings findings{};
};
/// Adds what is said of a wall or opening of the part.
using Say = std::function<void(std::string& out, const Part& part, std::size_t index)>;
/// What is said of a job's walls and openings; the findings without theirs.
struct Said {
  std::vector<std::string> walls, openings;
  Findings whole;
};
/// Plans and judges a job a few walls at a time, by all cores where that pays, and keeps what is said of them alone:
/// the plans of a large job would fill the memory. Both functions are called by several threads at once.
[[nodiscard]] Said sayInParts(const job::Job& job, const practice::Practice& practice, const Say& wall,
                              const Say& opening, base::Threads threads = {});

/// False where the measurements disagree: then nothing else is judged.
[[nodiscard]] bool shapeIsTrusted(const plan::AsBuilt& built);

[[nodiscard]] Basis basisOf(const plan::AsBuilt& built);

/// What a length may pass its limit by and still be told as equal to it, mm: lengths are said to a tenth.
inline constexpr double kLengthHair = 0.05;
/// Whether a length is above its limit, both in mm.
[[nodiscard]] inline bool above(double mm, double limit) { return mm > limit + kLengthHair; }

/// What a set unit's length may be off by: in proportion up to the rule's own length, its figure for a longer one.
[[nodiscard]] double scaled(const practice::Figure& figure, double over_length, double length);

/// Of the worst finding; ready where there are notes only.
[[nodiscard]] Verdict verdictOf(const std::vector<Finding>& findings);

}  // namespace sillwright::check
