/// The fuzzer's bytes as choices, asked as the tests' Chance is: one input is one job, and a byte changed in it is a
/// choice changed. Past the last byte every choice is the first one.
#pragma once

#include <cstddef>
#include <cstdint>

namespace sillwright::fuzz {

class Bytes {
 public:
  Bytes(const std::uint8_t* data, std::size_t size) : data_(data), left_(size) {}

  [[nodiscard]] bool empty() const { return left_ == 0; }
  bool often() { return next() % 4 != 0; }
  bool even() { return next() % 2 != 0; }

  std::size_t below(std::size_t count) { return count < 2 ? 0 : (count <= 256 ? next() : wide()) % count; }

  /// From `from` to `to`: one of the two, a whole number, or any.
  double within(double from, double to) {
    const std::size_t kind = next();
    if (kind == 0) return from;
    if (kind == 1) return to;
    const double share = static_cast<double>(wide()) / 65535;
    const double value = from + (to - from) * share;
    if (kind % 2 != 0) return value;
    const double whole = static_cast<double>(static_cast<std::int64_t>(value));
    return whole < from || whole > to ? value : whole;
  }

 private:
  std::size_t next() {
    if (left_ == 0) return 0;
    --left_;
    return *data_++;
  }
  std::size_t wide() {
    const std::size_t high = next();
    return high * 256 + next();
  }

  const std::uint8_t* data_;
  std::size_t left_;
};

}  // namespace sillwright::fuzz
