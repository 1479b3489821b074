/// Builds a job's scene from its plan.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/changes.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "scene/build/corners.h"
#include "scene/mesh/mesh.h"
#include "scene/scene.h"

namespace sillwright::scene {

/// Builds every part of the job. Pure; `library` holds the meshes of assets/meshes and those that units name. A mesh
/// that isn't there is left out (a unit's own mesh: the unit is drawn from its sizes). With its deviations `times` as
/// large, at most as mostDeviation allows; parts keep their true sizes, so that what is said about them stays true.
[[nodiscard]] Scene build(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                          const MeshLibrary& library, double times = 1);

// Rebuilds a scene only where something has changed.
//
// A scene is a row of blocks: each wall's parts, the floors, each opening's parts. Blocks tells how long each is, so
// that one can be put in the place of another without building the rest.

/// What a scene is built from.
struct Sources {
  const job::Job& job;
  const practice::Practice& practice;
  const plan::Plan& plan;
  const MeshLibrary& library;
  double times = 1;  ///< As build.
};

/// What one wall, the floors, or one opening adds to a scene's lists.
struct Block {
  std::size_t parts = 0;
  std::size_t solids = 0;
  std::size_t uses = 0;
  std::vector<Group> groups;          ///< All of it as one, then what that is made up of.
  std::vector<std::uint32_t> meshes;  ///< Those it asks for, in the order in which it first does.
};

/// How a scene is made up. Empty: it isn't known, and any change builds all of it.
struct Blocks {
  std::vector<Block> blocks;  ///< A wall each, the floors, an opening each.
  std::vector<WallEnds> ends;
  std::map<std::string, std::uint32_t, std::less<>> mesh_index;  ///< Into Scene::meshes, by the library's key.
  double times = 1;                                              ///< Drawn so many times as large.
};

/// Makes `scene` what build makes of `from`. Where `blocks` are those of `scene`, which was built by this from
/// a job that differs by `changes`, only what they mark is built.
void rebuild(Scene& scene, Blocks& blocks, const Sources& from, const plan::Changes& changes);

// : blocks of a scene measured, boxed, and put in the place of others.

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
