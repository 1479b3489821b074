// Glass that people may run or fall into. Only what the practice names is judged; what it doesn't is said.

#include <algorithm>

#include "check/rules.h"

namespace sillwright::check {
namespace {

constexpr double kMm2PerM2 = 1e6;

const char* const kGlassCaution =
    "Ordinary glass breaks into blades. Where safety glass is asked for, nothing else goes in.";

/// A pane under judgement.
struct Pane : plan::UnitRect {
  job::Glass glass;
};

/// A reason that asks for safety glass.
struct Reason {
  std::string say;
  double measured = 0;
  double limit = 0;
  const char* unit = "mm";
  const practice::Figure* figure = nullptr;
};

double areaOf(const Pane& pane) { return pane.area() / kMm2PerM2; }

/// Ordinary glass that is small and thick enough to be let in all the same.
bool smallAndThick(const Pane& pane, const practice::Rule& area, const practice::Rule& thickness) {
  return area && thickness && !aboveShare(areaOf(pane), area->value) && !below(pane.glass.thickness, thickness->value);
}

void lowGlass(const Bench& bench, const Standing& at, const Pane& pane, std::vector<Reason>& reasons) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.low_below || !below(at.sightLine(pane), rules.low_below->value)) return;
  if (smallAndThick(pane, rules.low_area_most, rules.low_thickness_least)) return;
  reasons.push_back({"its sight line is " + bench.len(at.sightLine(pane)) + " above the floor, below " +
                         bench.len(rules.low_below->value) + ", and a pane is " + number(areaOf(pane), 2) + " m² of " +
                         bench.len(pane.glass.thickness),
                     at.sightLine(pane), rules.low_below->value, "mm", &*rules.low_below});
}

/// Nearest distance along the wall from a pane to a doorway of the same wall; empty: there is none.
std::optional<double> toDoorway(const Bench& bench, const Standing& at, const Pane& pane) {
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

void besideDoor(const Bench& bench, const Standing& at, const Pane& pane, std::vector<Reason>& reasons) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.beside_door_within) return;
  if (rules.beside_door_below && !below(at.sightLine(pane), rules.beside_door_below->value)) return;
  const auto away = toDoorway(bench, at, pane);
  if (!away || !below(*away, rules.beside_door_within->value)) return;
  reasons.push_back(
      {"it stands " + bench.len(*away) + " beside a doorway, nearer than " + bench.len(rules.beside_door_within->value),
       *away, rules.beside_door_within->value, "mm", &*rules.beside_door_within});
}

/// A sight line below what the rule of this kind of room asks.
void inRoom(const Bench& bench, const Standing& at, const Pane& pane, bool here, const practice::Rule& rule,
            const char* where, std::vector<Reason>& reasons) {
  if (!here || !rule || !below(at.sightLine(pane), rule->value)) return;
  reasons.push_back({std::string("it is ") + where + " and its sight line is " + bench.len(at.sightLine(pane)) +
                         " above the floor, below " + bench.len(rule->value),
                     at.sightLine(pane), rule->value, "mm", &*rule});
}

/// Large, low and reaching high, beside where people walk. The floor before a window counts as walked on.
void largePane(const Bench& bench, const Standing& at, const Pane& pane, std::vector<Reason>& reasons) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.pane_area_above || !rules.pane_bottom_below || !rules.pane_top_above) return;
  const double area = areaOf(pane);
  const bool all = aboveShare(area, rules.pane_area_above->value) &&
                   below(at.z + pane.z0, rules.pane_bottom_below->value) &&
                   above(at.z + pane.z1, rules.pane_top_above->value);
  if (!all) return;
  reasons.push_back(
      {"a pane of " + number(area, 2) + " m² reaches from " + bench.len(at.z + pane.z0) + " to " +
           bench.len(at.z + pane.z1) + " above the floor" +
           (rules.pane_walk_within ? ", which is walked on nearer than " + bench.len(rules.pane_walk_within->value)
                                   : std::string{}),
       area, rules.pane_area_above->value, "m2", &*rules.pane_area_above});
}

/// A pane that may be taken for a doorway: low and wide.
void mistaken(const Bench& bench, const Standing& at, const Pane& pane, std::vector<Reason>& reasons) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.mistaken_width_above || !rules.mistaken_below || bench.planned().unit.isDoor()) return;
  if (!above(pane.width(), rules.mistaken_width_above->value)) return;
  if (!below(at.sightLine(pane), rules.mistaken_below->value)) return;
  reasons.push_back({"a pane " + bench.len(pane.width()) + " wide with its sight line " +
                         bench.len(at.sightLine(pane)) +
                         " above the floor may be taken for a doorway, unless it is made plain to see or has a rail "
                         "across it",
                     at.sightLine(pane), rules.mistaken_below->value, "mm", &*rules.mistaken_below});
}

/// A pane that isn't known to be safety glass and that something asks it of.
struct Asking {
  std::size_t pane = 0;
  Reason first;
};

void addReasons(const Bench& bench, const Standing& at, const Pane& pane, std::vector<Reason>& reasons) {
  const auto& rules = bench.practice.safety.glass;
  const auto& room = bench.opening().room;
  if (bench.planned().unit.isDoor() && rules.door_safety && rules.door_safety->value > 0) {
    reasons.push_back({"it is a door", 0, 1, "1", &*rules.door_safety});
  }
  const bool small = rules.small_side_most &&
                     !above(std::min(pane.width(), pane.height()), rules.small_side_most->value) &&
                     smallAndThick(pane, rules.small_area_most, rules.small_thickness_least);
  if (!small) {
    lowGlass(bench, at, pane, reasons);
    besideDoor(bench, at, pane, reasons);
  }
  inRoom(bench, at, pane, isWet(room), rules.wet_area_below, "in a wet area", reasons);
  inRoom(bench, at, pane, room == job::Room::Stair, rules.stair_below, "beside a stair", reasons);
  inRoom(bench, at, pane, room == job::Room::Kitchen, rules.kitchen_below, "in a kitchen", reasons);
  largePane(bench, at, pane, reasons);
  mistaken(bench, at, pane, reasons);
}

/// The first such pane; of those that are known to be ordinary glass the first, if there are any.
std::optional<Asking> firstAsking(const Bench& bench, const Standing& at) {
  std::optional<Asking> first;
  for (std::size_t i = 0; i < at.parts.pane.size(); ++i) {
    const job::Glass& glass = at.parts.glass[i];
    if (glass.safety == true || glass.panes <= 0 || (first && !glass.safety)) continue;
    std::vector<Reason> reasons;
    addReasons(bench, at, {at.parts.pane[i], glass}, reasons);
    if (reasons.empty()) continue;
    first = Asking{i, reasons.front()};
    if (glass.safety) break;
  }
  return first;
}

/// "Its glass", or of a unit in several lights "The glass of row 2, light 1".
std::string glassName(const Standing& at, std::size_t pane) {
  if (at.parts.light.size() == 1) return "Its glass";
  const auto light = std::find_if(at.parts.light.begin(), at.parts.light.end(), [&](const plan::LightParts& one) {
    return pane >= one.first_pane && pane < one.first_pane + one.panes;
  });
  return "The glass of row " + std::to_string(light->row) + ", light " + std::to_string(light->column);
}

/// What may be wanted here and the practice has no rule for.
void noteLacking(Bench& bench, const Standing& at) {
  const auto& rules = bench.practice.safety.glass;
  const bool door = bench.planned().unit.isDoor();
  const auto lacks = [&](bool asked, bool known, const char* name) {
    if (asked && !known) bench.not_judged.emplace_back(name);
  };
  bool by_door = false;
  for (const auto& pane : at.parts.allPanes()) by_door = by_door || toDoorway(bench, at, {pane, {}});
  lacks(door, rules.door_safety.has_value(), "glass in doors");
  lacks(!door, rules.low_below || rules.pane_area_above, "low glass");
  lacks(!door && by_door, rules.beside_door_within.has_value(), "glass beside doors");
  const auto& lights = at.parts.light;
  const bool blades = std::any_of(lights.begin(), lights.end(), [](const plan::LightParts& light) {
    return light.kind == job::UnitKind::LouvreWindow;
  });
  lacks(blades, false, "the thickness of louvre blades");
  lacks(isWet(bench.opening().room), rules.wet_area_below.has_value(), "glass in wet areas");
  lacks(bench.opening().room == job::Room::Stair, rules.stair_below.has_value(), "glass beside stairs");
}

/// Another way than safety glass, where the practice has one.
std::string screenWords(const Bench& bench, const Reason& reason) {
  const auto& rules = bench.practice.safety.glass;
  const bool low = reason.figure == (rules.low_below ? &*rules.low_below : nullptr);
  if (!low || !rules.screen_height || !rules.screen_sphere) return {};
  return " Or put a firm screen before it, " + bench.len(rules.screen_height->value) +
         " high, that stops a sphere of " + bench.len(rules.screen_sphere->value) + " and can't be climbed.";
}

void judgeSafetyGlass(Bench& bench, const Standing& at) {
  const auto& all = at.parts.glass;
  const bool settled = std::all_of(all.begin(), all.end(),
                                   [](const job::Glass& glass) { return glass.safety == true || glass.panes <= 0; });
  if (settled) return;
  noteLacking(bench, at);
  const std::optional<Asking> asking = firstAsking(bench, at);
  if (!asking) return;
  const bool known = all[asking->pane].safety.has_value();
  const Reason& first = asking->first;
  const std::string name = glassName(at, asking->pane);
  auto& finding = bench.add(known ? Severity::Stop : Severity::Attend, "safety glass",
                            name +
                                (known ? " is not safety glass, and has to be: "
                                       : " has to be safety glass, and the job doesn't say that it is: ") +
                                first.say + ".");
  measuredAgainst(finding, first.measured, first.limit, first.unit, first.figure);
  finding.remedy =
      known ? "Order it with safety glass." : "Look for the mark in the glass's corner, and say so in the job.";
  finding.remedy += screenWords(bench, first);
  finding.caution = kGlassCaution;
}

/// Glass that may be taken for a way through wants a band across it.
void noteBand(Bench& bench, const Standing& at) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.band_height || !rules.band_top_least || !rules.band_bottom_most) return;
  for (const auto& pane : at.parts.allPanes()) {
    const bool exempt =
        (rules.band_height_exempt && !above(pane.height(), rules.band_height_exempt->value)) ||
        (rules.band_width_exempt && !above(pane.width(), rules.band_width_exempt->value)) ||
        (rules.band_sight_line_exempt && !below(at.sightLine(pane), rules.band_sight_line_exempt->value));
    if (exempt) continue;
    auto& finding =
        bench.note("glass marking",
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

}  // namespace

void judgeGlass(Bench& bench, const Standing& at) {
  judgeSafetyGlass(bench, at);
  noteBand(bench, at);
}

}  // namespace sillwright::check
