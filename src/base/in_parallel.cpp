#include "base/in_parallel.h"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <deque>
#include <exception>
#include <memory>
#include <mutex>
#include <system_error>
#include <thread>

namespace sillwright::base {
namespace {

/// Stretches a thread: a core that is kept by something else then holds up a small part of the work only.
constexpr std::size_t kStretches = 8;

/// One call's work, taken stretch by stretch by all who help.
class Task {
 public:
  using Work = std::function<void(std::size_t first, std::size_t last)>;
  Task(std::size_t count, std::size_t stretch, const Work& work) : count_(count), stretch_(stretch), work_(work) {}

  /// Returns when no stretch is left. After `finish` nothing is left, and `work` is not looked at any more.
  void help() {
    at_work_.fetch_add(1);
    try {
      for (std::size_t first = next_.fetch_add(stretch_); first < count_; first = next_.fetch_add(stretch_)) {
        work_(first, std::min(first + stretch_, count_));
      }
    } catch (...) {
      const std::lock_guard<std::mutex> guard(holds_failure_);
      if (!failure_) failure_ = std::current_exception();
      next_ = count_;
    }
    if (at_work_.fetch_sub(1) == 1) at_work_.notify_all();
  }

  /// Waits for those who are at work still.
  void finish() {
    for (int others = at_work_; others > 0; others = at_work_) at_work_.wait(others);
    if (failure_) std::rethrow_exception(failure_);
  }

 private:
  std::size_t count_;
  std::size_t stretch_;
  const Work& work_;
  std::atomic<std::size_t> next_ = 0;
  std::atomic<int> at_work_ = 0;
  std::mutex holds_failure_;
  std::exception_ptr failure_;
};

/// Threads that wait for work: starting one anew for each picture would take longer than what it does. They are never
/// joined; at the program's end they wait, and hold nothing.
class Helpers {
 public:
  static Helpers& ofTheProgram() {
    static auto* const kHelpers = new Helpers;
    return *kHelpers;
  }

  /// Asks so many to help, fewer where the machine gives no more threads.
  void call(const std::shared_ptr<Task>& task, std::size_t helpers) {
    {
      const std::lock_guard<std::mutex> guard(holds_);
      try {
        for (; threads_ < helpers; ++threads_) std::thread([this] { wait(); }).detach();
      } catch (const std::system_error&) {
        helpers = std::min(helpers, threads_);
      }
      asked_.insert(asked_.end(), helpers, task);
    }
    some_asked_.notify_all();
  }

  /// Those who have not begun need not.
  void callOff(const std::shared_ptr<Task>& task) {
    const std::lock_guard<std::mutex> guard(holds_);
    std::erase(asked_, task);
  }

 private:
  [[noreturn]] void wait() {
    for (;;) {
      std::shared_ptr<Task> task;
      {
        std::unique_lock<std::mutex> lock(holds_);
        some_asked_.wait(lock, [this] { return !asked_.empty(); });
        task = std::move(asked_.front());
        asked_.pop_front();
      }
      task->help();
    }
  }

  std::mutex holds_;
  std::condition_variable some_asked_;
  std::deque<std::shared_ptr<Task>> asked_;
  std::size_t threads_ = 0;
};

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
  const auto task = std::make_shared<Task>(count, stretch, work);
  Helpers::ofTheProgram().call(task, wanted - 1);
  task->help();
  Helpers::ofTheProgram().callOff(task);
  task->finish();
}

}  // namespace sillwright::base
