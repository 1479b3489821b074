/// Keys of the job as a person reads and types them: "5", "yes", "fixed, awning" for what the file spells
/// `5`, `true`, `["fixed", "awning"]`.
#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "job/keys.h"

namespace sillwright::view {

/// "glass, thickness", "ultimate kpa"; in the practice's words where it has its own.
[[nodiscard]] std::string labelOf(const job::KeyPlace& place, const practice::Words& words);
/// What the file spells, as it is shown and typed. Empty stays empty.
[[nodiscard]] std::string shownText(const job::KeyText& key, practice::Display display);
/// What was typed, as the file spells it; what can't be told is left for the reader to refuse.
[[nodiscard]] std::string spelledText(const job::KeyRule& rule, const std::string& typed, practice::Display display);

/// The key as the job has it now.
[[nodiscard]] job::KeyText keyAt(const job::Job& job, const job::KeyPlace& place);
/// What a list offers for a key, as it is typed; empty: it is typed only.
[[nodiscard]] std::vector<std::string> choicesOf(const document::Document& document, const job::KeyText& key);
/// The job with the sizes that the plan has settled for what one of its tables leaves out, to be shown quietly.
[[nodiscard]] job::Job settledAt(const document::Document& document, job::TableKind table, std::size_t of);
/// The same with sizes to begin an eave and a reveal with, where there is none.
[[nodiscard]] job::Job begunAt(const document::Document& document, const job::KeyPlace& place);

}  // namespace sillwright::view
