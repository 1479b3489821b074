/// Putting a whole text at a path, or leaving what is there as it was.
///
/// The text is written to a new file beside the old one, flushed to the disk and renamed over it. A link is followed
/// and stays a link; a file's permissions stay. A device or a pipe is written to as it is.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace sillwright::base {

/// What the machine did with a text.
struct Outcome {
  bool written = false;
  std::string reason;  ///< Why not: "the disk is full". Of what is written, why it may not outlast a power cut.
};

/// A new file gets 0644 less the process's mask.
[[nodiscard]] Outcome writeFile(const std::filesystem::path& path, std::string_view text);

/// The system's error in words that go on after "could not be written: "; `folder` is where the file was to be.
[[nodiscard]] std::string because(int error_number, const std::filesystem::path& folder);

/// The path that a link leads to; the path itself where it is none, or leads in a circle.
[[nodiscard]] std::filesystem::path whereLinksLead(const std::filesystem::path& path);

}  // namespace sillwright::base
