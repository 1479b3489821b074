/// Running a program by itself and asking the system what it took: time by the wall, processor time, most memory.
#pragma once

#include <algorithm>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace sillwright::bench {

struct Took {
  double seconds = 0;         ///< By the wall.
  double cpu_seconds = 0;     ///< Of all its threads, in the program and in the system for it.
  double most_megabytes = 0;  ///< Memory at its peak.
  int status = 0;             ///< Its exit status; -1: it was ended by a signal.
};

/// Runs it to its end; what it prints is thrown away, what it complains of is shown. Throws std::runtime_error where it
/// can't be started.
[[nodiscard]] Took runProgram(const std::vector<std::string>& command);

/// Does the work in a process of its own, so that this one stays small: the system counts the memory of who starts a
/// program as the program's. Throws std::runtime_error where the work throws.
void doApart(const std::function<void()>& work);

/// This program's own file, to be run again for another part of the work.
inline constexpr const char* kSelf = "/proc/self/exe";

/// A folder for files of a run, for as long as this lives.
struct Folder {
  explicit Folder(const std::string& name);
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::filesystem::path path;
};

/// Seconds since some moment, the same for all programs of the machine.
[[nodiscard]] double secondsNow();

inline double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}

/// The median of each figure.
[[nodiscard]] Took median(const std::vector<Took>& runs);

}  // namespace sillwright::bench
