/// Simple beams, and the lintel as one. Indicative always: confirm with span tables or an engineer.
#pragma once

#include <optional>
#include <string>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// A uniformly loaded simple beam of rectangular section, N and mm: M = wL²/8, V = wL/2, δ = 5wL⁴/(384EI).
struct BeamForces {
  double moment_nmm = 0;
  double shear_n = 0;
  double deflection = 0;
};
[[nodiscard]] BeamForces uniformLoad(double load_n_per_mm, double span, double modulus_mpa, double inertia_mm4);
/// b·d²/6, mm³; b·d³/12, mm⁴.
[[nodiscard]] constexpr double sectionModulus(double width, double depth) { return width * depth * depth / 6; }
[[nodiscard]] constexpr double sectionInertia(double width, double depth) { return width * depth * depth * depth / 12; }

/// Each ratio is demand over capacity; above 1 fails. Empty where the practice or the job lacks the data.
struct LintelCheck {
  double span = 0;           ///< Clear span plus half a bearing at each end, mm.
  double load_n_per_mm = 0;  ///< As the wall states it, without factors and without the lintel's own weight.
  std::optional<double> bending, shear, deflection, bearing;
  std::string grade;    ///< Of the timber that was taken; empty: none.
  std::string missing;  ///< What the job or practice lacks for it; empty: nothing.
};

/// The lintel under the load of Wall::supports: strength with the practice's load factor against bending and shear
/// strength × duration × capacity factor; deflection, long-term with the practice's creep factor, against the stricter
/// of span over ratio and the greatest allowed. The whole load is taken as live where the practice has a ratio for
/// live load: the job doesn't tell dead from live.
[[nodiscard]] LintelCheck checkLintel(const job::Lintel& lintel, double clear_span, double bearing_each_end,
                                      const job::Wall& wall, const practice::Practice& practice);

/// The timber of a wall: the job's grade, else the practice's usual one; nullptr where neither is known.
[[nodiscard]] const practice::TimberGrade* gradeOf(const job::Wall& wall, const practice::Practice& practice);

}  // namespace sillwright::plan
