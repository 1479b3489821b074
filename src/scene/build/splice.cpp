#include "scene/build/splice.h"

#include <algorithm>

namespace sillwright::scene {
namespace {

/// Grows a box that may still be empty.
void grow(std::optional<Box>& box, const glm::vec3& point) {
  if (!box) box = Box{point, point};
  box->hold(point);
}

void grow(std::optional<Box>& box, const Solid& solid) {
  for (const glm::vec3& corner : solid.corner) grow(box, corner);
}

/// By a use of a mesh that has this box.
void grow(std::optional<Box>& box, const Box& local, const MeshUse& use) {
  for (const glm::vec3& corner : local.corners()) grow(box, use.place * glm::vec4(corner, 1.0F));
}

/// Overwrites as far as both reach, and makes or takes away room for the rest.
template <class Thing>
void replace(std::vector<Thing>& list, std::size_t at, std::size_t count, const std::vector<Thing>& with) {
  const auto place = [](auto& of, std::size_t i) { return of.begin() + static_cast<std::ptrdiff_t>(i); };
  const std::size_t both = std::min(count, with.size());
  std::copy_n(with.begin(), both, place(list, at));
  list.erase(place(list, at + both), place(list, at + count));
  list.insert(place(list, at + both), place(with, both), with.end());
}

/// Things from `first` on belong to a part so many further on; `shift` may wrap round below zero.
template <class Thing>
void shiftParts(std::vector<Thing>& list, std::size_t first, std::size_t last, std::uint32_t shift) {
  if (shift == 0) return;
  for (std::size_t i = first; i < last; ++i) list[i].part += shift;
}

}  // namespace

Extent extentOf(const Scene& scene) {
  return {scene.parts.size(), scene.solids.size(), scene.uses.size()};
}

void pass(Extent& at, const Block& block) {
  at.parts += block.parts;
  at.solids += block.solids;
  at.uses += block.uses;
}

void clearLists(Scene& scene) {
  scene.parts.clear();
  scene.solids.clear();
  scene.uses.clear();
}

std::vector<Group> groupsFrom(const Scene& scene, const Extent& first, MeshBoxes& boxes) {
  constexpr std::size_t kMostSolids = 32;
  std::vector<Group> groups{{scene.solids.size() - first.solids, scene.uses.size() - first.uses, {}, 0}};
  for (std::size_t i = first.solids; i < scene.solids.size(); ++i) {
    if (groups.size() == 1 || groups.back().solids >= kMostSolids) groups.emplace_back();
    ++groups.back().solids;
    grow(groups.back().box, scene.solids[i]);
  }
  if (first.uses < scene.uses.size()) {
    Group uses{0, scene.uses.size() - first.uses, {}, 0};
    for (std::size_t i = first.uses; i < scene.uses.size(); ++i) {
      grow(uses.box, boxes[scene.uses[i].mesh], scene.uses[i]);
    }
    groups.push_back(uses);
  }
  Group& outer = groups.front();
  outer.inner = groups.size() - 1;
  for (std::size_t i = 1; i < groups.size(); ++i) {
    grow(outer.box, groups[i].box->low);
    grow(outer.box, groups[i].box->high);
  }
  return groups;
}

Box boundsOf(const std::vector<Block>& blocks, std::size_t floors) {
  std::optional<Box> all;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const std::optional<Box>& box = blocks[i].groups.front().box;
    if (i == floors || !box) continue;
    grow(all, box->low);
    grow(all, box->high);
  }
  return all.value_or(Box{});
}

void splice(Scene& scene, const Extent& at, const Block& block, const Scene& fresh) {
  replace(scene.parts, at.parts, block.parts, fresh.parts);
  replace(scene.solids, at.solids, block.solids, fresh.solids);
  replace(scene.uses, at.uses, block.uses, fresh.uses);
  const std::size_t solids_end = at.solids + fresh.solids.size();
  const std::size_t uses_end = at.uses + fresh.uses.size();
  const auto here = static_cast<std::uint32_t>(at.parts);
  shiftParts(scene.solids, at.solids, solids_end, here);
  shiftParts(scene.uses, at.uses, uses_end, here);
  const auto grown = static_cast<std::uint32_t>(fresh.parts.size()) - static_cast<std::uint32_t>(block.parts);
  shiftParts(scene.solids, solids_end, scene.solids.size(), grown);
  shiftParts(scene.uses, uses_end, scene.uses.size(), grown);
}

}  // namespace sillwright::scene
