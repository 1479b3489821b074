/// Changes of the job: each is done, kept in the history under a name, and everything that follows is worked out.
#pragma once

#include <cstddef>
#include <functional>
#include <string>

#include "job/job.h"
#include "view/session/shown.h"

namespace sillwright::view {

struct App;

/// Changes the job by `change`. False: nothing changed, or the job then asks for something that can't be read, which is
/// told; nothing is kept.
bool edit(App& app, const std::string& name, const std::function<void(job::Job&)>& change);
/// Works out what follows from the job, after it was changed.
void followJob(App& app);
/// To where `place` steps of the history are done. It stays where it is, and says so, where the job there asks for
/// something that can't be read.
void goInHistory(App& app, std::size_t place);
void grantEdit(App& app, const EditWish& wish);
void setKey(App& app, const SetKey& wish);

}  // namespace sillwright::view
