// Glass that people may run or fall into. Only what the practice names is judged; what it doesn't is said.

#include "check/rules.h"

namespace sillwright::check {
namespace {

constexpr double kMm2PerM2 = 1e6;

const char* const kGlassCaution =
    "Ordinary glass breaks into blades. Where safety glass is asked for, nothing else goes in.";

/// A reason that asks for safety glass.
struct Reason {
  std::string say;
  Against against;
};

/// Nearest distance along the wall from a pane to a doorway of the same wall; empty: there is none.
std::optional<double> toDoorway(const Bench& bench, const Standing& at, const plan::UnitRect& pane) {
  std::optional<double> nearest;
  for (const std::int32_t other : bench.wall().openings) {
    const auto index = static_cast<std::size_t>(other);
    if (index == bench.index || !bench.plan.openings[index].unit.isDoor()) continue;
    const auto& door = bench.job.openings[index];
    const double away = std::max(door.left - (at.x + pane.x1), at.x + pane.x0 - (door.left + door.width));
    if (away >= 0 && (!nearest || away < *nearest)) nearest = away;  // below 0 it is over or under the door
  }
  return nearest;
}

/// A pane under judgement, and what asks safety glass of it.
struct Pane {
  const Bench& bench;
  const Standing& at;
  const plan::UnitRect& sight;
  const job::Glass& glass;
  const practice::GlassRules& rules = bench.practice.safety.glass;
  const double sight_line = at.sightLine(sight);
  const double area_m2 = sight.area() / kMm2PerM2;

  /// Ordinary glass that is small and thick enough to be let in all the same.
  [[nodiscard]] bool smallAndThick(const practice::Rule& area, const practice::Rule& thickness) const {
    return area && thickness && !aboveShare(area_m2, area->value) && !below(glass.thickness, thickness->value);
  }
  [[nodiscard]] bool under(const practice::Rule& rule) const { return rule && below(sight_line, rule->value); }
  [[nodiscard]] Reason bySightLine(const std::string& before, const practice::Rule& rule,
                                   const std::string& after = {}) const {
    const auto [lies, limit] = bench.apart(sight_line, rule->value);
    return {before + "its sight line is " + lies + " above the floor, below " + limit + after,
            {sight_line, rule->value, "mm", &*rule}};
  }

  [[nodiscard]] std::optional<Reason> low() const {
    if (!under(rules.low_below) || smallAndThick(rules.low_area_most, rules.low_thickness_least)) return {};
    return bySightLine("", rules.low_below,
                       ", and a pane is " + number(area_m2, 2) + " m² of " + bench.len(glass.thickness));
  }

  [[nodiscard]] std::optional<Reason> besideDoor() const {
    const practice::Rule& within = rules.beside_door_within;
    if (!within || (rules.beside_door_below && !under(rules.beside_door_below))) return {};
    const auto away = toDoorway(bench, at, sight);
    if (!away || !below(*away, within->value)) return {};
    const auto [stands, limit] = bench.apart(*away, within->value);
    return Reason{"it stands " + stands + " beside a doorway, nearer than " + limit,
                  {*away, within->value, "mm", &*within}};
  }

  /// Large, low and reaching high, beside where people walk. The floor before a window counts as walked on.
  [[nodiscard]] std::optional<Reason> large() const {
    if (!rules.pane_area_above || !rules.pane_bottom_below || !rules.pane_top_above) return {};
    const double top = at.z + sight.z1;
    if (!aboveShare(area_m2, rules.pane_area_above->value) || !under(rules.pane_bottom_below) ||
        !above(top, rules.pane_top_above->value)) {
      return {};
    }
    return Reason{
        "a pane of " + number(area_m2, 2) + " m² reaches from " + bench.len(sight_line) + " to " + bench.len(top) +
            " above the floor" +
            (rules.pane_walk_within ? ", which is walked on nearer than " + bench.len(rules.pane_walk_within->value)
                                    : std::string{}),
        {area_m2, rules.pane_area_above->value, "m2", &*rules.pane_area_above}};
  }

  /// It may be taken for a doorway: low and wide.
  [[nodiscard]] std::optional<Reason> mistaken() const {
    if (!rules.mistaken_width_above || !under(rules.mistaken_below) || bench.planned().unit.isDoor()) return {};
    if (!above(sight.width(), rules.mistaken_width_above->value)) return {};
    return Reason{"a pane " + bench.len(sight.width()) + " wide with its sight line " + bench.len(sight_line) +
                      " above the floor may be taken for a doorway, unless it is made plain to see or has a rail "
                      "across it",
                  {sight_line, rules.mistaken_below->value, "mm", &*rules.mistaken_below}};
  }

  /// The first of all.
  [[nodiscard]] std::optional<Reason> asked() const {
    const auto& room = bench.opening().room;
    if (bench.planned().unit.isDoor() && rules.door_safety && rules.door_safety->value > 0) {
      return Reason{"it is a door", {0, 1, "1", &*rules.door_safety}};
    }
    const bool small = rules.small_side_most &&
                       !above(std::min(sight.width(), sight.height()), rules.small_side_most->value) &&
                       smallAndThick(rules.small_area_most, rules.small_thickness_least);
    if (auto reason = small ? std::nullopt : low()) return reason;  // a small pane is let off this rule and the next
    if (auto reason = small ? std::nullopt : besideDoor()) return reason;
    // What the room asks for comes before what the pane's size does: the first reason is told.
    if (isWet(room) && under(rules.wet_area_below))
      return bySightLine("it is in a wet area and ", rules.wet_area_below);
    if (room == job::Room::Stair && under(rules.stair_below)) {
      return bySightLine("it is beside a stair and ", rules.stair_below);
    }
    if (room == job::Room::Kitchen && under(rules.kitchen_below)) {
      return bySightLine("it is in a kitchen and ", rules.kitchen_below);
    }
    if (auto reason = large()) return reason;
    return mistaken();
  }
};

/// The first pane that isn't known to be safety glass and that something asks it of, with the reason; of those that are
/// known to be ordinary glass the first, if there are any.
std::optional<std::pair<std::size_t, Reason>> firstAsking(const Bench& bench, const Standing& at) {
  std::optional<std::pair<std::size_t, Reason>> first;
  for (std::size_t i = 0; i < at.parts.pane.size(); ++i) {
    const job::Glass& glass = at.parts.glass[i];
    if (glass.safety == true || glass.panes <= 0 || (first && !glass.safety)) continue;  // safe, no glass, or no worse
    auto reason = Pane{bench, at, at.parts.pane[i], glass}.asked();
    if (!reason) continue;
    first.emplace(i, std::move(*reason));
    if (glass.safety) break;  // it is known to be ordinary: none is worse
  }
  return first;
}

/// "Its glass", or of a unit in several lights "The glass of row 2, light 1".
std::string glassName(const Standing& at, std::size_t pane) {
  if (at.parts.light.size() == 1) return "Its glass";  // the unit has one light
  const auto light = std::find_if(at.parts.light.begin(), at.parts.light.end(), [&](const plan::LightParts& one) {
    return pane >= one.first_pane && pane < one.first_pane + one.panes;  // each pane is some light's
  });
  return "The glass of row " + std::to_string(light->row) + ", light " + std::to_string(light->column);
}

/// What may be wanted here and the practice has no rule for.
void noteLacking(Bench& bench, const Standing& at) {
  const auto& rules = bench.practice.safety.glass;
  const bool door = bench.planned().unit.isDoor();
  const auto lacks = [&](bool asked, bool known, const char* name) {
    if (asked && !known) bench.notJudged(name);
  };
  bool by_door = false;  // a doorway beside any of its panes
  for (const auto& pane : at.parts.pane) by_door = by_door || toDoorway(bench, at, pane);
  lacks(door, rules.door_safety.has_value(), "glass in doors");
  lacks(!door, rules.low_below || rules.pane_area_above, "low glass");
  lacks(!door && by_door, rules.beside_door_within.has_value(), "glass beside doors");
  const auto& lights = at.parts.light;
  const auto isLouvre = [](const plan::LightParts& light) { return light.kind == job::UnitKind::LouvreWindow; };
  lacks(std::any_of(lights.begin(), lights.end(), isLouvre), false, "the thickness of louvre blades");
  lacks(isWet(bench.opening().room), rules.wet_area_below.has_value(), "glass in wet areas");
  lacks(bench.opening().room == job::Room::Stair, rules.stair_below.has_value(), "glass beside stairs");
}

/// Another way than safety glass, where the practice has one.
std::string screenWords(const Bench& bench, const Reason& reason) {
  const auto& rules = bench.practice.safety.glass;
  const bool low = reason.against.figure == (rules.low_below ? &*rules.low_below : nullptr);
  if (!low || !rules.screen_height || !rules.screen_sphere) return {};
  return " Or put a firm screen before it, " + bench.len(rules.screen_height->value) +
         " high, that stops a sphere of " + bench.len(rules.screen_sphere->value) + " and can't be climbed.";
}

void judgeSafetyGlass(Bench& bench, const Standing& at) {
  const auto& all = at.parts.glass;
  const bool settled = std::all_of(all.begin(), all.end(),
                                   [](const job::Glass& glass) { return glass.safety == true || glass.panes <= 0; });
  if (settled) return;  // no rule would ask for more
  noteLacking(bench, at);
  const auto asking = firstAsking(bench, at);
  if (!asking) return;
  const auto& [pane, first] = *asking;
  const bool known = all[pane].safety.has_value();
  const std::string name = glassName(at, pane);
  bench.add(
      known ? Severity::Stop : Severity::Attend, "safety glass",
      name +
          (known ? " is not safety glass, and has to be: "
                 : " has to be safety glass, and the job doesn't say that it is: ") +
          first.say + ".",
      first.against,
      (known ? "Order it with safety glass." : "Look for the mark in the glass's corner, and say so in the job.") +
          screenWords(bench, first),
      {}, kGlassCaution);
}

/// Glass that may be taken for a way through wants a band across it.
void noteBand(Bench& bench, const Standing& at) {
  const auto& rules = bench.practice.safety.glass;
  if (!rules.band_height || !rules.band_top_least || !rules.band_bottom_most) return;
  for (const auto& pane : at.parts.pane) {  // it is said once, of the first
    const bool exempt =
        (rules.band_height_exempt && !above(pane.height(), rules.band_height_exempt->value)) ||
        (rules.band_width_exempt && !above(pane.width(), rules.band_width_exempt->value)) ||
        (rules.band_sight_line_exempt && !below(at.sightLine(pane), rules.band_sight_line_exempt->value));
    if (exempt) continue;
    bench.note("glass marking",
               "A pane reaches so low and is so large that it may be taken for a way through: if it is clear, "
               "it is marked with a band " +
                   bench.len(rules.band_height->value) + " high, its top no lower than " +
                   bench.len(rules.band_top_least->value) + " and its foot no higher than " +
                   bench.len(rules.band_bottom_most->value) + ".",
               {at.sightLine(pane), rules.band_sight_line_exempt ? rules.band_sight_line_exempt->value : 0, "mm",
                &*rules.band_height});
    return;
  }
}

}  // namespace

void judgeGlass(Bench& bench, const Standing& at) {
  judgeSafetyGlass(bench, at);
  noteBand(bench, at);
}

}  // namespace sillwright::check
