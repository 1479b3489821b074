#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "cli/table.h"
#include "cli/verbs.h"
#include "exchange/check_json.h"
#include "view/assets.h"
#include "view/document.h"

namespace sillwright::cli {
namespace {

/// Width of the terminal; 72 where the output is not one, so that a file of it can be read anywhere.
int columnsOfTerminal() {
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
  if (const char* columns = std::getenv("COLUMNS")) {
    const std::string_view text{columns};
    int value = 0;
    if (std::from_chars(text.data(), text.data() + text.size(), value).ec == std::errc{} && value > 0) return value;
  }
  return 72;
}

void print(std::FILE* stream, const std::string& text) {
  std::fwrite(text.data(), 1, text.size(), stream);
}

}  // namespace

int check(const CheckOptions& options) {
  const auto document = view::load(options.job, view::assetsFolder());
  if (!document.ok()) {
    if (options.json) print(stdout, exchange::errorsJson(document.errors));
    for (const auto& error : document.errors) print(stderr, job::toLine(error) + "\n");
    return kUnreadable;
  }
  const auto& doc = *document.value;
  if (options.json) {
    print(stdout, exchange::checkJson(doc.job, *doc.practice, doc.plan, doc.findings));
  } else {
    const int columns = std::min(columnsOfTerminal(), 100);
    print(stdout, checkTable(doc.job, *doc.practice, doc.plan, doc.findings, columns, options.notes));
  }
  // A full disk or a closed pipe must not look like a good answer.
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) {
    print(stderr, "sillwright: the answer could not be written out.\n");
    return kUnreadable;
  }
  const bool good = doc.findings.verdict == sillwright::check::Verdict::Ready ||
                    doc.findings.verdict == sillwright::check::Verdict::Attend;
  return good ? kReady : kNotReady;
}

}  // namespace sillwright::cli
