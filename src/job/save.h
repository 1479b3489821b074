/// Keeping a job on disk: loading with a fingerprint, saving so that the file is always whole, and the recovery file
/// that outlives a crash.
///
/// A save writes to a new file beside the old one, flushes it to the disk and renames it over; whatever happens
/// between, the name leads to the old text or the new one, never to a part. A link is followed and stays a link; the
/// file's permissions stay.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace sillwright::job {

/// FNV-1a of 64 bits (offset basis and prime as its authors publish them) and the size: enough to tell that a file is
/// not the one that was read.
struct Fingerprint {
  std::uint64_t hash = 0;
  std::uint64_t size = 0;
  bool operator==(const Fingerprint&) const = default;
};
[[nodiscard]] Fingerprint fingerprintOf(std::string_view text);

/// What is on the disk now; empty where there is no such file, or it can't be read.
[[nodiscard]] std::optional<Fingerprint> fingerprintOnDisk(const std::filesystem::path& path);

/// Puts `text` at `path`. Empty: done. Otherwise what to tell a person: why not, and that what was there is still
/// there; or, where the disk didn't confirm the new name, that the file is saved but may not outlast a power cut.
/// A new file gets the permissions of the one that was there, or 0644 less the process's mask.
[[nodiscard]] std::optional<std::string> save(const std::filesystem::path& path, std::string_view text);

/// Whether the file is not any more the one that was read: changed, or gone.
[[nodiscard]] bool changedOnDisk(const std::filesystem::path& path, const Fingerprint& as_read);

/// Unsaved changes of a job file, kept where a crash doesn't reach them.
struct Recovery {
  std::filesystem::path job;  ///< The job file, absolute.
  Fingerprint base;           ///< Of its text when the changes were made to it.
  std::string text;           ///< What would have been saved.
  bool operator==(const Recovery&) const = default;
};

/// Folder of the recovery files: `$XDG_STATE_HOME/sillwright/recovery`, by default under `~/.local/state` (XDG Base
/// Directory Specification 0.8). Empty where neither is known.
[[nodiscard]] std::filesystem::path recoveryFolder();

/// A recovery file's bytes, and back. Empty: the bytes are not whole, or no recovery file's.
[[nodiscard]] std::string recoveryText(const Recovery& recovery);
[[nodiscard]] std::optional<Recovery> parseRecovery(std::string_view text);

/// The recovery file of a job file, one for each path.
[[nodiscard]] std::filesystem::path recoveryFile(const std::filesystem::path& folder, const std::filesystem::path& job);

/// Writes it as save() does, its folder made where there is none. Empty: done.
[[nodiscard]] std::optional<std::string> keep(const std::filesystem::path& folder, const Recovery& recovery);

/// What was kept for a job file; empty where there is nothing, or what is there is not whole or of another job.
[[nodiscard]] std::optional<Recovery> kept(const std::filesystem::path& folder, const std::filesystem::path& job);

/// Forgets it, after a save or because a person said so.
void forget(const std::filesystem::path& folder, const std::filesystem::path& job);

}  // namespace sillwright::job
