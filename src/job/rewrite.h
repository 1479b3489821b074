/// Writing a job: a whole new file, or a file's text with only what changed written again.
///
/// A person's job file has his comments, his order and his spelling of numbers; a program that saves it has no right
/// to them. So a change is made at the very place in the text where the old value stands, and all other bytes stay.
///
/// Which wall or opening of the new job is which of the old one is told by its `place`, which survives every change of
/// its values, its name too. One without a place, or whose place is not in the old job, is new.
#pragma once

#include <string>
#include <string_view>

#include "base/error.h"
#include "job/job.h"

namespace sillwright::job {

/// Whether the two say the same; where in a file they say it doesn't count, nor the file's name.
[[nodiscard]] bool sameValues(const Job& a, const Job& b);

/// An `[[opening]]` table with all it holds, as it stands in such a file; `wall` is the name of its wall.
[[nodiscard]] std::string write(const Opening& opening, const std::string& wall);

/// The whole job as a file of its own, in the order and layout of the demo jobs.
[[nodiscard]] std::string write(const Job& job);

/// `text` with what differs between `old_job`, which must be what it reads as, and `new_job`.
///
/// - A changed value is put in the place of the old one; a comment behind it stays.
/// - A new key gets a line after the key that usually stands before it, its `=` in the same column as there. A removed
///   key's line goes with the comment on it.
/// - A new wall or opening stands after the one before it in the job. A removed one goes from its header to its last
///   key, with the comments between and those that follow without a blank line; comments above its header stay.
/// - Line ends, byte order mark and a missing line end at the end of the file stay as they are.
///
/// What comes out has been read again and is the new job. Where it wouldn't be (`text` is not the old job, the new job
/// is not one that the reader allows, or the text is laid out in a way that can't be followed) there are errors
/// instead.
[[nodiscard]] base::Result<std::string> rewrite(std::string_view text, const Job& old_job, const Job& new_job);

}  // namespace sillwright::job
