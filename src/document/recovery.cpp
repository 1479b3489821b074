#include "document/recovery.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdio>
#include <system_error>

#include "document/settings.h"

namespace sillwright::document {
namespace {

namespace fs = std::filesystem;

std::string hex(std::uint64_t number) {
  std::array<char, 17> digits{};
  std::snprintf(digits.data(), digits.size(), "%016llx", static_cast<unsigned long long>(number));
  return digits.data();
}

fs::path wholePath(const fs::path& path) {
  std::error_code failed;
  auto whole = fs::absolute(path, failed);
  return failed ? path : whole.lexically_normal();  // the working folder may be gone
}

// The recovery file: a first line with the hash of all that follows, a line with the fingerprint of the job file's
// text, the path, a byte of 0, which no path holds, and the text.

constexpr std::string_view kFirstWords = "sillwright recovery 2 ";  // 2 is the layout's number

std::string toText(const base::Fingerprint& print) { return hex(print.hash) + " " + std::to_string(print.size); }

std::optional<base::Fingerprint> toFingerprint(std::string_view text) {
  base::Fingerprint print;
  const char* const past = text.data() + text.size();
  const auto hash = std::from_chars(text.data(), past, print.hash, 16);
  if (hash.ec != std::errc{} || hash.ptr == past || *hash.ptr != ' ') return std::nullopt;
  const auto size = std::from_chars(hash.ptr + 1, past, print.size);
  if (size.ec != std::errc{} || size.ptr != past) return std::nullopt;
  return print;
}

}  // namespace

fs::path recoveryFolder() { return ownFolder("XDG_STATE_HOME", ".local/state", "recovery"); }

std::string recoveryText(const Recovery& recovery) {
  const std::string body = toText(recovery.base) + "\n" + recovery.job.string() + '\0' + recovery.text;
  return std::string(kFirstWords) + toText(base::fingerprintOf(body)) + "\n" + body;
}

std::optional<Recovery> parseRecovery(std::string_view rest) {
  const auto take = [&](char end) {
    const std::string_view taken = rest.substr(0, rest.find(end));
    rest.remove_prefix(std::min(taken.size() + 1, rest.size()));  // without `end` all is taken
    return taken;
  };
  const std::string_view seal = take('\n');  // a file that was half written doesn't match it
  if (seal != std::string(kFirstWords) + toText(base::fingerprintOf(rest))) return std::nullopt;
  const auto base = toFingerprint(take('\n'));  // by the seal all that follows is whole
  const fs::path job = take('\0');
  return base ? std::optional(Recovery{job, *base, std::string(rest)}) : std::nullopt;
}

fs::path recoveryFile(const fs::path& folder, const fs::path& job, const char* ending) {
  // Named by its path's hash: jobs of one name in two folders have a file each, and no path is too long for a name.
  return folder / (hex(base::fingerprintOf(wholePath(job).string()).hash) + ending);
}

std::optional<std::string> keep(const fs::path& folder, const Recovery& recovery) {
  if (folder.empty()) return base::notSaved("there is no home folder for the recovery file");
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) return base::notSaved(base::because(failed.value(), folder));
  return base::save(recoveryFile(folder, recovery.job),
                    recoveryText({wholePath(recovery.job), recovery.base, recovery.text}));
}

std::optional<Recovery> kept(const fs::path& folder, const fs::path& job) {
  if (folder.empty()) return std::nullopt;
  const auto text = base::loadText(recoveryFile(folder, job));
  if (!text.ok()) return std::nullopt;
  auto recovery = parseRecovery(*text.value);
  if (!recovery || recovery->job != wholePath(job)) return std::nullopt;  // another path can have this hash
  return recovery;
}

void forget(const fs::path& folder, const fs::path& job) {
  if (folder.empty()) return;
  std::error_code failed;
  fs::remove(recoveryFile(folder, job), failed);  // what isn't there is forgotten
}

}  // namespace sillwright::document
