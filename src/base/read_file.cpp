#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdint>
#include <string>
#include <system_error>
#include <utility>

#include "base/read_file.h"

namespace sillwright::base {
namespace {

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
  std::array<char, 1U << 16U> chunk;
  for (;;) {
    const ssize_t count = ::read(file, chunk.data(), chunk.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return inWords(errno);
    if (count == 0) return {};
    if (into.size() + static_cast<std::size_t>(count) > largest) return tooLarge(largest);
    into.append(chunk.data(), static_cast<std::size_t>(count));
  }
}

}  // namespace

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
