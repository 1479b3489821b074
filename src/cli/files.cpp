#include "cli/files.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <system_error>

#include "base/write_file.h"

namespace sillwright::cli {

bool writeFile(const std::filesystem::path& path, std::string_view text) {
  const base::Outcome outcome = base::writeFile(path, text);
  if (!outcome.reason.empty()) {
    std::fprintf(stderr, "sillwright: %s %s: %s.\n", path.c_str(),
                 outcome.written ? "is written, but the disk doesn't confirm it" : "could not be written",
                 outcome.reason.c_str());
  }
  return outcome.written;
}

void complain(const std::vector<base::Error>& errors) {
  for (const auto& error : errors) std::fprintf(stderr, "%s\n", base::toLine(error).c_str());
}

bool printAll(std::string_view text) {
  // A full disk or a closed pipe must not look like a good answer.
  // An empty view may point nowhere, which fwrite must not be given.
  const bool whole = text.empty() || std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  const bool good = whole && std::fflush(stdout) == 0 && std::ferror(stdout) == 0;
  if (!good) std::fputs("sillwright: the answer could not be written out.\n", stderr);
  return good;
}

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

}  // namespace sillwright::cli
