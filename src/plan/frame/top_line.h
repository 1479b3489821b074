/// The line along the top of a wall, and its parallels below it.
///
/// The top plates of a gable or raking wall are cut between two parallels of the wall's top line. A parallel lies
/// `down` below each slope, measured square to it; where slopes meet, neighbouring parallels are carried on until they
/// cross (the mitre); at the wall's ends they are cut plumb. A slope too short to reach that far down falls out where
/// it has shrunk to nothing, and its neighbours meet instead.
#pragma once

#include <algorithm>
#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

#include "plan/settle.h"
#include "plan/shape.h"

namespace sillwright::plan {

struct TopLine {
  /// One straight run between two corners.
  struct Run {
    double slope = 0;        ///< Rise over run, + is up to the right.
    std::size_t source = 0;  ///< The run of the wall's top line that this one is parallel to.
  };
  std::vector<Point> corner;  ///< One more than there are runs; first at x = 0, last at the wall's length.
  std::vector<Run> run;

  /// Height at x; beyond the ends the end runs go on.
  [[nodiscard]] double height(double x) const {
    if (run.empty()) return 0;
    const std::size_t i = runAt(x);
    return corner[i].z + run[i].slope * (x - corner[i].x);
  }
  /// Lowest and highest point over x0 … x1.
  [[nodiscard]] double lowest(double x0, double x1) const { return extreme(x0, x1, std::less<>()); }
  [[nodiscard]] double highest(double x0, double x1) const { return extreme(x0, x1, std::greater<>()); }

  /// The corner strictly between x0 and x1 (clear of both by more than touching) where there is exactly one; `many` is
  /// set where there are more.
  [[nodiscard]] std::optional<Point> cornerWithin(double x0, double x1, bool& many) const {
    many = false;
    if (run.empty()) return std::nullopt;
    const std::size_t i = runAt(x0 + kTouching) + 1;
    const auto within = [&](std::size_t at) { return at < run.size() && corner[at].x < x1 - kTouching; };
    many = within(i) && within(i + 1);
    return within(i) && !many ? std::optional(corner[i]) : std::nullopt;
  }

 private:
  [[nodiscard]] std::size_t runAt(double x) const {
    const auto after = std::upper_bound(corner.begin() + 1, corner.end() - 1, x,
                                        [](double at, const Point& each) { return at < each.x; });
    return static_cast<std::size_t>(after - corner.begin()) - 1;
  }

  /// The height over x0 … x1 that comes before all others.
  template <class Before>
  [[nodiscard]] double extreme(double x0, double x1, Before before) const {
    if (run.empty()) return 0;
    double most = std::min(height(x0), height(x1), before);
    for (std::size_t i = runAt(x0) + 1; i < run.size() && corner[i].x < x1; ++i)
      most = std::min(most, corner[i].z, before);
    return most;
  }
};

/// The parallel `down` below the wall's top line. A top line of fewer than two points gives a line without runs.
[[nodiscard]] TopLine topLineBelow(const WallSpec& wall, double down);

}  // namespace sillwright::plan
