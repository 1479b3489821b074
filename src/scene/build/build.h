/// Builds a job's scene from its plan.
#pragma once

#include <vector>

#include "job/job.h"
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

/// What one wall, the floors, or one opening adds to a scene: all of it as one group, then what that is made up of;
/// their places are counted from where it begins.
using Block = std::vector<Group>;

/// How a scene is made up. Empty: it isn't known, and any change builds all of it.
struct Blocks {
  std::vector<Block> blocks;  ///< A wall each, the floors, an opening each.
  std::vector<WallEnds> ends;
  double times = 1;  ///< Drawn so many times as large.
};

/// Makes `scene` what build makes of `from`. Where `blocks` are those of `scene`, which was built by this from
/// a job that differs by `changes`, only what they mark is built.
void rebuild(Scene& scene, Blocks& blocks, const Sources& from, const plan::Changes& changes);

/// Moves all that is of a sash (Part::item) from where it is when shut, for a step's picture: sashes slide, swing,
/// tilt; leaves fold. The scene's solids and uses are those of the unit as it is built.
void openSashes(Scene& scene, const plan::UnitParts& parts, std::size_t opening);

}  // namespace sillwright::scene
