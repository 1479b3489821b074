/// Builds a job's scene from its plan.
#pragma once

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "scene/mesh/library.h"
#include "scene/scene.h"

namespace sillwright::scene {

/// Builds every part of the job. Pure; `library` holds the meshes of assets/meshes and those that units name. A mesh
/// that isn't there is left out (a unit's own mesh: the unit is drawn from its sizes). With its deviations `times` as
/// large, at most as mostDeviation allows; parts keep their true sizes, so that what is said about them stays true.
[[nodiscard]] Scene build(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                          const MeshLibrary& library, double times = 1);

}  // namespace sillwright::scene
