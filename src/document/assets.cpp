#include "document/assets.h"

#include <cstdlib>
#include <system_error>

namespace sillwright::document {
namespace {

namespace fs = std::filesystem;

bool isFolder(const fs::path& path) {
  std::error_code none;
  return fs::is_directory(path, none);
}

/// Share folder beside the folder the running program lies in; empty where the system doesn't tell.
fs::path installedFolder() {
  std::error_code failed;
  const fs::path program = fs::read_symlink("/proc/self/exe", failed);  // argv[0] may be a bare name from PATH
  if (failed) return {};
  return (program.parent_path() / ".." / "share" / "sillwright").lexically_normal();
}

}  // namespace

fs::path assetsFolder() {
  if (const char* named = std::getenv("SILLWRIGHT_ASSETS"); named != nullptr && *named != '\0') return named;
  const fs::path installed = installedFolder();
  if (!installed.empty() && isFolder(installed)) return installed;
  const fs::path built_from = SILLWRIGHT_BUILT_FROM_ASSETS;
  return isFolder(built_from) || installed.empty() ? built_from : installed;
}

}  // namespace sillwright::document
