#include "base/write_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <optional>
#include <system_error>
#include <vector>

#include "base/temporary.h"
#include "base/words.h"

namespace sillwright::base {
namespace {

namespace fs = std::filesystem;

constexpr mode_t kNewFile = 0666;      // the process's mask takes its part
constexpr mode_t kPermissions = 0777;  // of a mode, those that are kept
constexpr int kMostTries = 16;
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
int fill(int file, std::string_view text, const struct stat* was, std::vector<std::string>& told) {
  if (::ftruncate(file, 0) != 0) return errno;
  if (was != nullptr) {
    if (!keepOwner(file, *was)) told.emplace_back("its owner could not be kept");
    if (was->st_nlink > 1) told.emplace_back("its other names (hard links) keep what was there");
    if (::fchmod(file, was->st_mode & kPermissions) != 0) return errno;
  }
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

Outcome refused(int error_number, const fs::path& folder) {
  return {false, because(error_number, folder)};
}

/// Into what is no plain file: a device, or a pipe that somebody reads. Nothing is put beside it or moved over it.
Outcome writeStraight(const fs::path& path, std::string_view text) {
  // Not blocking while it is opened: a pipe without a reader would hold the program for ever.
  const Descriptor file(::open(path.c_str(), O_WRONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC));
  if (!file.ok() || ::fcntl(file.get(), F_SETFL, 0) != 0) return refused(errno, path.parent_path());
  const int error_number = writeAll(file.get(), text);
  return error_number == 0 ? Outcome{true, {}} : refused(error_number, path.parent_path());
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

fs::path whereLinksLead(const fs::path& path) {
  std::error_code failed;
  fs::path at = path;
  for (int links = 0; fs::is_symlink(at, failed); ++links) {
    const fs::path to = fs::read_symlink(at, failed);
    if (failed || links == kMostLinks) return path;
    at = at.parent_path() / to;  // an absolute one stands for itself
  }
  return at;
}

Outcome writeFile(const fs::path& path, std::string_view text) {
  const fs::path target = whereLinksLead(path);
  const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
  struct stat was {};
  const bool is_there = ::stat(target.c_str(), &was) == 0;
  if (!is_there && errno == ELOOP) return refused(ELOOP, folder);
  if (is_there && !S_ISREG(was.st_mode)) return writeStraight(target, text);
  if (is_there && ::access(target.c_str(), W_OK) != 0) {
    return {false, "there is no permission to write " + quote(target.filename().string())};
  }
  const std::string name = target.filename().string();
  const fs::path beside = folder / ("." + std::string(shortened(name, kLongestName)) + ".saving");
  std::optional<SignalsHeld> held(std::in_place);  // a signal may come as soon as the file is there
  const Descriptor file(openBeside(beside));
  if (!file.ok()) return refused(errno, folder);
  const Temporary until_renamed(beside);
  held.reset();
  std::vector<std::string> told;
  int error_number = fill(file.get(), text, is_there ? &was : nullptr, told);
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

}  // namespace sillwright::base
