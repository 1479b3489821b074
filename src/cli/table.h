/// The checks as a builder reads them on a phone: opening, verdict, spare, why, what to do.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::cli {

/// Lines no wider than `columns` characters (at least 32). Notes are left out unless `notes`. `only`: of one opening.
[[nodiscard]] std::string checkTable(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                                     const check::Findings& findings, int columns, bool notes,
                                     std::optional<std::size_t> only = {});

/// Breaks a text into lines of at most `columns` characters (UTF-8 code points), each begun with `indent` spaces.
[[nodiscard]] std::string wrapped(const std::string& text, int columns, int indent);

}  // namespace sillwright::cli
