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

BeamActions loadedBeam(double load_n_per_mm, std::span<const PointLoad> loads, double span) {
  BeamActions actions;
  double all = load_n_per_mm * span;
  actions.right_n = all / 2;
  for (const PointLoad& load : loads) {
    actions.right_n += load.n * load.at / span;
    all += load.n;
  }
  actions.left_n = all - actions.right_n;
  const auto momentAt = [&](double x) {
    double moment = actions.left_n * x - load_n_per_mm * x * x / 2;
    for (const PointLoad& load : loads) {
      if (load.at < x) moment -= load.n * (x - load.at);
    }
    return moment;
  };
  // Largest under one of the loads, or between them where the shear passes through nothing.
  const auto consider = [&](double x) {
    if (x > 0 && x < span) actions.moment_nmm = std::max(actions.moment_nmm, momentAt(x));
  };
  for (const PointLoad& load : loads) consider(load.at);
  if (load_n_per_mm <= 0) return actions;
  const auto considerFrom = [&](double from) {
    double passed = 0;
    for (const PointLoad& load : loads) passed += load.at <= from ? load.n : 0;
    const double x = (actions.left_n - passed) / load_n_per_mm;
    if (x >= from) consider(x);
  };
  considerFrom(0);
  for (const PointLoad& load : loads) considerFrom(load.at);
  return actions;
}

double sectionModulus(double width, double depth) {
  return width * depth * depth / 6;
}

double sectionInertia(double width, double depth) {
  return width * depth * depth * depth / 12;
}

}  // namespace sillwright::plan
