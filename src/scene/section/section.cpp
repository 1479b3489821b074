#include "scene/section/section.h"

#include <cassert>
#include <limits>
#include <utility>

#include "scene/build/strips.h"

namespace sillwright::scene {
namespace {

constexpr double kLeastEdge = 1e-4;  // mm
constexpr double kLeastArea = 1e-3;  // mm²: what is smaller is a touch

/// The plane's axes in double precision, from an origin in the plane.
struct CutPlane {
  glm::dvec3 origin{0.0};
  glm::dvec3 side{1.0, 0.0, 0.0};
  glm::dvec3 up{0.0, 0.0, 1.0};

  CutPlane(const Cut& cut, const glm::dvec3& near) {
    assert(std::abs(glm::length(cut.normal) - 1.0F) < 1e-3F);
    const CutAxes axes = axesOf(cut);
    side = axes.side;
    up = axes.up;
    const glm::dvec3 normal = cut.normal;
    // Near what is cut, whose place in the world then takes no digits from the outline.
    origin = near - normal * (glm::dot(normal, near) - static_cast<double>(cut.at));
  }
  [[nodiscard]] glm::dvec2 to(const glm::dvec3& world) const {
    return {glm::dot(world - origin, side), glm::dot(world - origin, up)};
  }
  [[nodiscard]] glm::dvec3 from(const glm::dvec2& point) const { return origin + side * point.x + up * point.y; }
};

/// A corner of a convex polygon in a plane's axes, and whether the edge from it to the next is inked; anticlockwise.
struct Corner {
  glm::dvec2 at{0.0};
  bool inked = false;
};
using Outline = std::vector<Corner>;

double cross(const glm::dvec2& a, const glm::dvec2& b) { return a.x * b.y - a.y * b.x; }

const glm::dvec2& after(const Outline& outline, std::size_t i) { return outline[(i + 1) % outline.size()].at; }

double areaOf(const Outline& outline) {
  double sum = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) sum += cross(outline[i].at, after(outline, i));
  return sum / 2;  // above 0: anticlockwise
}

Outline withoutShortEdges(const Outline& outline) {
  Outline kept;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    if (glm::distance(outline[i].at, after(outline, i)) >= kLeastEdge) kept.push_back(outline[i]);
  }
  return kept;
}

/// The corner furthest down and to the left first, of two as far the lower one: where a pattern starts.
void turnToLowest(Outline& outline) {
  const auto height = [](const Corner& corner) { return corner.at.y * 1.001 + corner.at.x; };
  const auto isLower = [&](const Corner& a, const Corner& b) { return height(a) < height(b); };
  std::rotate(outline.begin(), std::min_element(outline.begin(), outline.end(), isLower), outline.end());
}

/// Across the edge from which the furthest corner is nearest.
void measureWidth(const Outline& outline, const CutPlane& plane, CutFace& face) {
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const glm::dvec2 along = glm::normalize(after(outline, i) - outline[i].at);
    double most = 0;
    for (const Corner& corner : outline) most = std::max(most, cross(along, corner.at - outline[i].at));
    if (most >= least) continue;  // of two edges alike the first
    least = most;
    face.thin = glm::vec3(plane.side * -along.y + plane.up * along.x);  // the edge turned by a quarter, inwards
  }
  face.narrow = static_cast<float>(least);
}

/// The face of an outline in the world: short edges dropped, first corner lowest, width measured. Empty where there is
/// no area to speak of.
std::optional<CutFace> faceOf(const Outline& whole, const CutPlane& plane) {
  Outline outline = withoutShortEdges(whole);
  if (outline.size() < 3 || outline.size() > CutFace::kMostCorners || areaOf(outline) < kLeastArea) return std::nullopt;
  turnToLowest(outline);
  CutFace face;
  face.count = static_cast<std::uint8_t>(outline.size());
  for (std::size_t i = 0; i < outline.size(); ++i) {
    face.corner[i] = glm::vec3(plane.from(outline[i].at));
    if (outline[i].inked) face.inked = static_cast<std::uint8_t>(face.inked | 1U << i);
  }
  measureWidth(outline, plane, face);
  return face;
}

/// The part of a convex outline on the inner side of a line: dot(out, p) + off ≤ 0. The new edge gets `ink`.
void clip(Outline& outline, const glm::dvec2& out, double off, bool ink) {
  Outline kept;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Corner& a = outline[i];
    const glm::dvec2& b = after(outline, i);
    const double at_a = glm::dot(out, a.at) + off, at_b = glm::dot(out, b) + off;
    // A corner that stays keeps its edge; where the outline comes back in, the rest of the cut edge has its ink.
    if (at_a <= 0) kept.push_back(a);
    if ((at_a <= 0) == (at_b <= 0)) continue;
    kept.push_back({a.at + (b - a.at) * (at_a / (at_a - at_b)), at_a <= 0 ? ink : a.inked});
  }
  outline = std::move(kept);
}

/// A face none of whose edges is inked is where one piece of a part meets the next.
bool isSeam(const Solid& solid, std::size_t face) {
  const auto& edges = kFaceEdges[face];
  return std::none_of(edges.begin(), edges.end(), [&](std::uint8_t edge) { return (solid.edges >> edge & 1U) != 0; });
}

/// Where the plane cuts the mesh's triangles, the mesh on the left: across the plane's `up`, then along its `side`, as
/// strips are laid out from below up.
std::vector<std::array<glm::dvec2, 2>> outlineOf(const Mesh& mesh, const glm::dmat4& place, const Cut& cut,
                                                 const CutPlane& plane) {
  std::vector<std::array<glm::dvec2, 2>> edges;
  const glm::dvec3 normal = cut.normal;
  const double turned = glm::determinant(glm::dmat3(place)) < 0 ? -1 : 1;  // mirrored, triangles face inwards
  for (std::size_t i = 0; i + 2 < mesh.corner.size(); i += 3) {
    std::array<glm::dvec3, 3> corner;
    std::array<double, 3> beyond;
    for (std::size_t k = 0; k < 3; ++k) {
      corner[k] = glm::dvec3(place * glm::dvec4(glm::dvec3(mesh.corner[i + k]), 1.0));
      beyond[k] = glm::dot(normal, corner[k]) - static_cast<double>(cut.at);
    }
    std::array<glm::dvec2, 2> end;
    std::size_t ends = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      const std::size_t next = (k + 1) % 3;
      // Half-open: a corner in the plane belongs to the far side, so that every outline closes.
      if ((beyond[k] < 0) == (beyond[next] < 0)) continue;
      const double t = beyond[k] / (beyond[k] - beyond[next]);
      if (ends < 2) end[ends++] = plane.to(corner[k] + (corner[next] - corner[k]) * t);
    }
    if (ends < 2) continue;  // the plane misses it
    // Directed, as strips are told inside from outside by how often edges wind round them.
    const glm::dvec3 out = glm::cross(corner[1] - corner[0], corner[2] - corner[0]) * turned;
    const glm::dvec2 onward{-glm::dot(out, plane.up), glm::dot(out, plane.side)};
    if (glm::dot(end[1] - end[0], onward) < 0) std::swap(end[0], end[1]);
    edges.push_back({{{end[0].y, end[0].x}, {end[1].y, end[1].x}}});
  }
  return edges;
}

/// Whether a placed box has corners on both sides of the plane, or in it.
bool reaches(const Cut& cut, const Box& box, const glm::mat4& place) {
  bool before = false, behind = false;
  for (const glm::vec3& corner : box.corners()) {
    const float beyond = cut.beyond(glm::vec3(place * glm::vec4(corner, 1.0F)));
    before = before || beyond >= 0.0F;
    behind = behind || beyond <= 0.0F;
  }
  return before && behind;
}

void cutGroup(const Scene& scene, const Cut& cut, const PickFilter& shown, const Group& group,
              std::vector<CutFace>& faces) {
  for (std::size_t i = group.first_solid; i < group.first_solid + group.solids; ++i) {
    const Part& part = scene.parts[scene.solids[i].part];
    if (!shown.shows(part)) continue;
    if (const auto face = cutThrough(scene.solids[i], cut, shown.shiftOf(scene, part))) faces.push_back(*face);
  }
  for (std::size_t i = group.first_use; i < group.first_use + group.uses; ++i) {
    const MeshUse& use = scene.uses[i];
    const Part& part = scene.parts[use.part];
    if (!shown.shows(part)) continue;
    glm::mat4 place(use.place);
    place[3] += glm::vec4(shown.shiftOf(scene, part), 0.0F);
    if (!reaches(cut, scene.meshes[use.mesh].box, place)) continue;
    cutThrough(scene.meshes[use.mesh], place, cut, use.part, faces);
  }
}

/// What is cut of these outer groups, of the whole scene where there are none, in the order in which it has the place.
std::vector<CutFace> sectionOf(const Scene& scene, const Cut& cut, const PickFilter& shown,
                               const std::vector<const Group*>& outers) {
  std::vector<CutFace> faces;
  const auto may = [&](const Box& box) { return reaches(cut, grown(box, shown.furthest()), glm::mat4{1.0F}); };
  const auto look = [&](const Group& group) { cutGroup(scene, cut, shown, group, faces); };
  if (outers.empty()) look({scene.solids.size(), scene.uses.size(), {}});  // put together by hand: no groups
  for (const Group* outer : outers) {
    if (outer->box && may(*outer->box)) eachInner(*outer, may, look);
  }
  // Stable: of one material the part that was built first has the place, in every picture.
  std::stable_sort(faces.begin(), faces.end(), [&](const CutFace& a, const CutFace& b) {
    return rankOf(scene.parts[a.part].material) < rankOf(scene.parts[b.part].material);
  });
  return faces;
}

}  // namespace

CutAxes axesOf(const Cut& cut) {
  // Within 2.6° of level the cross with Z below has few digits left: the axes are X and Y then.
  constexpr float kLevel = 0.999F;
  if (std::abs(cut.normal.z) > kLevel) {
    return {{1.0F, 0.0F, 0.0F}, {0.0F, cut.normal.z > 0.0F ? 1.0F : -1.0F, 0.0F}};
  }
  const glm::vec3 side = glm::normalize(glm::cross(glm::vec3(0.0F, 0.0F, 1.0F), cut.normal));
  return {side, glm::cross(cut.normal, side)};
}

std::optional<CutFace> cutThrough(const Solid& solid, const Cut& cut, glm::vec3 shift) {
  const auto none = [&](const auto& is) { return std::none_of(solid.corner.begin(), solid.corner.end(), is); };
  if (none([&](const glm::vec3& at) { return cut.beyond(at + shift) <= -kCutTouch; }) ||
      none([&](const glm::vec3& at) { return cut.beyond(at + shift) >= kCutTouch; })) {
    return std::nullopt;
  }
  std::array<glm::dvec3, 8> corner;
  glm::dvec3 middle{0.0};
  for (std::size_t i = 0; i < 8; ++i) {
    corner[i] = glm::dvec3(solid.corner[i]) + glm::dvec3(shift);
    middle += corner[i] / 8.0;
  }
  // A square of the plane that holds all that can be cut, clipped by the solid's faces in turn.
  double reach = 1;  // mm; 4: to the corners, and to spare
  for (const glm::dvec3& each : corner) reach = std::max(reach, 4 * glm::distance(each, middle));
  const CutPlane plane(cut, middle);
  Outline outline;
  for (const glm::dvec2& at : {glm::dvec2(-1, -1), glm::dvec2(1, -1), glm::dvec2(1, 1), glm::dvec2(-1, 1)}) {
    outline.push_back({at * reach, false});
  }
  for (std::size_t f = 0; f < 6; ++f) {
    const auto& face = kFaces[f];
    // From its diagonals, so that a corner pulled onto its neighbour still leaves a plane.
    const glm::dvec3 out = glm::cross(corner[face[2]] - corner[face[0]], corner[face[3]] - corner[face[1]]);
    const double size = glm::length(out);
    if (size < kLeastArea) continue;  // a face that is a line bounds nothing
    const glm::dvec3 on = (corner[face[0]] + corner[face[1]] + corner[face[2]] + corner[face[3]]) / 4.0;
    clip(outline, glm::dvec2(glm::dot(out, plane.side), glm::dot(out, plane.up)) / size,
         glm::dot(out, plane.origin - on) / size, !isSeam(solid, f));
    if (outline.empty()) return std::nullopt;
  }
  auto face = faceOf(outline, plane);
  if (!face) return std::nullopt;
  face->part = solid.part;
  const glm::dvec3 grain = corner[std::size_t{1} << std::min<std::uint8_t>(solid.grain, 2)] - corner[0];
  const double run = glm::length(grain);  // 0: a solid that has no length there
  if (run > 0) {
    face->grain = glm::vec3(grain / run);
    face->across_grain = std::abs(glm::dot(face->grain, cut.normal)) > 0.7F;  // about 45° off the face or more
  }
  return face;
}

void cutThrough(const Mesh& mesh, const glm::mat4& place, const Cut& cut, std::uint32_t part,
                std::vector<CutFace>& faces) {
  const CutPlane plane(cut, glm::dvec3(place[3]));
  for (const Strip& strip : stripsWithin(outlineOf(mesh, glm::dmat4(place), cut, plane), 0)) {
    std::optional<CutFace> face = faceOf({{{strip.left.low, strip.x0}, (strip.edges & kLeftHigh) != 0},
                                          {{strip.left.high, strip.x0}, true},
                                          {{strip.right.high, strip.x1}, (strip.edges & kRightHigh) != 0},
                                          {{strip.right.low, strip.x1}, true}},
                                         plane);
    if (!face) continue;
    face->part = part;
    face->thin = glm::vec3(0.0F);  // a strip is only a piece of what is cut
    faces.push_back(*face);
  }
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
  return sectionOf(scene, cut, shown, outerGroups(scene));
}

std::vector<CutFace> sectionOf(const Scene& scene, const Cut& cut, std::size_t opening) {
  const std::vector<const Group*> outers = outerGroups(scene);
  assert(outers.size() == scene.walls.size() + 1 + scene.openings.size());  // walls, the floors, openings
  return sectionOf(scene, cut, {}, {outers[scene.openings[opening].wall], outers[scene.walls.size() + 1 + opening]});
}

}  // namespace sillwright::scene
