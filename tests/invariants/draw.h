/// Choices drawn from a row of numbers, so that a job can be made smaller by making the numbers smaller.
///
/// Every choice takes the next number; 0 always stands for the plainest answer, and a row that has run out gives zeros.
/// A failing job is therefore shrunk without knowing anything of jobs: rows of zeros are walls and openings that are
/// plain, or are not there at all.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <span>

namespace sillwright::testing {

class Draw {
 public:
  explicit Draw(std::span<const std::uint32_t> numbers) : numbers_(numbers) {}

  /// 0 … most.
  int upTo(int most) { return static_cast<int>(next() % static_cast<std::uint32_t>(most + 1)); }
  /// True once in `times`; never for 0.
  bool oneIn(int times) { return upTo(times - 1) == times - 1; }
  /// A value on the steps from `low`, which is the plainest, to `high`.
  double between(double low, double high, double step = 1) {
    return low + step * upTo(static_cast<int>(std::floor((high - low) / step + 1e-9)));
  }
  /// 0, or off it by up to `most` either way.
  double off(double most, double step = 0.5) {
    const double size = between(0, most, step);
    return oneIn(2) ? -size : size;
  }
  template <class T>
  T oneOf(std::initializer_list<T> choices) {
    return *(choices.begin() + upTo(static_cast<int>(choices.size()) - 1));
  }

 private:
  std::uint32_t next() { return at_ < numbers_.size() ? numbers_[at_++] : 0; }

  std::span<const std::uint32_t> numbers_;
  std::size_t at_ = 0;
};

}  // namespace sillwright::testing
