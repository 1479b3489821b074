#include "base/write_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <array>
#include <atomic>
#include <cerrno>
#include <csignal>
#include <system_error>
#include <utility>
#include <vector>

#include "base/words.h"

namespace sillwright::base {

namespace {

namespace fs = std::filesystem;

constexpr mode_t kNewFile = 0666;          // the process's mask takes its part
constexpr mode_t kPermissions = 0777;      // of a mode, those that are kept
constexpr int kMostTries = 16;             // each is lost to another save that takes the file away
constexpr int kMostLinks = 40;             // that lead to each other, as many as Linux follows
constexpr std::size_t kLongestName = 240;  // bytes of a file's name, with room for what is put before and behind it

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  [[nodiscard]] int get() const { return number_; }
  [[nodiscard]] bool ok() const { return number_ >= 0; }

 private:
  int number_;
};

using Say = std::function<void(const Sink&)>;

/// 0, or the error's number.
int writeAll(int file, const Say& say) {
  int error_number = 0;
  say([&](std::string_view text) {
    while (!text.empty() && error_number == 0) {
      const ssize_t count = ::write(file, text.data(), text.size());
      if (count >= 0)
        text.remove_prefix(static_cast<std::size_t>(count));
      else if (errno != EINTR)
        error_number = errno;
    }
  });
  return error_number;
}

/// A file of this process alone, under a name that the next save will use again: what a killed save leaves behind
/// doesn't pile up. -1 and errno where there is none.
int openBeside(const fs::path& path) {
  for (int tries = 0; tries < kMostTries; ++tries) {
    // Not emptied yet: until it is locked it may be another save's. A link of this name would lead elsewhere.
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC | O_NOFOLLOW, kNewFile);
    if (file < 0) return -1;
    if (::flock(file, LOCK_EX | LOCK_NB) != 0) {
      const int error_number = errno;  // closing may change it
      ::close(file);
      errno = error_number;
      return -1;
    }
    // Another save may have renamed the file between our opening and locking it.
    struct stat opened {};
    struct stat named {};
    if (::fstat(file, &opened) == 0 && ::stat(path.c_str(), &named) == 0 && opened.st_ino == named.st_ino) return file;
    ::close(file);
  }
  errno = EWOULDBLOCK;
  return -1;
}

/// Gives the file to whom the old one belonged: to both, or to the group alone, where that is allowed.
bool keepOwner(int file, const struct stat& was) {
  struct stat now {};
  if (::fstat(file, &now) != 0) return false;
  if (now.st_uid == was.st_uid && now.st_gid == was.st_gid) return true;
  if (::fchown(file, was.st_uid, was.st_gid) == 0) return true;
  return ::fchown(file, static_cast<uid_t>(-1), was.st_gid) == 0 && now.st_uid == was.st_uid;
}

/// 0, or the number of the error that left the file without its whole text on the disk. `was`: the file whose owner and
/// permissions it gets; what can't be kept of them is added to `told`.
int fill(int file, const Say& say, const struct stat* was, std::vector<std::string>& told) {
  if (::ftruncate(file, 0) != 0) return errno;
  if (was != nullptr) {
    if (!keepOwner(file, *was)) told.emplace_back("its owner could not be kept");
    if (was->st_nlink > 1) told.emplace_back("its other names (hard links) keep what was there");
    if (::fchmod(file, was->st_mode & kPermissions) != 0) return errno;  // before the text, which may be private
  }
  if (const int error_number = writeAll(file, say); error_number != 0) return error_number;
  return ::fsync(file) == 0 ? 0 : errno;  // before the renaming: a crash must not leave an empty file
}

/// Makes the new name last. Some file systems can't flush a folder; then there is nothing more to be done.
int flushFolder(const fs::path& folder) {
  const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!opened.ok()) return errno == EACCES ? 0 : errno;  // a folder that may be written in but not listed
  if (::fsync(opened.get()) == 0 || errno == EINVAL || errno == ENOTSUP) return 0;
  return errno;
}

Outcome refused(int error_number, const fs::path& folder) { return {false, because(error_number, folder)}; }

/// Into what is no plain file: a device, or a pipe that somebody reads. Nothing is put beside it or moved over it.
Outcome writeStraight(const fs::path& path, const Say& say) {
  // Not blocking while it is opened: a pipe without a reader would hold the program for ever.
  const Descriptor file(::open(path.c_str(), O_WRONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC));
  if (!file.ok() || ::fcntl(file.get(), F_SETFL, 0) != 0) return refused(errno, path.parent_path());
  const int error_number = writeAll(file.get(), say);
  return error_number == 0 ? Outcome{true, {}} : refused(error_number, path.parent_path());
}

constexpr std::size_t kMost = 16;  // at once; what is past them is left behind by a signal
std::array<std::atomic<const char*>, kMost> paths{};
static_assert(std::atomic<const char*>::is_always_lock_free, "a signal's handler may read nothing else");

std::size_t takeSlot(const char* path) {
  for (std::size_t slot = 0; slot < kMost; ++slot) {
    const char* nobody = nullptr;
    if (paths[slot].compare_exchange_strong(nobody, path)) return slot;
  }
  return kMost;
}

std::atomic<int> holding = 0;  ///< How many SignalsHeld there are.
std::atomic<int> waiting = 0;  ///< The signal that came meanwhile; 0: none.
static_assert(std::atomic<int>::is_always_lock_free);

void takeOnce(int signal_number);

extern "C" void removeAndEnd(int signal_number) {
  if (holding > 0) {
    waiting = signal_number;
    takeOnce(signal_number);  // the handler went as it was called
    return;
  }
  for (std::size_t slot = kMost; slot-- > 0;) {
    const char* path = paths[slot].load();  // the last first: a folder is empty once its files are gone
    if (path != nullptr && ::unlink(path) != 0) ::rmdir(path);  // both may be called in a signal's handler
  }
  ::raise(signal_number);  // its handler is gone by now: it ends the program when this one returns
}

void takeOnce(int signal_number) {
  struct sigaction now {};
  now.sa_handler = removeAndEnd;
  now.sa_flags = static_cast<int>(SA_RESETHAND);
  ::sigaction(signal_number, &now, nullptr);
}

std::string inWords(int error_number) {
  switch (error_number) {
    case ENOENT:
    case ENOTDIR:
      return "there is no such file";
    case EACCES:
      return "can't be read: no permission";
    case EISDIR:
      return "is a folder, not a file";
    case ELOOP:
      return "can't be read: its links lead in a circle";
    default:
      return "can't be read: " + std::generic_category().message(error_number);
  }
}

std::string tooLarge(std::uintmax_t largest) {
  return "is larger than " + std::to_string(largest >> 20U) + " MiB, the most that is read";
}

/// Empty where it is a plain file that is small enough; else why not. Pipes and devices are none: a pipe that nobody
/// fills and a device without an end would hold the program for ever.
std::string whyNot(int file, std::uintmax_t largest) {
  struct stat found {};
  if (::fstat(file, &found) != 0) return inWords(errno);
  if (S_ISDIR(found.st_mode)) return inWords(EISDIR);
  if (!S_ISREG(found.st_mode)) return "is not a plain file but a pipe or a device";
  return static_cast<std::uintmax_t>(found.st_size) > largest ? tooLarge(largest) : std::string{};
}

/// Reads until the end rather than by the size that the file claims, so that one that grows meanwhile can't pass the
/// limit. Empty: done.
std::string readAll(int file, std::uintmax_t largest, std::string& into) {
  struct stat told {};
  if (::fstat(file, &told) == 0 && told.st_size > 0 && static_cast<std::uintmax_t>(told.st_size) <= largest)
    into.reserve(static_cast<std::size_t>(told.st_size));  // or a large text is copied while it grows
  std::array<char, 1U << 16U> chunk;                       // not cleared: reading fills it
  for (;;) {
    const ssize_t count = ::read(file, chunk.data(), chunk.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return inWords(errno);
    if (count == 0) return {};
    if (into.size() + static_cast<std::size_t>(count) > largest) return tooLarge(largest);
    into.append(chunk.data(), static_cast<std::size_t>(count));
  }
}

/// The path that a link leads to, whether anything is there or not; the path itself where it is none, or leads in a
/// circle.
fs::path whereLinksLead(const fs::path& path) {
  std::error_code failed;
  fs::path at = path;
  for (int links = 0; fs::is_symlink(at, failed); ++links) {
    const fs::path to = fs::read_symlink(at, failed);
    if (failed || links == kMostLinks) return path;  // opening it tells what is wrong
    at = at.parent_path() / to;                      // an absolute one stands for itself
  }
  return at;
}

}  // namespace

std::string because(int error_number, const fs::path& folder) {
  switch (error_number) {
    case ENOSPC:
    case EDQUOT:
      return "the disk is full";
    case EFBIG:
      return "it is larger than a file may be here";
    case EACCES:
    case EPERM:
      return "there is no permission to write in the folder " + quote(folder.string());
    case EROFS:
      return "the disk can only be read";
    case ENOENT:
    case ENOTDIR:
      return "there is no folder " + quote(folder.string());
    case EISDIR:
      return "it is a folder";
    case ELOOP:
      return "its links lead in a circle";
    case ENXIO:
      return "nobody reads from the pipe";
    case EWOULDBLOCK:
      return "another program is saving it";
    default:
      return std::generic_category().message(error_number);
  }
}

Outcome writeFile(const fs::path& path, std::string_view text) {
  return writeFile(path, [&](const Sink& sink) { sink(text); });
}

Outcome writeFile(const fs::path& path, const Say& say) {
  const fs::path target = whereLinksLead(path);
  const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
  struct stat was {};
  const bool is_there = ::stat(target.c_str(), &was) == 0;
  if (!is_there && errno == ELOOP) return refused(ELOOP, folder);
  if (is_there && !S_ISREG(was.st_mode)) return writeStraight(target, say);
  if (is_there && ::access(target.c_str(), W_OK) != 0) {  // renaming over it needs no right to it
    return {false, "there is no permission to write " + quote(target.filename().string())};
  }
  const std::string name = target.filename().string();
  const fs::path beside = folder / ("." + std::string(shortened(name, kLongestName)) + ".saving");
  std::optional<SignalsHeld> held(std::in_place);  // a signal may come as soon as the file is there
  const Descriptor file(openBeside(beside));
  if (!file.ok()) return refused(errno, folder);
  const Temporary until_renamed(beside);
  held.reset();  // from here on a signal takes the file along
  std::vector<std::string> told;
  int error_number = 0;
  try {
    error_number = fill(file.get(), say, is_there ? &was : nullptr, told);
  } catch (...) {
    ::unlink(beside.c_str());
    throw;
  }
  if (error_number == 0 && ::rename(beside.c_str(), target.c_str()) != 0) error_number = errno;
  if (error_number != 0) {
    ::unlink(beside.c_str());
    return refused(error_number, folder);
  }
  error_number = flushFolder(folder);
  if (error_number != 0)
    told.push_back("the disk doesn't confirm that it will last (" + because(error_number, folder) + ")");
  return {true, joined(told, "; ")};
}

std::string notSaved(const std::string& reason) {
  return "Not saved: " + reason + ". The file on the disk is as it was.";
}

Fingerprint fingerprintOf(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325U;  // FNV-1a's offset basis
  for (const char byte : text) {
    hash ^= static_cast<unsigned char>(byte);
    hash *= 0x100000001b3U;  // and its prime
  }
  return {hash, text.size()};
}

std::optional<Fingerprint> fingerprintOnDisk(const fs::path& path) {
  const auto text = loadText(path);
  return text.ok() ? std::optional(fingerprintOf(*text.value)) : std::nullopt;
}

bool changedOnDisk(const fs::path& path, const Fingerprint& as_read) { return fingerprintOnDisk(path) != as_read; }

std::optional<std::string> save(const fs::path& path, std::string_view text, std::string* but) {
  std::error_code failed;
  const fs::file_status was = fs::status(path, failed);
  if (fs::exists(was) && !fs::is_regular_file(was)) {
    return notSaved(quote(whereLinksLead(path).string()) + " is not a plain file");
  }
  Outcome outcome = writeFile(path, text);
  if (!outcome.written) return notSaved(outcome.reason);
  if (but != nullptr) *but = std::move(outcome.reason);
  return std::nullopt;
}

Temporary::Temporary(const std::filesystem::path& path) : path_(path.string()), slot_(takeSlot(path_.c_str())) {}

Temporary::~Temporary() {
  if (slot_ < kMost) paths[slot_].store(nullptr);
}

SignalsHeld::SignalsHeld() { ++holding; }

SignalsHeld::~SignalsHeld() {
  if (--holding > 0) return;
  if (const int signal_number = waiting.exchange(0); signal_number != 0) ::raise(signal_number);
}

void removeTemporariesOnSignals() {
  for (const int signal_number : {SIGINT, SIGTERM, SIGHUP}) {
    struct sigaction was {};
    if (::sigaction(signal_number, nullptr, &was) != 0 || was.sa_handler != SIG_DFL) continue;  // as nohup has it
    takeOnce(signal_number);
  }
}

Result<std::string> loadText(const std::filesystem::path& path, std::uintmax_t largest) {
  // Not blocking: else opening a pipe waits until somebody writes to it.
  const int file = ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
  std::string wrong = file < 0 ? inWords(errno) : whyNot(file, largest);
  Result<std::string> loaded;
  if (wrong.empty()) wrong = readAll(file, largest, loaded.value.emplace());
  if (file >= 0) ::close(file);
  if (wrong.empty()) return loaded;
  return {{}, {{path.string(), {}, "", std::move(wrong)}}};
}

}  // namespace sillwright::base
