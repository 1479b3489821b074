/// Where water runs on an opening's skin, as lines in the world: each path laid on the parts that are drawn.
///
/// The paths are plan/water's; here each stretch gets its depth from the parts of the sheet that it runs down, so that
/// lines stay on boards that lean, on the fall of a head flashing and on a lap that is put the wrong way round.
#pragma once

#include <glm/glm.hpp>
#include <optional>
#include <vector>

#include "job/job.h"
#include "plan/weather/water.h"
#include "plan/work/step_kind.h"
#include "scene/scene.h"

namespace sillwright::scene {

struct WaterPoint {
  glm::vec3 at{0.0F};             ///< In the world, before layers are pulled apart.
  Layer layer = Layer::Cladding;  ///< Whose face it is on: it moves with that.
  std::int32_t sheet = -1;        ///< Of the skin, whose face it is on; −1: bare timber.
  bool covered = false;           ///< Something lies over it here: it runs unseen.
};

/// One path from where its water starts to where it ends.
struct WaterLine {
  plan::WaterSource source = plan::WaterSource::Rain;
  plan::WaterEnd end = plan::WaterEnd::Outside;
  std::vector<WaterPoint> points;  ///< At least two.
  [[nodiscard]] bool leaks() const { return end == plan::WaterEnd::Timber || end == plan::WaterEnd::IntoOpening; }
};

/// mm from its start to its end.
[[nodiscard]] float lengthOf(const WaterLine& line);

/// Lines of every path. `scene` is built with `skin` on the opening, `water` traced on it.
[[nodiscard]] std::vector<WaterLine> waterLines(const Scene& scene, const job::Job& job, std::size_t opening,
                                                const plan::Skin& skin, const plan::Water& water);

/// A place of an opening's skin (x from its left, z from its sill) in the world, a hand's breadth before the wall.
[[nodiscard]] glm::vec3 onSkin(const Scene& scene, const job::Job& job, std::size_t opening, double x, double z);

// Which step of the order of work brings a part: between plan::StepKind and what a Part and the renderer keep of it.

static_assert(plan::kStepKinds < 32, "Scene's masks have a bit for each step and one for what is there from the start");

[[nodiscard]] constexpr PartStep partStep(plan::StepKind kind) {
  return static_cast<PartStep>(1 + static_cast<std::uint8_t>(kind));
}

/// nullopt: the part is there from the start.
[[nodiscard]] constexpr std::optional<plan::StepKind> stepKind(PartStep step) {
  if (step == PartStep::FromTheStart) return std::nullopt;
  return static_cast<plan::StepKind>(static_cast<std::uint8_t>(step) - 1);
}

}  // namespace sillwright::scene
