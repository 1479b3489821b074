/// Changes of the job: each is done, kept in the history under a name, and everything that follows is worked out.
#pragma once

#include <functional>
#include <string>

#include "job/job.h"
#include "view/session/shown.h"

namespace sillwright::view {

struct App;

/// Changes the job by `change`. Where nothing changed, nothing is kept.
void edit(App& app, const std::string& name, const std::function<void(job::Job&)>& change);
/// Works out what follows from the job, after it was changed.
void followJob(App& app);
void grantEdit(App& app, const EditWish& wish);

}  // namespace sillwright::view
