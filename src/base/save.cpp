#include "base/save.h"

#include <system_error>
#include <utility>

#include "base/read_file.h"
#include "base/words.h"
#include "base/write_file.h"

namespace sillwright::base {
namespace {

namespace fs = std::filesystem;

std::string notSaved(const std::string& reason) {
  return "Not saved: " + reason + ". The file on the disk is as it was.";
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

}  // namespace sillwright::base
