#include "scene/pick.h"

#include <algorithm>
#include <climits>
#include <cmath>
#include <utility>

namespace sillwright::scene {
namespace {

/// Where a ray passes an axis-aligned box; it enters after it leaves where it misses.
Pass through(const Box& box, const glm::vec3& from, const glm::vec3& direction) {
  Pass pass;
  for (int axis = 0; axis < 3; ++axis) {
    if (direction[axis] == 0.0F) {
      if (from[axis] < box.low[axis] || from[axis] > box.high[axis]) return {kNever, -kNever};  // runs beside it
      continue;
    }
    float near = (box.low[axis] - from[axis]) / direction[axis];
    float far = (box.high[axis] - from[axis]) / direction[axis];
    if (near > far) std::swap(near, far);
    pass.enter = std::max(pass.enter, near);
    pass.leave = std::min(pass.leave, far);
  }
  return pass;
}

/// Whether something in the box can be the nearest: nothing else is looked at closely.
bool worthwhile(const Pass& pass, float nearest) {
  // A flat box is entered and left at once: leave it the rounding of a coordinate.
  const float slack = 1e-4F * std::max(1.0F, std::abs(pass.enter));
  return pass.leave >= 0 && pass.enter <= pass.leave + slack && pass.enter < nearest;
}

/// The ray, where it passes the plane of the cut, and the nearest of what it has met.
struct Search {
  glm::vec3 from{0.0F};
  glm::vec3 direction{0.0F};
  std::optional<Cut> cut;
  /// Of the ray upon the plane: above 0 it comes from the free side.
  float closing = cut ? -glm::dot(direction, cut->normal) : 0.0F;
  float at_cut = closing != 0.0F ? cut->beyond(from) / closing : kNever;
  Hit nearest{.distance = kNever};
  int rank = INT_MAX;  ///< Of what was met in the plane.

  /// Whether the place is cut away.
  [[nodiscard]] bool isAway(float distance) const {
    // A ray along the plane lies on one side of it, whole; one upon it has the free side before the plane.
    return cut && (closing == 0.0F ? cut->beyond(from) > 0 : (distance < at_cut) == (closing > 0));
  }
  /// Whether the ray comes upon the plane from its free side, before the eye.
  [[nodiscard]] bool meetsCut() const { return cut && closing > 0 && at_cut >= 0; }

  void take(std::uint32_t part, float distance) {
    if (distance >= nearest.distance) return;
    nearest = {part, distance, from + distance * direction};
    rank = INT_MAX;
  }
  /// The part's cut face. All of them are met at one distance: the one with the place is kept.
  void takeInPlane(std::uint32_t part, int part_rank) {
    if (at_cut > nearest.distance || (at_cut == nearest.distance && part_rank >= rank)) return;
    nearest = {part, at_cut, from + at_cut * direction};
    rank = part_rank;
  }
};

void meet(const Solid& solid, int rank, const glm::vec3& shift, Search& search) {
  const glm::vec3 origin = search.from - shift;
  if (!worthwhile(through(boxRound(solid.corner), origin, search.direction), search.nearest.distance)) return;
  const Pass pass = passOf(solid.corner, origin, search.direction);
  if (pass.enter > pass.leave) return;
  // Cut through, it shows its cut face; else its outside, from outside: one that the eye stands in isn't met.
  if (search.meetsCut() && pass.enter < search.at_cut && search.at_cut < pass.leave) {
    search.takeInPlane(solid.part, rank);
  } else if (pass.enter >= 0 && !search.isAway(pass.enter)) {
    search.take(solid.part, pass.enter);
  }
}

/// Möller and Trumbore, "Fast, minimum storage ray/triangle intersection", 1997.
float meetTriangle(const glm::vec3* corner, const glm::vec3& from, const glm::vec3& direction) {
  const glm::vec3 a = corner[1] - corner[0], b = corner[2] - corner[0];
  const glm::vec3 p = glm::cross(direction, b);
  const float determinant = glm::dot(a, p);
  if (determinant == 0.0F) return kNever;  // the ray runs along the triangle
  const glm::vec3 away = from - corner[0];
  const float u = glm::dot(away, p) / determinant;
  if (!(u >= 0.0F && u <= 1.0F)) return kNever;  // so written, NaN misses too
  const glm::vec3 q = glm::cross(away, a);
  const float v = glm::dot(direction, q) / determinant;
  if (!(v >= 0.0F && u + v <= 1.0F)) return kNever;
  const float at = glm::dot(b, q) / determinant;
  return at >= 0 ? at : kNever;
}

void meet(const Mesh& mesh, const MeshUse& use, int rank, const glm::vec3& shift, Search& search) {
  // The ray is turned, not every triangle. Its direction isn't made 1 long again: distances stay the world's.
  const glm::mat4 back = glm::inverse(glm::mat4(use.place));
  const glm::vec3 from(back * glm::vec4(search.from - shift, 1.0F));
  const glm::vec3 direction(back * glm::vec4(search.direction, 0.0F));
  if (!worthwhile(through(mesh.box, from, direction), search.nearest.distance)) return;
  std::size_t behind_cut = 0;
  for (std::size_t i = 0; i + 2 < mesh.corner.size(); i += 3) {
    const float at = meetTriangle(&mesh.corner[i], from, direction);
    if (at == kNever) continue;
    if (at > search.at_cut) ++behind_cut;
    if (!search.isAway(at)) search.take(use.part, at);
  }
  // A ray that leaves the mesh once more often than it enters it behind the plane has passed the plane inside.
  if (search.meetsCut() && behind_cut % 2 == 1) search.takeInPlane(use.part, rank);
}

void meetAll(const Scene& scene, const PickFilter& filter, const Group& group, Search& search) {
  for (std::size_t i = group.first_solid; i < group.first_solid + group.solids; ++i) {
    const Part& part = scene.parts[scene.solids[i].part];
    if (filter.shows(part)) meet(scene.solids[i], rankOf(part.material), filter.shiftOf(scene, part), search);
  }
  for (std::size_t i = group.first_use; i < group.first_use + group.uses; ++i) {
    const MeshUse& use = scene.uses[i];
    const Part& part = scene.parts[use.part];
    if (!filter.shows(part)) continue;
    meet(scene.meshes[use.mesh], use, rankOf(part.material), filter.shiftOf(scene, part), search);
  }
}

}  // namespace

Pass passOf(const std::array<glm::vec3, 8>& corner, const glm::vec3& from, const glm::vec3& direction) {
  Pass pass;
  for (const auto& face : kFaces) {
    const glm::vec4 plane = planeOf(corner, face);  // of a face that is a line all zero: it bounds nothing
    const glm::vec3 normal(plane);
    const glm::vec3 middle = 0.25F * (corner[face[0]] + corner[face[1]] + corner[face[2]] + corner[face[3]]);
    const float above = glm::dot(from - middle, normal);
    const float closing = -glm::dot(direction, normal);
    if (std::abs(closing) < 1e-9F) {  // along the face: outside it everywhere or nowhere
      if (above > 0) return {kNever, -kNever};
      continue;
    }
    const float at = above / closing;
    if (closing > 0) pass.enter = std::max(pass.enter, at);
    if (closing < 0) pass.leave = std::min(pass.leave, at);
  }
  return pass;
}

Rays::Rays(const Scene& scene, const PickFilter& filter)
    : scene_(scene), filter_(filter), shifted_(filter.furthest()), outers_(outerGroups(scene)) {
  std::erase_if(outers_, [](const Group* outer) { return !outer->box; });
}

std::optional<Hit> Rays::pick(glm::vec3 from, glm::vec3 direction, float within, std::int32_t but_wall) const {
  const float length = glm::length(direction);
  if (!(length > 0.0F) || !std::isfinite(length)) return std::nullopt;
  Search search{from, direction / length, filter_.cut};
  search.nearest.distance = within;
  // All of a block belongs to one wall, or to none.
  const auto isOf = [&](const Group& outer, std::int32_t wall) {
    return wall >= 0 && outer.solids > 0 && scene_.parts[scene_.solids[outer.first_solid].part].wall == wall;
  };
  const auto passed = [&](const Box& box) { return through(grown(box, shifted_), search.from, search.direction); };
  const auto may = [&](const Box& box) { return worthwhile(passed(box), search.nearest.distance); };
  const auto look = [&](const Group& group) { meetAll(scene_, filter_, group, search); };
  if (outers_.empty()) look({scene_.solids.size(), scene_.uses.size(), {}});  // put together by hand: no groups
  // The outer groups' boxes lie side by side: most rays meet few of many. In the order in which the ray enters them, so
  // that what is behind the nearest hit is not looked into.
  std::vector<std::pair<float, const Group*>> met;
  for (const Group* outer : outers_) {
    const Pass pass = passed(*outer->box);
    if (worthwhile(pass, within) && !isOf(*outer, but_wall)) met.emplace_back(pass.enter, outer);
  }
  std::sort(met.begin(), met.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const auto& [enter, outer] : met) {
    if (enter >= search.nearest.distance) break;  // those that follow are entered further off
    eachInner(*outer, may, look);
  }
  return search.nearest.distance < within ? std::optional(search.nearest) : std::nullopt;
}

}  // namespace sillwright::scene
