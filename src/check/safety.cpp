// Who gets hurt: glass, falls, wet rooms, notched studs, lifting. Only what the practice names is judged.

#include <algorithm>

#include "check/rules.h"
#include "plan/hold/lifting.h"
#include "plan/hold/panes.h"

namespace sillwright::check {
namespace {

constexpr double kRounding = 1e-6;
constexpr double kMm2PerM2 = 1e6;

const char* const kGlassCaution =
    "Ordinary glass breaks into blades. Where safety glass is asked for, nothing else goes in.";

bool isWet(const std::optional<job::Room>& room) {
  return room == job::Room::WetArea || room == job::Room::Shower;
}

bool opens(job::UnitKind kind) {
  return kind == job::UnitKind::SlidingWindow || kind == job::UnitKind::AwningWindow ||
         kind == job::UnitKind::CasementWindow;
}

/// A unit where it stands, measured from the floor and along its wall.
struct Standing {
  plan::UnitParts parts;
  double x = 0;  ///< Of the unit's lower left corner, in the wall's axes.
  double z = 0;

  [[nodiscard]] double sightLine(const plan::UnitRect& pane) const { return z + pane.z0; }
};

Standing standing(const Bench& bench) {
  const auto& planned = bench.planned();
  return {plan::partsOf(planned.unit), bench.opening().left + planned.stand.x, bench.opening().sill + planned.stand.z};
}

/// A reason that asks for safety glass.
struct Reason {
  std::string say;
  double measured = 0;
  double limit = 0;
  const char* unit = "mm";
  const practice::Figure* figure = nullptr;
};

void lowGlass(const Bench& bench, const Standing& at, const plan::UnitRect& pane, std::vector<Reason>& reasons) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.low_below) return;
  const double sight = at.sightLine(pane);
  if (sight >= rules.low_below->value - kRounding) return;
  const auto& glass = bench.planned().unit.glass;
  const double area = pane.area() / kMm2PerM2;
  if (rules.low_area_most && rules.low_thickness_least && area <= rules.low_area_most->value + kRounding &&
      glass.thickness >= rules.low_thickness_least->value - kRounding) {
    return;
  }
  reasons.push_back({"its sight line is " + bench.len(sight) + " above the floor, below " +
                         bench.len(rules.low_below->value) + ", and a pane is " + number(area, 2) + " m² of " +
                         bench.len(glass.thickness),
                     sight, rules.low_below->value, "mm", &*rules.low_below});
}

/// Nearest distance along the wall from a pane to a doorway of the same wall; empty: there is none.
std::optional<double> toDoorway(const Bench& bench, const Standing& at, const plan::UnitRect& pane) {
  std::optional<double> nearest;
  for (const std::int32_t other : bench.wall().openings) {
    const auto index = static_cast<std::size_t>(other);
    if (index == bench.index || !bench.plan.openings[index].unit.isDoor()) continue;
    const auto& door = bench.job.openings[index];
    const double away = std::max(door.left - (at.x + pane.x1), at.x + pane.x0 - (door.left + door.width));
    if (away >= 0 && (!nearest || away < *nearest)) nearest = away;
  }
  return nearest;
}

void besideDoor(const Bench& bench, const Standing& at, const plan::UnitRect& pane, std::vector<Reason>& reasons) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.beside_door_within) return;
  if (rules.beside_door_below && at.sightLine(pane) >= rules.beside_door_below->value - kRounding) return;
  const auto away = toDoorway(bench, at, pane);
  if (!away || *away >= rules.beside_door_within->value - kRounding) return;
  reasons.push_back(
      {"it stands " + bench.len(*away) + " beside a doorway, nearer than " + bench.len(rules.beside_door_within->value),
       *away, rules.beside_door_within->value, "mm", &*rules.beside_door_within});
}

void wetGlass(const Bench& bench, const Standing& at, const plan::UnitRect& pane, std::vector<Reason>& reasons) {
  const auto& rule = bench.practice.safety.glass.wet_area_below;
  if (!rule || !isWet(bench.opening().room)) return;
  const double sight = at.sightLine(pane);
  if (sight >= rule->value - kRounding) return;
  reasons.push_back({"it is in a wet area and its sight line is " + bench.len(sight) + " above the floor, below " +
                         bench.len(rule->value),
                     sight, rule->value, "mm", &*rule});
}

/// Large, low and reaching high, beside where people walk. The floor before a window counts as walked on.
void largePane(const Bench& bench, const Standing& at, const plan::UnitRect& pane, std::vector<Reason>& reasons) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.pane_area_above || !rules.pane_bottom_below || !rules.pane_top_above) return;
  const double area = pane.area() / kMm2PerM2;
  const bool all = area > rules.pane_area_above->value + kRounding &&
                   at.z + pane.z0 < rules.pane_bottom_below->value - kRounding &&
                   at.z + pane.z1 > rules.pane_top_above->value + kRounding;
  if (!all) return;
  reasons.push_back({"a pane of " + number(area, 2) + " m² reaches from " + bench.len(at.z + pane.z0) + " to " +
                         bench.len(at.z + pane.z1) + " above the floor",
                     area, rules.pane_area_above->value, "m2", &*rules.pane_area_above});
}

std::vector<Reason> reasonsForSafetyGlass(const Bench& bench, const Standing& at) {
  std::vector<Reason> reasons;
  const auto& unit = bench.planned().unit;
  const auto& door = bench.practice.safety.glass.door_safety;
  if (unit.isDoor() && door && door->value > 0) reasons.push_back({"it is a door", 0, 1, "1", &*door});
  for (const auto& pane : at.parts.allPanes()) {
    lowGlass(bench, at, pane, reasons);
    besideDoor(bench, at, pane, reasons);
    wetGlass(bench, at, pane, reasons);
    largePane(bench, at, pane, reasons);
  }
  return reasons;
}

void judgeGlass(Bench& bench, const Standing& at) {
  const auto& glass = bench.planned().unit.glass;
  if (glass.safety == true || glass.panes <= 0) return;
  const auto reasons = reasonsForSafetyGlass(bench, at);
  if (reasons.empty()) return;
  const bool known = glass.safety.has_value();
  const Reason& first = reasons.front();
  auto& finding = add(bench.findings, known ? Severity::Stop : Severity::Attend, "safety glass",
                      std::string(known ? "Its glass is not safety glass, and has to be: "
                                        : "Its glass has to be safety glass, and the job doesn't say that it is: ") +
                          first.say + ".");
  measuredAgainst(finding, first.measured, first.limit, first.unit, first.figure);
  finding.remedy =
      known ? "Order it with safety glass." : "Look for the mark in the glass's corner, and say so in the job.";
  finding.caution = kGlassCaution;
}

/// Glass that may be taken for a way through wants a band across it.
void noteBand(Bench& bench, const Standing& at) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.band_height || !rules.band_top_least || !rules.band_bottom_most) return;
  for (const auto& pane : at.parts.allPanes()) {
    const bool exempt =
        (rules.band_height_exempt && pane.height() <= rules.band_height_exempt->value + kRounding) ||
        (rules.band_width_exempt && pane.width() <= rules.band_width_exempt->value + kRounding) ||
        (rules.band_sight_line_exempt && at.sightLine(pane) >= rules.band_sight_line_exempt->value - kRounding);
    if (exempt) continue;
    auto& finding = add(bench.findings, Severity::Note, "glass marking",
                        "A pane reaches so low and is so large that it may be taken for a way through: if it is clear, "
                        "it is marked with a band " +
                            bench.len(rules.band_height->value) + " high, its top no lower than " +
                            bench.len(rules.band_top_least->value) + " and its foot no higher than " +
                            bench.len(rules.band_bottom_most->value) + ".");
    measuredAgainst(finding, at.sightLine(pane), rules.band_sight_line_exempt ? rules.band_sight_line_exempt->value : 0,
                    "mm", &*rules.band_height);
    return;
  }
}

// --- falls

std::string deviceWords(const Bench& bench, const practice::FallRule& rule) {
  std::string said;
  if (rule.sphere) {
    said = "A device or screen that stops a sphere of " + bench.len(rule.sphere->value);
    if (rule.force) said += " and stands " + number(rule.force->value, 0) + " N";
    said += ". ";
  }
  if (rule.barrier) {
    said += "A barrier below it of " + bench.len(rule.barrier->value) + " or more";
    if (rule.climb_from && rule.climb_to) {
      said += ", with nothing to climb on between " + bench.len(rule.climb_from->value) + " and " +
              bench.len(rule.climb_to->value);
    }
    said += ".";
  }
  return said.empty() ? "Protect it as local codes say." : said;
}

/// Whether the lowest part that opens is low enough to fall from. Where the rule names no height, that of its barrier:
/// a wall as high as that is one.
bool lowEnough(const practice::FallRule& rule, double lowest) {
  const practice::Rule& below = rule.opening_below ? rule.opening_below : rule.barrier;
  return !below || lowest < below->value - kRounding;
}

void judgeFall(Bench& bench, const Standing& at) {
  if (!opens(bench.planned().unit.kind)) return;
  const auto* rule = bench.practice.safety.fallRule(bench.opening().room.value_or(job::Room::Other));
  if (rule == nullptr) return;
  const double lowest = at.z + at.parts.clear.z0;
  if (!lowEnough(*rule, lowest)) return;
  const auto& drop = bench.job.walls[bench.planned().wall].above_ground;
  if (!drop) {
    auto& finding = add(bench.findings, Severity::Note, "falls",
                        "It opens from " + bench.len(lowest) +
                            " above the floor, and the job doesn't say how high the floor is above the ground: a fall "
                            "is not judged.");
    finding.remedy = "Give the wall its height above ground.";
    return;
  }
  const bool by_floor = rule->above_ground_from && *drop >= rule->above_ground_from->value - kRounding;
  const bool by_opening =
      rule->opening_above_ground_from && *drop + lowest > rule->opening_above_ground_from->value + kRounding;
  if (!by_floor && !by_opening) return;
  const auto& figure = by_floor ? *rule->above_ground_from : *rule->opening_above_ground_from;
  const double measured = by_floor ? *drop : *drop + lowest;
  auto& finding =
      add(bench.findings, Severity::Attend, "falls",
          "Someone could fall out of it: it opens from " + bench.len(lowest) + " above the floor, and " +
              (by_floor ? "the floor" : "the opening") + " is " + bench.len(measured) + " above the ground outside.");
  measuredAgainst(finding, measured, figure.value, "mm", &figure);
  finding.remedy = deviceWords(bench, *rule);
  finding.caution = "Until it is protected, the opening is kept shut or guarded.";
}

// --- wet areas

void judgeWetRoom(Bench& bench, const Standing& at) {
  const auto& room = bench.opening().room;
  const auto& height = bench.practice.safety.wet_area.waterproof_height;
  if (!isWet(room) || !height) return;
  if (bench.planned().unit.reveal) {
    auto& finding =
        add(bench.findings, Severity::Attend, "wet area",
            "It has a timber " + bench.words().reveal + " in a wet area, where the wall is tiled up to a bare frame.");
    finding.source = "common practice, no source";
    finding.status = practice::Status::CommonPractice;
    finding.remedy = "Order a bare frame, or keep water off it.";
    finding.caution = "Water behind tiles is not seen until the studs have rotted.";
  }
  if (room != job::Room::Shower || at.z >= height->value - kRounding) return;
  auto& finding = add(bench.findings, Severity::Attend, "waterproofing",
                      "Its foot is " + bench.len(at.z) + " above the floor of a shower: everything below " +
                          bench.len(height->value) + " is waterproofed all round, into the frame and over the sill.");
  measuredAgainst(finding, at.z, height->value, "mm", &*height);
  finding.remedy = "Have it waterproofed by a licensed trade before it is tiled, the sill falling inwards to shed.";
  finding.caution = "Waterproofing is licensed work in many places.";
}

// --- notches

/// What the remedies would take off a jamb stud, against what may be notched there.
void judgeNotch(Bench& bench) {
  const auto& most = bench.practice.framing.jamb_notch_most;
  if (!most) return;
  const plan::Remedy* deepest = nullptr;
  for (const auto& remedy : bench.planned().remedies) {
    if (remedy.kind != plan::RemedyKind::TakeOffStud || remedy.amount <= most->value + kRounding) continue;
    if (deepest == nullptr || remedy.amount > deepest->amount) deepest = &remedy;
  }
  if (deepest == nullptr) return;
  auto& finding = add(bench.findings, Severity::Attend, "notching",
                      "To make it fit, " + bench.len(deepest->amount) + " would come off the " + toWord(deepest->side) +
                          " " + bench.words().jamb_stud + ": " +
                          (most->value > 0 ? "no more than " + bench.len(most->value) + " may be notched there."
                                           : "beside an opening it may not be notched at all."));
  measuredAgainst(finding, deepest->amount, most->value, "mm", &*most);
  finding.remedy = "Move or replace the stud, or have the unit made smaller.";
  finding.caution = "Jamb studs carry the lintel's load: they are altered only under span tables or an engineer.";
  finding.spot.side = deepest->side;
}

// --- lifting

void judgeLifting(Bench& bench) {
  const auto& mass = bench.planned().mass;
  const auto& rules = bench.practice.safety.lifting;
  if (!mass.people) {
    bench.not_judged.emplace_back("what a person may lift");
    return;
  }
  const double most = plan::teamLimit(*mass.people, rules);
  const std::string weighs = "It weighs " + std::string(mass.stated ? "" : "about ") + number(mass.total_kg, 0) + " kg";
  auto& finding = add(bench.findings, mass.mechanical_help ? Severity::Attend : Severity::Note, "lifting",
                      mass.mechanical_help ? weighs + ", more than the " + number(most, 0) + " kg that " +
                                                 std::to_string(*mass.people) + " people may lift."
                                           : weighs + ": " + count(*mass.people, "person", "people") + " to lift it.");
  measuredAgainst(finding, mass.total_kg, most, "kg", &*rules.one_person);
  if (mass.mechanical_help)
    finding.remedy = "Use a lifter or a hoist, or take sashes and glass out and set the frame alone.";
  finding.caution = "Carried upright, never flat; gloves and shoes on.";
}

/// The way up to the sill, by the lifting equation, where the practice's rule alone lets the team lift it.
void noteLift(Bench& bench) {
  const auto& mass = bench.planned().mass;
  const auto& rules = bench.practice.safety.lifting;
  if (!mass.people || mass.mechanical_help || !rules.niosh_raised) return;
  const plan::Lift lift = plan::liftOn(bench.planned().unit.height, bench.opening().sill);
  const double each = mass.total_kg / *mass.people;
  const auto index = plan::liftingIndex(each, lift, rules);
  if (!index || *index <= rules.niosh_raised->value + kRounding) return;
  const bool high = rules.niosh_high && *index > rules.niosh_high->value;
  auto& finding =
      add(bench.findings, Severity::Note, "lifting index",
          "Lifted from the floor on to its sill, an equal share of " + number(each, 0) + " kg has a lifting index of " +
              number(*index, 1) + ": the risk of a strained back is " + (high ? "high." : "raised."));
  measuredAgainst(finding, *index, rules.niosh_raised->value, "1", &*rules.niosh_raised);
  finding.remedy = "One person more, or lift it in two stages from a trestle.";
}

}  // namespace

void judgeSafety(Bench& bench) {
  const Standing at = standing(bench);
  judgeGlass(bench, at);
  noteBand(bench, at);
  judgeFall(bench, at);
  judgeWetRoom(bench, at);
  judgeNotch(bench);
  judgeLifting(bench);
  noteLift(bench);
}

}  // namespace sillwright::check
