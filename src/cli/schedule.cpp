// A window schedule in: CSV to the openings of a job file.

#include <cstdio>
#include <optional>
#include <system_error>
#include <utility>

#include "base/read_file.h"
#include "cli/files.h"
#include "cli/verbs.h"
#include "exchange/csv.h"
#include "exchange/schedule.h"
#include "job/read.h"

namespace sillwright::cli {
namespace {

int refuse(const std::vector<base::Error>& errors) {
  complain(errors);
  return kUnreadable;
}

int write(const ScheduleOptions& options, const std::string& text) {
  const bool good = options.out.empty() ? printAll(text) : writeFile(options.out, text);
  return good ? kReady : kUnreadable;
}

/// The job's text with the openings behind it, read again before it is written: nothing is written that can't be read.
int writeJob(const ScheduleOptions& options, const std::string& job_text, const std::string& openings) {
  const std::string text = job_text + (job_text.ends_with('\n') ? "\n" : "\n\n") + openings;
  const auto joined = job::read(text, options.out.empty() ? "the job with its openings" : options.out.string());
  return joined.ok() ? write(options, text) : refuse(joined.errors);
}

}  // namespace

int schedule(const ScheduleOptions& options) {
  std::error_code ignored;
  if (!options.out.empty() && std::filesystem::equivalent(options.job, options.out, ignored)) {
    std::fputs("sillwright: --out must be another file than --job\n", stderr);
    return kUnreadable;
  }
  std::optional<std::string> job_text;
  base::Result<job::Job> job;
  exchange::ScheduleFor target{options.wall, nullptr};
  if (!options.job.empty()) {
    auto loaded = base::loadText(options.job);
    if (!loaded.ok()) return refuse(loaded.errors);
    job_text = std::move(loaded.value);
    job = job::read(*job_text, options.job.string());
    if (!job.ok()) return refuse(job.errors);
    target.job = &*job.value;
  }
  const auto text = base::loadText(options.csv, exchange::kLargestCsv);
  if (!text.ok()) return refuse(text.errors);
  const auto read = exchange::readSchedule(*text.value, options.csv.string(), target);
  if (!read.ok()) return refuse(read.errors);
  const std::string openings = exchange::openingsToml(*read.value);
  return job_text ? writeJob(options, *job_text, openings) : write(options, openings);
}

}  // namespace sillwright::cli
