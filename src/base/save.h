/// Saving so that the file on the disk is always whole, and telling whether another program has changed it.
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

namespace sillwright::base {

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
/// there. `but` takes what is not as it should be of a file that is saved (write_file.h); empty where all is. A new
/// file gets the permissions of the one that was there, or 0644 less the process's mask.
[[nodiscard]] std::optional<std::string> save(const std::filesystem::path& path, std::string_view text,
                                              std::string* but = nullptr);

/// Whether the file is not any more the one that was read: changed, or gone.
[[nodiscard]] bool changedOnDisk(const std::filesystem::path& path, const Fingerprint& as_read);

}  // namespace sillwright::base
