#include "plan/work/step_kind.h"

#include <algorithm>

namespace sillwright::plan {
const char* toWord(StepKind kind) { return kStepWords[static_cast<std::size_t>(kind)].data(); }

std::optional<StepKind> stepNamed(std::string_view word) {
  const auto found = std::find(kStepWords.begin(), kStepWords.end(), word);
  if (found == kStepWords.end()) return std::nullopt;
  return static_cast<StepKind>(found - kStepWords.begin());
}

int stepNumber(std::span<const StepKind> steps, StepKind kind) {
  const auto found = std::find(steps.begin(), steps.end(), kind);
  return found == steps.end() ? 0 : static_cast<int>(found - steps.begin()) + 1;
}

}  // namespace sillwright::plan
