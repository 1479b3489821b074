#include "job/save.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <system_error>
#include <utility>

#include "job/read.h"
#include "job/words.h"

namespace sillwright::job {
namespace {

namespace fs = std::filesystem;

constexpr mode_t kNewFile = 0666;      // the process's mask takes its part
constexpr mode_t kPermissions = 0777;  // of a mode, those that are kept
constexpr int kMostTries = 16;

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
    case EWOULDBLOCK:
      return "another program is saving it";
    default:
      return std::generic_category().message(error_number);
  }
}

std::string notSaved(const std::string& reason) {
  return "Not saved: " + reason + ". The file on the disk is as it was.";
}

/// 0, or the error's number.
int writeAll(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t count = ::write(file, text.data(), text.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return errno;
    text.remove_prefix(static_cast<std::size_t>(count));
  }
  return 0;
}

/// A file of this process alone, under a name that the next save will use again: what a killed save leaves behind
/// doesn't pile up. -1 and errno where there is none.
int openBeside(const fs::path& path) {
  for (int tries = 0; tries < kMostTries; ++tries) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC | O_NOFOLLOW, kNewFile);
    if (file < 0) return -1;
    if (::flock(file, LOCK_EX | LOCK_NB) != 0) {
      const int error_number = errno;
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

/// 0, or the number of the error that left the file without its whole text on the disk.
int fill(int file, std::string_view text, const std::optional<mode_t>& permissions) {
  if (::ftruncate(file, 0) != 0) return errno;
  if (permissions && ::fchmod(file, *permissions) != 0) return errno;
  if (const int error_number = writeAll(file, text); error_number != 0) return error_number;
  return ::fsync(file) == 0 ? 0 : errno;
}

/// Makes the new name last. Some file systems can't flush a folder; then there is nothing more to be done.
int flushFolder(const fs::path& folder) {
  const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!opened.ok()) return errno == EACCES ? 0 : errno;  // a folder that may be written in but not listed
  if (::fsync(opened.get()) == 0 || errno == EINVAL || errno == ENOTSUP) return 0;
  return errno;
}

/// Where links lead; the path itself where it is none.
fs::path followed(const fs::path& path) {
  std::error_code failed;
  if (!fs::is_symlink(path, failed)) return path;
  auto target = fs::weakly_canonical(path, failed);
  return failed ? path : target;
}

std::string hex(std::uint64_t number) {
  std::array<char, 17> digits{};
  std::snprintf(digits.data(), digits.size(), "%016llx", static_cast<unsigned long long>(number));
  return digits.data();
}

fs::path wholePath(const fs::path& path) {
  std::error_code failed;
  auto whole = fs::absolute(path, failed);
  return failed ? path : whole.lexically_normal();
}

// The recovery file: a first line, then three pieces, each after a line with its size, and the hash of all before it.

constexpr std::string_view kFirstLine = "sillwright recovery 1\n";

std::string piece(std::string_view text) {
  return std::to_string(text.size()).append("\n").append(text).append("\n");
}

std::optional<std::string_view> takePiece(std::string_view& rest) {
  std::size_t size = 0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), size);
  if (error != std::errc{}) return std::nullopt;
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
  if (!rest.starts_with('\n') || rest.size() < 2 || size > rest.size() - 2 || rest[1 + size] != '\n') {
    return std::nullopt;
  }
  const auto text = rest.substr(1, size);
  rest.remove_prefix(size + 2);
  return text;
}

std::string toText(const Fingerprint& print) {
  return hex(print.hash) + " " + std::to_string(print.size);
}

std::optional<Fingerprint> toFingerprint(std::string_view text) {
  Fingerprint print;
  const char* const past = text.data() + text.size();
  const auto hash = std::from_chars(text.data(), past, print.hash, 16);
  if (hash.ec != std::errc{} || hash.ptr == past || *hash.ptr != ' ') return std::nullopt;
  const auto size = std::from_chars(hash.ptr + 1, past, print.size);
  if (size.ec != std::errc{} || size.ptr != past) return std::nullopt;
  return print;
}

}  // namespace

Fingerprint fingerprintOf(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char byte : text) {
    hash ^= static_cast<unsigned char>(byte);
    hash *= 0x100000001b3U;
  }
  return {hash, text.size()};
}

std::optional<Fingerprint> fingerprintOnDisk(const fs::path& path) {
  const auto text = loadText(path);
  return text.ok() ? std::optional(fingerprintOf(*text.value)) : std::nullopt;
}

bool changedOnDisk(const fs::path& path, const Fingerprint& as_read) {
  return fingerprintOnDisk(path) != as_read;
}

std::optional<std::string> save(const fs::path& path, std::string_view text) {
  const fs::path target = followed(path);
  const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
  struct stat was {};
  const bool is_there = ::stat(target.c_str(), &was) == 0;
  if (is_there && !S_ISREG(was.st_mode)) return notSaved(quote(target.string()) + " is not a plain file");
  if (is_there && ::access(target.c_str(), W_OK) != 0) {
    return notSaved("there is no permission to write " + quote(target.filename().string()));
  }
  const fs::path beside = folder / ("." + target.filename().string() + ".saving");
  const Descriptor file(openBeside(beside));
  if (!file.ok()) return notSaved(because(errno, folder));
  const auto permissions = is_there ? std::optional(was.st_mode & kPermissions) : std::nullopt;
  int error_number = fill(file.get(), text, permissions);
  if (error_number == 0 && ::rename(beside.c_str(), target.c_str()) != 0) error_number = errno;
  if (error_number != 0) {
    ::unlink(beside.c_str());
    return notSaved(because(error_number, folder));
  }
  error_number = flushFolder(folder);
  if (error_number == 0) return std::nullopt;
  return "Saved, but the disk does not confirm that it will last: " + because(error_number, folder) + ".";
}

fs::path recoveryFolder() {
  const auto variable = [](const char* name) {
    const char* value = std::getenv(name);
    return fs::path(value == nullptr ? "" : value);
  };
  fs::path state = variable("XDG_STATE_HOME");
  if (!state.is_absolute()) {  // the specification has relative ones ignored
    const fs::path home = variable("HOME");
    if (!home.is_absolute()) return {};
    state = home / ".local" / "state";
  }
  return state / "sillwright" / "recovery";
}

std::string recoveryText(const Recovery& recovery) {
  std::string text(kFirstLine);
  text += piece(recovery.job.string());
  text += piece(toText(recovery.base));
  text += piece(recovery.text);
  return text + toText(fingerprintOf(text)) + "\n";
}

std::optional<Recovery> parseRecovery(std::string_view rest) {
  const std::string_view all = rest;
  if (!rest.starts_with(kFirstLine)) return std::nullopt;
  rest.remove_prefix(kFirstLine.size());
  const auto job = takePiece(rest);
  const auto base_text = job ? takePiece(rest) : std::nullopt;
  const auto base = base_text ? toFingerprint(*base_text) : std::nullopt;
  const auto text = base ? takePiece(rest) : std::nullopt;
  if (!text) return std::nullopt;
  const auto before = all.substr(0, all.size() - rest.size());
  if (rest != toText(fingerprintOf(before)) + "\n") return std::nullopt;
  return Recovery{fs::path(*job), *base, std::string(*text)};
}

fs::path recoveryFile(const fs::path& folder, const fs::path& job) {
  return folder / (hex(fingerprintOf(wholePath(job).string()).hash) + ".recovery");
}

std::optional<std::string> keep(const fs::path& folder, const Recovery& recovery) {
  if (folder.empty()) return notSaved("there is no home folder for the recovery file");
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) return notSaved(because(failed.value(), folder));
  return save(recoveryFile(folder, recovery.job),
              recoveryText({wholePath(recovery.job), recovery.base, recovery.text}));
}

std::optional<Recovery> kept(const fs::path& folder, const fs::path& job) {
  if (folder.empty()) return std::nullopt;
  const auto text = loadText(recoveryFile(folder, job));
  if (!text.ok()) return std::nullopt;
  auto recovery = parseRecovery(*text.value);
  if (!recovery || recovery->job != wholePath(job)) return std::nullopt;
  return recovery;
}

void forget(const fs::path& folder, const fs::path& job) {
  if (folder.empty()) return;
  std::error_code failed;
  fs::remove(recoveryFile(folder, job), failed);
}

}  // namespace sillwright::job
