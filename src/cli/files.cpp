#include "cli/files.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdio>
#include <cstdlib>
#include <mutex>
#include <system_error>
#include <utility>

#include "document/assets.h"
#include "exchange/xlsx.h"

namespace sillwright::cli {
namespace {

/// What tells that a file was written again. A file that isn't there has none.
std::vector<std::filesystem::file_time_type> stampsOf(const std::vector<std::filesystem::path>& files) {
  std::vector<std::filesystem::file_time_type> stamps;
  for (const auto& file : files) {
    std::error_code failed;
    const auto time = std::filesystem::last_write_time(file, failed);
    if (!failed) stamps.push_back(time);
  }
  return stamps;
}

/// The line that Progress writes.
struct {
  std::mutex mutex;
  std::string words;
  bool shown = false;
} so_far;

}  // namespace

int answerOf(const std::function<int()>& work) {
  try {
    return work();
  } catch (const Refused&) {
    return kUnreadable;
  }
}

void complain(const std::vector<base::Error>& errors) {
  Progress::tell({});  // the line of progress makes room
  for (const auto& error : errors) std::fprintf(stderr, "%s\n", base::printable(base::toLine(error)).c_str());
}

void tell(std::string_view sentence) {
  Progress::tell({});
  std::fprintf(stderr, "sillwright: %s\n", base::printable(sentence).c_str());
}

void refuse(const std::vector<base::Error>& errors) {
  complain(errors);
  throw Refused();
}

void refuse(std::string_view sentence) {
  tell(sentence);
  throw Refused();
}

void writeFile(const std::filesystem::path& path, std::string_view text) {
  writeFile(path, [&](const base::Sink& sink) { sink(text); });
}

void writeFile(const std::filesystem::path& path, const std::function<void(const base::Sink&)>& say) {
  const base::Outcome outcome = base::writeFile(path, say);
  if (!outcome.written) refuse(path.string() + " could not be written: " + outcome.reason + ".");
  if (!outcome.reason.empty()) tell(path.string() + " is written, but " + outcome.reason + ".");
}

void writeBook(const std::filesystem::path& path, std::span<const takeoff::Table> tables,
               const document::Document& document) {
  const auto book = exchange::xlsx(tables, document.job, document.practice->display);
  if (!book.ok()) refuse(path.string() + " could not be written: " + book.errors.front().say + ".");
  writeFile(path, *book.value);
}

void printAll(std::string_view text) {
  Progress::tell({});  // the line of progress makes room
  // A full disk or a closed pipe must not look like a good answer.
  // An empty view may point nowhere, which fwrite must not be given.
  const bool whole = text.empty() || std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (!whole || std::fflush(stdout) != 0 || std::ferror(stdout) != 0) refuse("the answer could not be written out.");
}

void printWords(std::string_view text) { printAll(base::printable(text)); }

document::Document loaded(const std::filesystem::path& job, const How& how, document::Depth depth) {
  return taken(document::load(job, document::assetsFolder(), depth, how.practice));
}

std::size_t endingOf(const std::filesystem::path& out, std::initializer_list<std::string_view> allowed,
                     const char* option) {
  std::string ending = out.extension().string();
  for (char& c : ending) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;  // whatever the locale
  const auto* const found = std::find(allowed.begin(), allowed.end(), ending);
  if (found != allowed.end()) return static_cast<std::size_t>(found - allowed.begin());
  const std::span<const std::string_view> all(allowed);
  const std::string others = base::joined(all.first(all.size() - 1), ", ");
  refuse(std::string(option) + " must end in " + others + (others.empty() ? "" : " or ") + std::string(all.back()) +
         "; found '" + out.filename().string() + "'.");
}

void Progress::tell(std::string_view words) {
  const std::lock_guard lock(so_far.mutex);
  so_far.words = words;
  if (words.empty() && so_far.shown) std::fputs("\r\x1b[K", stderr);  // back to the line's start, and clear it
  so_far.shown = so_far.shown && !words.empty();
}

Progress::Progress() {
  if (::isatty(STDERR_FILENO) == 0) return;  // nobody would see the line
  tell("at work");
  const auto tick = [](const std::stop_token& ended) {
    std::condition_variable_any never;
    std::unique_lock lock(so_far.mutex);
    for (int seconds = 1; !ended.stop_requested(); ++seconds) {
      never.wait_for(lock, ended, std::chrono::seconds(1), [] { return false; });  // a second, or until it ends
      if (so_far.words.empty() || ended.stop_requested()) continue;
      std::fprintf(stderr, "\r%s, %d s\x1b[K", so_far.words.c_str(), seconds);
      so_far.shown = true;
    }
  };
  try {
    ticking_ = std::jthread(tick);
  } catch (const std::system_error&) {
    // The machine gives no thread: nothing is told.
  }
}

Progress::~Progress() {
  ticking_ = {};  // ends the thread, and waits for it
  tell({});
}

int watched(const std::vector<std::filesystem::path>& files, const std::function<int()>& run) {
  constexpr std::chrono::milliseconds kLook{200};  // a person sees no delay
  for (;;) {
    auto before = stampsOf(files);
    const int status = answerOf(run);
    if (std::ferror(stdout) != 0) return status;  // nobody reads the answers any more
    // While an editor puts the file anew it may not be there for a moment.
    for (auto now = before; now == before || now.size() < files.size(); now = stampsOf(files))
      std::this_thread::sleep_for(kLook);
    if (::isatty(STDOUT_FILENO) != 0) printAll("\x1b[H\x1b[2J\x1b[3J");
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

int columnsOfTerminal(int most) {
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return std::min<int>(size.ws_col, most);
  const char* told = std::getenv("COLUMNS");  // not a terminal: as the shell tells
  const int columns = told != nullptr ? std::atoi(told) : 0;
  return columns > 0 ? std::min(columns, most) : 72;
}

}  // namespace sillwright::cli
