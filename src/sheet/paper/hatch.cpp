#include "sheet/paper/hatch.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace sillwright::sheet {

std::vector<std::array<Vec, 2>> hatchLines(std::span<const Vec> polygon, double degrees, double spacing) {
  std::vector<std::array<Vec, 2>> lines;
  if (polygon.size() < 3 || !(spacing > 0)) return lines;
  const double angle = degrees * std::numbers::pi / 180;
  const Vec along{std::cos(angle), -std::sin(angle)};
  const Vec across{-along.y, along.x};
  const auto dot = [](Vec a, Vec b) { return a.x * b.x + a.y * b.y; };
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const Vec& corner : polygon) {
    low = std::min(low, dot(corner, across));
    high = std::max(high, dot(corner, across));
  }
  std::vector<double> crossings;
  for (double k = std::ceil(low / spacing); k * spacing < high; ++k) {
    const double at = k * spacing;
    crossings.clear();
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Vec a = polygon[i];
      const Vec b = polygon[(i + 1) % polygon.size()];
      const double da = dot(a, across) - at;
      const double db = dot(b, across) - at;
      // Half-open: a corner that lies on the line counts for one of its two edges only.
      if ((da < 0) == (db < 0)) continue;
      const double t = da / (da - db);
      crossings.push_back(dot(a + (b - a) * t, along));
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
      if (crossings[i + 1] - crossings[i] < 1e-9) continue;
      lines.push_back({along * crossings[i] + across * at, along * crossings[i + 1] + across * at});
    }
  }
  return lines;
}

}  // namespace sillwright::sheet
