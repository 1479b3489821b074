// Who gets hurt: wet rooms, cut studs, lifting. Only what the practice names is judged; what it doesn't is said.

#include <algorithm>

#include "check/standing.h"
#include "plan/hold/lifting.h"

namespace sillwright::check {
namespace {

// --- wet rooms

void judgeWetRoom(Bench& bench, const Standing& at) {
  const auto& room = bench.opening().room;
  if (!isWet(room)) return;
  if (bench.planned().unit.reveal) {
    auto& finding =
        add(bench.findings, Severity::Attend, "wet area",
            "It has a timber " + bench.words().reveal + " in a wet area, where the wall is tiled up to a bare frame.");
    finding.source = "common practice, no source";
    finding.status = practice::Status::CommonPractice;
    finding.remedy = "Order a bare frame, or keep water off it.";
    finding.caution = "Water behind tiles is not seen until the studs have rotted.";
  }
  const auto& rules = bench.practice.safety.wet_area;
  const auto* height = ruleOrNote(bench, rules.waterproof_height, "waterproofing of wet areas");
  if (height == nullptr || !below(at.z, height->value)) return;
  const bool shower = room == job::Room::Shower;
  if (!shower && !rules.shower_extent) return;
  const std::string where = shower
                                ? "the floor of a shower: everything below " + bench.len(height->value)
                                : "the floor of a wet area: nearer than " + bench.len(rules.shower_extent->value) +
                                      " to the outlet of an open shower everything below " + bench.len(height->value);
  auto& finding = add(bench.findings, shower ? Severity::Attend : Severity::Note, "waterproofing",
                      "Its foot is " + bench.len(at.z) + " above " + where +
                          " is waterproofed all round, into the frame and over the sill" +
                          (rules.junction ? ", " + bench.len(rules.junction->value) + " past each corner of the walls."
                                          : std::string{"."}));
  measuredAgainst(finding, at.z, height->value, "mm", height);
  finding.remedy = "Have it waterproofed by a licensed trade before it is tiled, the sill falling inwards to shed.";
  finding.caution = "Waterproofing is licensed work in many places.";
}

// --- cut studs

/// What fitting it would take off a stud beside it. The rules of notches limit a cut into a stud's depth, at one place;
/// planing takes its thickness over the opening's whole height, which none of them covers.
void judgeNotch(Bench& bench) {
  const plan::Remedy* deepest = nullptr;
  for (const auto& remedy : bench.planned().remedies) {
    if (remedy.kind != plan::RemedyKind::TakeOffStud) continue;
    if (deepest == nullptr || remedy.amount > deepest->amount) deepest = &remedy;
  }
  if (deepest == nullptr) return;
  const auto& most = bench.practice.framing.jamb_notch_most;
  const bool none = most && most->value <= 0;
  const auto& stud = bench.wall().spec.stud;
  const double left = std::max(stud.thickness - deepest->amount, 0.0);
  std::string say = "To make it fit, " + bench.len(deepest->amount) + " would come off the " + toWord(deepest->side) +
                    " stud's thickness over its height: of " + bench.len(stud.depth) + " × " +
                    bench.len(stud.thickness) + " are left " + bench.len(stud.depth) + " × " + bench.len(left) + ". ";
  say += none ? "Beside an opening it may not be notched at all."
              : "That is not covered by the rule of notches" +
                    (most ? ", which is about " + bench.len(most->value) + " of its depth" : std::string{}) +
                    ": it is an engineer's.";
  auto& finding = add(bench.findings, Severity::Attend, "notching", say);
  if (most) {
    measuredAgainst(finding, deepest->amount, most->value, "mm", &*most);
    if (!none) finding.limit.reset();
  }
  finding.remedy = "Move or replace the stud, or have the unit made smaller.";
  finding.caution = "Jamb studs carry the lintel's load: they are altered only under span tables or an engineer.";
  finding.spot.side = deepest->side;
}

// --- lifting

/// Hands higher than this are out of the lifting equation (NIOSH publication 94-110), mm.
constexpr double kHandsMost = 1750;

void judgeLifting(Bench& bench) {
  const auto& mass = bench.planned().mass;
  const auto& rules = bench.practice.safety.lifting;
  if (!mass.people) {
    bench.not_judged.emplace_back("what a person may lift");
    return;
  }
  const double most = plan::teamLimit(*mass.people, rules);
  const double heaviest = std::max(mass.panel_kg, mass.lifted());
  const std::string weighs =
      "It weighs " + std::string(mass.stated ? "" : "about ") + number(mass.total_kg, 0) + " kg" +
      (mass.panel_kg > 0
           ? ", and " + number(mass.lifted(), 0) + " kg with " +
                 (mass.panels_out == 1 ? "a panel" : std::to_string(mass.panels_out) + " panels, the heaviest") +
                 " of " + number(mass.panel_kg, 0) + " kg taken out"
           : std::string{});
  auto& finding = add(bench.findings, mass.mechanical_help ? Severity::Attend : Severity::Note, "lifting",
                      mass.mechanical_help
                          ? weighs + ", more than the " + number(most, 1) + " kg that " + std::to_string(*mass.people) +
                                " people may lift, and more people do not lift better."
                          : weighs + ": lifted by " + plan::liftedBy(mass) + ".");
  measuredAgainst(finding, heaviest, most, "kg", &*rules.one_person);
  if (mass.mechanical_help) {
    finding.remedy = std::string("Use a lifter or a hoist, or take ") +
                     (mass.panels_out == 1  ? "the other panel"
                      : mass.panels_out > 1 ? "the glass"
                                            : "sashes and glass") +
                     " out too where its maker allows it; who runs the site decides.";
  }
  finding.caution = "Carried upright, never flat; gloves and shoes on.";
}

/// The way up to the sill. The equation is for one pair of hands: a team's way is judged by its reach alone.
void judgeWayUp(Bench& bench) {
  const auto& mass = bench.planned().mass;
  const auto& rules = bench.practice.safety.lifting;
  if (!mass.people || mass.mechanical_help) return;
  const plan::Lift lift = plan::liftOn(bench.planned().unit.height, bench.opening().sill);
  if (above(lift.to, kHandsMost)) {
    auto& finding = add(bench.findings, Severity::Attend, "lifting height",
                        "To set it on its sill, hands hold it " + bench.len(lift.to) +
                            " above the floor: lifting by "
                            "hand is judged up to " +
                            bench.len(kHandsMost) + ", and not above.");
    finding.measured = lift.to;
    finding.limit = kHandsMost;
    finding.unit = "mm";
    finding.source = rules.niosh_load ? practice::cite(*rules.niosh_load) : std::string{};
    finding.remedy = "Lift it in two stages from a platform wide enough to stand on with it, or use a lifter.";
    return;
  }
  if (*mass.people > 1) {
    bench.not_judged.emplace_back("a team's lift from the floor up to the sill");
    return;
  }
  const auto index = plan::liftingIndex(mass.total_kg, lift, rules);
  if (!index || !rules.niosh_raised) {
    bench.not_judged.emplace_back("the lift from the floor up to the sill");
    return;
  }
  if (!aboveShare(*index, rules.niosh_raised->value)) return;
  const bool high = rules.niosh_high && aboveShare(*index, rules.niosh_high->value);
  auto& finding = add(bench.findings, Severity::Note, "lifting index",
                      "Lifted by one from the floor on to its sill it has a lifting index of " + number(*index, 1) +
                          ": the risk of a strained back is " + (high ? "high." : "raised."));
  measuredAgainst(finding, *index, rules.niosh_raised->value, "1", &*rules.niosh_raised);
  finding.remedy = "One person more, or lift it in two stages from a trestle.";
}

}  // namespace

void judgeSafety(Bench& bench) {
  const Standing at = standing(bench);
  if (!bench.opening().room) {
    bench.not_told.emplace_back("its room (glass and tiling in wet areas, falls from bedrooms, a way out in a fire)");
  }
  judgeGlass(bench, at);
  judgeFalls(bench, at);
  judgeEscape(bench, at);
  judgeWetRoom(bench, at);
  judgeNotch(bench);
  judgeLifting(bench);
  judgeWayUp(bench);
}

}  // namespace sillwright::check
