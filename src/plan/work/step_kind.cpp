#include "plan/work/step_kind.h"

#include <algorithm>
#include <array>

namespace sillwright::plan {
namespace {

constexpr std::array<const char*, kStepKinds> kWords{
    "check framing", "measure opening", "old unit out",     "membrane", "sill flashing",  "sill packing", "first jamb",
    "jamb flashing", "panel out",       "pre-drill reveal", "lift in",  "fix first jamb", "other jamb",   "panel in",
    "head flashing", "head flap",       "try the unit",     "re-check", "seal inside",    "cladding"};

}  // namespace

const char* toWord(StepKind kind) {
  return kWords[static_cast<std::size_t>(kind)];
}

std::optional<StepKind> stepNamed(std::string_view word) {
  const auto found = std::find(kWords.begin(), kWords.end(), word);
  if (found == kWords.end()) return std::nullopt;
  return static_cast<StepKind>(found - kWords.begin());
}

int stepNumber(std::span<const StepKind> steps, StepKind kind) {
  const auto found = std::find(steps.begin(), steps.end(), kind);
  return found == steps.end() ? 0 : static_cast<int>(found - steps.begin()) + 1;
}

}  // namespace sillwright::plan
