/// Reading a practice, and finding the ones that come with the program.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "job/toml_table.h"
#include "practice/figure.h"
#include "practice/practice.h"

namespace sillwright::practice {

/// Largest practice file that is read, bytes.
inline constexpr std::uintmax_t kLargestFile = std::uintmax_t{16} << 20;

/// Reads a practice from its text; as strict and as complete in its errors as the job's reader.
[[nodiscard]] base::Result<Practice> read(std::string_view text, std::string file);

/// Reads a practice file.
[[nodiscard]] base::Result<Practice> readFile(const std::filesystem::path& path);

/// Whether a job names its practice by a path, with a slash or the extension; a bare name is one of those that come
/// with the program.
[[nodiscard]] bool isPath(const std::string& name);

/// Finds the practice that a job names: `name.toml` in `assets/practice`, or a path (with a slash or ending in
/// `.toml`) beside the job file. A name that is neither is one error that lists the names there are.
[[nodiscard]] base::Result<Practice> load(const std::string& name, const std::filesystem::path& assets,
                                          const std::filesystem::path& job_folder);

/// Names of the practices in `assets/practice`, sorted.
[[nodiscard]] std::vector<std::string> names(const std::filesystem::path& assets);

// : how figures are read, beside the values that the job's reader knows.
//
// A figure is a table { value, unit, source, status, … }; a Measure may be { usual, least } of them, Bands an array of
// them with a rising `up_to`, and ByClass a table of them under names. Internal: includes toml++.

void readValue(const job::Entry& entry, Figure& into);
void readValue(const job::Entry& entry, Measure& into);
void readValue(const job::Entry& entry, Bands& into);
void readValue(const job::Entry& entry, ByClass& into);

}  // namespace sillwright::practice
