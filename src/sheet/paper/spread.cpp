#include "sheet/paper/spread.h"

#include <algorithm>
#include <cstddef>

namespace sillwright::sheet {
namespace {

/// A run of labels that touch: pool-adjacent-violators of isotonic regression.
struct Pool {
  double sum = 0;
  std::size_t count = 0;
  [[nodiscard]] double mean() const { return sum / static_cast<double>(count); }
};

}  // namespace

std::vector<double> spread(std::span<const double> wanted, std::span<const double> sizes, double low, double high) {
  const std::size_t n = wanted.size();
  std::vector<double> places(n);
  if (n == 0) return places;
  // With each label's least distance from the first subtracted, "none overlap" becomes "the places don't fall".
  std::vector<double> offset(n, 0.0);
  for (std::size_t i = 1; i < n; ++i) offset[i] = offset[i - 1] + (sizes[i - 1] + sizes[i]) / 2;
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < n; ++i) {
    pools.push_back({wanted[i] - offset[i], 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back().sum += last.sum;
      pools.back().count += last.count;
    }
  }
  // The ends are bounds on every reduced place, and clamping keeps their order.
  const double least = low + sizes.front() / 2;
  const double most = std::max(least, high - sizes.back() / 2 - offset.back());
  std::size_t i = 0;
  for (const Pool& pool : pools) {
    for (std::size_t k = 0; k < pool.count; ++k, ++i) places[i] = std::clamp(pool.mean(), least, most) + offset[i];
  }
  return places;
}

}  // namespace sillwright::sheet
