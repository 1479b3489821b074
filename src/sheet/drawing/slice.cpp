#include "sheet/drawing/slice.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sillwright::sheet {
namespace {

constexpr double kLeastArea = 0.01;  // mm² of the wall: what is smaller is a touch

glm::dvec3 toLocal(const scene::WallFrame& wall, glm::vec3 world) {
  const glm::dvec3 off = glm::dvec3(world) - glm::dvec3(wall.origin);
  return {glm::dot(off, glm::dvec3(wall.along)), glm::dot(off, glm::dvec3(wall.inward)), off.z};
}

/// Points of a convex shape put in order round their middle, near-doubles dropped.
void sortRound(std::vector<Vec>& points) {
  Vec middle{};
  for (const Vec& point : points) middle = middle + point * (1.0 / static_cast<double>(points.size()));
  std::sort(points.begin(), points.end(), [&](Vec a, Vec b) {
    return std::atan2(a.y - middle.y, a.x - middle.x) < std::atan2(b.y - middle.y, b.x - middle.x);
  });
  const auto same = [](Vec a, Vec b) { return length(a - b) < 1e-6; };
  points.erase(std::unique(points.begin(), points.end(), same), points.end());
  while (points.size() > 1 && same(points.front(), points.back())) points.pop_back();
}

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

std::vector<CutSolid> slice(const scene::Scene& scene, std::size_t wall, std::int32_t opening, Cut cut, double at) {
  std::vector<CutSolid> found;
  const auto& frame = scene.walls[wall];
  for (const scene::Solid& solid : scene.solids) {
    const scene::Part& part = scene.parts[solid.part];
    if (part.wall != static_cast<std::int32_t>(wall)) continue;
    const bool of_wall = part.layer == scene::Layer::Frame || part.layer == scene::Layer::Lining ||
                         part.layer == scene::Layer::Battens || part.layer == scene::Layer::Cladding;
    if (part.opening != opening && !of_wall) continue;
    std::array<glm::dvec3, 8> corner;
    for (std::size_t i = 0; i < 8; ++i) corner[i] = toLocal(frame, solid.corner[i]);
    const auto off = [&](std::size_t i) { return (cut == Cut::AcrossWall ? corner[i].x : corner[i].z) - at; };
    CutSolid one;
    one.part = solid.part;
    for (const auto& edge : scene::kEdges) {
      const double a = off(edge[0]);
      const double b = off(edge[1]);
      if ((a < 0) == (b < 0)) continue;
      const glm::dvec3 point = corner[edge[0]] + (corner[edge[1]] - corner[edge[0]]) * (a / (a - b));
      one.outline.push_back(cut == Cut::AcrossWall ? Vec{point.y, point.z} : Vec{point.x, point.y});
    }
    if (one.outline.size() < 3) continue;
    sortRound(one.outline);
    if (one.outline.size() < 3 || areaOf(one.outline) < kLeastArea) continue;
    const glm::dvec3 grain = corner[std::size_t{1} << solid.grain] - corner[0];
    const double run = glm::length(grain);
    one.end_grain = run > 0 && std::abs(cut == Cut::AcrossWall ? grain.x : grain.z) > 0.7 * run;
    found.push_back(std::move(one));
  }
  return found;
}

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
