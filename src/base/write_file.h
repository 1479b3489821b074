/// Putting a whole text at a path, or leaving what is there as it was.
///
/// The text is written to a new file beside the old one, flushed to the disk and renamed over it. A link is followed
/// and stays a link, one that leads nowhere too; a file's permissions and owner stay. What can't be kept (the owner of
/// a file of another user's, further names of a file by hard links) is told. A device or a pipe is written to as it is.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.h"

namespace sillwright::base {

/// What the machine did with a text.
struct Outcome {
  bool written = false;
  std::string reason;  ///< Why not: "the disk is full". Of what is written, what is not as it should be: "its owner
                       ///< could not be kept".
};

/// Takes a text piece after piece.
using Sink = std::function<void(std::string_view)>;

/// A new file gets 0644 less the process's mask.
[[nodiscard]] Outcome writeFile(const std::filesystem::path& path, std::string_view text);
/// The same for what `say` says: a text may be too large to be held.
[[nodiscard]] Outcome writeFile(const std::filesystem::path& path, const std::function<void(const Sink&)>& say);

/// The system's error in words that go on after "could not be written: "; `folder` is where the file was to be.
[[nodiscard]] std::string because(int error_number, const std::filesystem::path& folder);

// Saving as above, and telling whether another program has changed the file.

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
/// there. `but` takes what is not as it should be of a file that is saved; empty where all is. A new
/// file gets the permissions of the one that was there, or 0644 less the process's mask.
[[nodiscard]] std::optional<std::string> save(const std::filesystem::path& path, std::string_view text,
                                              std::string* but = nullptr);

/// How a person is told why nothing was saved.
[[nodiscard]] std::string notSaved(const std::string& reason);

/// Whether the file is not any more the one that was read: changed, or gone.
[[nodiscard]] bool changedOnDisk(const std::filesystem::path& path, const Fingerprint& as_read);

// Files and folders that are to be gone when the program ends, also where a signal ends it.

/// While it lives, a signal that ends the program takes the file, or the empty folder, with it: of several the last one
/// first. It removes nothing by itself.
class Temporary {
 public:
  explicit Temporary(const std::filesystem::path& path);
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;
  ~Temporary();

 private:
  std::string path_;
  std::size_t slot_;
};

/// While one lives the signals that removeTemporariesOnSignals takes wait, whichever thread they come to: the program
/// ends as the last of them goes.
class SignalsHeld {
 public:
  SignalsHeld();
  SignalsHeld(const SignalsHeld&) = delete;
  SignalsHeld& operator=(const SignalsHeld&) = delete;
  ~SignalsHeld();
};

/// From now on INT, TERM and HUP remove what is temporary before they end the program as they always do. A signal that
/// is ignored stays so.
void removeTemporariesOnSignals();

// Reading a whole file, bounded, with the machine's refusals in words.

/// Largest file that is read, bytes.
inline constexpr std::uintmax_t kLargestFile = std::uintmax_t{256} << 20;

/// The bytes of any plain file, of at most `largest`, or one error without a line: no such file, no permission, a
/// folder, a pipe or a device, larger than `largest`.
[[nodiscard]] Result<std::string> loadText(const std::filesystem::path& path, std::uintmax_t largest = kLargestFile);

}  // namespace sillwright::base
