#include "bench/display.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <string>

namespace sillwright::bench {
namespace {

constexpr int kNumberTo = 3;  // the server writes the number of its display to this file descriptor

/// What the server writes, up to the line's end or its own.
std::string lineFrom(int file) {
  std::string line;
  char c = 0;
  while (read(file, &c, 1) == 1 && c != '\n') line += c;
  return line;
}

}  // namespace

Display::Display() {
  if (std::getenv("DISPLAY") != nullptr) {
    there_ = true;
    return;
  }
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) return;
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, ends[1], kNumberTo);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  std::array<std::string, 6> words{"Xvfb", "-displayfd", std::to_string(kNumberTo), "-screen", "0", "1280x800x24"};
  std::array<char*, 7> arguments{};
  for (std::size_t i = 0; i < words.size(); ++i) arguments[i] = words[i].data();
  const int refused = posix_spawnp(&server_, "Xvfb", &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  close(ends[1]);
  const std::string number = refused == 0 ? lineFrom(ends[0]) : std::string{};
  close(ends[0]);
  if (refused != 0) server_ = 0;
  if (number.empty()) return;
  setenv("DISPLAY", (":" + number).c_str(), 1);
  there_ = true;
}

Display::~Display() {
  if (server_ <= 0) return;
  unsetenv("DISPLAY");
  kill(server_, SIGTERM);
  waitpid(server_, nullptr, 0);
}

}  // namespace sillwright::bench
