#include "base/error.h"

#include <sys/mman.h>
#include <latch>
#include <new>
#include <stdexcept>
#include <string_view>
#include <system_error>
#include <thread>

namespace sillwright::base {

std::string toLine(const Error& error) {
  std::string line = error.file;
  const auto part = [&line](std::string_view text, std::string_view before) {
    if (!line.empty()) line += before;
    line += text;
  };
  if (error.at.line > 0) {
    part(std::to_string(error.at.line), ":");
    if (error.at.column > 0) part(std::to_string(error.at.column), ":");
  }
  if (!error.key.empty()) part(error.key, ": ");
  part(error.say, ": ");
  return line;
}

#ifndef __EMSCRIPTEN__  // a page asks nothing of its machine

namespace {

void needMemory(std::size_t mebibytes) {
  const std::size_t bytes = mebibytes << 20U;
  // Counted against the process's limit, but never filled.
  void* const room = ::mmap(nullptr, bytes, PROT_NONE, MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
  if (room == MAP_FAILED) throw std::bad_alloc();
  ::munmap(room, bytes);
}

void needThreads(unsigned count) {
  std::latch go(1);  // keeps each thread alive until all have begun: a limit counts those that live at once
  std::vector<std::jthread> all;
  try {
    for (unsigned i = 0; i < count; ++i) all.emplace_back([&go] { go.wait(); });
  } catch (const std::system_error&) {
    go.count_down();  // those that have begun are joined on the way out, and would wait for ever
    throw std::runtime_error("Drawing needs further threads, and this machine lets the program start none.");
  }
  go.count_down();
}

}  // namespace

void needRoom(std::size_t mebibytes, unsigned threads) {
  needMemory(mebibytes);
  needThreads(threads);
}

#endif

}  // namespace sillwright::base
