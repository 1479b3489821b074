#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

void add(std::string& into, const char* label, const std::string& words, int columns) {
  if (!words.empty()) into += wrapped(std::string(label) + words, columns, 4);
}

/// Of an opening that says stop: that nothing is done there, and why.
std::string holdText(const check::Findings& findings, std::size_t opening, int columns) {
  const check::Finding* stop = check::holdOf(findings, opening);
  if (stop == nullptr) return {};
  return wrapped("HOLD: " + stop->say + " " + stop->remedy + " Until then the steps below are as planned.", columns, 0);
}

}  // namespace

std::string stepsText(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                      std::size_t opening, int columns) {
  const job::Opening& at = job.openings[opening];
  const plan::UnitSpec& unit = plan.openings[opening].unit;
  std::string out = wrapped(at.name + ": " + words::unitName(at.unit.kind, at.unit.lights) + " " +
                                words::size(unit, practice.display) + ", wall " + job.walls[at.wall].name,
                            columns, 0);
  int number = 0;
  for (const plan::Step& step : plan::orderOfWork(job, plan, opening, practice)) {
    ++number;
    out += wrapped(std::to_string(number) + "  " + step.title, columns, number < 10 ? 1 : 0);  // titles begin alike
    add(out, "", step.what, columns);
    add(out, "parts: ", base::joined(step.parts, "; "), columns);
    add(out, "tools: ", base::joined(step.tools, ", "), columns);
    add(out, "before the next step: ", step.before_going_on, columns);
    add(out, "take care: ", step.caution, columns);
  }
  return out;
}

std::string crewText(const job::Job& job, const plan::Plan& plan, int columns) {
  std::string out;
  int number = 0;
  for (const plan::CrewTask& task : plan::crewOrder(plan)) {
    const std::string where =
        base::joined(task.openings, ", ", [&](std::size_t opening) { return job.openings[opening].name; });
    ++number;
    out +=
        wrapped(std::to_string(number) + "  " + task.title + ": wall " + job.walls[task.wall].name + " (" + where + ")",
                columns, number < 10 ? 1 : 0);
    add(out, "", base::joined(task.steps, ", ", [](plan::StepKind kind) { return plan::toWord(kind); }), columns);
  }
  return out;
}

int steps(const StepsOptions& options) {
  const auto doc = loaded(options.job, options.how, document::Depth::Findings);
  const auto only = chosen(doc.job.openings, options.opening, "opening");
  const int columns = columnsOfTerminal();
  std::string answer;
  if (options.crew) answer = crewText(doc.job, doc.plan, columns);
  for (std::size_t i = 0; i < doc.job.openings.size() && !options.crew; ++i) {
    if (only && *only != i) continue;
    answer += (answer.empty() ? "" : "\n") + holdText(doc.findings, i, columns) +
              stepsText(doc.job, *doc.practice, doc.plan, i, columns);
  }
  printWords(answer);
  return kReady;
}

}  // namespace sillwright::cli
