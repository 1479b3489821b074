/// What the verbs say, for a terminal or a printer. Lines are no wider than `columns` characters.
#pragma once

#include <optional>
#include <string>

#include "check/judge.h"
#include "document/document.h"
#include "plan/work/order_of_work.h"
#include "takeoff/table.h"

namespace sillwright::cli {

/// Breaks a text into lines of at most `columns` characters (UTF-8 code points), each begun with `indent` spaces.
[[nodiscard]] std::string wrapped(const std::string& text, int columns, int indent);

struct CheckWords {
  std::string text;
  check::Verdict verdict;
};
/// The checks as a builder reads them on a phone: opening, verdict, spare, why, what to do; at least 32 columns. Notes
/// are left out unless `notes`. `only`: of one opening.
[[nodiscard]] CheckWords checkWords(const job::Job& job, const practice::Practice& practice, int columns, bool notes,
                                    std::optional<std::size_t> only = {});

/// The steps of one opening, numbered, each with what is done, parts, tools, check and caution.
[[nodiscard]] std::string stepsText(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                                    std::size_t opening, int columns);
/// plan::crewOrder, a task a line with the openings it is done at.
[[nodiscard]] std::string crewText(const job::Job& job, const plan::Plan& plan, int columns);

/// Title, columns in line, notes; a last column of text is broken into lines. A table that is still wider is set row by
/// row instead, each value after its column's name but the first. Columns of detail are left out. In the practice's
/// units, which the headings say.
[[nodiscard]] std::string listText(const takeoff::Table& table, practice::Display display, int columns);

/// What differs between two revisions of a job. Openings whose verdict, or the reason for it, isn't the one it was;
/// empty: none.
[[nodiscard]] std::string verdictChanges(const document::Document& before, const document::Document& now, int columns);
/// Verdicts, units to order and all that is bought and cut; empty: nothing has changed.
[[nodiscard]] std::string changesText(const document::Document& before, const document::Document& now, int columns);

}  // namespace sillwright::cli
