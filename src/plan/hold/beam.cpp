#include "plan/hold/beam.h"

namespace sillwright::plan {

BeamForces uniformLoad(double load_n_per_mm, double span, double modulus_mpa, double inertia_mm4) {
  BeamForces forces;
  forces.moment_nmm = load_n_per_mm * span * span / 8;
  forces.shear_n = load_n_per_mm * span / 2;
  const double span4 = span * span * span * span;
  forces.deflection = 5 * load_n_per_mm * span4 / (384 * modulus_mpa * inertia_mm4);
  return forces;
}

double sectionModulus(double width, double depth) {
  return width * depth * depth / 6;
}

double sectionInertia(double width, double depth) {
  return width * depth * depth * depth / 12;
}

}  // namespace sillwright::plan
