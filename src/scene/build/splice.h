/// Inside the room: blocks of a scene measured, boxed, and put in the place of others.
#pragma once

#include <cstddef>
#include <vector>

#include "scene/build/rebuild.h"
#include "scene/mesh/mesh_boxes.h"
#include "scene/scene.h"

namespace sillwright::scene {

/// How much there is in a scene's lists up to some place.
struct Extent {
  std::size_t parts = 0;
  std::size_t solids = 0;
  std::size_t uses = 0;
};
[[nodiscard]] Extent extentOf(const Scene& scene);
/// Moves on past a block.
void pass(Extent& at, const Block& block);

/// Empties the lists of parts, solids and uses.
void clearLists(Scene& scene);

/// All that the scene has from `first` on as one group, made up of groups small enough to lie together.
[[nodiscard]] std::vector<Group> groupsFrom(const Scene& scene, const Extent& first, MeshBoxes& boxes);
/// The box round all blocks but the floors', which are the ground; zero where they are empty.
[[nodiscard]] Box boundsOf(const std::vector<Block>& blocks, std::size_t floors);

/// Puts all that `fresh` has in the place of the block that begins at `at`.
void splice(Scene& scene, const Extent& at, const Block& block, const Scene& fresh);

}  // namespace sillwright::scene
