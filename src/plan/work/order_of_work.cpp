#include "plan/work/order_of_work.h"

#include <array>
#include <cassert>

#include "plan/work/step_texts.h"

namespace sillwright::plan {

namespace {

bool applies(StepKind kind, const OpeningPlan& planned) {
  switch (kind) {
    case StepKind::TakeOut:
      return planned.existing;
    case StepKind::Membrane:
    case StepKind::JambFlashings:
      return planned.isFlashed();  // an old wall has them, an inside one needs none
    case StepKind::SillFlashing:   // what goes in with the unit is made ready in the step of the jambs
      return hasPiece(planned, PieceKind::SillFlashing, kind) || hasPiece(planned, PieceKind::SillPan, kind);
    case StepKind::BoreReveal:
      return planned.unit.reveal.has_value();
    case StepKind::PanelsOut:
    case StepKind::PanelsIn:
      return planned.mass.panel_kg > 0;  // 0: it is lifted whole
    case StepKind::HeadFlashing:
    case StepKind::HeadFlap:
      return hasPiece(planned, PieceKind::HeadFlashing, StepKind::HeadFlashing);  // the flap comes down over it
    case StepKind::TryOpening:
      return anyOpens(planned.unit);
    default:
      return true;
  }
}

/// Two steps that can't be done the other way round, and why.
struct Before {
  StepKind first, later;
  const char* why;
};

constexpr std::array<Before, 33> kBefore{{
    {StepKind::CheckFraming, StepKind::LiftIn, "Check that the unit suits its opening before it is carried."},
    {StepKind::CheckFraming, StepKind::Membrane, "Timber that has to be moved is moved before it is covered."},
    {StepKind::ReadOpening, StepKind::TakeOut, "A hole that the new unit doesn't suit is left shut."},
    {StepKind::TakeOut, StepKind::PackSill, "The old unit still stands there."},
    {StepKind::ReadOpening, StepKind::PackSill, "Packers are chosen by what was measured."},
    {StepKind::ReadOpening, StepKind::FirstJamb,
     "Which jamb is packed first, and how thick, follows from how plumb the studs are."},
    {StepKind::Membrane, StepKind::PackSill, "The membrane folds in under the packers."},
    {StepKind::Membrane, StepKind::SillFlashing, "The flashing lies over the membrane, not under it."},
    {StepKind::Membrane, StepKind::JambFlashings, "The flashings lie over the membrane, not under it."},
    {StepKind::Membrane, StepKind::LiftIn, "Once the unit is in, the membrane can't be folded in behind it."},
    {StepKind::Membrane, StepKind::HeadFlashing,
     "The head flashing goes behind the membrane's flap: the flap is cut first."},
    {StepKind::SillFlashing, StepKind::PackSill, "The packers stand on the flashing, not under it."},
    {StepKind::PackSill, StepKind::LiftIn, "The unit is set down on packers that are level already."},
    {StepKind::FirstJamb, StepKind::LiftIn, "The unit is pushed against a jamb that is packed plumb already."},
    {StepKind::SillFlashing, StepKind::JambFlashings, "The jambs' feet lie over the sill's flashing."},
    {StepKind::SillFlashing, StepKind::LiftIn, "The sill's flashing runs in under the unit."},
    {StepKind::JambFlashings, StepKind::LiftIn, "The unit's fin lies over the jambs' flashings."},
    {StepKind::PanelsOut, StepKind::LiftIn, "It is lifted without its panel: whole, it is too heavy."},
    {StepKind::BoreReveal, StepKind::LiftIn, "On trestles the reveal is drilled square and doesn't split."},
    {StepKind::BoreReveal, StepKind::FixFirstJamb, "Screws without a hole split the reveal."},
    {StepKind::LiftIn, StepKind::FixFirstJamb, "The unit isn't there to be fixed yet."},
    {StepKind::FixFirstJamb, StepKind::FixOtherJamb, "The other jamb is packed to a unit that can't move."},
    {StepKind::FixOtherJamb, StepKind::PanelsIn, "A panel hung in a frame that is not fixed racks it."},
    {StepKind::PanelsIn, StepKind::TryOpening, "It is tried with its panel in."},
    {StepKind::LiftIn, StepKind::HeadFlashing, "Its turn-down lies over the fin."},
    {StepKind::HeadFlashing, StepKind::HeadFlap, "The flap comes down over the upstand."},
    {StepKind::FixOtherJamb, StepKind::TryOpening, "It is tried when it is fixed for good."},
    {StepKind::FixOtherJamb, StepKind::ReadAgain, "It is re-checked when it is fixed for good."},
    {StepKind::ReadAgain, StepKind::SealInside, "Once sealed, nothing can be moved."},
    {StepKind::TryOpening, StepKind::SealInside, "Once sealed, nothing can be moved."},
    {StepKind::LiftIn, StepKind::Cladding, "The cladding covers fin and flashings."},
    {StepKind::HeadFlap, StepKind::Cladding, "Once the cladding is on, the flap can't be brought down."},
    {StepKind::ReadAgain, StepKind::Cladding, "Trims hide what the re-check may still call for."},
}};

/// " of before 1978 (source)"; or that the rule set names no year.
std::string beforeWords(const practice::Rule& year) {
  if (!year) return " (the rule set names no year)";
  return " of before " + words::number(year->value) + " (" + practice::cite(*year) + ")";
}

std::vector<std::size_t> leftToRight(const Plan& plan, std::size_t wall) {
  const std::vector<std::int32_t>& openings = plan.walls[wall].openings;
  return {openings.begin(), openings.end()};
}

void addTask(std::vector<CrewTask>& tasks, const Plan& plan, CrewTask task) {
  std::erase_if(task.openings, [&](std::size_t opening) {  // openings where none of it is done
    return std::none_of(task.steps.begin(), task.steps.end(),
                        [&](StepKind kind) { return applies(kind, plan.openings[opening]); });
  });
  std::erase_if(task.steps, [&](StepKind kind) {  // then steps that are done nowhere
    return std::none_of(task.openings.begin(), task.openings.end(),
                        [&](std::size_t opening) { return applies(kind, plan.openings[opening]); });
  });
  if (!task.openings.empty()) tasks.push_back(std::move(task));
}

}  // namespace

std::vector<StepKind> stepsAt(const OpeningPlan& planned) {
  std::vector<StepKind> steps;
  for (std::size_t i = 0; i < kStepKinds; ++i) {  // StepKind's order is the right one
    const auto kind = static_cast<StepKind>(i);
    if (applies(kind, planned)) steps.push_back(kind);
  }
  return steps;
}

std::vector<std::string> oldHouseCautions(const job::Job& job, const practice::Practice& practice) {
  const practice::Hazards& hazards = practice.safety.hazards;  // a year that nobody knows is taken as old
  const auto mayHold = [&](const practice::Rule& year) { return !year || !job.built || *job.built < year->value; };
  std::vector<std::string> all;
  if (mayHold(hazards.lead_paint_before)) {
    all.push_back("Lead: old paint" + beforeWords(hazards.lead_paint_before) +
                  " may hold it. Have it tested; keep it wet, and never dry-sand or burn it off.");
  }
  if (mayHold(hazards.asbestos_before)) {
    all.push_back("Asbestos: old board, putty and packing" + beforeWords(hazards.asbestos_before) +
                  " may hold it. Have it tested before anything is cut, drilled or broken; only those licensed take it "
                  "off.");
  }
  return all;
}

std::vector<Step> orderOfWork(const job::Job& job, const Plan& plan, std::size_t opening,
                              const practice::Practice& practice) {
  assert(opening < plan.openings.size() && opening < job.openings.size());
  const OpeningPlan& planned = plan.openings[opening];
  const StepTexts texts{job, job.openings[opening], planned, plan.walls[planned.wall].spec, practice};
  std::vector<Step> steps;
  for (const StepKind kind : stepsAt(planned)) steps.push_back(stepOf(texts, kind));
  return steps;
}

std::vector<CrewTask> crewOrder(const Plan& plan) {
  std::vector<CrewTask> tasks;
  const auto everyWall = [&](const char* title, const std::vector<StepKind>& steps) {
    for (std::size_t wall = 0; wall < plan.walls.size(); ++wall) {
      addTask(tasks, plan, {title, wall, leftToRight(plan, wall), steps});
    }
  };
  everyWall("Check and measure every opening", {StepKind::CheckFraming, StepKind::ReadOpening});  // nothing is cut yet
  for (std::size_t wall = 0; wall < plan.walls.size(); ++wall) {
    addTask(tasks, plan, {"Membrane on the wall", wall, leftToRight(plan, wall), {StepKind::Membrane}});
    for (const std::size_t opening : leftToRight(plan, wall)) {  // one after the other: none stands open for long
      addTask(tasks, plan,
              {"Set the unit",
               wall,
               {opening},
               {StepKind::TakeOut, StepKind::SillFlashing, StepKind::PackSill, StepKind::FirstJamb,
                StepKind::JambFlashings, StepKind::PanelsOut, StepKind::BoreReveal, StepKind::LiftIn,
                StepKind::FixFirstJamb, StepKind::FixOtherJamb, StepKind::PanelsIn}});
    }
    addTask(tasks, plan, {"Heads", wall, leftToRight(plan, wall), {StepKind::HeadFlashing, StepKind::HeadFlap}});
  }
  everyWall("Try and re-check every unit", {StepKind::TryOpening, StepKind::ReadAgain});
  everyWall("Seal inside", {StepKind::SealInside});
  everyWall("Clad the wall", {StepKind::Cladding});
  return tasks;
}

std::vector<OrderFault> orderFaults(std::span<const StepKind> tried) {
  std::vector<OrderFault> faults;
  for (const Before& rule : kBefore) {
    const int first = stepNumber(tried, rule.first);  // 0: not tried
    const int later = stepNumber(tried, rule.later);
    if (first > 0 && later > 0 && later < first) faults.push_back({rule.later, rule.first, rule.why});
  }
  return faults;
}

}  // namespace sillwright::plan
