// A viewer that is killed while someone edits and saves: for real, in a child process, at any moment.

#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <filesystem>
#include <new>
#include <random>
#include <string>

#include "base/write_file.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "support/catch.h"
#include "support/folder.h"
#include "support/read_job.h"
#include "view/window/frame.h"

using namespace sillwright;
namespace fs = std::filesystem;

namespace {

constexpr int kEditsToASave = 5;

/// How far the child has come, in memory that outlives it. Edits are numbered from 1.
struct Progress {
  std::atomic<int> begun{0};   ///< The edit that it began last.
  std::atomic<int> kept{0};    ///< The one that has reached the recovery file or the job's.
  std::atomic<int> saving{0};  ///< The one that it began to save last.
  std::atomic<int> saved{0};
  std::atomic<bool> ready{false};
};

struct Shared {
  Progress* progress;
  Shared() {
    void* const memory = ::mmap(nullptr, sizeof(Progress), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    REQUIRE(memory != MAP_FAILED);
    progress = new (memory) Progress;
  }
  ~Shared() { ::munmap(progress, sizeof(Progress)); }
  Shared(const Shared&) = delete;
  Shared& operator=(const Shared&) = delete;
};

double sillOf(int edit) { return 900.0 + edit % 100; }

/// The number of the edit that a job is the outcome of; −1 where it is none's: half of one and half of another.
int editOf(const job::Job& job) {
  if (!job.title.starts_with("edit ")) return job.openings.front().sill == sillOf(0) ? 0 : -1;
  const int edit = std::stoi(job.title.substr(5));
  return job.openings.front().sill == sillOf(edit) ? edit : -1;
}

/// Opens the job, takes up what an earlier one left, and edits and saves until it is killed.
[[noreturn]] void editAway(const fs::path& job, const fs::path& recovery, Progress& progress) {
  view::App app = view::open(job, SILLWRIGHT_ASSETS_DIR, recovery);
  if (!app.document) ::_exit(1);
  if (app.shown.asking == view::Asking::Recover) view::recover(app, true);
  view::keepInTime(app, true);
  progress.ready = true;
  for (int edit = editOf(app.document->job) + 1;; ++edit) {
    progress.begun = edit;
    view::edit(app, "edit", [&](job::Job& changed) {
      changed.title = "edit " + std::to_string(edit);
      changed.openings.front().sill = sillOf(edit);
    });
    view::keepInTime(app, true);
    progress.kept = edit;
    if (edit % kEditsToASave != 0) continue;
    progress.saving = edit;
    view::saveJob(app);
    if (app.notice.stops || app.shown.asking != view::Asking::Nothing) ::_exit(1);
    progress.saved = edit;
  }
}

}  // namespace

TEST_CASE("killed 200 times while editing and saving, the file is whole and no edit but the last is lost") {
  const tests::TemporaryFolder folder;
  const fs::path job = folder.path / "shed.toml";
  const fs::path recovery = folder.path / "state";
  {
    const std::string text = *base::loadText(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml").value;
    job::Job first = *job::read(text, job).value;
    first.openings.front().sill = sillOf(0);
    REQUIRE(!base::save(job, *job::rewrite(text, *job::read(text, job).value, first).value));
  }
  const Shared shared;
  Progress& progress = *shared.progress;
  std::minstd_rand chance(11);
  int taken_up = 0;
  int in_an_edit = 0;
  for (int round = 0; round < 200; ++round) {
    progress.ready = false;
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) editAway(job, recovery, progress);
    int status = 0;
    // Up to two edits on, however slow the machine is; then at any moment.
    const int wanted = progress.begun + static_cast<int>(chance() % 3);
    while ((!progress.ready || progress.begun < wanted) && ::waitpid(child, &status, WNOHANG) == 0) ::usleep(200);
    ::usleep(static_cast<useconds_t>(chance() % 30'000));
    ::kill(child, SIGKILL);
    ::waitpid(child, &status, 0);
    REQUIRE(WIFSIGNALED(status));

    INFO("round " << round << ", edit " << progress.begun);
    const auto read = testing::readJob(job);
    REQUIRE(read.ok());
    const int in_file = editOf(*read.value);
    CHECK((in_file == progress.saved || in_file == progress.saving));
    const auto kept = document::kept(recovery, job);
    const auto kept_job = kept ? job::read(kept->text, job) : base::Result<job::Job>{};
    if (kept) REQUIRE(kept_job.ok());
    const int latest = std::max(in_file, kept ? editOf(*kept_job.value) : 0);
    CHECK(latest >= progress.kept);
    CHECK(latest <= progress.begun);
    taken_up += kept && latest > in_file ? 1 : 0;
    in_an_edit += progress.begun > progress.kept ? 1 : 0;
    progress.saved = in_file;  // killed between the new name and saying so; the next one goes on from what there is
    progress.begun = progress.kept = latest;
  }
  CHECK(progress.saved > kEditsToASave);
  CHECK(taken_up > 20);    // else hardly ever was there anything to recover
  CHECK(in_an_edit > 20);  // else hardly ever was one hit in its middle
}
