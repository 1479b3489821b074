#include "cli/files.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <system_error>
#include <thread>
#include <utility>

#include "base/write_file.h"
#include "document/assets.h"
#include "exchange/xlsx.h"

namespace sillwright::cli {
namespace {

/// What tells that a file was written again. A file that isn't there has none.
std::vector<std::pair<std::filesystem::file_time_type, std::uintmax_t>> stampsOf(
    const std::vector<std::filesystem::path>& files) {
  std::vector<std::pair<std::filesystem::file_time_type, std::uintmax_t>> stamps;
  for (const auto& file : files) {
    std::error_code failed;
    const auto time = std::filesystem::last_write_time(file, failed);
    const auto size = failed ? 0 : std::filesystem::file_size(file, failed);
    if (!failed) stamps.emplace_back(time, size);
  }
  return stamps;
}

}  // namespace

bool writeFile(const std::filesystem::path& path, std::string_view text) {
  const base::Outcome outcome = base::writeFile(path, text);
  if (!outcome.reason.empty()) {
    tell(path.string() + (outcome.written ? " is written, but " : " could not be written: ") + outcome.reason + ".");
  }
  return outcome.written;
}

bool writeBook(const std::filesystem::path& path, std::span<const takeoff::Table> tables,
               const document::Document& document) {
  const auto book = exchange::xlsx(tables, document.job, document.practice->display);
  if (!book.ok()) tell(path.string() + " could not be written: " + book.errors.front().say + ".");
  return book.ok() && writeFile(path, *book.value);
}

void complain(const std::vector<base::Error>& errors) {
  for (const auto& error : errors) std::fprintf(stderr, "%s\n", base::printable(base::toLine(error)).c_str());
}

void tell(std::string_view sentence) { std::fprintf(stderr, "sillwright: %s\n", base::printable(sentence).c_str()); }

int refuse(const std::vector<base::Error>& errors) {
  complain(errors);
  return kUnreadable;
}

int refuse(std::string_view sentence) {
  tell(sentence);
  return kUnreadable;
}

bool printWords(std::string_view text) { return printAll(base::printable(text)); }

bool printAll(std::string_view text) {
  // A full disk or a closed pipe must not look like a good answer.
  // An empty view may point nowhere, which fwrite must not be given.
  const bool whole = text.empty() || std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  const bool good = whole && std::fflush(stdout) == 0 && std::ferror(stdout) == 0;
  if (!good) std::fputs("sillwright: the answer could not be written out.\n", stderr);
  return good;
}

std::optional<document::Document> loaded(const std::filesystem::path& job, const How& how, document::Depth depth) {
  auto document = document::load(job, document::assetsFolder(), depth, how.practice);
  complain(document.errors);
  return std::move(document.value);
}

std::optional<std::size_t> endingOf(const std::filesystem::path& out, std::span<const std::string_view> allowed,
                                    const char* option) {
  std::string ending = out.extension().string();
  for (char& c : ending) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  const auto found = std::find(allowed.begin(), allowed.end(), ending);
  if (found != allowed.end()) return static_cast<std::size_t>(found - allowed.begin());
  const std::string others = base::joined(allowed.first(allowed.size() - 1), ", ");
  const std::string last{allowed.back()};
  tell(std::string(option) + " must end in " + (others.empty() ? last : others + " or " + last) + "; found '" +
       out.filename().string() + "'.");
  return std::nullopt;
}

int watched(const std::vector<std::filesystem::path>& files, const std::function<int()>& run) {
  constexpr std::chrono::milliseconds kLook{200};
  for (;;) {
    auto before = stampsOf(files);
    const int status = run();
    if (std::ferror(stdout) != 0) return status;
    // While an editor puts the file anew it may not be there for a moment.
    for (auto now = before; now == before || now.size() < files.size(); now = stampsOf(files))
      std::this_thread::sleep_for(kLook);
    if (::isatty(STDOUT_FILENO) != 0) static_cast<void>(printAll("\x1b[H\x1b[2J\x1b[3J"));
  }
}

std::string coloured(std::string text) {
  const auto told = [](const char* name) { return std::string_view(std::getenv(name) ? std::getenv(name) : ""); };
  if (::isatty(STDOUT_FILENO) == 0 || !told("NO_COLOR").empty() || told("TERM") == "dumb") return text;
  for (const auto& [mark, colour] : {std::pair("●", "32"), std::pair("▲", "33"), std::pair("■", "31")}) {
    const std::string in_colour = std::string("\x1b[") + colour + "m" + mark + "\x1b[0m";
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, at + in_colour.size()))
      text.replace(at, std::string_view(mark).size(), in_colour);
  }
  return text;
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
