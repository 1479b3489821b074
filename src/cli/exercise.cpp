#include "document/exercise_file.h"

#include <algorithm>
#include <string>

#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "document/assets.h"

namespace sillwright::cli {
namespace {

std::string textOf(const document::Task& task, int columns) {
  std::string out = wrapped(task.title, columns, 0) + wrapped(task.asked, columns, 0);
  if (!task.steps.empty()) out += "\nThe usual order, and where each card lies at first:\n";
  for (const plan::Step& step : task.steps) {
    out += wrapped(step.title + ": " + std::to_string(plan::stepNumber(task.start, step.kind)), columns, 2);
  }
  for (const document::Question& question : task.questions) {
    out += "\n" + wrapped(question.asks + " " + question.given, columns, 0);
    for (const document::Option& option : question.options) {
      out += wrapped((option.right ? "→ " + option.words + ": " + option.why : "- " + option.words), columns, 2);
    }
  }
  return out;
}

}  // namespace

int exercise(const ExerciseOptions& options) {
  const auto file = document::loadExercise(options.file);
  if (!file.ok()) return refuse(file.errors);
  const std::filesystem::path assets = document::assetsFolder();
  const auto document = document::load(document::jobOf(*file.value, assets), assets, document::Depth::Findings);
  if (!document.ok()) return refuse(document.errors);
  const auto task = document::makeTask(*file.value, *document.value);
  if (!task.ok()) return refuse(task.errors);
  return printWords(textOf(*task.value, std::min(columnsOfTerminal(), 100))) ? kReady : kUnreadable;
}

}  // namespace sillwright::cli
