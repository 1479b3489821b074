/// Plan → scene.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "check/finding.h"
#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "scene/mesh/mesh.h"
#include "scene/scene.h"
#include "scene/section/cut.h"

namespace sillwright::scene {

/// Builds every part of the job. Pure; `library` holds the meshes of assets/meshes and those that units name. A mesh
/// that isn't there is left out (a unit's own mesh: the unit is drawn from its sizes).
[[nodiscard]] Scene build(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                          const check::Findings& findings, const MeshLibrary& library);

/// What a part is, in one line with its sizes, in the practice's words: "jamb stud 90 × 45, 2350 long".
[[nodiscard]] std::string describe(const Part& part, const practice::Practice& practice);

/// Why it is there, and where the rule comes from; may be empty.
[[nodiscard]] std::string reason(const Part& part, const job::Job& job, const practice::Practice& practice,
                                 const plan::Plan& plan);

/// Plain name of a part's kind in the practice's words: "jamb stud".
[[nodiscard]] std::string nameOf(PartKind kind, const practice::Words& words);

/// Plain name of a layer, the same in every practice: "eave", "cladding".
[[nodiscard]] const char* nameOf(Layer layer);

/// Where a ray meets a part.
struct Hit {
  std::uint32_t part = 0;
  float distance = 0.0F;
  glm::vec3 point{0.0F};
  glm::vec3 normal{0.0F};
};

/// What of a scene is there to be picked, as it is shown.
struct PickFilter {
  std::uint32_t hidden_layers = 0;     ///< Bit per Layer.
  std::uint32_t hidden_steps = 0;      ///< The bitOf each step.
  std::array<float, kLayers> shift{};  ///< By which each layer is pulled along its wall's y.
  std::optional<Cut> cut;              ///< What is beyond it isn't there; its faces are their parts'.
  bool operator==(const PickFilter&) const = default;
};

/// The nearest part that a ray meets from outside, before `from`; `direction` of any length but zero. `distance` is in
/// mm, `normal` points back towards the eye. Of parts that lie in one another in the plane of the cut, the one that the
/// section shows (section.h).
[[nodiscard]] std::optional<Hit> pick(const Scene& scene, glm::vec3 from, glm::vec3 direction,
                                      const PickFilter& filter);
[[nodiscard]] std::optional<Hit> pick(const Scene& scene, glm::vec3 from, glm::vec3 direction,
                                      std::uint32_t hidden_layers);

/// Many rays through one scene, which must stay as it is meanwhile: what each would look up is looked up once.
class Rays {
 public:
  Rays(const Scene& scene, const PickFilter& filter);
  ~Rays();
  Rays(const Rays&) = delete;
  Rays& operator=(const Rays&) = delete;
  /// As `pick`.
  [[nodiscard]] std::optional<Hit> pick(glm::vec3 from, glm::vec3 direction);

 private:
  struct Kept;
  std::unique_ptr<Kept> kept_;
};

}  // namespace sillwright::scene
