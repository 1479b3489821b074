/// What the tests of the practice's reader share.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/error.h"

namespace sillwright::practice::test {

inline const std::filesystem::path kFolder = std::filesystem::path(SILLWRIGHT_SOURCE_DIR) / "tests" / "practice";
inline const std::filesystem::path kAssets = SILLWRIGHT_ASSETS_DIR;
inline constexpr const char* kTopKeys = "name = \"x\"\ntitle = \"X\"\ndisplay = \"millimetres\"\n";

std::string fileText(const std::filesystem::path& path);
std::vector<std::string> linesOf(const std::string& text);
std::string allLines(const std::vector<base::Error>& errors);
std::vector<std::filesystem::path> filesIn(const std::filesystem::path& folder, const std::string& extension);

/// A practice from a fragment and the smallest practice, least.toml. Each table of least.toml is put after the
/// fragment, so that the fragment keeps its lines; where the fragment has the same table, the keys it doesn't name are
/// added at the end of that table. `# without NAME` in the fragment leaves out the table NAME and those inside it.
/// An array of tables that the fragment has is its own.
std::string completed(const std::string& fragment);

}  // namespace sillwright::practice::test
