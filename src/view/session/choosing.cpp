// Going from one job to another: the page that offers them, what would be lost, and new ones from a starter.

#include <system_error>

#include "base/save.h"
#include "document/recovery.h"
#include "view/session/app.h"

namespace sillwright::view {
namespace {

/// Writes a starter under a name that nothing has; empty: it was refused, and that is told.
std::filesystem::path begin(App& app, const OpenJob& wish) {
  const auto text = document::startedText(wish.starter, wish.practice, app.file.assets);
  if (!text.ok()) {
    tell(app, "The new job can't be begun: " + text.errors.front().say, true);
    return {};
  }
  std::error_code failed;
  std::filesystem::path file = wish.file;
  if (std::filesystem::exists(file, failed))
    file = document::freshPath(file.parent_path(), document::kNewJob,
                               document::kJobEnding);  // made since the page was opened
  if (const auto refused = base::save(file, *text.value)) {
    tell(app, *refused, true);
    return {};
  }
  return file;
}

}  // namespace

std::filesystem::path openedList(const JobFile& file) {
  return file.recovery.empty() ? std::filesystem::path{} : file.recovery.parent_path() / "opened";
}

void toggleJobsPage(App& app) {
  app.shown.jobs_open = !app.shown.jobs_open || !app.document;
  app.jobs.choices.reset();
  if (app.shown.jobs_open)
    app.jobs.choices = document::gatherChoices(app.file.path, app.file.assets, openedList(app.file));
}

void openJob(App& app, const OpenJob& wish) {
  app.jobs.waiting = wish;
  if (mayLose(app, Asking::OpenOther)) goOn(app);
}

void goOn(App& app) {
  if (!app.jobs.waiting) return;
  const OpenJob wish = *app.jobs.waiting;
  app.jobs.waiting.reset();
  const std::filesystem::path file = wish.starter.empty() ? wish.file : begin(app, wish);
  if (file.empty()) {
    app.shown.asking = Asking::Nothing;
    return;
  }
  if (app.document && !app.file.found) document::forget(app.file.recovery, app.file.path);
  app.shown.jobs_open = false;
  app.jobs.choices.reset();
  openInstead(app, file);
  if (!wish.starter.empty() && app.document) tell(app, "A new job, written as " + file.string() + ".", false);
}

}  // namespace sillwright::view
