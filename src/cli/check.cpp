#include <algorithm>
#include <cstdio>

#include "cli/files.h"
#include "cli/table.h"
#include "cli/verbs.h"
#include "exchange/check_json.h"
#include "view/assets.h"
#include "view/document.h"

namespace sillwright::cli {
namespace {

void print(const std::string& text) {
  std::fwrite(text.data(), 1, text.size(), stdout);
}

}  // namespace

int check(const CheckOptions& options) {
  const auto document = view::load(options.job, view::assetsFolder(), view::Depth::Findings);
  if (!document.ok()) {
    if (options.json) print(exchange::errorsJson(document.errors));
    complain(document.errors);
    return kUnreadable;
  }
  const auto& doc = *document.value;
  const std::string answer = options.json ? exchange::checkJson(doc.job, *doc.practice, doc.plan, doc.findings)
                                          : checkTable(doc.job, *doc.practice, doc.plan, doc.findings,
                                                       std::min(columnsOfTerminal(), 100), options.notes);
  if (!printAll(answer)) return kUnreadable;
  const bool good = doc.findings.verdict == sillwright::check::Verdict::Ready ||
                    doc.findings.verdict == sillwright::check::Verdict::Attend;
  return good ? kReady : kNotReady;
}

}  // namespace sillwright::cli
