// Who gets hurt: wet rooms, lifting. Only what the practice names is judged; what it doesn't is said.

#include "check/rules.h"
#include "plan/hold/mass.h"

namespace sillwright::check {
namespace {

// --- wet rooms

void judgeWetRoom(Bench& bench, const Standing& at) {
  const auto& room = bench.opening().room;
  if (!isWet(room)) return;
  if (bench.planned().unit.reveal) {
    bench.attend(
        "wet area",
        "It has a timber " + bench.words().reveal + " in a wet area, where the wall is tiled up to a bare frame.",
        {.figure = &kCommonPractice}, "Order a bare frame, or keep water off it.", {},
        "Water behind tiles is not seen until the studs have rotted.");
  }
  const auto& rules = bench.practice.safety.wet_area;
  const auto* height = ruleOrNote(bench, rules.waterproof_height, "waterproofing of wet areas");
  if (height == nullptr || !below(at.z, height->value)) return;
  const bool shower = room == job::Room::Shower;
  if (!shower && !rules.shower_extent) return;  // elsewhere the rule holds near an open shower only
  const std::string where = shower
                                ? "the floor of a shower: everything below " + bench.len(height->value)
                                : "the floor of a wet area: nearer than " + bench.len(rules.shower_extent->value) +
                                      " to the outlet of an open shower everything below " + bench.len(height->value);
  bench.add(shower ? Severity::Attend : Severity::Note, "waterproofing",
            "Its foot is " + bench.len(at.z) + " above " + where +
                " is waterproofed all round, into the frame and over the sill" +
                (rules.junction ? ", " + bench.len(rules.junction->value) + " past each corner of the walls."
                                : std::string{"."}),
            {at.z, height->value, "mm", height},
            "Have it waterproofed by a licensed trade before it is tiled, the sill falling inwards to shed.", {},
            "Waterproofing is licensed work in many places.");
}

// --- lifting

/// Hands higher than this are out of the lifting equation (NIOSH publication 94-110), mm.
constexpr double kHandsMost = 1750;
const char* const kCarrying = "Carried upright, never flat; gloves and shoes on.";

/// What the unit weighs, whole and as it is lifted.
std::string weightWords(const Bench& bench) {
  const plan::UnitMass& mass = bench.planned().mass;
  std::string said = "It weighs " + std::string(mass.stated ? "" : "about ") + bench.mass(mass.total_kg);
  if (!mass.parts_kg.empty()) {  // it is lifted part by part
    return said + " in " + std::to_string(mass.parts_kg.size()) + " parts, the heaviest of " +
           bench.mass(mass.lifted());
  }
  if (mass.panel_kg <= 0) return said;  // nothing is taken out to lift it
  return said + ", and " + bench.mass(mass.lifted()) + " with " +
         (mass.panels_out == 1 ? std::string("a ") + mass.outWord()
                               : std::to_string(mass.panels_out) + " " + mass.outWord() + ", the heaviest") +
         " of " + bench.mass(mass.panel_kg) + " taken out";
}

/// The guidance's figures for a team are a filter: above them a lift is thought about, and only far above them a lifter
/// is asked for.
void judgeLifting(Bench& bench) {
  const auto& mass = bench.planned().mass;
  const auto& rules = bench.practice.safety.lifting;
  if (!mass.people) return bench.notJudged("what a person may lift");
  const double filter = plan::teamLimit(*mass.people, rules);
  const double heaviest = std::max(mass.panel_kg, mass.lifted());  // two things are carried: the heavier counts
  if (mass.mechanical_help) {
    const double most = rules.lifter_from ? rules.lifter_from->value : filter;
    bench.attend("lifting", weightWords(bench) + ": above " + bench.mass(most, 1) + " a lifter is asked for.",
                 {heaviest, most, "kg", rules.lifter_from ? &*rules.lifter_from : &*rules.one_person},
                 std::string("Use a lifter or a hoist, or take ") +
                     (mass.panels_out == 1 && !mass.leaves_out ? "the other panel"
                      : mass.panels_out > 0                    ? "the glass"
                                                               : "sashes and glass") +
                     (mass.panels_out > 0 ? " out too" : " out") +
                     " where its maker allows it; who runs the site decides.",
                 {}, kCarrying);
    return;
  }
  auto& finding = bench.note("lifting", weightWords(bench) + ": lifted by " + plan::liftedBy(mass) + ".",
                             {heaviest, filter, "kg", &*rules.one_person}, "", {}, kCarrying);
  if (aboveShare(heaviest, filter)) {
    finding.say += " That is over the " + bench.mass(filter, 1) + " up to which nobody needs to think about it.";
    finding.remedy = "Plan the lift: a clear way, a firm grip for each, suction cups or straps, rests on the way.";
  }
}

/// Hands that end above their height limit: needs attention where the unit is heavier, too, than may be lifted so high.
void judgeHighLift(Bench& bench, const plan::Lift& lift) {
  const auto& mass = bench.planned().mass;
  const auto& rules = bench.practice.safety.lifting;
  std::string say = "To set it on its sill, hands hold it " + bench.len(lift.to) +
                    " above the floor: lifting by hand is judged up to " + bench.len(kHandsMost) + ", and not above.";
  const double most = rules.one_person_high ? rules.one_person_high->value * plan::teamShare(*mass.people, rules) : 0;
  const bool heavy = aboveShare(mass.lifted(), most);  // without a figure any weight is heavy
  if (heavy && most > 0) {
    say += " It weighs " + bench.mass(mass.lifted()) + ", more than the " + bench.mass(most, 1) + " that " +
           count(*mass.people, "person", "people") + " may lift to head height.";
  }
  auto& finding = bench.add(heavy ? Severity::Attend : Severity::Note, "lifting height", std::move(say),
                            {lift.to, kHandsMost, "mm", rules.one_person_high ? &*rules.one_person_high : nullptr},
                            "Lift it in two stages from a platform wide enough to stand on with it, or use a lifter.");
  if (!rules.niosh_load) return;  // the limit of height is the equation's
  finding.source = practice::cite(*rules.niosh_load) + (finding.source.empty() ? "" : "; " + finding.source);
}

/// The way up to the sill. The equation is for one pair of hands: a team's way is judged by its reach alone.
void judgeWayUp(Bench& bench) {
  const auto& mass = bench.planned().mass;
  const auto& rules = bench.practice.safety.lifting;
  if (!mass.people || mass.mechanical_help) return;  // nobody lifts it by hand
  const plan::Lift lift = plan::liftOn(bench.planned().unit.height, bench.opening().sill);
  if (above(lift.to, kHandsMost)) return judgeHighLift(bench, lift);
  if (*mass.people > 1) return bench.notJudged("a team's lift from the floor up to the sill");
  const auto index = plan::liftingIndex(mass.total_kg, lift, rules);
  if (!index || !rules.niosh_raised) return bench.notJudged("the lift from the floor up to the sill");
  if (!aboveShare(*index, rules.niosh_raised->value)) return;
  const bool high = rules.niosh_high && aboveShare(*index, rules.niosh_high->value);  // the equation has two limits
  bench.note("lifting index",
             "Lifted by one from the floor on to its sill it has a lifting index of " + number(*index, 1) +
                 ": the risk of a strained back is " + (high ? "high." : "raised."),
             {*index, rules.niosh_raised->value, "1", &*rules.niosh_raised},
             "One person more, or lift it in two stages from a trestle.");
}

}  // namespace

void judgeSafety(Bench& bench) {
  const Standing at = standing(bench);
  if (!bench.opening().room) {
    bench.notTold("its room (glass and tiling in wet areas, falls from bedrooms, a way out in a fire)");
  }
  if (bench.opening().room == job::Room::Stair) {
    bench.notTold("how high the treads beside it are (glass and falls are judged from the wall's floor)");
  }
  judgeGlass(bench, at);
  judgeFalls(bench, at);
  judgeEscape(bench, at);
  judgeWetRoom(bench, at);
  judgeLifting(bench);
  judgeWayUp(bench);
}

}  // namespace sillwright::check
