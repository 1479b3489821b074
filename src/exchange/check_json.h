/// The results as data: `sillwright check JOB --json`, format "sillwright-check/2".
///
/// One JSON object, key order fixed, numbers in mm, N, kPa, kg; byte-identical for the same job and practice. Keys of
/// what is not computed are absent.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "base/in_parallel.h"
#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::exchange {

/// Takes a text piece after piece.
using Sink = std::function<void(std::string_view)>;

/// Plans and judges a job and gives its report, walls and openings on lines of their own. Walls are worked out a few at
/// a time, by all cores where that pays, and only what is said of them is kept: the plans of a large job would fill the
/// memory. Answers the verdict.
check::Verdict reportJob(const job::Job& job, const practice::Practice& practice, const Sink& sink,
                         base::Threads threads = {});

/// `{ "format": …, "errors": [ { file, line, column, key, say } ] }` for a job or practice that can't be read.
[[nodiscard]] std::string errorsJson(const std::vector<base::Error>& errors);

}  // namespace sillwright::exchange
