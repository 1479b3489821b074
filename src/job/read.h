/// Reading a job file (TOML 1.0, UTF-8).
///
/// Every key, bound and spelling is checked; unknown keys are errors, because a misspelt key would lose a
/// measurement without a word. All errors of a text come back together, sorted by place. Nothing is filled in.
#pragma once

#include <string>
#include <string_view>

#include "base/error.h"
#include "job/job.h"

namespace sillwright::job {

/// Reads a job from its text. `file` is only used in messages. Pure: same text, same answer; never throws for
/// anything the text contains.
[[nodiscard]] base::Result<Job> read(std::string_view text, std::string file);

}  // namespace sillwright::job
