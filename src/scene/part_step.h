/// Which step of the order of work brings a part: between plan::StepKind and what a Part and the renderer keep of it.
#pragma once

#include <optional>

#include "plan/work/step_kind.h"
#include "scene/scene.h"

namespace sillwright::scene {

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
