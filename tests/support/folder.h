/// A folder of a test's own, gone at its end with all that is in it.
#pragma once

#include <stdlib.h>

#include <filesystem>
#include <stdexcept>
#include <string>
#include <system_error>

namespace sillwright::tests {

struct TemporaryFolder {
  std::filesystem::path path;

  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "sillwright-test-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for a test can be made");
    path = name;
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder() {
    std::error_code failed;
    std::filesystem::permissions(path, std::filesystem::perms::owner_all, failed);
    std::filesystem::remove_all(path, failed);
  }
};

}  // namespace sillwright::tests
