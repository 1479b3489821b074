/// Putting a whole text at a path, or leaving what is there as it was.
///
/// The text is written to a new file beside the old one, flushed to the disk and renamed over it. A link is followed
/// and stays a link, one that leads nowhere too; a file's permissions and owner stay. What can't be kept (the owner of
/// a file of another user's, further names of a file by hard links) is told. A device or a pipe is written to as it is.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace sillwright::base {

/// What the machine did with a text.
struct Outcome {
  bool written = false;
  std::string reason;  ///< Why not: "the disk is full". Of what is written, what is not as it should be: "its owner
                       ///< could not be kept".
};

/// A new file gets 0644 less the process's mask.
[[nodiscard]] Outcome writeFile(const std::filesystem::path& path, std::string_view text);

/// The system's error in words that go on after "could not be written: "; `folder` is where the file was to be.
[[nodiscard]] std::string because(int error_number, const std::filesystem::path& folder);

/// The path that a link leads to, whether anything is there or not; the path itself where it is none, or leads in a
/// circle.
[[nodiscard]] std::filesystem::path whereLinksLead(const std::filesystem::path& path);

}  // namespace sillwright::base
