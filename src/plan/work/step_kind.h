/// The kinds of step in the order of work, and their words. The bottom of this folder: it includes nothing else of
/// plan.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace sillwright::plan {

/// In their right order. A step's number at an opening is its place among the kinds that apply there.
enum class StepKind : std::uint8_t {
  CheckFraming,
  ReadOpening,
  Membrane,
  PackSill,
  FirstJamb,
  SillFlashing,
  JambFlashings,
  BoreReveal,
  LiftIn,
  FixFirstJamb,
  FixOtherJamb,
  HeadFlashing,
  HeadFlap,
  TryOpening,
  ReadAgain,
  SealInside,
  Cladding
};
inline constexpr std::size_t kStepKinds = 17;

/// Plain English words for a kind, the same in every practice: "membrane", "sill packing", "first jamb".
[[nodiscard]] const char* toWord(StepKind kind);
/// The kind that `toWord` gives this word for; nullopt where there is none.
[[nodiscard]] std::optional<StepKind> stepNamed(std::string_view word);

}  // namespace sillwright::plan
