/// Writing what a verb was asked for, and saying so when the machine refuses.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "base/words.h"
#include "cli/verbs.h"
#include "document/document.h"
#include "takeoff/table.h"

namespace sillwright::cli {

/// Writes the whole of the text. False, and a sentence on standard error: it could not be written; nothing is left
/// half.
[[nodiscard]] bool writeFile(const std::filesystem::path& path, std::string_view text);

/// Writes the tables of a document as a workbook, likewise.
[[nodiscard]] bool writeBook(const std::filesystem::path& path, std::span<const takeoff::Table> tables,
                             const document::Document& document);

/// Errors of a person's file on standard error, a line each.
void complain(const std::vector<base::Error>& errors);

/// One sentence on standard error, after the program's name.
void tell(std::string_view sentence);

/// The same, and the status of a verb that ends with them.
[[nodiscard]] int refuse(const std::vector<base::Error>& errors);
[[nodiscard]] int refuse(std::string_view sentence);

/// printAll of words for people: what could move the terminal's cursor or turn its lines stands there as escapes.
[[nodiscard]] bool printWords(std::string_view text);

/// Prints the text on standard output, after what was printed there before. False: it could not all be written out.
[[nodiscard]] bool printAll(std::string_view text);

/// The job with what follows from it. Empty: it can't be read, and what is wrong has been said.
[[nodiscard]] std::optional<document::Document> loaded(const std::filesystem::path& job, const How& how,
                                                       document::Depth depth);

/// Index of the ending of the file of an option among those that are allowed, capitals aside. Empty: it is none, and
/// that was said.
[[nodiscard]] std::optional<std::size_t> endingOf(const std::filesystem::path& out,
                                                  std::span<const std::string_view> allowed,
                                                  const char* option = "--out");

/// Notes the index of the one of that name, where one is named. False: there is none, and which there are has been
/// said. `what`: "opening".
template <class Named>
[[nodiscard]] bool choose(std::optional<std::size_t>& index, const std::vector<Named>& all, const std::string& name,
                          const char* what) {
  if (name.empty()) return true;
  const std::int32_t found = document::indexOf(all, name);
  if (found < 0) {
    tell(std::string("the job has no ") + what + " '" + name + "'; it has " + base::joined(all, ", ", &Named::name) +
         ".");
    return false;
  }
  index = static_cast<std::size_t>(found);
  return true;
}

/// Runs once, and again whenever one of the files changes, until the program is ended or its output is closed.
int watched(const std::vector<std::filesystem::path>& files, const std::function<int()>& run);

/// The verdicts' marks in colours where standard output is a terminal that has them and NO_COLOR is not set.
[[nodiscard]] std::string coloured(std::string text);

/// Width of the terminal; 72 where the output is not one, so that a file of it can be read anywhere.
[[nodiscard]] int columnsOfTerminal();

}  // namespace sillwright::cli
