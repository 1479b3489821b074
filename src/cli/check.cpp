#include <algorithm>
#include <cstdio>
#include <string_view>

#include "cli/files.h"
#include "cli/table.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "document/document.h"
#include "exchange/check_json.h"

namespace sillwright::cli {
namespace {

void print(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stdout);
}

int statusOf(sillwright::check::Verdict verdict) {
  return verdict == sillwright::check::Verdict::Stop ? kNotReady : kReady;
}

int checkAsJson(const CheckOptions& options) {
  const auto document = document::load(options.job, document::assetsFolder(), document::Depth::Read);
  if (!document.ok()) {
    complain(document.errors);
    static_cast<void>(printAll(exchange::errorsJson(document.errors)));  // which says if it could not
    return kUnreadable;
  }
  const auto verdict = exchange::reportJob(document.value->job, *document.value->practice, print);
  return printAll({}) ? statusOf(verdict) : kUnreadable;
}

}  // namespace

int check(const CheckOptions& options) {
  if (options.json) return checkAsJson(options);
  const auto document = document::load(options.job, document::assetsFolder(), document::Depth::Findings);
  if (!document.ok()) {
    complain(document.errors);
    return kUnreadable;
  }
  const auto& doc = *document.value;
  const bool printed = printAll(
      checkTable(doc.job, *doc.practice, doc.plan, doc.findings, std::min(columnsOfTerminal(), 100), options.notes));
  return printed ? statusOf(doc.findings.verdict) : kUnreadable;
}

}  // namespace sillwright::cli
