#include <algorithm>

#include "cli/files.h"
#include "cli/table.h"
#include "cli/verbs.h"
#include "exchange/check_json.h"
#include "view/assets.h"
#include "view/document.h"

namespace sillwright::cli {
int check(const CheckOptions& options) {
  const auto document = view::load(options.job, view::assetsFolder());
  if (!document.ok()) {
    complain(document.errors);
    if (options.json) static_cast<void>(printAll(exchange::errorsJson(document.errors)));  // which says if it could not
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
