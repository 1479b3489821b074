#include "plan/hold/beam.h"

#include <algorithm>
#include <cassert>

namespace sillwright::plan {

BeamForces uniformLoad(double load_n_per_mm, double span, double modulus_mpa, double inertia_mm4) {
  assert(span >= 0 && modulus_mpa > 0 && inertia_mm4 > 0);
  const double span4 = span * span * span * span;
  return {.moment_nmm = load_n_per_mm * span * span / 8,
          .shear_n = load_n_per_mm * span / 2,
          .deflection = 5 * load_n_per_mm * span4 / (384 * modulus_mpa * inertia_mm4)};
}

namespace {

constexpr double kMm2PerM2 = 1e6;
constexpr double kNPerMmOfKpaMm = 1e-3;  // a kilopascal over a millimetre's width, N/mm

void lacks(LintelCheck& check, const char* what) {
  if (!check.missing.empty()) check.missing += ", ";
  check.missing += what;
}

/// A lintel's section and timber under its load.
struct Loaded {
  LintelCheck& check;
  double width, depth, bearing_each_end;
  const practice::TimberGrade& grade;
  const practice::LintelRules& rules;

  /// Strength that may be counted on: f × duration × capacity factor, the grade's own where it has one. Empty where one
  /// of them isn't named.
  [[nodiscard]] std::optional<double> design(const practice::Figure* strength) const {
    const practice::Rule& factor = grade.capacity_factor ? grade.capacity_factor : rules.capacity_factor;
    if (strength == nullptr || !rules.duration || !factor) return std::nullopt;
    return strength->value * rules.duration->value * factor->value;
  }
  [[nodiscard]] std::optional<double> design(const practice::Rule& strength) const {
    return design(strength ? &*strength : nullptr);
  }

  void checkStrength() const {
    if (!rules.load_factor || !rules.duration || !rules.capacity_factor) {
      return lacks(check, "factors of load, duration and capacity");
    }
    const BeamForces forces = uniformLoad(check.load_n_per_mm * rules.load_factor->value, check.span, 1, 1);
    const auto bending = design(grade.bending.at(depth)), shear = design(grade.shear);
    if (bending) check.bending = forces.moment_nmm / (sectionModulus(width, depth) * *bending);
    if (!bending) lacks(check, "bending strength of the grade at this depth");
    const double whole = width * (rules.crack_factor ? rules.crack_factor->value : 1);
    if (shear) check.shear = 1.5 * forces.shear_n / (whole * depth * *shear);  // 1.5: a rectangle's peak
    if (!shear) lacks(check, "shear strength of the grade");
  }

  void checkDeflection() const {
    if (!grade.stiffness) return lacks(check, "stiffness of the grade");
    if (!rules.total_deflection_ratio && !rules.live_deflection_ratio && !rules.deflection_most) {
      return lacks(check, "limits of deflection");
    }
    const double at_once =
        uniformLoad(check.load_n_per_mm, check.span, grade.stiffness->value, sectionInertia(width, depth)).deflection;
    const double in_time = at_once * (rules.creep ? rules.creep->value : 1);
    double worst = 0;
    if (rules.total_deflection_ratio) worst = in_time * rules.total_deflection_ratio->value / check.span;
    if (rules.live_deflection_ratio) worst = std::max(worst, at_once * rules.live_deflection_ratio->value / check.span);
    if (rules.deflection_most) worst = std::max(worst, in_time / rules.deflection_most->value);
    check.deflection = worst;
  }

  /// The ends on their studs: compression of the lintel across the grain.
  void checkBearing() const {
    const std::optional<double> across = design(grade.across);
    if (!across || !rules.load_factor) return lacks(check, "bearing strength across the grain");
    if (bearing_each_end <= 0) return lacks(check, "studs under its ends");  // it is housed: this can't be told
    const double reaction = check.load_n_per_mm * rules.load_factor->value * check.span / 2;
    check.bearing = reaction / (width * bearing_each_end * *across);
  }
};

}  // namespace

const practice::TimberGrade* gradeOf(const job::Wall& wall, const practice::Practice& practice) {
  const practice::Timber& timber = practice.strength.timber;
  return timber.find(wall.timber ? *wall.timber : timber.usual_grade);
}

LintelCheck checkLintel(const job::Lintel& lintel, double clear_span, double bearing_each_end, const job::Wall& wall,
                        const practice::Practice& practice) {
  LintelCheck check;
  check.span = clear_span + bearing_each_end;  // half a bearing at each end
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
  const Loaded loaded{check,  lintel.thickness * lintel.plies, lintel.depth, bearing_each_end,
                      *grade, practice.strength.timber.lintel};
  if (loaded.width <= 0 || loaded.depth <= 0 || check.span <= 0) {
    lacks(check, "a lintel with a section");
    return check;
  }
  loaded.checkStrength();
  loaded.checkDeflection();
  loaded.checkBearing();
  return check;
}

}  // namespace sillwright::plan
