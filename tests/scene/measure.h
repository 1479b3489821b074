/// Measuring a scene from its corners alone, without the code that made it.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "scene/scene.h"

namespace sillwright::scene::measure {

using Vec = glm::dvec3;

inline std::array<Vec, 8> corners(const Solid& solid) {
  std::array<Vec, 8> all;
  for (std::size_t i = 0; i < 8; ++i) all[i] = Vec(solid.corner[i]);
  return all;
}

inline Vec middle(const Solid& solid) {
  Vec sum{0.0};
  for (const Vec& corner : corners(solid)) sum += corner;
  return sum / 8.0;
}

/// Unit normal of a face; zero where the face has no area to speak of.
inline Vec normal(const Solid& solid, std::size_t face) {
  const auto all = corners(solid);
  const auto& f = kFaces[face];
  const Vec n = glm::cross(all[f[2]] - all[f[0]], all[f[3]] - all[f[1]]);
  const double size = glm::length(n);
  return size > 1e-9 ? n / size : Vec{0.0};
}

/// Sum of the cones from the middle over all faces (divergence theorem); negative where the corners are left-handed.
inline double volume(const Solid& solid) {
  const auto all = corners(solid);
  const Vec centre = middle(solid);
  double sum = 0;
  for (const auto& f : kFaces) {
    for (const auto& t : {std::array<std::size_t, 3>{0, 1, 2}, std::array<std::size_t, 3>{0, 2, 3}}) {
      sum += glm::dot(all[f[t[0]]] - centre, glm::cross(all[f[t[1]]] - centre, all[f[t[2]]] - centre)) / 6.0;
    }
  }
  return sum;
}

/// How far the corners of any face stand off its plane, and how far any corner stands outside a face.
struct Shape {
  double off_plane = 0;
  double outside = 0;
};

inline Shape shape(const Solid& solid) {
  const auto all = corners(solid);
  Shape worst;
  for (std::size_t f = 0; f < 6; ++f) {
    const Vec n = normal(solid, f);
    Vec on{0.0};
    for (const std::uint8_t c : kFaces[f]) on += all[c] / 4.0;
    for (const std::uint8_t c : kFaces[f])
      worst.off_plane = std::max(worst.off_plane, std::abs(glm::dot(all[c] - on, n)));
    for (const Vec& corner : all) worst.outside = std::max(worst.outside, glm::dot(corner - on, n));
  }
  return worst;
}

inline Box box(const Solid& solid) {
  Box all{solid.corner[0], solid.corner[0]};
  for (const glm::vec3& corner : solid.corner) {
    all.low = glm::min(all.low, corner);
    all.high = glm::max(all.high, corner);
  }
  return all;
}

inline void grow(Box& a, const Box& b) {
  a.low = glm::min(a.low, b.low);
  a.high = glm::max(a.high, b.high);
}

/// Box round all solids of the parts that `want` picks; empty boxes have low above high.
template <class Want>
Box boxOf(const Scene& scene, Want want) {
  constexpr float kFar = std::numeric_limits<float>::max();
  Box all{glm::vec3(kFar), glm::vec3(-kFar)};
  for (const Solid& solid : scene.solids) {
    if (want(scene.parts[solid.part])) grow(all, box(solid));
  }
  return all;
}

template <class Want>
double volumeOf(const Scene& scene, Want want) {
  double sum = 0;
  for (const Solid& solid : scene.solids) {
    if (want(scene.parts[solid.part])) sum += volume(solid);
  }
  return sum;
}

inline auto kindIs(PartKind kind, int opening = -2) {
  return [=](const Part& part) { return part.kind == kind && (opening == -2 || part.opening == opening); };
}

/// How deep two convex solids stand in each other: the least overlap over all separating directions (face normals and
/// cross products of edges); 0 or less where they don't.
inline double overlap(const Solid& a, const Solid& b) {
  const auto ca = corners(a);
  const auto cb = corners(b);
  double least = std::numeric_limits<double>::infinity();
  const auto along = [&](const Vec& axis) {
    const double size = glm::length(axis);
    if (size < 1e-9) return;
    const auto span = [&](const std::array<Vec, 8>& all) {
      double low = std::numeric_limits<double>::infinity(), high = -low;
      for (const Vec& corner : all) {
        low = std::min(low, glm::dot(corner, axis) / size);
        high = std::max(high, glm::dot(corner, axis) / size);
      }
      return std::array<double, 2>{low, high};
    };
    const auto sa = span(ca), sb = span(cb);
    least = std::min(least, std::min(sa[1], sb[1]) - std::max(sa[0], sb[0]));
  };
  for (std::size_t f = 0; f < 6; ++f) {
    along(normal(a, f));
    along(normal(b, f));
    if (least <= 0) return least;
  }
  for (const auto& ea : kEdges) {
    for (const auto& eb : kEdges) {
      along(glm::cross(glm::normalize(ca[ea[1]] - ca[ea[0]]), glm::normalize(cb[eb[1]] - cb[eb[0]])));
      if (least <= 0) return least;
    }
  }
  return least;
}

/// Pairs of solids of different parts that stand in each other by more than `tolerance`, in words.
template <class Want>
std::vector<std::string> overlaps(const Scene& scene, Want want, double tolerance) {
  struct Item {
    std::size_t solid;
    Box box;
  };
  std::vector<Item> items;
  for (std::size_t i = 0; i < scene.solids.size(); ++i) {
    if (want(scene.parts[scene.solids[i].part])) items.push_back({i, box(scene.solids[i])});
  }
  std::sort(items.begin(), items.end(), [](const Item& a, const Item& b) { return a.box.low.x < b.box.low.x; });
  const auto slack = static_cast<float>(tolerance);
  std::vector<std::string> found;
  for (std::size_t i = 0; i < items.size(); ++i) {
    for (std::size_t j = i + 1; j < items.size() && items[j].box.low.x < items[i].box.high.x - slack; ++j) {
      const Box& p = items[i].box;
      const Box& q = items[j].box;
      if (p.low.y > q.high.y - slack || q.low.y > p.high.y - slack) continue;
      if (p.low.z > q.high.z - slack || q.low.z > p.high.z - slack) continue;
      const Solid& a = scene.solids[items[i].solid];
      const Solid& b = scene.solids[items[j].solid];
      if (a.part == b.part) continue;
      const double deep = overlap(a, b);
      if (deep <= tolerance) continue;
      const auto say = [&](const Solid& s) {
        const Part& part = scene.parts[s.part];
        return std::to_string(static_cast<int>(part.kind)) + " (wall " + std::to_string(part.wall) + ", opening " +
               std::to_string(part.opening) + ")";
      };
      found.push_back(say(a) + " in " + say(b) + " by " + std::to_string(deep));
    }
  }
  return found;
}

}  // namespace sillwright::scene::measure
