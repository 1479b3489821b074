#include "job/in_parallel.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace sillwright::job {
namespace {

/// Stretches a thread: a core that is kept by something else then holds up a small part of the work only.
constexpr std::size_t kStretches = 8;

}  // namespace

void inParallel(std::size_t count, std::size_t least, Threads threads,
                const std::function<void(std::size_t first, std::size_t last)>& work) {
  const std::size_t most = threads.most > 0 ? threads.most : std::max(1U, std::thread::hardware_concurrency());
  const std::size_t wanted = std::min(most, count / std::max<std::size_t>(least, 1));
  if (wanted < 2) {
    if (count > 0) work(0, count);
    return;
  }
  const std::size_t stretch = std::max(least, (count + wanted * kStretches - 1) / (wanted * kStretches));
  std::atomic<std::size_t> next = 0;
  std::mutex holds_failure;
  std::exception_ptr failure;
  const auto help = [&] {
    try {
      for (;;) {
        const std::size_t first = next.fetch_add(stretch);
        if (first >= count) return;
        work(first, std::min(first + stretch, count));
      }
    } catch (...) {
      const std::lock_guard<std::mutex> guard(holds_failure);
      if (!failure) failure = std::current_exception();
      next = count;
    }
  };
  {
    std::vector<std::jthread> helpers;
    helpers.reserve(wanted - 1);
    try {
      while (helpers.size() + 1 < wanted) helpers.emplace_back(help);
    } catch (const std::system_error&) {
      // The machine gives no more threads: those that there are do all.
    }
    help();
  }
  if (failure) std::rethrow_exception(failure);
}

}  // namespace sillwright::job
