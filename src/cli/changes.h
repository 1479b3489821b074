/// What differs between two revisions of a job, in words for a terminal.
#pragma once

#include <string>

#include "document/document.h"

namespace sillwright::cli {

/// Openings whose verdict, or the reason for it, isn't the one it was; empty: none.
[[nodiscard]] std::string verdictChanges(const document::Document& before, const document::Document& now, int columns);

/// Verdicts, units to order and all that is bought and cut; empty: nothing has changed.
[[nodiscard]] std::string changesText(const document::Document& before, const document::Document& now, int columns);

}  // namespace sillwright::cli
