#include <algorithm>
#include <cstdio>
#include <string>
#include <string_view>

#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "exchange/check_json.h"

namespace sillwright::cli {
namespace {

void print(std::string_view text) { std::fwrite(text.data(), 1, text.size(), stdout); }

int statusOf(sillwright::check::Verdict verdict) {
  return verdict == sillwright::check::Verdict::Stop ? kNotReady : kReady;
}

int checkAsJson(const CheckOptions& options) {
  const auto document =
      document::load(options.jobs.front(), document::assetsFolder(), document::Depth::Read, options.how.practice);
  if (!document.ok()) {
    complain(document.errors);
    static_cast<void>(printAll(exchange::errorsJson(document.errors)));  // which says if it could not
    return kUnreadable;
  }
  const auto verdict = exchange::reportJob(document.value->job, *document.value->practice, print);
  return printAll({}) ? statusOf(verdict) : kUnreadable;
}

int checkOne(const std::filesystem::path& job, const CheckOptions& options) {
  const auto document = loaded(job, options.how, document::Depth::Findings);
  if (!document) return kUnreadable;
  std::optional<std::size_t> only;
  if (!choose(only, document->job.openings, options.opening, "opening")) return kUnreadable;
  const int status = statusOf(only ? document->findings.verdicts[*only] : document->findings.verdict);
  if (options.quiet) return status;
  const std::string table = checkTable(document->job, *document->practice, document->plan, document->findings,
                                       std::min(columnsOfTerminal(), 100), options.notes, only);
  return printAll(coloured(base::printable(table))) ? status : kUnreadable;
}

}  // namespace

int check(const CheckOptions& options) {
  if (options.json && options.jobs.size() > 1)
    return refuse("--json tells of one job; there are " + std::to_string(options.jobs.size()) + ".");
  if (options.json) return checkAsJson(options);
  int worst = kReady;
  for (const auto& job : options.jobs) {
    const bool several = options.jobs.size() > 1 && !options.quiet;
    if (several && !printWords((&job == &options.jobs.front() ? "" : "\n") + job.string() + "\n")) return kUnreadable;
    worst = std::max(worst, checkOne(job, options));
  }
  return worst;
}

}  // namespace sillwright::cli
