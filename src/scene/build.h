/// Plan → scene.
#pragma once

#include <filesystem>
#include <string>

#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "scene/mesh.h"
#include "scene/scene.h"

namespace sillwright::scene {

/// Builds every part of the job. Pure; `library` holds the meshes of assets/meshes and those that units name.
[[nodiscard]] Scene build(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                          const check::Findings& findings, const MeshLibrary& library);

/// What a part is, in one line with its sizes, in the practice's words: "jamb stud 90 × 45, 2350 long".
[[nodiscard]] std::string describe(const Part& part, const practice::Practice& practice);

/// Why it is there, and where the rule comes from; may be empty.
[[nodiscard]] std::string reason(const Part& part, const job::Job& job, const practice::Practice& practice,
                                 const plan::Plan& plan);

/// Plain name of a part's kind in the practice's words: "jamb stud".
[[nodiscard]] std::string nameOf(PartKind kind, const practice::Words& words);

/// Ray against the scene's parts. Hidden layers are skipped.
struct Hit {
  std::uint32_t part = 0;
  float distance = 0.0F;
  glm::vec3 point{0.0F};
  glm::vec3 normal{0.0F};
};
[[nodiscard]] std::optional<Hit> pick(const Scene& scene, glm::vec3 from, glm::vec3 direction,
                                      std::uint32_t hidden_layers);

}  // namespace sillwright::scene
