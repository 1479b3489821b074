#include "view/session/work.h"

#include <chrono>
#include <exception>
#include <utility>

#include "view/session/app.h"

namespace sillwright::view {
Work besideWindow(std::string title, std::function<Then(Steps&)> task) {
  Work work;
  work.title = std::move(title);
  const std::shared_ptr<Steps> steps = work.steps;
  work.there = std::async(std::launch::async, [steps, task = std::move(task)]() -> Then {
    try {
      return task(*steps);
    } catch (const std::exception& error) {
      const std::string why = error.what();
      return [why](App& app) { tell(app, why, true); };
    }
  });
  return work;
}

void followWork(App& app) {
  if (!app.work || !app.work->there.valid()) return;
  if (app.work->there.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return;
  const Then then = app.work->there.get();
  app.work.reset();
  if (then) then(app);
  disturb(app);
}

std::string wordsFor(const Work& work) {
  const std::size_t of = work.steps->of;
  if (of == 0) return work.title + " …";
  return work.title + ": " + std::to_string(work.steps->done) + " of " + std::to_string(of) + " " + work.unit;
}

}  // namespace sillwright::view
