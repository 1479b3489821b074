/// The results as data: `sillwright check JOB --json`, format "sillwright-check/2".
///
/// One JSON object, key order fixed, numbers in mm, N, kPa, kg; byte-identical for the same job and practice. Keys of
/// what is not computed are absent.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/error.h"
#include "base/in_parallel.h"
#include "base/write_file.h"
#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::exchange {

/// Plans and judges a job and gives its report, walls and openings on lines of their own. Walls are worked out a few at
/// a time, by all cores where that pays, and only what is said of them is kept: the plans of a large job would fill the
/// memory. Answers the verdict.
check::Verdict reportJob(const job::Job& job, const practice::Practice& practice, const base::Sink& sink,
                         base::Threads threads = {});

/// `{ "format": …, "errors": [ { file, line, column, key, say } ] }` for a job or practice that can't be read.
[[nodiscard]] std::string errorsJson(const std::vector<base::Error>& errors);

// The report of a check from the texts of its walls and openings, whoever made them.

/// Adds one wall, one opening as they stand in the report, without the commas between them.
void addWall(std::string& out, const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
             const check::Findings& findings, std::size_t index);
void addOpening(std::string& out, const job::Job& job, const plan::Plan& plan, const check::Findings& findings,
                std::size_t index);

/// The whole report; of `findings` only the job's verdict and cautions are looked at.
void writeReport(const job::Job& job, const practice::Practice& practice, const check::Findings& findings,
                 const std::vector<std::string>& walls, const std::vector<std::string>& openings,
                 const base::Sink& sink);

}  // namespace sillwright::exchange
