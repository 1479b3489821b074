/// The job's file: what was read of it, what is written, and what is kept beside it of unsaved edits.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "base/error.h"
#include "base/save.h"
#include "document/recovery.h"
#include "job/job.h"
#include "view/session/shown.h"

namespace sillwright::view {

struct App;

struct JobFile {
  std::filesystem::path path;
  std::filesystem::path assets;
  std::vector<base::Error> errors;            ///< Why there is no document, or only the last good one.
  std::vector<std::string> lines;             ///< The file's own lines, for the error page.
  job::Job job;                               ///< As Document::text reads: every save starts from the two.
  base::Fingerprint on_disk;                  ///< Of what was last read or written.
  std::filesystem::file_time_type looked_at;  ///< Time of the file when the disk was last looked at.
  std::filesystem::path recovery;             ///< Folder of recovery files; empty: none are kept.
  std::optional<document::Recovery> found;    ///< Edits of an earlier run that were never saved.
  std::optional<float> stale_seconds;         ///< Since an edit that the recovery file doesn't hold.
};

/// Where the jobs opened last are listed; empty: nowhere.
[[nodiscard]] std::filesystem::path openedList(const JobFile& file);

/// Notes what was just read, and looks for edits of an earlier run.
void rememberFile(App& app);
/// Writes the job into its file. Asks first where another program has changed that; asked, and with `over`, it keeps
/// the other version beside the file.
void saveJob(App& app, bool over = false);
/// Whether nothing unsaved would be lost, or the person has been asked; else asks.
[[nodiscard]] bool mayLose(App& app, Asking by);
/// The recovery file is behind the job: it is written when the viewer comes to rest, or soon (keepInTime).
void keepSoon(JobFile& file);
/// Writes the recovery file where it is behind and the viewer rests, or has been behind for as long as may be lost.
/// Called between pictures: a disk that is slow holds up no drag.
void keepInTime(App& app, bool resting);
/// Takes up the edits of an earlier run, or forgets them.
void recover(App& app, bool take);
/// Reads the file again where it was changed elsewhere and nothing here would be lost.
void checkDisk(App& app);

}  // namespace sillwright::view
