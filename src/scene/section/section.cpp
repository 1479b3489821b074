#include "scene/section/section.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

#include "scene/groups.h"
#include "scene/mesh/mesh.h"
#include "scene/section/section_parts.h"

namespace sillwright::scene {
namespace {

constexpr double kLeastEdge = 1e-4;  // mm
constexpr double kLeastArea = 1e-3;  // mm²: what is smaller is a touch

double cross(const glm::dvec2& a, const glm::dvec2& b) { return a.x * b.y - a.y * b.x; }

double areaOf(const Outline& outline) {
  double sum = 0;
  for (std::size_t i = 0; i < outline.count; ++i) {
    sum += cross(outline.point[i], outline.point[(i + 1) % outline.count]);
  }
  return sum / 2;
}

void dropShortEdges(Outline& outline) {
  Outline kept;
  for (std::size_t i = 0; i < outline.count; ++i) {
    const glm::dvec2& next = outline.point[(i + 1) % outline.count];
    if (glm::distance(outline.point[i], next) >= kLeastEdge) kept.add(outline.point[i], outline.inked[i]);
  }
  outline = kept;
}

/// The lowest corner first, of two as low the left one: where a pattern starts.
void turnToLowest(Outline& outline) {
  std::size_t lowest = 0;
  const auto key = [&](std::size_t i) { return outline.point[i].y * 1.001 + outline.point[i].x; };
  for (std::size_t i = 1; i < outline.count; ++i) {
    if (key(i) < key(lowest)) lowest = i;
  }
  const auto by = static_cast<std::ptrdiff_t>(lowest);
  const auto count = static_cast<std::ptrdiff_t>(outline.count);
  std::rotate(outline.point.begin(), outline.point.begin() + by, outline.point.begin() + count);
  std::rotate(outline.inked.begin(), outline.inked.begin() + by, outline.inked.begin() + count);
}

/// Across the edge from which the furthest corner is nearest.
void measureWidth(const Outline& outline, const CutPlane& plane, CutFace& face) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < outline.count; ++i) {
    const glm::dvec2 along = glm::normalize(outline.point[(i + 1) % outline.count] - outline.point[i]);
    double most = 0;
    for (std::size_t k = 0; k < outline.count; ++k) {
      most = std::max(most, cross(along, outline.point[k] - outline.point[i]));
    }
    if (most >= least) continue;
    least = most;
    face.thin = glm::vec3(plane.side * -along.y + plane.up * along.x);
  }
  face.narrow = static_cast<float>(least);
}

/// The part of a convex outline on the inner side of a line: dot(out, p) + off ≤ 0. The new edge gets `ink`.
void clip(Outline& outline, const glm::dvec2& out, double off, bool ink) {
  Outline kept;
  for (std::size_t i = 0; i < outline.count; ++i) {
    const glm::dvec2& a = outline.point[i];
    const glm::dvec2& b = outline.point[(i + 1) % outline.count];
    const double at_a = glm::dot(out, a) + off;
    const double at_b = glm::dot(out, b) + off;
    const bool crosses = (at_a <= 0) != (at_b <= 0);
    if (at_a <= 0) kept.add(a, outline.inked[i]);
    if (!crosses) continue;
    const glm::dvec2 met = a + (b - a) * (at_a / (at_a - at_b));
    kept.add(met, at_a <= 0 ? ink : outline.inked[i]);
  }
  outline = kept;
}

/// A face none of whose edges is inked is where one piece of a part meets the next.
std::array<bool, 6> seamsOf(const Solid& solid) {
  std::array<bool, 6> seam{};
  const auto has = [](const std::array<std::uint8_t, 4>& face, std::uint8_t corner) {
    return std::find(face.begin(), face.end(), corner) != face.end();
  };
  for (std::size_t f = 0; f < 6; ++f) {
    bool any = false;
    for (std::size_t e = 0; e < kEdges.size(); ++e) {
      const bool on = has(kFaces[f], kEdges[e][0]) && has(kFaces[f], kEdges[e][1]);
      any = any || (on && (solid.edges >> e & 1U) != 0);
    }
    seam[f] = !any;
  }
  return seam;
}

/// Whether a placed box has corners on both sides of the plane, or in it.
bool reaches(const Cut& cut, const Box& box, const glm::mat4& place) {
  bool before = false;
  bool behind = false;
  for (const glm::vec3& corner : box.corners()) {
    const float beyond = cut.beyond(glm::vec3(place * glm::vec4(corner, 1.0F)));
    before = before || beyond >= 0.0F;
    behind = behind || beyond <= 0.0F;
  }
  return before && behind;
}

/// The cut being made.
struct Cutting {
  const Scene& scene;
  const Cut& cut;
  const PickFilter& shown;
  MeshBoxes boxes{scene.meshes};
  std::vector<CutFace> faces{};

  void take(const Run& run) {
    for (std::size_t i = run.solid; i < run.solid + run.solids; ++i) {
      const Part& part = scene.parts[scene.solids[i].part];
      if (!shown.shows(part)) continue;
      if (const auto face = cutThrough(scene.solids[i], cut, shown.shiftOf(scene, part))) faces.push_back(*face);
    }
    for (std::size_t i = run.use; i < run.use + run.uses; ++i) {
      const MeshUse& use = scene.uses[i];
      const Part& part = scene.parts[use.part];
      if (!shown.shows(part)) continue;
      glm::mat4 place(use.place);
      place[3] += glm::vec4(shown.shiftOf(scene, part), 0.0F);
      if (!reaches(cut, boxes[use.mesh], place)) continue;
      cutThrough(scene.meshes[use.mesh], place, cut, use.part, faces);
    }
  }

  void take(const Outer& outer) {
    const auto may = [&](const Box& box) { return reaches(cut, grown(box, shown.furthest()), glm::mat4{1.0F}); };
    if (scene.groups[outer.group].box && !may(*scene.groups[outer.group].box)) return;
    eachRun(scene, outer, may, [&](const Run& run) { take(run); });
  }

  /// In the order in which they have the place.
  std::vector<CutFace> sorted() {
    std::stable_sort(faces.begin(), faces.end(), [&](const CutFace& a, const CutFace& b) {
      return rankOf(scene.parts[a.part].material) < rankOf(scene.parts[b.part].material);
    });
    return std::move(faces);
  }
};

}  // namespace

CutAxes axesOf(const Cut& cut) {
  constexpr float kLevel = 0.999F;
  if (std::abs(cut.normal.z) > kLevel) {
    return {{1.0F, 0.0F, 0.0F}, {0.0F, cut.normal.z > 0.0F ? 1.0F : -1.0F, 0.0F}};
  }
  const glm::vec3 side = glm::normalize(glm::cross(glm::vec3(0.0F, 0.0F, 1.0F), cut.normal));
  return {side, glm::cross(cut.normal, side)};
}

CutPlane::CutPlane(const Cut& cut, const glm::dvec3& near) {
  assert(std::abs(glm::length(cut.normal) - 1.0F) < 1e-3F);
  const CutAxes axes = axesOf(cut);
  side = axes.side;
  up = axes.up;
  const glm::dvec3 normal = cut.normal;
  origin = near - normal * (glm::dot(normal, near) - static_cast<double>(cut.at));
}

std::optional<CutFace> faceOf(Outline outline, const CutPlane& plane) {
  dropShortEdges(outline);
  if (outline.count < 3 || outline.count > CutFace::kMostCorners || areaOf(outline) < kLeastArea) return std::nullopt;
  turnToLowest(outline);
  CutFace face;
  face.count = static_cast<std::uint8_t>(outline.count);
  for (std::size_t i = 0; i < outline.count; ++i) {
    face.corner[i] = glm::vec3(plane.from(outline.point[i]));
    if (outline.inked[i]) face.inked = static_cast<std::uint8_t>(face.inked | 1U << i);
  }
  measureWidth(outline, plane, face);
  return face;
}

std::optional<CutFace> cutThrough(const Solid& solid, const Cut& cut, glm::vec3 shift) {
  float low = std::numeric_limits<float>::max();
  float high = std::numeric_limits<float>::lowest();
  for (const glm::vec3& corner : solid.corner) {
    const float beyond = cut.beyond(corner + shift);
    low = std::min(low, beyond);
    high = std::max(high, beyond);
  }
  if (low > -kCutTouch || high < kCutTouch) return std::nullopt;

  std::array<glm::dvec3, 8> corner;
  glm::dvec3 middle{0.0};
  for (std::size_t i = 0; i < 8; ++i) {
    corner[i] = glm::dvec3(solid.corner[i]) + glm::dvec3(shift);
    middle += corner[i] / 8.0;
  }
  double reach = 1;
  for (const glm::dvec3& each : corner) reach = std::max(reach, 4 * glm::distance(each, middle));
  const CutPlane plane(cut, middle);
  Outline outline;
  for (const glm::dvec2& at : {glm::dvec2(-1, -1), glm::dvec2(1, -1), glm::dvec2(1, 1), glm::dvec2(-1, 1)}) {
    outline.add(at * reach, false);
  }
  const std::array<bool, 6> seam = seamsOf(solid);
  for (std::size_t f = 0; f < 6; ++f) {
    const auto& face = kFaces[f];
    // From its diagonals, so that a corner pulled onto its neighbour still leaves a plane.
    const glm::dvec3 out = glm::cross(corner[face[2]] - corner[face[0]], corner[face[3]] - corner[face[1]]);
    const double size = glm::length(out);
    if (size < kLeastArea) continue;
    const glm::dvec3 on = (corner[face[0]] + corner[face[1]] + corner[face[2]] + corner[face[3]]) / 4.0;
    clip(outline, glm::dvec2(glm::dot(out, plane.side), glm::dot(out, plane.up)) / size,
         glm::dot(out, plane.origin - on) / size, !seam[f]);
    if (outline.count == 0) return std::nullopt;
  }
  auto face = faceOf(outline, plane);
  if (!face) return std::nullopt;
  face->part = solid.part;
  const glm::dvec3 grain = corner[std::size_t{1} << std::min<std::uint8_t>(solid.grain, 2)] - corner[0];
  const double run = glm::length(grain);
  if (run > 0) {
    face->grain = glm::vec3(grain / run);
    face->across_grain = std::abs(glm::dot(face->grain, cut.normal)) > 0.7F;
  }
  return face;
}

int rankOf(Material material) {
  using M = Material;
  static constexpr std::array<M, kMaterials> kFirstToLast{
      M::Screw,     M::FlexibleFlashing, M::FoldedMetal,  M::Membrane, M::Rubber, M::Glass,
      M::Aluminium, M::Packer,           M::RevealTimber, M::Lining,   M::Batten, M::LintelTimber,
      M::Pine,      M::Cladding,         M::Brick,        M::Mortar,   M::Soffit, M::Floor};
  static constexpr std::array<int, kMaterials> kRanks = [] {
    std::array<int, kMaterials> ranks{};
    for (std::size_t i = 0; i < kMaterials; ++i) ranks[static_cast<std::size_t>(kFirstToLast[i])] = static_cast<int>(i);
    return ranks;
  }();
  return kRanks[static_cast<std::size_t>(material)];
}

std::vector<CutFace> sectionOf(const Scene& scene, const Cut& cut, const PickFilter& shown) {
  Cutting cutting{scene, cut, shown};
  const std::vector<Outer> outers = outerGroups(scene);
  for (const Outer& outer : outers) cutting.take(outer);
  if (outers.empty()) cutting.take(Run{0, scene.solids.size(), 0, scene.uses.size()});
  return cutting.sorted();
}

std::vector<CutFace> sectionOf(const Scene& scene, const Cut& cut, std::size_t opening) {
  const std::vector<Outer> outers = outerGroups(scene);
  assert(outers.size() == scene.walls.size() + 1 + scene.openings.size());
  const PickFilter all;
  Cutting cutting{scene, cut, all};
  cutting.take(outers[scene.openings[opening].wall]);
  cutting.take(outers[scene.walls.size() + 1 + opening]);
  return cutting.sorted();
}

}  // namespace sillwright::scene
