/// Writing what a verb was asked for, and saying so when the machine refuses.
#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "base/error.h"

namespace sillwright::cli {

/// Writes the whole of the text. False, and a sentence on standard error: it could not be written; nothing is left
/// half.
[[nodiscard]] bool writeFile(const std::filesystem::path& path, std::string_view text);

/// Errors of a person's file on standard error, a line each.
void complain(const std::vector<base::Error>& errors);

/// Prints the text on standard output, after what was printed there before. False: it could not all be written out.
[[nodiscard]] bool printAll(std::string_view text);

/// Width of the terminal; 72 where the output is not one, so that a file of it can be read anywhere.
[[nodiscard]] int columnsOfTerminal();

}  // namespace sillwright::cli
