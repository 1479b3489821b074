#include "plan/survey/misreading.h"

#include <array>
#include <cmath>
#include <utility>

namespace sillwright::plan {
namespace {

constexpr double kTimesNearer = 3;
constexpr double kLongest = 1e6;  // mm: what comes after is no length of an opening

/// The nearest to what is expected of all that are offered.
struct Nearest {
  double expected, within;
  std::optional<double> found;

  void offer(double length) {
    const double off = std::abs(length - expected);
    if (length > 0 && off <= within && (!found || off < std::abs(*found - expected))) found = length;
  }
};

void offerSwaps(double read, Nearest& nearest) {
  const double whole = std::floor(read);
  for (double place = 1; place * 10 <= whole; place *= 10) {
    const double low = std::fmod(std::floor(whole / place), 10);
    const double high = std::fmod(std::floor(whole / (place * 10)), 10);
    nearest.offer(read + (low - high) * place * 9);
  }
}

void offerLookalikes(double read, Nearest& nearest) {
  constexpr std::array<std::pair<int, int>, 4> kAlike = {{{1, 7}, {3, 8}, {0, 6}, {6, 9}}};
  const double whole = std::floor(read);
  for (double place = 1; place <= whole; place *= 10) {
    const int digit = static_cast<int>(std::fmod(std::floor(whole / place), 10));
    for (const auto& [a, b] : kAlike) {
      if (digit == a) nearest.offer(read + (b - a) * place);
      if (digit == b) nearest.offer(read + (a - b) * place);
    }
  }
}

}  // namespace

std::optional<double> lengthMeant(double read, double expected, double within) {
  if (!(read > 0 && read < kLongest && std::isfinite(expected))) return std::nullopt;
  Nearest nearest{expected, std::fmin(within, std::abs(read - expected) / kTimesNearer), std::nullopt};
  offerSwaps(read, nearest);
  if (nearest.found) return nearest.found;
  for (const double added : {10.0, 100.0, 1000.0}) {
    nearest.offer(read - added);
    nearest.offer(read + added);
  }
  if (!nearest.found) offerLookalikes(read, nearest);
  return nearest.found;
}

}  // namespace sillwright::plan
