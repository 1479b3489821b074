#include "plan/stand/align.h"

#include <algorithm>
#include <limits>

#include "plan/stand/clearing.h"

namespace sillwright::plan {

namespace {

bool takesPart(const HeadRange& range) {
  return range.low <= range.high + kTouch;
}

/// The level that lies in the most ranges; the lowest of those.
double mostSuited(std::span<const HeadRange> ranges) {
  std::vector<double> lows;
  std::vector<double> highs;
  for (const HeadRange& range : ranges) {
    if (!takesPart(range)) continue;
    lows.push_back(range.low);
    highs.push_back(std::max(range.low, range.high));
  }
  std::sort(lows.begin(), lows.end());
  std::sort(highs.begin(), highs.end());
  double level = 0;
  std::size_t most = 0;
  for (std::size_t i = 0; i < lows.size(); ++i) {
    const auto ended =
        static_cast<std::size_t>(std::lower_bound(highs.begin(), highs.end(), lows[i] - kTouch) - highs.begin());
    if (i + 1 - ended > most) {
      most = i + 1 - ended;
      level = lows[i];
    }
  }
  return level;
}

}  // namespace

CommonHead commonHead(std::span<const HeadRange> ranges) {
  CommonHead common;
  constexpr double kFar = std::numeric_limits<double>::infinity();
  HeadRange all{-kFar, kFar, 0};
  double lowest = kFar;
  double highest = -kFar;
  for (std::size_t i = 0; i < ranges.size(); ++i) {
    const HeadRange& range = ranges[i];
    if (!takesPart(range)) {
      common.apart.push_back(i);
      continue;
    }
    all.low = std::max(all.low, range.low);
    all.high = std::min(all.high, range.high);
    lowest = std::min(lowest, range.preferred);
    highest = std::max(highest, range.preferred);
  }
  if (lowest > highest) return common;
  if (all.low <= all.high + kTouch) {
    common.level = std::clamp((lowest + highest) / 2, all.low, std::max(all.low, all.high));
    return common;
  }
  const double level = mostSuited(ranges);
  common.apart.clear();
  for (std::size_t i = 0; i < ranges.size(); ++i) {
    if (!takesPart(ranges[i]) || level < ranges[i].low - kTouch || level > ranges[i].high + kTouch) {
      common.apart.push_back(i);
    }
  }
  return common;
}

}  // namespace sillwright::plan
