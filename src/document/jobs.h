/// Jobs to open: those that were opened last, those that lie beside one, and new ones from a starter.
///
/// A new job is written into a file of its own as soon as it is wished for, under a name that nothing has yet: so it
/// is saved, looked after and recovered as every other.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/error.h"

namespace sillwright::document {

/// A file that is offered, and what it calls itself.
struct JobChoice {
  std::filesystem::path file;
  std::string title;
  std::string when{};  ///< Of one opened before: when it was written last.
  bool operator==(const JobChoice& other) const { return file == other.file && title == other.title; }
};

/// All that can be opened or begun; gathered when a person asks, not kept fresh.
struct JobChoices {
  std::vector<JobChoice> recent;     ///< Those opened last, the latest first; files that are gone are left out.
  std::vector<JobChoice> beside;     ///< Jobs in `folder` that are not among them.
  std::vector<JobChoice> exercises;  ///< Those in `folder`, then those of assets/exercises.
  std::vector<JobChoice> starters;   ///< Of assets/starters.
  std::vector<JobChoice> practices;  ///< Of assets/practice; `file` is the name alone, as a job writes it.
  std::filesystem::path folder;
  std::filesystem::path fresh;  ///< Where a new job would be written.
  std::filesystem::path guide;  ///< First page of the guide to read in a browser.
};

inline constexpr std::size_t kMostRecent = 12;
/// "2026-11-29 20:15", when a file was written last, as the clock here has it; empty: there is none.
[[nodiscard]] std::string whenWritten(const std::filesystem::path& file);

/// `open`: the job on the screen, or empty; `list`: the file of those opened last, empty: none is kept.
[[nodiscard]] JobChoices gatherChoices(const std::filesystem::path& open, const std::filesystem::path& assets,
                                       const std::filesystem::path& list);

/// Whether a file is an exercise's, and no job's.
[[nodiscard]] bool isExercise(const std::filesystem::path& file);

/// Puts a job at the head of the list. A list that can't be written is no reason to stop: it stays as it was.
void rememberOpened(const std::filesystem::path& list, const std::filesystem::path& job);
/// The list as it stands, absolute paths, files that are gone too.
[[nodiscard]] std::vector<std::filesystem::path> openedBefore(const std::filesystem::path& list);

/// "stem.toml" in a folder, or "stem-2.toml" …: the first that is not there.
[[nodiscard]] std::filesystem::path freshPath(const std::filesystem::path& folder, const std::string& stem,
                                              const std::string& ending);
inline constexpr const char* kNewJob = "new-job";
/// What a desktop knows a job file by, so that it opens with this program.
inline constexpr const char* kJobEnding = ".sillwright.toml";
/// "house" of house.sillwright.toml and of house.toml: what is written beside a job is named after it.
[[nodiscard]] std::string stemOf(const std::filesystem::path& job);

/// A starter's text under a practice, its units sized with that practice's usual gaps.
[[nodiscard]] base::Result<std::string> startedText(const std::filesystem::path& starter, const std::string& practice,
                                                    const std::filesystem::path& assets);

}  // namespace sillwright::document
