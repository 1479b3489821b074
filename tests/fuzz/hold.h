/// What a fuzz target asks of the program: a promise that doesn't hold ends the process, and libFuzzer keeps the input.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"

namespace sillwright::fuzz {

inline void hold(bool truth, std::string_view promise) {
  if (truth) return;
  std::fprintf(stderr, "Does not hold: %.*s\n", static_cast<int>(promise.size()), promise.data());
  std::abort();
}

/// Stands at the beginning of a target: the program answers the input within a second of the processor's own time. The
/// sanitizers and the fuzzer's own hooks take five times as long and more, so five seconds are given here. The wall's
/// clock is libFuzzer's; a busy machine is no fault of an input.
class InTime {
 public:
  InTime() : start_(std::clock()) {}
  ~InTime() { hold(std::clock() - start_ < 5 * CLOCKS_PER_SEC, "an input is answered within a second"); }
  InTime(const InTime&) = delete;
  InTime& operator=(const InTime&) = delete;

 private:
  std::clock_t start_;
};

/// A reader's answer is a value or errors, and each error is one line that says something.
template <class T>
void holdAnswer(const base::Result<T>& answer) {
  hold(answer.ok() == answer.errors.empty(), "a value or errors");
  for (const base::Error& error : answer.errors) {
    hold(!error.say.empty(), "an error says something");
    hold(base::toLine(error).find('\n') == std::string::npos, "an error is one line");
  }
}

/// The input in memory of exactly its size, so that a read past its end is seen.
inline std::vector<char> exactly(const std::uint8_t* data, std::size_t size) { return {data, data + size}; }
inline std::string_view textOf(const std::vector<char>& bytes) { return {bytes.data(), bytes.size()}; }

}  // namespace sillwright::fuzz
