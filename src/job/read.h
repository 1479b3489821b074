/// Reading a job file (TOML 1.0, UTF-8).
///
/// Every key, bound and spelling is checked; unknown keys are errors, because a misspelt key would lose a
/// measurement without a word. All errors of a text come back together, sorted by place. Nothing is filled in.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "base/error.h"
#include "base/read_file.h"
#include "job/job.h"

namespace sillwright::job {

/// Reads a job from its text. `file` is only used in messages. Pure: same text, same answer; never throws for
/// anything the text contains.
[[nodiscard]] base::Result<Job> read(std::string_view text, std::string file);

/// Reads the file and then its text. What the machine refuses (no such file, no permission, a folder, a pipe or
/// a device, larger than base::kLargestFile) is one error without a line.
[[nodiscard]] base::Result<Job> readFile(const std::filesystem::path& path);

}  // namespace sillwright::job
