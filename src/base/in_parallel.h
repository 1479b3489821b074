/// Work that falls into like parts with nothing in common, done by as many threads as the machine has cores.
///
/// Each part writes to its own place of the answer, so that the answer is the same for any number of threads. Small
/// work stays on the calling thread: waking another costs about as much as planning an opening. The threads are
/// oneTBB's and wait between calls, so that a picture may ask for them many times a second. A stretch may itself call
/// inParallel.
#pragma once

#include <cstddef>
#include <functional>

namespace sillwright::base {

/// How many threads may be at work at once; 0: as many as the machine has cores.
struct Threads {
  unsigned most = 0;
};

/// Calls `work(first, last)` for stretches that together are 0 … `count`, each at least `least` long where there are so
/// many. Returns when all is done. What a stretch throws is thrown here (one of them, where several throw); stretches
/// that have not begun are then left out. `work` must not be empty.
void inParallel(std::size_t count, std::size_t least, Threads threads,
                const std::function<void(std::size_t first, std::size_t last)>& work);

}  // namespace sillwright::base
