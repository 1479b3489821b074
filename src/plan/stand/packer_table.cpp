#include "plan/stand/packer_table.h"

#include <algorithm>
#include <cmath>

namespace sillwright::plan {
namespace {

constexpr double kRounding = 1e-3;  // of a grid step
constexpr std::uint8_t kNever = 255;

}  // namespace

PackerTable::PackerTable(std::span<const double> stock, int most_pieces, double most_total) {
  // The thinnest sizes, sorted by insertion: stocks are short lists.
  for (const double thickness : stock) {
    if (!(thickness > 0) || thickness > kDeepestStack) continue;
    const auto end = size_.begin() + static_cast<std::ptrdiff_t>(sizes_);
    const auto at = std::lower_bound(size_.begin(), end, thickness);
    if (at != end && *at == thickness) continue;
    if (sizes_ == kMostSizes && at == end) continue;
    const auto last = sizes_ == kMostSizes ? end - 1 : end;
    std::move_backward(at, last, last + 1);
    *at = thickness;
    sizes_ = std::min(sizes_ + 1, kMostSizes);
  }
  for (std::size_t i = 0; i < sizes_; ++i) {
    steps_[i] = static_cast<std::uint16_t>(std::max(1.0, std::ceil(size_[i] * kStepsPerMm - kRounding)));
  }
  const int pieces = std::clamp(most_pieces, 0, static_cast<int>(kMostPieces));
  const double deepest = std::clamp(most_total, 0.0, kDeepestStack);
  const std::size_t reachable = sizes_ > 0 ? steps_[sizes_ - 1] * static_cast<std::size_t>(pieces) : 0;
  top_ = std::min(reachable, static_cast<std::size_t>(std::floor(deepest * kStepsPerMm + kRounding)));
  fill(pieces);
}

// Fewest pieces for every total; of those with as few, the one whose thickest piece is thickest (what is left of it
// is then the best of its own total, so the whole stack is in order).
void PackerTable::fill(int most_pieces) {
  std::array<std::uint8_t, kSteps + 1> fewest;
  fewest[0] = 0;
  for (std::size_t total = 1; total <= top_; ++total) {
    std::uint8_t best = kNever;
    for (std::size_t i = 0; i < sizes_ && steps_[i] <= total; ++i) {
      const std::uint8_t rest = fewest[total - steps_[i]];
      if (rest < most_pieces && rest + 1 <= best) {
        best = static_cast<std::uint8_t>(rest + 1);
        thickest_[total] = static_cast<std::uint8_t>(i);
      }
    }
    fewest[total] = best;
    total_[total] = best == kNever ? total_[total - 1] : static_cast<std::uint16_t>(total);
  }
}

Stack PackerTable::best(double gap) const {
  Stack stack;
  if (!(gap > 0)) return stack;
  const double steps = std::min(gap * kStepsPerMm + kRounding, static_cast<double>(top_));
  std::size_t rest = total_[static_cast<std::size_t>(steps)];
  while (rest > 0) {
    const std::size_t i = thickest_[rest];
    stack.piece[static_cast<std::size_t>(stack.pieces++)] = size_[i];
    stack.total += size_[i];
    rest -= steps_[i];
  }
  return stack;
}

}  // namespace sillwright::plan
