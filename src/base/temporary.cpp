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

extern "C" void removeAndEnd(int signal_number) {
  for (std::size_t slot = kMost; slot-- > 0;) {
    const char* path = paths[slot].load();
    if (path != nullptr && ::unlink(path) != 0) ::rmdir(path);
  }
  ::raise(signal_number);  // its handler is gone by now: it ends the program when this one returns
}

}  // namespace

Temporary::Temporary(const std::filesystem::path& path) : path_(path.string()), slot_(takeSlot(path_.c_str())) {}

Temporary::~Temporary() {
  if (slot_ < kMost) paths[slot_].store(nullptr);
}

SignalsHeld::SignalsHeld() : before_{} {
  sigset_t ending;
  sigemptyset(&ending);
  for (const int signal_number : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&ending, signal_number);
  pthread_sigmask(SIG_BLOCK, &ending, &before_);
}

SignalsHeld::~SignalsHeld() {
  pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

void removeTemporariesOnSignals() {
  for (const int signal_number : {SIGINT, SIGTERM, SIGHUP}) {
    struct sigaction was {};
    if (::sigaction(signal_number, nullptr, &was) != 0 || was.sa_handler != SIG_DFL) continue;
    struct sigaction now {};
    now.sa_handler = removeAndEnd;
    now.sa_flags = static_cast<int>(SA_RESETHAND);
    ::sigaction(signal_number, &now, nullptr);
  }
}

}  // namespace sillwright::base
