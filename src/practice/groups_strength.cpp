// Wind, fixings, screws and timber.
#include <algorithm>

#include "base/words.h"
#include "practice/groups.h"

namespace sillwright::practice {

namespace {

constexpr std::string_view kMethodWords[] = {"allowable", "limit states"};  // in the order of Method
constexpr std::string_view kEmbeddingWords[] = {"nds", "ec5"};              // in the order of Embedding

/// Notes a name that one of those before has.
template <class Named>
void checkNew(Fields& fields, const std::vector<Named>& all) {
  const std::string& name = all.back().name;
  const auto same = [&](const Named& other) { return other.name == name; };
  if (!name.empty() && std::count_if(all.begin(), all.end(), same) > 1) {
    fields.wrong("name", base::quote(name) + " stands here twice");
  }
}

void readClass(Fields& fields, WindClass& into) {
  fields.requiredText("name", into.name);
  fields.rule("ultimate_speed", kSpeed, into.ultimate_speed);
  fields.rule("service_speed", kSpeed, into.service_speed);
  fields.rule("general_coefficient", kRatio, into.general_coefficient);
  fields.rule("corner_coefficient", kRatio, into.corner_coefficient);
  fields.rule("ultimate_kpa", kPressure, into.ultimate_kpa);
  fields.rule("service_kpa", kPressure, into.service_kpa);
  fields.rule("corner_ultimate_kpa", kPressure, into.corner_ultimate_kpa);
  fields.rule("corner_service_kpa", kPressure, into.corner_service_kpa);
  fields.rule("rating_kpa", kPressure, into.rating_kpa);
  fields.rule("corner_rating_kpa", kPressure, into.corner_rating_kpa);
  fields.rule("water_kpa", kPressure, into.water_kpa);
}

void readGrade(Fields& fields, TimberGrade& into) {
  fields.requiredText("name", into.name);
  fields.bands("bending", kStress, into.bending);
  fields.rule("shear", kStress, into.shear);
  fields.rule("across", kStress, into.across);
  fields.rule("stiffness", kStress, into.stiffness);
  fields.rule("specific_gravity", kShare, into.specific_gravity);
  fields.rule("density", kDensity, into.density);
}

void readLintelRules(Fields& fields, LintelRules& into) {
  fields.rule("load_factor", kRatio, into.load_factor);
  fields.rule("duration", kRatio, into.duration);
  fields.rule("capacity_factor", kShare, into.capacity_factor);
  fields.rule("total_deflection_ratio", kRatio, into.total_deflection_ratio);
  fields.rule("live_deflection_ratio", kRatio, into.live_deflection_ratio);
  fields.rule("deflection_most", kPart, into.deflection_most);
  fields.rule("creep", kRatio, into.creep);
}

void readSpan(Fields& fields, SpanEntry& into) {
  fields.requiredText("header", into.header);
  fields.requiredNumber("depth", kPart.value, into.depth);
  fields.requiredNumber("thickness", kPart.value, into.thickness);
  double plies = 0;
  fields.requiredNumber("plies", kPieces.value, plies);
  into.plies = static_cast<int>(plies);
  fields.requiredText("carries", into.carries);
  fields.figure("span", kPart, into.span);
  fields.rule("jack_studs", kPieces, into.jack_studs);
}

}  // namespace

void readWind(Fields& fields, Wind& into) {
  fields.rule("air_density", kDensity, into.air_density);
  fields.rule("corner_zone", kPart, into.corner_zone);
  fields.rule("corner_share", kShare, into.corner_share);
  fields.rule("water_share", kShare, into.water_share);
  fields.each("class", into.classes, [&into](Fields& entry, WindClass& wind_class) {
    readClass(entry, wind_class);
    checkNew(entry, into.classes);
  });
}

void readFixing(Fields& fields, Fixing& into) {
  fields.rule("from_corner_least", kLength, into.from_corner_least);
  fields.rule("from_corner_most", kLength, into.from_corner_most);
  fields.rule("spacing_most", kPart, into.spacing_most);
  fields.rule("jamb_least", kPieces, into.jamb_least);
  fields.rule("sill_least", kCount, into.sill_least);
  fields.rule("door_jamb_least", kPieces, into.door_jamb_least);
  fields.bands("per_jamb", kPieces, into.per_jamb);
  fields.rule("from_mullion_least", kLength, into.from_mullion_least);
  fields.rule("embedment_least", kPart, into.embedment_least);
  fields.rule("embedment_diameters", kRatio, into.embedment_diameters);
  fields.rule("countersink", kLength, into.countersink);
  fields.rule("fin_spacing_most", kPart, into.fin_spacing_most);
  fields.rule("fin_penetration_least", kPart, into.fin_penetration_least);
  if (into.from_corner_least && into.from_corner_most && into.from_corner_least->value > into.from_corner_most->value) {
    fields.wrong("from_corner_least", "must not be above from_corner_most");
  }
}

void readFixingDesign(Fields& fields, FixingDesign& into) {
  if (const auto method = fields.requiredWord("method", kMethodWords)) {
    into.method = static_cast<Method>(*method);
  }
  if (const auto embedding = fields.requiredWord("embedding", kEmbeddingWords)) {
    into.embedding = static_cast<Embedding>(*embedding);
  }
  fields.bands("divisor", kRatio, into.divisor);
  fields.rule("duration_wind", kRatio, into.duration_wind);
  fields.rule("format_conversion", kRatio, into.format_conversion);
  fields.rule("capacity_factor", kShare, into.capacity_factor);
  fields.rule("reveal_gravity", kShare, into.reveal_gravity);
  fields.rule("reveal_density", kDensity, into.reveal_density);
  fields.rule("side_diameters", kRatio, into.side_diameters);
}

void readGauge(Fields& fields, Gauge& into) {
  fields.requiredText("name", into.name);
  fields.figure("shank", kPart, into.shank);
  fields.figure("root", kPart, into.root);
  fields.figure("head", kPart, into.head);
  fields.rule("yield", kStress, into.yield);
  fields.rule("tensile", kStress, into.tensile);
  fields.requiredLengths("lengths", into.lengths);
  if (into.root.value > into.shank.value || into.shank.value > into.head.value) {
    fields.wrong("shank", "must be from root to head: root <= shank <= head");
  }
}

void readTimber(Fields& fields, Timber& into) {
  fields.text("usual_grade", into.usual_grade);
  fields.each("grade", into.grades, [&into](Fields& entry, TimberGrade& grade) {
    readGrade(entry, grade);
    checkNew(entry, into.grades);
  });
  if (!into.usual_grade.empty() && into.find(into.usual_grade) == nullptr) {
    fields.wrong("usual_grade", "must be a grade of this practice; found " + base::quote(into.usual_grade));
  }
  fields.groupIfThere("lintel", [&](Fields& group) { readLintelRules(group, into.lintel); });
  fields.each("span", into.spans, readSpan);
}

}  // namespace sillwright::practice
