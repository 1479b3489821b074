#include "bench/programs.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <exception>
#include <stdexcept>
#include <system_error>

namespace sillwright::bench {
namespace {

double seconds(const timeval& time) {
  return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

}  // namespace

Folder::Folder(const std::string& name)
    : path(std::filesystem::temp_directory_path() / ("sillwright-" + name + "-" + std::to_string(getpid()))) {
  std::filesystem::create_directories(path);
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path, ignored);
}

double secondsNow() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

Took runProgram(const std::vector<std::string>& command) {
  std::vector<char*> arguments;
  std::vector<std::string> texts = command;
  for (std::string& text : texts) arguments.push_back(text.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const double start = secondsNow();
  const int refused = posix_spawnp(&child, arguments[0], &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (refused != 0) throw std::runtime_error("can't be started: " + command[0]);
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  Took took;
  took.seconds = secondsNow() - start;
  took.cpu_seconds = seconds(used.ru_utime) + seconds(used.ru_stime);
  took.most_megabytes = static_cast<double>(used.ru_maxrss) / 1024;
  took.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return took;
}

void doApart(const std::function<void()>& work) {
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("no process can be started");
  if (child == 0) {
    try {
      work();
    } catch (const std::exception& failed) {
      std::fprintf(stderr, "%s\n", failed.what());
      _exit(1);
    }
    _exit(0);  // nothing of the parent's is flushed or taken down twice
  }
  int status = 0;
  waitpid(child, &status, 0);
  if (status != 0) throw std::runtime_error("the work of a process failed");
}

Took median(const std::vector<Took>& runs) {
  const auto of = [&](double Took::*which) {
    std::vector<double> values;
    for (const Took& run : runs) values.push_back(run.*which);
    return median(values);
  };
  return {of(&Took::seconds), of(&Took::cpu_seconds), of(&Took::most_megabytes), runs.front().status};
}

}  // namespace sillwright::bench
