/// Reading a job file (TOML 1.0, UTF-8).
///
/// Every key, bound and spelling is checked; unknown keys are errors, because a misspelt key would lose a
/// measurement without a word. All errors of a text come back together, sorted by place. Nothing is filled in.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.h"
#include "base/in_parallel.h"
#include "job/job.h"

namespace sillwright::job {

/// Reads a job from its text. `file` is only used in messages. Pure: same text, same answer; never throws for
/// anything the text contains.
[[nodiscard]] base::Result<Job> read(std::string_view text, std::string file);

// A large file is read in pieces, by all cores.
//
// Most of reading a job is the TOML parser's work, and it parses one text on one core. A file that says its openings
// one after another is as good as many files, each cut off before an `[[opening]]`: a piece that is TOML by itself
// ends outside all strings, arrays and tables in braces, so the cut lies between statements, and what follows an
// `[[opening]]` belongs to it or is a table of its own. Smaller trees also take less memory, at no time all of them.
//
// Whatever is unusual (a mistake, a table said in two pieces, a name twice) is left to the reader of whole files: that
// one knows what to say of it.

/// Of this many bytes or a little more.
inline constexpr std::size_t kPieceBytes = std::size_t{1} << 16U;
/// Smaller files are read whole.
inline constexpr std::size_t kWorthPieces = 4 * kPieceBytes;

/// The job that `read` gives. Empty: this file is to be read whole.
[[nodiscard]] std::optional<Job> readPieces(std::string_view text, const std::string& file,
                                            std::size_t piece_bytes = kPieceBytes, base::Threads threads = {});

}  // namespace sillwright::job
