#include "sheet/drawing/polygon.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace sillwright::sheet {
namespace {

double signedArea(const std::vector<Vec>& polygon) {
  double sum = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec a = polygon[i];
    const Vec b = polygon[(i + 1) % polygon.size()];
    sum += a.x * b.y - b.x * a.y;
  }
  return sum / 2;
}

}  // namespace

std::vector<Vec> clipped(std::vector<Vec> polygon, const Box& box) {
  // Sutherland and Hodgman: one side of the box after the other.
  const auto clip = [&](auto inside, auto meet) {
    std::vector<Vec> kept;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Vec a = polygon[i];
      const Vec b = polygon[(i + 1) % polygon.size()];
      if (inside(a)) kept.push_back(a);
      if (inside(a) != inside(b)) kept.push_back(meet(a, b));
    }
    polygon = std::move(kept);
  };
  const auto atX = [](double x) { return [x](Vec a, Vec b) { return a + (b - a) * ((x - a.x) / (b.x - a.x)); }; };
  const auto atY = [](double y) { return [y](Vec a, Vec b) { return a + (b - a) * ((y - a.y) / (b.y - a.y)); }; };
  clip([&](Vec p) { return p.x >= box.x0; }, atX(box.x0));
  clip([&](Vec p) { return p.x <= box.x1; }, atX(box.x1));
  clip([&](Vec p) { return p.y >= box.y0; }, atY(box.y0));
  clip([&](Vec p) { return p.y <= box.y1; }, atY(box.y1));
  return polygon.size() < 3 ? std::vector<Vec>{} : polygon;
}

bool clip(const Box& box, Vec& from, Vec& to) {
  // Liang and Barsky.
  double enter = 0;
  double leave = 1;
  const Vec run = to - from;
  const std::array<std::array<double, 2>, 4> sides{
      {{-run.x, from.x - box.x0}, {run.x, box.x1 - from.x}, {-run.y, from.y - box.y0}, {run.y, box.y1 - from.y}}};
  for (const auto& [slope, room] : sides) {
    if (slope == 0) {
      if (room < 0) return false;
    } else if (slope < 0) {
      enter = std::max(enter, room / slope);
    } else {
      leave = std::min(leave, room / slope);
    }
  }
  if (enter > leave) return false;
  to = from + run * leave;
  from = from + run * enter;
  return true;
}

double areaOf(const std::vector<Vec>& polygon) {
  return std::abs(signedArea(polygon));
}

Vec centroidOf(const std::vector<Vec>& polygon) {
  const double area = signedArea(polygon);
  Vec sum{};
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec a = polygon[i];
    const Vec b = polygon[(i + 1) % polygon.size()];
    const double cross = a.x * b.y - b.x * a.y;
    sum = sum + (a + b) * cross;
  }
  return area != 0 ? sum * (1 / (6 * area)) : polygon.front();
}

}  // namespace sillwright::sheet
