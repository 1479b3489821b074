/// The order of work at one opening: steps with what is done, with what, what is checked before going on, and the
/// caution.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// The kinds of step, in their right order. A step's number in an opening is its place among those that apply there.
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

struct Step {
  StepKind kind = StepKind::CheckFraming;
  std::string title;               ///< The few words a foreman would say.
  std::string what;                ///< One or two sentences.
  std::vector<std::string> parts;  ///< What comes into being or is used, with sizes.
  std::vector<std::string> tools;
  std::string before_going_on;  ///< What is checked.
  std::string caution;          ///< May be empty.
};

[[nodiscard]] std::vector<Step> orderOfWork(const job::Job& job, const Plan& plan, std::size_t opening,
                                            const practice::Practice& practice);

}  // namespace sillwright::plan
