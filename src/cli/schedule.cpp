// A window schedule in: the rows of an office's table to the openings of a job file.

#include <system_error>
#include <utility>

#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

namespace fs = std::filesystem;

int write(const ScheduleOptions& options, const std::string& text) {
  if (options.out.empty())
    printAll(text);
  else
    writeFile(options.out, text);
  return kReady;
}

/// The job's text as it stands in the folder of --out: files that are named beside the job are named from there.
std::string textFor(const ScheduleOptions& options, const std::string& text, const job::Job& job) {
  const auto folderOf = [](const fs::path& file) { return fs::absolute(file).parent_path(); };
  if (options.out.empty() || folderOf(options.into) == folderOf(options.out)) return text;  // it stays where it was
  const auto fromThere = [&](std::string& file) {
    if (fs::path(file).is_absolute()) return;  // an absolute path holds anywhere
    file = fs::proximate(folderOf(options.into) / file, folderOf(options.out)).generic_string();
  };
  job::Job moved = job;
  if (practice::isPath(moved.practice)) fromThere(moved.practice);
  for (job::Opening& opening : moved.openings) {
    if (opening.unit.mesh) fromThere(*opening.unit.mesh);
  }
  return taken(job::rewrite(text, job, moved));
}

/// The job's text with the openings behind it, read again before it is written: nothing is written that can't be read.
int writeJob(const ScheduleOptions& options, const std::string& written, const job::Job& job,
             const std::string& openings) {
  const std::string there = textFor(options, written, job);
  const std::string text = there + (there.ends_with('\n') ? "\n" : "\n\n") + openings;  // a blank line between
  const std::string name = options.out.empty() ? "the job with its openings" : options.out.string();
  static_cast<void>(taken(job::read(text, name)));
  return write(options, text);
}

/// What the openings are to join.
struct Target {
  std::optional<std::string> text;
  std::optional<job::Job> job;
  std::optional<practice::Practice> practice;
  exchange::ScheduleFor asked;
};

void readTarget(const ScheduleOptions& options, Target& target) {
  auto map = exchange::answersIn(options.table.map, "--map");
  auto all = exchange::answersIn(options.set, "--set");
  complain(map.errors);
  complain(all.errors);
  if (!map.ok() || !all.ok()) throw Refused();  // the mistakes of both are told by now
  target.asked = {.wall = options.wall, .map = std::move(*map.value), .all = std::move(*all.value)};
  target.asked.side_by_side = options.side_by_side;
  target.asked.unit = exchange::lengthUnit(options.table.unit);
  std::string practice = options.practice;
  if (!options.into.empty()) {
    target.text = taken(base::loadText(options.into));
    target.job = taken(job::read(*target.text, options.into.string()));
    target.asked.job = &*target.job;  // a pointer: the target must not move
    if (practice.empty()) practice = target.job->practice;
  }
  if (practice.empty()) return;
  target.practice = taken(practice::load(practice, document::assetsFolder(), options.into.parent_path()));
  target.asked.practice = &*target.practice;
}

std::string howUnderstood(const exchange::Column& column) {
  if (!column.asks.empty()) return "? " + column.asks;
  if (column.ours.empty()) return "not understood, passed over";
  const std::string unit =
      column.unit ? ", " + std::string(exchange::kLengthUnits[static_cast<std::size_t>(*column.unit)]) : "";
  return std::string(column.ours) + unit;
}

/// What each column was taken for, and the questions that are left.
void show(const exchange::Grid& grid, const exchange::ScheduleReading& read) {
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
  printWords(out);
}

}  // namespace

int schedule(const ScheduleOptions& options) {
  std::error_code ignored;  // a file that isn't there equals no other
  if (!options.out.empty() &&
      (fs::equivalent(options.into, options.out, ignored) || fs::equivalent(options.file, options.out, ignored)))
    refuse("--out must be another file than the schedule and --job.");
  Target target;
  readTarget(options, target);
  const auto grid =
      taken(exchange::readGrid(options.file, options.table.sheet, exchange::scheduleNames(target.asked.map)));
  const auto read = exchange::readSchedule(grid, target.asked);
  if (options.show) show(grid, read);
  if (!read.schedule.ok()) {
    complain(read.schedule.errors);
    tell(
        "--map \"their name=ours\" answers for a column or a word, --map \"their name=\" passes a "
        "column over, --set \"sill=900\" tells it for all rows; --show prints how each column was understood");
    return options.show ? kNotReady : kUnreadable;
  }
  for (const auto* sentences : {&read.schedule.value->notes, &read.schedule.value->taken}) {
    for (const std::string& each : *sentences) tell(each + ".");
  }
  if (options.show) return kReady;
  const std::string openings = exchange::openingsToml(*read.schedule.value);
  return target.text ? writeJob(options, *target.text, *target.job, openings) : write(options, openings);
}

}  // namespace sillwright::cli
