/// Sheets as files, and the independent tools that look at them: qpdf and the poppler utilities (packages.txt).
#pragma once

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <system_error>

#include "drawn.h"

namespace sillwright::testing {

namespace fs = std::filesystem;

struct Ran {
  int status = -1;
  std::string said;
};

inline Ran run(const std::string& command) {
  Ran ran;
  std::FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return ran;
  std::array<char, 4096> room{};
  std::size_t got = 0;
  while ((got = std::fread(room.data(), 1, room.size(), pipe)) > 0) ran.said.append(room.data(), got);
  ran.status = pclose(pipe);
  return ran;
}

/// Whether a tool is on this machine; says so plainly where it isn't, and the case then checks nothing.
inline bool have(const char* tool) {
  if (run(std::string("command -v ") + tool).status == 0) return true;
  WARN("skipped: " << tool << " is not installed (see third_party/packages.txt)");
  return false;
}

/// A folder that goes when the case ends.
struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "sheets-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string put(const char* name, const std::string& bytes) const {
    const fs::path file = path / name;
    std::ofstream(file, std::ios::binary) << bytes;
    return file.string();
  }
};

inline std::string pdfOf(const Drawn& made) {
  const auto files = sheet::draw(made.subject(), {}, sheet::Format::Pdf);
  REQUIRE(files.size() == 1);
  return files.front();
}

}  // namespace sillwright::testing
