#include "base/in_parallel.h"

#ifndef __EMSCRIPTEN__
#include <oneapi/tbb/blocked_range.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>
#endif

#include <algorithm>
#include <cassert>

/// jemalloc's settings: large pages. Handing out small ones would be a tenth of the work of a large report.
const char* malloc_conf = "thp:always,metadata_thp:auto";

namespace sillwright::base {

void inParallel(std::size_t count, std::size_t least, Threads threads,
                const std::function<void(std::size_t first, std::size_t last)>& work) {
  assert(work);
  if (count == 0) return;
  least = std::max<std::size_t>(least, 1);                            // 0 would make the grain below wrap round
  if (threads.most == 1 || count < 2 * least) return work(0, count);  // two stretches would be below `least`
#ifdef __EMSCRIPTEN__                                                 // a page has one thread
  work(0, count);
#else
  const auto share = [&] {
    // A range is halved while it is longer than its grain: no half is then shorter than `least`.
    using Range = oneapi::tbb::blocked_range<std::size_t>;
    oneapi::tbb::parallel_for(Range(0, count, 2 * least - 1),
                              [&](const Range& stretch) { work(stretch.begin(), stretch.end()); });
  };
  // While a thread waits for its own stretches it takes no work of other calls: `work` may hold what those want.
  if (threads.most == 0) return oneapi::tbb::this_task_arena::isolate(share);
  oneapi::tbb::task_arena(static_cast<int>(threads.most)).execute(share);
#endif
}

}  // namespace sillwright::base
