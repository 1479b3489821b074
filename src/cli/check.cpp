#include <algorithm>
#include <cstdio>

#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "exchange/check_json.h"

namespace sillwright::cli {
namespace {

int statusOf(sillwright::check::Verdict verdict) {  // attention doesn't fail
  return verdict == sillwright::check::Verdict::Stop ? kNotReady : kReady;
}

int checkAsJson(const CheckOptions& options) {
  const auto document =  // Read is enough: the report plans and judges it piece by piece
      document::load(options.jobs.front(), document::assetsFolder(), document::Depth::Read, options.how.practice);
  if (!document.ok()) {
    complain(document.errors);
    printAll(exchange::errorsJson(document.errors));  // whoever asked for JSON gets JSON
    return kUnreadable;
  }
  const auto print = [](std::string_view text) {
    Progress::tell({});
    std::fwrite(text.data(), 1, text.size(), stdout);
  };
  const auto verdict = exchange::reportJob(document.value->job, *document.value->practice, print);
  printAll({});  // which says if not all could be written
  return statusOf(verdict);
}

int checkOne(const std::filesystem::path& job, const CheckOptions& options) {
  const auto document = loaded(job, options.how, document::Depth::Read);
  const auto only = chosen(document.job.openings, options.opening, "opening");
  const CheckWords words = checkWords(document.job, *document.practice, columnsOfTerminal(), options.notes, only);
  if (!options.quiet) printAll(coloured(base::printable(words.text)));
  return statusOf(words.verdict);
}

}  // namespace

int check(const CheckOptions& options) {
  if (options.json && options.jobs.size() > 1)
    refuse("--json tells of one job; there are " + std::to_string(options.jobs.size()) + ".");
  if (options.json) return checkAsJson(options);
  int worst = kReady;
  for (const auto& job : options.jobs) {
    const bool several = options.jobs.size() > 1 && !options.quiet;
    if (several) printWords((&job == &options.jobs.front() ? "" : "\n") + job.string() + "\n");
    worst = std::max(worst, answerOf([&] { return checkOne(job, options); }));
  }
  return worst;
}

}  // namespace sillwright::cli
