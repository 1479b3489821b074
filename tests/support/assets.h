/// Where benches find the demo jobs and practices.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>

namespace sillwright::tests {

/// The assets folder that this was built from, or the one that SILLWRIGHT_ASSETS names. Where there are no demo jobs in
/// it, that is said in a sentence and the process ends: a bench has nothing to measure then.
inline const std::string& assets() {
  static const std::string folder = [] {
    const char* const named = std::getenv("SILLWRIGHT_ASSETS");
    return std::string(named != nullptr && *named != '\0' ? named : SILLWRIGHT_ASSETS_DIR);
  }();
  if (std::filesystem::is_directory(folder + "/jobs")) return folder;
  std::fprintf(stderr, "There are no demo jobs in %s; SILLWRIGHT_ASSETS names the assets folder.\n", folder.c_str());
  std::exit(2);
}

}  // namespace sillwright::tests
