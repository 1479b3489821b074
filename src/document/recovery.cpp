#include "document/recovery.h"

#include <array>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <system_error>

#include "base/write_file.h"

namespace sillwright::document {
namespace {

namespace fs = std::filesystem;

std::string notSaved(const std::string& reason) {
  return "Not saved: " + reason + ". The file on the disk is as it was.";
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

std::string piece(std::string_view text) { return std::to_string(text.size()).append("\n").append(text).append("\n"); }

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
  return text + toText(base::fingerprintOf(text)) + "\n";
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
  if (rest != toText(base::fingerprintOf(before)) + "\n") return std::nullopt;
  return Recovery{fs::path(*job), *base, std::string(*text)};
}

fs::path recoveryFile(const fs::path& folder, const fs::path& job) {
  return folder / (hex(base::fingerprintOf(wholePath(job).string()).hash) + ".recovery");
}

std::optional<std::string> keep(const fs::path& folder, const Recovery& recovery) {
  if (folder.empty()) return notSaved("there is no home folder for the recovery file");
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) return notSaved(base::because(failed.value(), folder));
  return base::save(recoveryFile(folder, recovery.job),
                    recoveryText({wholePath(recovery.job), recovery.base, recovery.text}));
}

std::optional<Recovery> kept(const fs::path& folder, const fs::path& job) {
  if (folder.empty()) return std::nullopt;
  const auto text = base::loadText(recoveryFile(folder, job));
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

}  // namespace sillwright::document
