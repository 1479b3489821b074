#include "document/jobs.h"

#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <ctime>
#include <fstream>
#include <sstream>
#include <system_error>

#include "base/words.h"
#include "base/write_file.h"
#include "document/edits.h"
#include "document/settings.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"

namespace sillwright::document {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostBeside = 200;  // of more nobody chooses by reading
constexpr std::size_t kLookedAt = 4096;   // bytes in which a job file names itself
constexpr const char* kOpened = "opened";

/// The start of a file; empty where it can't be read.
std::string headOf(const fs::path& file) {
  std::error_code failed;
  if (!fs::is_regular_file(file, failed)) return {};  // a pipe would be waited for
  std::ifstream in(file, std::ios::binary);
  std::string head(kLookedAt, '\0');
  in.read(head.data(), static_cast<std::streamsize>(head.size()));
  head.resize(static_cast<std::size_t>(std::max<std::streamsize>(in.gcount(), 0)));
  return head;
}

/// What a line `title = "…"` says; else the file's name. Only for a list: the file itself isn't read.
std::string titleIn(const std::string& head, const fs::path& file) {
  std::istringstream lines(head);
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind("title", 0) != 0) continue;  // the first one: keys of the job stand before its tables
    const std::size_t from = line.find('"');
    const std::size_t to = line.find('"', from == std::string::npos ? from : from + 1);
    if (to != std::string::npos && to > from + 1) return line.substr(from + 1, to - from - 1);
  }
  return stemOf(file);
}

/// Files of a folder that end in .toml, by name; few enough to be read by a person.
std::vector<fs::path> tomlIn(const fs::path& folder) {  // none of a folder that can't be read
  std::vector<fs::path> files;
  std::error_code failed;
  for (fs::directory_iterator at(folder, failed), end; !failed && at != end; at.increment(failed)) {
    if (at->path().extension() == ".toml") files.push_back(at->path());
    if (files.size() >= kMostBeside) break;  // not after sorting: a folder may hold a million
  }
  std::sort(files.begin(), files.end());
  return files;
}

constexpr const char* kExerciseTable = "[exercise]";

void addJobs(std::vector<JobChoice>& into, const std::vector<fs::path>& files, const char* table = "[job]") {
  for (const fs::path& file : files) {
    const std::string head = headOf(file);
    if (head.find(table) != std::string::npos) into.push_back({file, titleIn(head, file)});
  }
}

fs::path folderOf(const fs::path& open) {
  std::error_code failed;
  const fs::path absolute = open.empty() ? fs::current_path(failed) : fs::absolute(open, failed).parent_path();
  return failed ? fs::path(".") : absolute.lexically_normal();
}

}  // namespace

JobChoices gatherChoices(const fs::path& open, const fs::path& assets, const fs::path& list) {
  JobChoices choices;
  choices.folder = folderOf(open);
  choices.fresh = freshPath(choices.folder, kNewJob, kJobEnding);
  addJobs(choices.recent, openedBefore(list));
  for (JobChoice& each : choices.recent) each.when = whenWritten(each.file);  // jobs may share a title
  addJobs(choices.beside, tomlIn(choices.folder));
  std::erase_if(choices.beside, [&](const JobChoice& each) {
    return std::find(choices.recent.begin(), choices.recent.end(), each) != choices.recent.end();
  });
  addJobs(choices.exercises, tomlIn(choices.folder), kExerciseTable);  // a teacher's own come first
  addJobs(choices.exercises, tomlIn(assets / "exercises"), kExerciseTable);
  addJobs(choices.starters, tomlIn(assets / "starters"));
  for (const fs::path& file : tomlIn(assets / "practice")) {
    choices.practices.push_back({file.stem(), titleIn(headOf(file), file)});
  }
  choices.guide = assets / "guide" / "index.html";
  return choices;
}

bool isExercise(const fs::path& file) {
  const std::string head = headOf(file);
  return head.find(kExerciseTable) != std::string::npos && head.find("[job]") == std::string::npos;
}

std::string whenWritten(const fs::path& file) {
  struct stat written {};  // a file clock has no way to another one in every standard library
  if (::stat(file.c_str(), &written) != 0) return {};
  std::tm local{};
  std::array<char, 32> words{};
  if (localtime_r(&written.st_mtime, &local) != nullptr)  // else `words` stays empty
    std::strftime(words.data(), words.size(), "%Y-%m-%d %H:%M", &local);
  return words.data();
}

std::vector<fs::path> openedBefore(const fs::path& list) {
  std::vector<fs::path> paths;
  const toml::table kept = readSettings(list);
  if (const toml::array* opened = kept[kOpened].as_array()) {
    for (const toml::node& path : *opened) {
      if (paths.size() < kMostRecent && path.is_string()) paths.emplace_back(path.ref<std::string>());
    }
  }
  return paths;
}

void rememberOpened(const fs::path& list, const fs::path& job) {
  if (list.empty()) return;  // without a home folder no list is kept
  std::error_code failed;
  const fs::path absolute = fs::absolute(job, failed).lexically_normal();
  if (failed || base::notUtf8(absolute.string()) != std::string::npos) return;  // TOML holds UTF-8 alone
  std::vector<fs::path> paths = openedBefore(list);
  if (!paths.empty() && paths.front() == absolute) return;  // it stands first already
  paths.erase(std::remove(paths.begin(), paths.end(), absolute), paths.end());
  paths.insert(paths.begin(), absolute);
  if (paths.size() > kMostRecent) paths.resize(kMostRecent);
  toml::array opened;
  for (const fs::path& path : paths) opened.push_back(path.string());
  (void)writeSettings(list, toml::table{{kOpened, opened}});  // without the list the work goes on
}

std::string stemOf(const fs::path& job) {
  const std::string name = job.filename().string();  // its stem() would end in ".sillwright"
  if (name.size() > std::string_view(kJobEnding).size() && name.ends_with(kJobEnding)) {
    return name.substr(0, name.size() - std::string_view(kJobEnding).size());
  }
  return job.stem().string();
}

fs::path freshPath(const fs::path& folder, const std::string& stem, const std::string& ending) {
  std::error_code failed;
  for (int number = 1;; ++number) {  // a link that leads nowhere takes its name too
    const fs::path path = folder / (stem + (number > 1 ? "-" + std::to_string(number) : std::string{}) + ending);
    if (fs::symlink_status(path, failed).type() == fs::file_type::not_found || failed) return path;
  }
}

base::Result<std::string> startedText(const fs::path& starter, const std::string& practice, const fs::path& assets) {
  base::Result<std::string> text = base::loadText(starter);
  if (!text.ok()) return text;
  const base::Result<job::Job> read = job::read(*text.value, starter.string());
  base::Result<practice::Practice> rules = practice::load(practice, assets, starter.parent_path());
  if (!read.ok() || !rules.ok()) return {{}, read.ok() ? std::move(rules.errors) : read.errors};
  job::Job job = *read.value;
  job.practice = practice;
  for (job::Opening& opening : job.openings) sizeUnit(opening, *rules.value);  // the frame stays as the starter has it
  return job::rewrite(*text.value, *read.value, job);                          // so that the starter's remarks stay
}

}  // namespace sillwright::document
