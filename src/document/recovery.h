/// The recovery file: unsaved changes of a job, kept where a crash of the program doesn't reach them.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "base/write_file.h"

namespace sillwright::document {

/// Unsaved changes of a job file, kept where a crash doesn't reach them.
struct Recovery {
  std::filesystem::path job;  ///< The job file, absolute.
  base::Fingerprint base;     ///< Of its text when the changes were made to it.
  std::string text;           ///< What would have been saved.
  bool operator==(const Recovery&) const = default;
};

/// Folder of the recovery files: `$XDG_STATE_HOME/sillwright/recovery`, by default under `~/.local/state` (XDG Base
/// Directory Specification 0.8). Empty where neither is known.
[[nodiscard]] std::filesystem::path recoveryFolder();

/// A recovery file's bytes, and back. Empty: the bytes are not whole, or no recovery file's.
[[nodiscard]] std::string recoveryText(const Recovery& recovery);
[[nodiscard]] std::optional<Recovery> parseRecovery(std::string_view text);

/// The recovery file of a job file, or another of that ending: one for each path.
[[nodiscard]] std::filesystem::path recoveryFile(const std::filesystem::path& folder, const std::filesystem::path& job,
                                                 const char* ending = ".recovery");

/// Writes it as save() does, its folder made where there is none. Empty: done.
[[nodiscard]] std::optional<std::string> keep(const std::filesystem::path& folder, const Recovery& recovery);

/// What was kept for a job file; empty where there is nothing, or what is there is not whole or of another job.
[[nodiscard]] std::optional<Recovery> kept(const std::filesystem::path& folder, const std::filesystem::path& job);

/// Forgets it, after a save or because a person said so.
void forget(const std::filesystem::path& folder, const std::filesystem::path& job);

}  // namespace sillwright::document
