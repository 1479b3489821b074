#include "plan/top_line.h"

#include <algorithm>
#include <cmath>

namespace sillwright::plan {

namespace {

constexpr double kTouch = 1e-6;
constexpr double kSameSlope = 1e-12;

/// A parallel before it is cut: through (x, z) with a slope.
struct Parallel {
  double x = 0;
  double z = 0;
  double slope = 0;
  std::size_t source = 0;

  [[nodiscard]] double at(double where) const { return z + slope * (where - x); }
};

/// Where two neighbouring parallels meet. Parallels of one slope have no crossing: they meet square below the corner
/// that they share.
Point meeting(const Parallel& a, const Parallel& b, const std::vector<job::TopPoint>& top, double down) {
  const double turn = a.slope - b.slope;
  double x = 0;
  if (std::abs(turn) < kSameSlope) {
    x = top[b.source].x + down * b.slope / std::hypot(1, b.slope);
  } else {
    // Counted from b's own point, so that a level run keeps its height exactly.
    x = b.x + (b.z - a.at(b.x)) / turn;
  }
  return {x, std::abs(a.slope) < std::abs(b.slope) ? a.at(x) : b.at(x)};
}

Parallel parallelTo(const std::vector<job::TopPoint>& top, std::size_t run, double down) {
  const double slope = (top[run + 1].z - top[run].z) / (top[run + 1].x - top[run].x);
  return {top[run].x, top[run].z - down * std::hypot(1, slope), slope, run};
}

}  // namespace

std::size_t TopLine::runAt(double x) const {
  std::size_t at = 0;
  std::size_t end = run.size();
  while (end - at > 1) {
    const std::size_t middle = (at + end) / 2;
    (corner[middle].x <= x ? at : end) = middle;
  }
  return at;
}

double TopLine::height(double x) const {
  if (run.empty()) return 0;
  const std::size_t i = runAt(x);
  return corner[i].z + run[i].slope * (x - corner[i].x);
}

double TopLine::lowest(double x0, double x1) const {
  if (run.empty()) return 0;
  double low = std::min(height(x0), height(x1));
  for (std::size_t i = runAt(x0) + 1; i < run.size() && corner[i].x < x1; ++i) low = std::min(low, corner[i].z);
  return low;
}

double TopLine::highest(double x0, double x1) const {
  if (run.empty()) return 0;
  double high = std::max(height(x0), height(x1));
  for (std::size_t i = runAt(x0) + 1; i < run.size() && corner[i].x < x1; ++i) high = std::max(high, corner[i].z);
  return high;
}

std::optional<Point> TopLine::cornerWithin(double x0, double x1, bool& many) const {
  many = false;
  std::optional<Point> found;
  if (run.empty()) return found;
  for (std::size_t i = runAt(x0 + kTouch) + 1; i < run.size() && corner[i].x < x1 - kTouch; ++i) {
    if (found) {
      many = true;
      return std::nullopt;
    }
    found = corner[i];
  }
  return found;
}

TopLine topLineBelow(const WallSpec& wall, double down) {
  TopLine line;
  const auto& top = wall.top;
  if (top.size() < 2 || !(wall.length > 0)) return line;
  line.run.reserve(top.size() - 1);
  line.corner.reserve(top.size());

  std::vector<Parallel> kept;
  kept.reserve(top.size() - 1);
  const double left_end = top.front().x;
  const double right_end = top.back().x;
  std::vector<Point>& corner = line.corner;  // corner[i]: where kept[i] begins.
  for (std::size_t i = 0; i + 1 < top.size(); ++i) {
    if (!(top[i + 1].x > top[i].x)) continue;
    const Parallel next = parallelTo(top, i, down);
    Point begin{left_end, next.at(left_end)};
    while (!kept.empty()) {
      begin = meeting(kept.back(), next, top, down);
      if (begin.x > corner.back().x + kTouch) break;
      kept.pop_back();
      corner.pop_back();
      begin = {left_end, next.at(left_end)};
    }
    kept.push_back(next);
    corner.push_back(begin);
  }
  while (kept.size() > 1 && corner.back().x >= right_end - kTouch) {
    kept.pop_back();
    corner.pop_back();
  }
  if (kept.empty()) {
    corner.clear();
    return line;
  }
  corner.push_back({right_end, kept.back().at(right_end)});
  for (const Parallel& parallel : kept) line.run.push_back({parallel.slope, parallel.source});
  return line;
}

}  // namespace sillwright::plan
