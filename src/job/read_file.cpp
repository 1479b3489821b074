#include <array>
#include <cerrno>
#include <cstdio>
#include <memory>
#include <string>
#include <system_error>
#include <utility>
#include <variant>

#include "job/read.h"

namespace sillwright::job {
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
    default:
      return "can't be read: " + std::generic_category().message(error_number);
  }
}

/// The file's bytes, or what the machine says. Reads until the end rather than by the size that the file claims,
/// so that pipes can be read and a file that grows meanwhile can't pass the limit.
std::variant<std::string, Error> load(const std::filesystem::path& path) {
  const auto refuse = [&](std::string say) { return Error{path.string(), {}, "", std::move(say)}; };
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rb"), std::fclose);
  if (file == nullptr) return refuse(inWords(errno));
  std::string text;
  std::array<char, 1U << 16U> chunk;
  for (;;) {
    errno = 0;
    const std::size_t count = std::fread(chunk.data(), 1, chunk.size(), file.get());
    if (std::ferror(file.get()) != 0) return refuse(inWords(errno));
    if (count == 0) return text;
    if (text.size() + count > kLargestFile) {
      return refuse("is larger than " + std::to_string(kLargestFile >> 20U) + " MiB, the most that is read");
    }
    text.append(chunk.data(), count);
  }
}

}  // namespace

Result<std::string> loadText(const std::filesystem::path& path) {
  auto loaded = load(path);
  if (auto* error = std::get_if<Error>(&loaded)) return {{}, {std::move(*error)}};
  return {std::get<std::string>(std::move(loaded)), {}};
}

Result<Job> readFile(const std::filesystem::path& path) {
  auto text = loadText(path);
  if (!text.ok()) return {{}, std::move(text.errors)};
  return read(*text.value, path.string());
}

}  // namespace sillwright::job
