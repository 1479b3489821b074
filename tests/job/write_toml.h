/// A job as TOML text, for the tests' round trips. Which of the allowed spellings is used is left to chance.
#pragma once

#include <cstdint>
#include <random>
#include <string>

#include "job/job.h"

namespace sillwright::job::test {

/// Chance that is the same on every platform (the standard distributions are not).
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : engine_(seed) {}

  bool often() { return engine_() % 4 != 0; }
  bool even() { return engine_() % 2 == 0; }
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(engine_() % count); }
  /// From `from` to `to`, now and then one of the two, half of the time without a fraction.
  double within(double from, double to);

 private:
  std::mt19937_64 engine_;
};

[[nodiscard]] std::string writeToml(const Job& job, Chance& chance);

}  // namespace sillwright::job::test
