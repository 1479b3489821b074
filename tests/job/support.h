/// What the tests of the job's reader share.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "base/error.h"
#include "job/job.h"

namespace sillwright::job::test {

inline const std::filesystem::path kFolder = std::filesystem::path(SILLWRIGHT_SOURCE_DIR) / "tests" / "job";

/// A job without openings; text may follow that belongs to the wall.
inline const std::string kMinimal =
    "[job]\ntitle = \"t\"\npractice = \"au\"\n[[wall]]\nname = \"north\"\nlength = 7200\ntop = 2440\n";

/// An opening in it; text may follow that belongs to the unit.
inline const std::string kOpening =
    "[[opening]]\nname = \"N1\"\nwall = \"north\"\nleft = 1240\nsill = 900\nwidth = 1530\nheight = 1060\n"
    "[opening.unit]\nkind = \"sliding window\"\nwidth = 1510\nheight = 1040\n";

inline std::string load(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

inline std::string allLines(const std::vector<base::Error>& errors) {
  std::string lines;
  for (const auto& error : errors) lines += base::toLine(error) + "\n";
  return lines;
}

inline std::vector<std::filesystem::path> filesIn(const std::filesystem::path& folder, const std::string& extension) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == extension) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// The job without its places in the text, for comparing jobs that are written differently.
inline Job withoutPlaces(Job job) {
  job.practice_place = job.wind_place = job.bushfire_place = job.heat_place = {};
  for (auto& wall : job.walls) wall.place = wall.timber_place = {};
  for (auto& opening : job.openings) {
    opening.place = opening.unit.mesh_place = opening.unit.lights_place = {};
    if (opening.unit.fixing) opening.unit.fixing->screw_place = {};
    for (auto* head : {&opening.head, &opening.unit.head}) {
      if (*head) (*head)->place = {};
    }
  }
  if (job.stock) job.stock->screws_place = {};
  return job;
}

inline std::string replaced(std::string text, const std::string& what, const std::string& by) {
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
    text.replace(at, what.size(), by);
  }
  return text;
}

}  // namespace sillwright::job::test
