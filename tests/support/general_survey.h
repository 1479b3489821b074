/// The survey of an opening by a general least-squares routine: MINPACK's Levenberg–Marquardt as Eigen has it, with
/// derivatives by central differences and vectors of any size. It knows nothing of openings but the nine formulas of
/// their readings; tests hold the survey against it, and the benchmark measures both.
#pragma once

#include <Eigen/Dense>
#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/NumericalDiff>
#include <vector>

#include "support/survey_rig.h"

namespace sillwright::rig {

struct GeneralReading {
  std::size_t which = 0;
  double value = 0;
  double sigma = 1;
};

/// Weighted differences of the readings from those of a shape.
struct GeneralMisfit {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  /// The unknowns are the corners' coordinates from a point this far off: the differences step by a share of the
  /// unknown, and a coordinate near 0 would be stepped by less than rounding.
  static constexpr double kAway = 1000;

  std::vector<GeneralReading> readings;

  [[nodiscard]] int inputs() const { return 6; }
  [[nodiscard]] int values() const { return static_cast<int>(readings.size()); }
  int operator()(const Eigen::VectorXd& unknowns, Eigen::VectorXd& misfit) const {
    const Eigen::VectorXd x = unknowns.array() - kAway;
    const Nine exact = exactReadings({{x(0), x(1)}, {x(2), x(3)}, {x(4), x(5)}});
    for (std::size_t i = 0; i < readings.size(); ++i) {
      misfit(static_cast<Eigen::Index>(i)) = (exact[readings[i].which] - readings[i].value) / readings[i].sigma;
    }
    return 0;
  }
};

/// BR, TR, TL, from the rectangle of `width` × `height`. `tolerance` is the relative size of the last step.
inline Eigen::VectorXd generalSurvey(const std::vector<GeneralReading>& readings, double width, double height,
                                     double tolerance) {
  using Difference = Eigen::NumericalDiff<GeneralMisfit, Eigen::Central>;
  Difference difference(GeneralMisfit{readings});
  Eigen::LevenbergMarquardt<Difference> solver(difference);
  solver.parameters.ftol = 0;
  solver.parameters.gtol = 0;
  solver.parameters.xtol = tolerance;
  solver.parameters.maxfev = 4000;
  Eigen::VectorXd x(6);
  x << width, 0, width, height, 0, height;
  x.array() += GeneralMisfit::kAway;
  solver.minimize(x);
  return x.array() - GeneralMisfit::kAway;
}

/// What the survey tells beside the corners.
struct GeneralAnswer {
  Eigen::VectorXd corners;
  Eigen::MatrixXd covariance;
  Eigen::VectorXd residuals;
  Eigen::VectorXd redundancy;
};

/// Corners, covariance, residuals (adjusted less read) and redundancy numbers, all by the general routine's own means.
inline GeneralAnswer generalAnswer(const std::vector<GeneralReading>& readings, double width, double height,
                                   double tolerance) {
  GeneralAnswer answer;
  answer.corners = generalSurvey(readings, width, height, tolerance);
  const Eigen::VectorXd x = answer.corners.array() + GeneralMisfit::kAway;
  const Eigen::NumericalDiff<GeneralMisfit, Eigen::Central> difference(GeneralMisfit{readings});
  const auto rows = static_cast<Eigen::Index>(readings.size());
  Eigen::MatrixXd derivative(rows, 6);
  answer.residuals.resize(rows);
  difference.df(x, derivative);
  difference(x, answer.residuals);
  for (Eigen::Index i = 0; i < rows; ++i) answer.residuals(i) *= readings[static_cast<std::size_t>(i)].sigma;
  answer.covariance = (derivative.transpose() * derivative).inverse();
  answer.redundancy = 1 - (derivative * answer.covariance).cwiseProduct(derivative).rowwise().sum().array();
  return answer;
}

/// The same with a last full step by QR. The routine judges its steps by the sum of squares, in which rounding hides
/// what is left of about a millionth of a millimetre.
inline Eigen::VectorXd generalSurveyPolished(const std::vector<GeneralReading>& readings, double width, double height) {
  Eigen::VectorXd x = generalSurvey(readings, width, height, 1e-15).array() + GeneralMisfit::kAway;
  const Eigen::NumericalDiff<GeneralMisfit, Eigen::Central> difference(GeneralMisfit{readings});
  const auto rows = static_cast<Eigen::Index>(readings.size());
  Eigen::MatrixXd derivative(rows, 6);
  Eigen::VectorXd misfit(rows);
  difference.df(x, derivative);
  difference(x, misfit);
  x -= derivative.colPivHouseholderQr().solve(misfit);
  return x.array() - GeneralMisfit::kAway;
}

}  // namespace sillwright::rig
