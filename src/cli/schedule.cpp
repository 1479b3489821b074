// A window schedule in: the rows of an office's table to the openings of a job file.

#include <optional>
#include <system_error>
#include <utility>

#include "base/words.h"
#include "base/write_file.h"
#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "exchange/schedule.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"
#include "words/length.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

int write(const ScheduleOptions& options, const std::string& text) {
  const bool good = options.out.empty() ? printAll(text) : writeFile(options.out, text);
  return good ? kReady : kUnreadable;
}

namespace fs = std::filesystem;

/// The job's text as it stands in the folder of --out: files that are named beside the job are named from there.
base::Result<std::string> textFor(const ScheduleOptions& options, const std::string& text, const job::Job& job) {
  const auto folderOf = [](const fs::path& file) { return fs::absolute(file).parent_path(); };
  if (options.out.empty() || folderOf(options.job) == folderOf(options.out)) return {text, {}};
  const auto fromThere = [&](std::string& file) {
    if (fs::path(file).is_absolute()) return;
    file = fs::proximate(folderOf(options.job) / file, folderOf(options.out)).generic_string();
  };
  job::Job moved = job;
  if (practice::isPath(moved.practice)) fromThere(moved.practice);
  for (job::Opening& opening : moved.openings) {
    if (opening.unit.mesh) fromThere(*opening.unit.mesh);
  }
  return job::rewrite(text, job, moved);
}

/// The job's text with the openings behind it, read again before it is written: nothing is written that can't be read.
int writeJob(const ScheduleOptions& options, const std::string& written, const job::Job& job,
             const std::string& openings) {
  const auto there = textFor(options, written, job);
  if (!there.ok()) return refuse(there.errors);
  const std::string& job_text = *there.value;
  const std::string text = job_text + (job_text.ends_with('\n') ? "\n" : "\n\n") + openings;
  const auto joined = job::read(text, options.out.empty() ? "the job with its openings" : options.out.string());
  return joined.ok() ? write(options, text) : refuse(joined.errors);
}

/// What the openings are to join.
struct Target {
  std::optional<std::string> text;
  std::optional<job::Job> job;
  std::optional<practice::Practice> practice;
  exchange::ScheduleFor asked;
};

std::vector<base::Error> readAnswers(const ScheduleOptions& options, exchange::ScheduleFor& into) {
  auto map = exchange::answersIn(options.map, "--map");
  auto all = exchange::answersIn(options.set, "--set");
  std::vector<base::Error> errors = std::move(map.errors);
  errors.insert(errors.end(), all.errors.begin(), all.errors.end());
  if (!errors.empty()) return errors;
  into.map = std::move(*map.value);
  into.all = std::move(*all.value);
  into.wall = options.wall;
  into.side_by_side = options.side_by_side;
  into.unit = exchange::lengthUnit(options.unit);
  return {};
}

std::vector<base::Error> readTarget(const ScheduleOptions& options, Target& target) {
  if (auto errors = readAnswers(options, target.asked); !errors.empty()) return errors;
  std::string practice = options.practice;
  if (!options.job.empty()) {
    auto loaded = base::loadText(options.job);
    if (!loaded.ok()) return loaded.errors;
    target.text = std::move(loaded.value);
    auto job = job::read(*target.text, options.job.string());
    if (!job.ok()) return job.errors;
    target.job = std::move(job.value);
    target.asked.job = &*target.job;
    if (practice.empty()) practice = target.job->practice;
  }
  if (practice.empty()) return {};
  auto read = practice::load(practice, document::assetsFolder(), options.job.parent_path());
  if (!read.ok()) return read.errors;
  target.practice = std::move(read.value);
  target.asked.practice = &*target.practice;
  return {};
}

std::string howUnderstood(const exchange::Column& column) {
  if (!column.asks.empty()) return "? " + column.asks;
  if (column.ours.empty()) return "not understood, passed over";
  const std::string unit =
      column.unit ? ", " + std::string(exchange::kLengthUnits[static_cast<std::size_t>(*column.unit)]) : "";
  return std::string(column.ours) + unit;
}

/// What each column was taken for, and the questions that are left.
int show(const exchange::Grid& grid, const exchange::ScheduleReading& read) {
  std::string out = grid.file + ": " + grid.how + "\n";
  if (read.heading) {
    out += "header in row " + std::to_string(read.heading->row + 1) + "\n\n";
    for (std::size_t i = 0; i < read.heading->columns.size(); ++i) {
      const exchange::Column& column = read.heading->columns[i];
      if (column.heading.empty()) continue;
      out += base::quote(column.heading) + ": " + howUnderstood(column);
      out += read.samples[i].empty() ? "\n" : "; as " + base::quote(read.samples[i]) + "\n";
    }
  }
  if (read.schedule.ok()) {
    out += "\n" + words::count(static_cast<long>(read.schedule.value->openings.size()), "opening") + ":\n";
    for (const job::Opening& each : read.schedule.value->openings) {
      const auto kind = job::kKindWords[static_cast<std::size_t>(each.unit.kind)];
      out += wrapped(base::oneLine(each.name) + ": " + std::string(kind) + " " +
                         words::size(each.unit.width, each.unit.height, practice::Display::Millimetres) + " in " +
                         words::size(each.width, each.height, practice::Display::Millimetres) + ", sill at " +
                         words::length(each.sill, practice::Display::Millimetres),
                     100, 2);
    }
  }
  return printWords(out) ? kReady : kUnreadable;
}

void tell(const std::vector<std::string>& sentences) {
  for (const std::string& each : sentences) cli::tell(each + ".");
}

}  // namespace

int schedule(const ScheduleOptions& options) {
  std::error_code ignored;
  if (!options.out.empty() &&
      (fs::equivalent(options.job, options.out, ignored) || fs::equivalent(options.file, options.out, ignored)))
    return refuse("--out must be another file than the schedule and --job.");
  Target target;
  if (const auto errors = readTarget(options, target); !errors.empty()) return refuse(errors);
  const auto grid = exchange::readGrid(options.file, options.sheet, exchange::scheduleNames(target.asked.map));
  if (!grid.ok()) return refuse(grid.errors);
  const auto read = exchange::readSchedule(*grid.value, target.asked);
  const int shown = options.show ? show(*grid.value, read) : kReady;
  if (read.schedule.ok()) {
    tell(read.schedule.value->notes);
    tell(read.schedule.value->taken);
  } else {
    complain(read.schedule.errors);
    tell(
        "--map \"their name=ours\" answers for a column or a word, --map \"their name=\" passes a "
        "column over, --set \"sill=900\" tells it for all rows; --show prints how each column was understood");
    return options.show && shown == kReady ? kNotReady : kUnreadable;
  }
  if (options.show) return shown;
  const std::string openings = exchange::openingsToml(*read.schedule.value);
  return target.text ? writeJob(options, *target.text, *target.job, openings) : write(options, openings);
}

}  // namespace sillwright::cli
