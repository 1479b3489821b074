#include "plan/hold/beam.h"

#include <algorithm>

namespace sillwright::plan {

BeamForces uniformLoad(double load_n_per_mm, double span, double modulus_mpa, double inertia_mm4) {
  BeamForces forces;
  forces.moment_nmm = load_n_per_mm * span * span / 8;
  forces.shear_n = load_n_per_mm * span / 2;
  const double span4 = span * span * span * span;
  forces.deflection = 5 * load_n_per_mm * span4 / (384 * modulus_mpa * inertia_mm4);
  return forces;
}

double sectionModulus(double width, double depth) { return width * depth * depth / 6; }

double sectionInertia(double width, double depth) { return width * depth * depth * depth / 12; }

namespace {

constexpr double kMm2PerM2 = 1e6;
constexpr double kNPerMmOfKpaMm = 1e-3;  // a kilopascal over a millimetre's width, N/mm

void lacks(LintelCheck& check, const char* what) {
  if (!check.missing.empty()) check.missing += ", ";
  check.missing += what;
}

struct Section {
  double width = 0;
  double depth = 0;
};

/// Strength that may be counted on: f × duration × capacity factor, the grade's own where it has one. Empty where one
/// of them isn't named.
std::optional<double> design(const practice::Figure* strength, const practice::TimberGrade& grade,
                             const practice::LintelRules& rules) {
  const practice::Rule& factor = grade.capacity_factor ? grade.capacity_factor : rules.capacity_factor;
  if (strength == nullptr || !rules.duration || !factor) return std::nullopt;
  return strength->value * rules.duration->value * factor->value;
}

void checkStrength(LintelCheck& check, const Section& section, const practice::TimberGrade& grade,
                   const practice::LintelRules& rules) {
  if (!rules.load_factor || !rules.duration || !rules.capacity_factor) {
    lacks(check, "factors of load, duration and capacity");
    return;
  }
  const BeamForces forces = uniformLoad(check.load_n_per_mm * rules.load_factor->value, check.span, 1, 1);
  if (const auto bending = design(grade.bending.at(section.depth), grade, rules)) {
    check.bending = forces.moment_nmm / (sectionModulus(section.width, section.depth) * *bending);
  } else {
    lacks(check, "bending strength of the grade at this depth");
  }
  if (const auto shear = design(grade.shear ? &*grade.shear : nullptr, grade, rules)) {
    const double whole = section.width * (rules.crack_factor ? rules.crack_factor->value : 1);
    check.shear = 1.5 * forces.shear_n / (whole * section.depth * *shear);
  } else {
    lacks(check, "shear strength of the grade");
  }
}

/// The ends on their studs: compression of the lintel across the grain.
void checkBearing(LintelCheck& check, const Section& section, double bearing_each_end,
                  const practice::TimberGrade& grade, const practice::LintelRules& rules) {
  const std::optional<double> across = design(grade.across ? &*grade.across : nullptr, grade, rules);
  if (!across || !rules.load_factor) {
    lacks(check, "bearing strength across the grain");
    return;
  }
  if (bearing_each_end <= 0) {
    lacks(check, "studs under its ends");
    return;
  }
  const double reaction = check.load_n_per_mm * rules.load_factor->value * check.span / 2;
  check.bearing = reaction / (section.width * bearing_each_end * *across);
}

void checkDeflection(LintelCheck& check, const Section& section, const practice::TimberGrade& grade,
                     const practice::LintelRules& rules) {
  if (!grade.stiffness) {
    lacks(check, "stiffness of the grade");
    return;
  }
  if (!rules.total_deflection_ratio && !rules.live_deflection_ratio && !rules.deflection_most) {
    lacks(check, "limits of deflection");
    return;
  }
  const double at_once =
      uniformLoad(check.load_n_per_mm, check.span, grade.stiffness->value, sectionInertia(section.width, section.depth))
          .deflection;
  const double in_time = at_once * (rules.creep ? rules.creep->value : 1);
  double worst = 0;
  if (rules.total_deflection_ratio) worst = in_time * rules.total_deflection_ratio->value / check.span;
  if (rules.live_deflection_ratio) worst = std::max(worst, at_once * rules.live_deflection_ratio->value / check.span);
  if (rules.deflection_most) worst = std::max(worst, in_time / rules.deflection_most->value);
  check.deflection = worst;
}

}  // namespace

const practice::TimberGrade* gradeOf(const job::Wall& wall, const practice::Practice& practice) {
  const practice::Timber& timber = practice.strength.timber;
  return timber.find(wall.timber ? *wall.timber : timber.usual_grade);
}

LintelCheck checkLintel(const job::Lintel& lintel, double clear_span, double bearing_each_end, const job::Wall& wall,
                        const practice::Practice& practice) {
  LintelCheck check;
  check.span = clear_span + bearing_each_end;
  if (!wall.supports) lacks(check, "what it carries (supports of the wall)");
  const practice::TimberGrade* grade =
      lintel.material ? practice.strength.timber.find(*lintel.material) : gradeOf(wall, practice);
  if (grade == nullptr) lacks(check, "a grade of timber that the rule set's table has");
  if (!check.missing.empty()) return check;
  const practice::Rule& area_most = practice.strength.timber.lintel.area_most;
  if (area_most && wall.supports->width * check.span / kMm2PerM2 > area_most->value) {
    lacks(check, "a capacity factor for a lintel that carries so large an area");
    return check;
  }
  check.load_n_per_mm = wall.supports->width * wall.supports->load_kpa * kNPerMmOfKpaMm;
  check.grade = grade->name;
  const Section section{lintel.thickness * lintel.plies, lintel.depth};
  if (section.width <= 0 || section.depth <= 0 || check.span <= 0) {
    lacks(check, "a lintel with a section");
    return check;
  }
  checkStrength(check, section, *grade, practice.strength.timber.lintel);
  checkDeflection(check, section, *grade, practice.strength.timber.lintel);
  checkBearing(check, section, bearing_each_end, *grade, practice.strength.timber.lintel);
  return check;
}

}  // namespace sillwright::plan
