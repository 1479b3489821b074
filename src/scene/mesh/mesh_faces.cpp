// Polygons to triangles, and triangles to the lines that are inked.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <tuple>

#include "scene/mesh/mesh.h"
#include "scene/mesh/mesh_parts.h"

namespace sillwright::scene {
namespace {

/// Twice the area of a triangle as a vector square to it.
glm::dvec3 normalOf(const Faces& faces, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
  const glm::dvec3 origin(faces.vertex[a]);
  return glm::cross(glm::dvec3(faces.vertex[b]) - origin, glm::dvec3(faces.vertex[c]) - origin);
}

/// Newell's sum: right for polygons of any shape, flat or nearly so.
glm::dvec3 normalOf(const Faces& faces, const std::vector<std::uint32_t>& ring) {
  glm::dvec3 sum{0.0};
  for (std::size_t i = 2; i < ring.size(); ++i) sum += normalOf(faces, ring[0], ring[i - 1], ring[i]);
  return sum;
}

void addTriangle(Faces& faces, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
  constexpr double kLeastArea = 1e-9;  // mm², twice over: less is a line or a point
  if (glm::length(normalOf(faces, a, b, c)) <= kLeastArea) return;
  faces.corner.insert(faces.corner.end(), {a, b, c});
}

/// Whether `p` lies in the triangle, seen along `up`; on its edge counts.
bool inside(const Faces& faces, std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t p,
            const glm::dvec3& up) {
  return glm::dot(normalOf(faces, a, b, p), up) >= 0 && glm::dot(normalOf(faces, b, c, p), up) >= 0 &&
         glm::dot(normalOf(faces, c, a, p), up) >= 0;
}

bool isEar(const Faces& faces, const std::vector<std::uint32_t>& ring, std::size_t at, const glm::dvec3& up) {
  const std::size_t count = ring.size();
  const std::uint32_t a = ring[(at + count - 1) % count];
  const std::uint32_t b = ring[at];
  const std::uint32_t c = ring[(at + 1) % count];
  if (glm::dot(normalOf(faces, a, b, c), up) <= 0) return false;
  return std::none_of(ring.begin(), ring.end(),
                      [&](std::uint32_t p) { return p != a && p != b && p != c && inside(faces, a, b, c, p, up); });
}

struct HalfEdge {
  std::uint32_t low = 0;
  std::uint32_t high = 0;
  std::uint32_t triangle = 0;
  bool rises = false;  // walked from low to high
};

/// For each vertex, the first vertex at the same place.
std::vector<std::uint32_t> merged(const std::vector<glm::vec3>& vertex) {
  std::vector<std::uint32_t> order(vertex.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto key = [&](std::uint32_t i) { return std::make_tuple(vertex[i].x, vertex[i].y, vertex[i].z); };
  std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
    return std::tuple_cat(key(a), std::make_tuple(a)) < std::tuple_cat(key(b), std::make_tuple(b));
  });
  std::vector<std::uint32_t> first(vertex.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    const bool same = i > 0 && key(order[i]) == key(order[i - 1]);
    first[order[i]] = same ? first[order[i - 1]] : order[i];
  }
  return first;
}

}  // namespace

bool addPolygonTo(Faces& faces, std::vector<std::uint32_t>& ring) {
  const glm::dvec3 up = normalOf(faces, ring);
  while (ring.size() > 3) {
    std::size_t at = 0;
    while (at < ring.size() && !isEar(faces, ring, at, up)) ++at;
    faces.effort += (at + 1) * ring.size();
    if (faces.effort > kMostEffort) return false;
    // A polygon that crosses itself may have no ear; its corners are then cut off in turn.
    if (at == ring.size()) at = 1;
    const std::size_t count = ring.size();
    addTriangle(faces, ring[(at + count - 1) % count], ring[at], ring[(at + 1) % count]);
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(at));
  }
  if (ring.size() == 3) addTriangle(faces, ring[0], ring[1], ring[2]);
  return true;
}

std::vector<glm::vec3> inkedLines(const Faces& faces) {
  const std::vector<std::uint32_t> first = merged(faces.vertex);
  std::vector<HalfEdge> edges;
  edges.reserve(faces.corner.size());
  for (std::uint32_t i = 0; i < faces.corner.size(); ++i) {
    const std::uint32_t next = i % 3 == 2 ? i - 2 : i + 1;
    const std::uint32_t a = first[faces.corner[i]];
    const std::uint32_t b = first[faces.corner[next]];
    edges.push_back({std::min(a, b), std::max(a, b), i / 3, a < b});
  }
  const auto key = [](const HalfEdge& e) { return std::tie(e.low, e.high, e.triangle); };
  std::sort(edges.begin(), edges.end(), [&](const HalfEdge& a, const HalfEdge& b) { return key(a) < key(b); });
  const auto facing = [&](const HalfEdge& e) {
    const std::size_t t = std::size_t{3} * e.triangle;
    const glm::dvec3 normal =
        glm::normalize(normalOf(faces, faces.corner[t], faces.corner[t + 1], faces.corner[t + 2]));
    return e.rises ? normal : -normal;
  };
  const double least_cosine = std::cos(kInkedTurnDegrees * std::numbers::pi / 180.0);
  std::vector<glm::vec3> lines;
  for (std::size_t i = 0; i < edges.size();) {
    std::size_t end = i + 1;
    while (end < edges.size() && edges[end].low == edges[i].low && edges[end].high == edges[i].high) ++end;
    // Two triangles that walk their edge in opposite directions face the same way; the sign above sees to both cases.
    const bool smooth = end - i == 2 && -glm::dot(facing(edges[i]), facing(edges[i + 1])) > least_cosine;
    if (!smooth && edges[i].low != edges[i].high) {
      lines.push_back(faces.vertex[edges[i].low]);
      lines.push_back(faces.vertex[edges[i].high]);
    }
    i = end;
  }
  return lines;
}

}  // namespace sillwright::scene
