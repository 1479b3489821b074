/// The order of work at one opening: steps with what is done, with what, what is checked before going on, and the
/// caution; and the same for a crew that has a whole job before it.
///
/// Steps that don't apply (a head flashing under an eave that shelters, a reveal that isn't there) are left out, so a
/// step's number is its place among those of its opening. Lengths in the texts are in the practice's display.
#pragma once

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"
#include "plan/work/step_kind.h"
#include "practice/practice.h"

namespace sillwright::plan {

struct Step {
  StepKind kind = StepKind::CheckFraming;
  std::string title;               ///< The few words a foreman would say.
  std::string what;                ///< One or two sentences.
  std::vector<std::string> parts;  ///< What comes into being or is used, with sizes.
  std::vector<std::string> tools;
  std::string before_going_on;  ///< What is checked.
  std::string caution;          ///< May be empty.
};

/// Whether the opening has a piece of this kind that is put on in a step of its own.
[[nodiscard]] inline bool hasPiece(const OpeningPlan& planned, PieceKind kind, StepKind step) {
  return std::any_of(planned.weather.pieces.begin(), planned.weather.pieces.end(),
                     [&](const Piece& piece) { return piece.kind == kind && piece.step == step; });
}

/// The kinds of step that apply at an opening, in their right order.
[[nodiscard]] std::vector<StepKind> stepsAt(const OpeningPlan& planned);

/// What an old house may hold, told before anything of a replacement: lead in paint, asbestos in board. Empty where the
/// house is younger than the practice's years.
[[nodiscard]] std::vector<std::string> oldHouseCautions(const job::Job& job, const practice::Practice& practice);

/// The steps of one opening, as stepsAt orders them.
[[nodiscard]] std::vector<Step> orderOfWork(const job::Job& job, const Plan& plan, std::size_t opening,
                                            const practice::Practice& practice);

/// One line of a crew's list: these steps, at these openings of a wall, before the next line is begun.
struct CrewTask {
  std::string title;                  ///< "Check and measure every opening", "Set the units".
  std::size_t wall = 0;               ///< Index in Job::walls.
  std::vector<std::size_t> openings;  ///< Indices in Job::openings, left to right.
  std::vector<StepKind> steps;        ///< In order; each applies at one of the openings at least.
};

/// The whole job in a sensible order: every opening checked and read before anything is cut; then wall by wall
/// membrane, units one after the other, heads; then every unit tried and read again, sealed inside, and the walls clad.
/// Each step of each opening stands in it once, and none before one that its opening's own order puts first.
[[nodiscard]] std::vector<CrewTask> crewOrder(const Plan& plan);

/// A step that is tried before another that has to come first, with the reason.
struct OrderFault {
  StepKind done = StepKind::CheckFraming;    ///< Comes too early …
  StepKind before = StepKind::CheckFraming;  ///< … before this, which it needs.
  std::string why;
};

/// What is wrong with an order that a trainee gives, whether or not water gets in by it: the pairs that can't be done
/// the other way round. Orders that differ from the usual one without harm have no faults. Steps missing from `tried`
/// are not faults of order.
[[nodiscard]] std::vector<OrderFault> orderFaults(std::span<const StepKind> tried);

}  // namespace sillwright::plan
