#include "base/temporary.h"

#include <unistd.h>

#include <array>
#include <atomic>
#include <csignal>

namespace sillwright::base {
namespace {

constexpr std::size_t kMost = 16;  // at once; what is past them is left behind by a signal
std::array<std::atomic<const char*>, kMost> paths{};
static_assert(std::atomic<const char*>::is_always_lock_free, "a signal's handler may read nothing else");

std::size_t takeSlot(const char* path) {
  for (std::size_t slot = 0; slot < kMost; ++slot) {
    const char* nobody = nullptr;
    if (paths[slot].compare_exchange_strong(nobody, path)) return slot;
  }
  return kMost;
}

std::atomic<int> holding = 0;  ///< How many SignalsHeld there are.
std::atomic<int> waiting = 0;  ///< The signal that came meanwhile; 0: none.
static_assert(std::atomic<int>::is_always_lock_free);

void takeOnce(int signal_number);

extern "C" void removeAndEnd(int signal_number) {
  if (holding > 0) {
    waiting = signal_number;
    takeOnce(signal_number);
    return;
  }
  for (std::size_t slot = kMost; slot-- > 0;) {
    const char* path = paths[slot].load();
    if (path != nullptr && ::unlink(path) != 0) ::rmdir(path);
  }
  ::raise(signal_number);  // its handler is gone by now: it ends the program when this one returns
}

void takeOnce(int signal_number) {
  struct sigaction now {};
  now.sa_handler = removeAndEnd;
  now.sa_flags = static_cast<int>(SA_RESETHAND);
  ::sigaction(signal_number, &now, nullptr);
}

}  // namespace

Temporary::Temporary(const std::filesystem::path& path) : path_(path.string()), slot_(takeSlot(path_.c_str())) {}

Temporary::~Temporary() {
  if (slot_ < kMost) paths[slot_].store(nullptr);
}

SignalsHeld::SignalsHeld() {
  ++holding;
}

SignalsHeld::~SignalsHeld() {
  if (--holding > 0) return;
  if (const int signal_number = waiting.exchange(0); signal_number != 0) ::raise(signal_number);
}

void removeTemporariesOnSignals() {
  for (const int signal_number : {SIGINT, SIGTERM, SIGHUP}) {
    struct sigaction was {};
    if (::sigaction(signal_number, nullptr, &was) != 0 || was.sa_handler != SIG_DFL) continue;
    takeOnce(signal_number);
  }
}

}  // namespace sillwright::base
