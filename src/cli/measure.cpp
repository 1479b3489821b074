// Measurements in: a log or a filled form to the readings of a job, and the form.

#include <unistd.h>

#include <cstdio>
#include <iostream>
#include <utility>

#include "check/judge.h"
#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "exchange/csv.h"
#include "exchange/measurements.h"
#include "job/rewrite.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

void writeForm(const document::Document& doc, const std::filesystem::path& out, bool record) {
  const bool book = endingOf(out, {".csv", ".xlsx"}, "--form") == 1;
  const takeoff::Table form = exchange::measurementForm(doc.job, doc.plan, doc.practice->display, record);
  if (book)
    writeBook(out, {&form, 1}, doc);
  else
    writeFile(out, exchange::csv(form, doc.practice->display));
}

/// Takes the values into the job. Answers what changes, a line each: "J1, bottom width: 2428 → 2430".
std::vector<std::string> takeIn(job::Job& job, const document::Document& doc,
                                const std::vector<exchange::MeasuredValue>& values, const std::string& by) {
  std::vector<std::string> lines;
  for (const auto& [opening, of, value] : values) {
    job::Opening& at = job.openings[opening];
    const auto said = [&, works = of.works](double number) {
      return works == nullptr ? words::bareLength(number, doc.practice->display) : number != 0 ? "yes" : "no";
    };
    const bool first = !of.set && !at.measured;  // asked before a value begins the table
    const auto before = exchange::valueOf(at, of);
    if (before == value) continue;
    lines.push_back(at.name + ", " + exchange::nameOf(of) + ": " + (before ? said(*before) + " → " : "new, ") +
                    said(value));
    exchange::setValue(at, of, value);
    if (first && !by.empty()) at.measured->by = by == "laser" ? job::Instrument::Laser : job::Instrument::Tape;
  }
  return lines;
}

/// Whether a person at a terminal says yes. Elsewhere nobody is asked, and nothing is written.
bool agreed(const MeasureOptions& options) {
  if (options.yes) return true;
  if (::isatty(STDIN_FILENO) == 0) {
    tell("nothing was written; --yes writes the changes into the job.");
    return false;
  }
  Progress::tell({});
  std::printf("Write them into %s? [y/N] ", options.job.c_str());
  std::fflush(stdout);
  std::string answer;
  return std::getline(std::cin, answer) && (answer == "y" || answer == "Y" || answer == "yes");
}

void writeInto(const MeasureOptions& options, const document::Document& doc, const job::Job& job) {
  const std::string text = taken(job::rewrite(*doc.text, doc.job, job));  // the file's own text, with what changed
  if (base::changedOnDisk(options.job, base::fingerprintOf(*doc.text)))
    refuse(options.job.string() + " was changed by another program meanwhile; nothing was written.");
  writeFile(options.job, text);
}

}  // namespace

int measure(const MeasureOptions& options) {
  const auto document = loaded(options.job, {}, document::Depth::Findings);
  if (!options.form.empty()) {
    writeForm(document, options.form, options.record);
    return kReady;
  }
  if (options.file.empty()) refuse("measure wants a FILE of measurements, or --form F.csv to write the form.");
  auto map = taken(exchange::answersIn(options.table.map, "--map"));
  const auto grid = taken(exchange::readGrid(options.file, options.table.sheet, exchange::measurementNames(map)));
  const auto values = taken(exchange::readMeasurements(
      grid, document.job, {std::move(map), exchange::lengthUnit(options.table.unit), document.practice->display}));
  document::Document after = document;  // `document` stays as it was, to be compared with
  job::Job job = document.job;
  const auto lines = takeIn(job, document, values, options.by);
  std::string said;
  for (const std::string& line : lines) said += wrapped(line, 100, 2);
  if (said.empty()) {
    printAll("The job has these measurements already.\n");
    return kReady;
  }
  // What they change of the verdicts is told before anybody agrees to them.
  if (const auto wrong = document::adopt(after, job); !wrong.empty()) refuse(wrong);
  after.plan = plan::makePlan(after.job, *after.practice);
  after.findings = check::judge(after.job, *after.practice, after.plan);
  if (const std::string verdicts = verdictChanges(document, after, 100); !verdicts.empty())
    said += "\nVerdicts\n" + verdicts;
  printWords(words::count(static_cast<long>(lines.size()), "measurement") + "\n" + said);
  if (!agreed(options)) return kNotReady;
  writeInto(options, document, job);
  return kReady;
}

}  // namespace sillwright::cli
