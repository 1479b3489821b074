/// The kinds of step in the order of work, and their words. The bottom of this folder: it includes nothing else of
/// plan.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace sillwright::plan {

/// In their right order. A step's number at an opening is its place among the kinds that apply there.
enum class StepKind : std::uint8_t {
  CheckFraming,
  ReadOpening,
  TakeOut,  ///< The old unit, at a replacement.
  Membrane,
  SillFlashing,  ///< On the wall, or a door's pan: the packers stand on it.
  PackSill,
  FirstJamb,
  JambFlashings,  ///< On the wall; or those that go in with the unit, made ready.
  PanelsOut,
  BoreReveal,
  LiftIn,
  FixFirstJamb,
  FixOtherJamb,
  PanelsIn,
  HeadFlashing,
  HeadFlap,
  TryOpening,
  ReadAgain,
  SealInside,
  Cladding
};
inline constexpr std::size_t kStepKinds = 20;
inline constexpr std::array<std::string_view, kStepKinds> kStepWords{
    "check framing", "measure opening", "old unit out",     "membrane", "sill flashing",  "sill packing", "first jamb",
    "jamb flashing", "panel out",       "pre-drill reveal", "lift in",  "fix first jamb", "other jamb",   "panel in",
    "head flashing", "head flap",       "try the unit",     "re-check", "seal inside",    "cladding"};

/// Plain English words for a kind, the same in every practice: "membrane", "sill packing", "first jamb".
[[nodiscard]] constexpr const char* toWord(StepKind kind) {
  return kStepWords[static_cast<std::size_t>(kind)].data();  // a literal, so it ends with a zero
}
/// The kind that `toWord` gives this word for; nullopt where there is none.
[[nodiscard]] constexpr std::optional<StepKind> stepNamed(std::string_view word) {
  const auto found = std::find(kStepWords.begin(), kStepWords.end(), word);
  if (found == kStepWords.end()) return std::nullopt;
  return static_cast<StepKind>(found - kStepWords.begin());
}

/// Place of a kind among `steps`, from 1; 0 where it is not one of them.
[[nodiscard]] constexpr int stepNumber(std::span<const StepKind> steps, StepKind kind) {
  const auto found = std::find(steps.begin(), steps.end(), kind);
  return found == steps.end() ? 0 : static_cast<int>(found - steps.begin()) + 1;
}

}  // namespace sillwright::plan
