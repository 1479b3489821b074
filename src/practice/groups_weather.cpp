// Flashings, membrane, cladding, sealing; glass, falls, wet areas, lifting.
#include <algorithm>

#include "base/words.h"
#include "job/rules.h"
#include "practice/groups.h"

namespace sillwright::practice {

namespace {

constexpr std::string_view kComparisonWords[] = {"at least", "more than"};  // in the order of Comparison

void checkClass(Fields& fields, const char* key, const Wind& wind, const std::string& name) {
  if (wind.find(name) == nullptr) {
    fields.wrong(key, "must name a wind class of this practice; found " + base::quote(name));
  }
}

void readByClass(Fields& fields, const char* key, const Wind& wind, ByClass& into) {
  fields.byClass(key, kLength, into);
  for (const ClassFigure& entry : into.entries) {
    checkClass(fields, key, wind, entry.wind);
  }
}

void readClasses(Fields& fields, const char* key, const Wind& wind, std::vector<std::string>& into) {
  fields.texts(key, into);
  for (const std::string& name : into) {
    checkClass(fields, key, wind, name);
  }
}

void readFlashings(Fields& fields, const Wind& wind, Flashings& into) {
  fields.measure("sill_past", kLength, into.sill_past);
  fields.measure("jamb_past", kLength, into.jamb_past);
  fields.measure("head_past", kLength, into.head_past);
  fields.measure("jamb_over_sill", kLength, into.jamb_over_sill);
  fields.measure("head_over_jamb", kLength, into.head_over_jamb);
  fields.measure("sill_down", kPart, into.sill_down);
  fields.measure("jamb_out", kPart, into.jamb_out);
  fields.measure("sill_upstand", kLength, into.sill_upstand);
  fields.measure("sill_end_upstand", kLength, into.sill_end_upstand);
  fields.measure("head_upstand", kPart, into.head_upstand);
  fields.measure("head_slope", kAngle, into.head_slope);
  fields.measure("head_turn_down", kLength, into.head_turn_down);
  fields.measure("head_stop_end", kLength, into.head_stop_end);
  fields.measure("head_reach", kPart, into.head_reach);
  readByClass(fields, "head_upstand_extra", wind, into.head_upstand_extra);
  readClasses(fields, "head_sealed_in", wind, into.head_sealed_in);
  fields.rule("eave_ratio", kRatio, into.eave.ratio);
  if (const auto comparison = fields.word("eave_comparison", kComparisonWords)) {
    into.eave.comparison = static_cast<Comparison>(*comparison);
  }
  fields.together("eave_ratio", "eave_comparison");
}

void readMembrane(Fields& fields, Membrane& into) {
  fields.measure("lap", kLength, into.lap);
  fields.measure("end_lap", kLength, into.end_lap);
  fields.measure("flap_over_head", kLength, into.flap_over_head);
  fields.measure("corner_tape", kLength, into.corner_tape);
  fields.rule("fixing_spacing_most", kPart, into.fixing_spacing_most);
  fields.rule("corners_taped", kYesNo, into.corners_taped);
  fields.rule("support_spacing_most", kPart, into.support_spacing_most);
  fields.rule("support_from_studs", kPart, into.support_from_studs);
  fields.together("support_spacing_most", "support_from_studs");
}

void readCladding(Fields& fields, const Wind& wind, CladdingRules& into) {
  fields.measure("head_gap", kLength, into.head_gap);
  fields.rule("board_lap_least", kLength, into.board_lap_least);
  fields.rule("over_upstand_least", kLength, into.over_upstand_least);
  fields.rule("under_sill_least", kLength, into.under_sill_least);
  fields.rule("jamb_cover_least", kLength, into.jamb_cover_least);
  fields.rule("ground_clearance", kLength, into.ground_clearance);
  readClasses(fields, "direct_fix_not_in", wind, into.direct_fix_not_in);
}

void readSealing(Fields& fields, Sealing& into) {
  fields.rule("backing_from", kLength, into.backing_from);
  fields.rule("sealant_depth_least", kPart, into.sealant_depth_least);
  fields.rule("cover_strip_from", kPart, into.cover_strip_from);
}

void readGlass(Fields& fields, GlassRules& into) {
  fields.rule("door_safety", kYesNo, into.door_safety);
  fields.rule("low_below", kPart, into.low_below);
  fields.rule("low_area_most", kArea, into.low_area_most);
  fields.rule("low_thickness_least", kPart, into.low_thickness_least);
  fields.rule("beside_door_within", kPart, into.beside_door_within);
  fields.rule("beside_door_below", kPart, into.beside_door_below);
  fields.rule("wet_below", kPart, into.wet_below);
  fields.rule("pane_area_above", kArea, into.pane_area_above);
  fields.rule("pane_bottom_below", kPart, into.pane_bottom_below);
  fields.rule("pane_top_above", kPart, into.pane_top_above);
  fields.rule("pane_walk_within", kPart, into.pane_walk_within);
  fields.rule("band_height", kPart, into.band_height);
  fields.rule("band_top_least", kPart, into.band_top_least);
  fields.rule("band_bottom_most", kPart, into.band_bottom_most);
  fields.rule("band_height_exempt", kPart, into.band_height_exempt);
  fields.rule("band_width_exempt", kPart, into.band_width_exempt);
  fields.rule("band_sight_line_exempt", kPart, into.band_sight_line_exempt);
  fields.together("low_area_most", "low_thickness_least");
}

/// Words of rooms to rooms; each may stand in one rule only.
void readRooms(Fields& fields, const std::vector<FallRule>& all, FallRule& into) {
  std::vector<std::string> words;
  fields.texts("rooms", words);
  for (const std::string& word : words) {
    const auto* const found = std::find(std::begin(job::kRoomWords), std::end(job::kRoomWords), word);
    if (found == std::end(job::kRoomWords)) {
      fields.wrong("rooms", "must be " + job::describe(job::word(job::kRoomWords)) + "; found " + base::quote(word));
      continue;
    }
    const auto room = static_cast<job::Room>(found - std::begin(job::kRoomWords));
    for (const FallRule& other : all) {
      if (&other != &into && std::find(other.rooms.begin(), other.rooms.end(), room) != other.rooms.end()) {
        fields.wrong("rooms", base::quote(word) + " has a rule already");
      }
    }
    into.rooms.push_back(room);
  }
}

void readFall(Fields& fields, FallRule& into) {
  fields.rule("drop_from", kPart, into.drop_from);
  fields.rule("opening_drop_from", kPart, into.opening_drop_from);
  fields.rule("opening_below", kPart, into.opening_below);
  fields.rule("sphere", kPart, into.sphere);
  fields.rule("force", kForce, into.force);
  fields.rule("barrier", kPart, into.barrier);
  fields.rule("climb_from", kLength, into.climb_from);
  fields.rule("climb_to", kPart, into.climb_to);
  fields.together("climb_from", "climb_to");
}

void readWetArea(Fields& fields, WetArea& into) {
  fields.rule("waterproof_height", kPart, into.waterproof_height);
  fields.rule("shower_extent", kPart, into.shower_extent);
  fields.rule("junction", kPart, into.junction);
}

void readEscape(Fields& fields, Escape& into) {
  fields.rule("area", kArea, into.area);
  fields.rule("side", kPart, into.side);
  fields.rule("sill_most", kPart, into.sill_most);
}

void readLifting(Fields& fields, Lifting& into) {
  fields.rule("one_person", kMass, into.one_person);
  fields.rule("two_share", kShare, into.two_share);
  fields.rule("three_share", kShare, into.three_share);
  fields.rule("niosh_load", kMass, into.niosh_load);
  fields.rule("niosh_horizontal", kCentimetres, into.niosh_horizontal);
  fields.rule("niosh_vertical", kPerCentimetre, into.niosh_vertical);
  fields.rule("niosh_vertical_at", kCentimetres, into.niosh_vertical_at);
  fields.rule("niosh_distance", kShare, into.niosh_distance);
  fields.rule("niosh_distance_over", kCentimetres, into.niosh_distance_over);
  fields.rule("niosh_asymmetry", kPerDegree, into.niosh_asymmetry);
  fields.rule("niosh_raised", kRatio, into.niosh_raised);
  fields.rule("niosh_high", kRatio, into.niosh_high);
}

void readMasses(Fields& fields, Masses& into) {
  fields.figure("glass", kDensity, into.glass);
  fields.figure("aluminium", kDensity, into.aluminium);
  fields.figure("reveal", kDensity, into.reveal);
  fields.figure("metal_share", kShare, into.metal_share);
}

}  // namespace

void readWeather(Fields& fields, const Wind& wind, Weather& into) {
  fields.group("flashing", [&](Fields& group) { readFlashings(group, wind, into.flashing); });
  fields.group("membrane", [&](Fields& group) { readMembrane(group, into.membrane); });
  fields.group("cladding", [&](Fields& group) { readCladding(group, wind, into.cladding); });
  fields.groupIfThere("sealing", [&](Fields& group) { readSealing(group, into.sealing); });
  readByClass(fields, "door_upstand", wind, into.door_upstand);
}

void readSafety(Fields& fields, Safety& into) {
  fields.groupIfThere("glass", [&](Fields& group) { readGlass(group, into.glass); });
  fields.each("falls", into.falls, [&into](Fields& entry, FallRule& rule) {
    readRooms(entry, into.falls, rule);
    readFall(entry, rule);
  });
  fields.groupIfThere("wet_area", [&](Fields& group) { readWetArea(group, into.wet_area); });
  fields.groupIfThere("escape", [&](Fields& group) { readEscape(group, into.escape); });
  fields.groupIfThere("lifting", [&](Fields& group) { readLifting(group, into.lifting); });
  fields.group("masses", [&](Fields& group) { readMasses(group, into.masses); });
}

}  // namespace sillwright::practice
