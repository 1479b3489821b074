#include "document/exercise_file.h"

#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "exchange/page.h"
#include "practice/read.h"

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
  const std::string text = taken(base::loadText(options.file, practice::kLargestFile));
  const document::ExerciseFile file = taken(document::readExercise(text, options.file));
  const std::filesystem::path assets = document::assetsFolder();
  const auto document = taken(document::load(document::jobOf(file, assets), assets, document::Depth::Findings));
  const document::Task task = taken(document::makeTask(file, document));
  if (options.page.empty()) {
    printWords(textOf(task, columnsOfTerminal()));
  } else {
    endingOf(options.page, {".html"}, "--page");
    writeFile(options.page, taken(exchange::pageOf(document, {{exchange::kPageExercise, text}})));
  }
  return kReady;
}

}  // namespace sillwright::cli
