/// Rebuilds a scene only where something has changed.
///
/// A scene is a row of blocks: each wall's parts, the floors, each opening's parts. Blocks tells how long each is, so
/// that one can be put in the place of another without building the rest.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "plan/changes.h"
#include "scene/build/build.h"
#include "scene/build/corners.h"

namespace sillwright::scene {

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

}  // namespace sillwright::scene
