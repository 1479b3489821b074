/// Inside the room: the adjustment behind `survey`: nine kinds of statement about three corners, solved by
/// Gauss–Newton.
///
/// Readings are one kind of statement. Where they leave a direction of the shape open, stand-ins close it: first a
/// middle reading taken for the mean of two edges, then the planned sizes, then a level sill, then plumb studs. A
/// stand-in speaks only in the directions that everything before it left open, so that it never pulls at what was
/// read: there are exactly as many stand-ins as open directions, and at the solution each is met.
///
/// Which directions are open is a question of structure, answered at a rectangle, where a flat edge is exactly blind
/// across itself. Private to the room; survey.h is its face.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstddef>
#include <optional>

#include "plan/survey/survey.h"

namespace sillwright::plan {

// The nine readings as they follow from three corners, and how they change when a corner moves. Private to the room.

inline constexpr std::size_t kUnknowns = 6;   ///< BR.x, BR.z, TR.x, TR.z, TL.x, TL.z
inline constexpr std::size_t kDistances = 6;  ///< The first six readings are distances between corners.

// Of fixed sizes: the adjustment asks the heap for nothing.
using Vector6 = Eigen::Matrix<double, kUnknowns, 1>;
using Matrix6 = Eigen::Matrix<double, kUnknowns, kUnknowns>;
using Vector9 = Eigen::Matrix<double, kReadings, 1>;

[[nodiscard]] constexpr std::size_t indexOf(Reading reading) { return static_cast<std::size_t>(reading); }

/// What a shape's readings are, and which way each is read from one corner to another: its derivative by the corner
/// that it ends at, and the negative of that by the one that it starts from. A distance of nothing is taken plumb.
struct Sight {
  Vector9 value;
  std::array<Eigen::Vector2d, kReadings> along;
};

[[nodiscard]] Sight sightOf(const Vector6& corners);
/// The derivatives of a sum of readings, each so many times: Aᵀ `times`.
[[nodiscard]] Vector6 sumOf(const Sight& sight, const Vector9& times);

/// AᵀPA of the derivatives and a weight for each reading.
[[nodiscard]] Matrix6 normalOf(const Sight& sight, const Vector9& weights);
/// Its inverse, corner by corner; false where it isn't positive definite.
[[nodiscard]] bool invert(const Matrix6& normal, Matrix6& inverse);

/// The mean of the two ends that the middle width (0), the middle height (1) lies between, as a sum of readings.
[[nodiscard]] inline Vector9 meanOf(std::size_t middle) {
  Vector9 halves = Vector9::Zero();
  halves[2 * middle] = halves[2 * middle + 1] = 0.5;
  return halves;
}

/// What an opening's adjustment is given. Arrays of nine are in the order of Reading.
struct SurveyInput {
  HeadLine line{0, 0};                      ///< As planned.
  std::array<double, kReadings> planned{};  ///< The readings of the planned rectangle.
  std::array<double, kReadings> value{};    ///< As read, or as planned.
  std::array<double, kReadings> sigma{};    ///< Standard error of each reading, taken or not.
  std::array<bool, kReadings> read{};
  std::array<bool, kReadings> held{};             ///< Not read but certain: the side that a triangle hasn't got.
  std::array<std::optional<double>, 2> middle{};  ///< Middle width, middle height.
  double middle_sigma = 0;
  double straight_sigma = 0;     ///< Standard error of a bow that nobody read: the limit of straightness.
  double planned_sigma = 0;      ///< Of a planned value that stands in.
  std::optional<Reading> again;  ///< A reading taken twice, for `settle_by` alone.
};

/// One for each direction that the readings left open, the first `count` columns: Σ coefficient_k · reading_k = value ±
/// sigma. The other columns are not set.
struct StandIns {
  Eigen::Matrix<double, kReadings, kUnknowns> coefficient;
  Vector6 value, sigma;
  Eigen::Index count = 0;
  std::array<bool, kReadings> planned{};  ///< Whose planned value has a part in one of them.
  std::array<bool, 2> middle{};           ///< Whether the middle width, the middle height does.

  void add(const Vector9& of, double is, double error) {
    coefficient.col(count) = of;
    value[count] = is;
    sigma[count++] = error;
  }
};

struct Adjusted {
  Vector6 corners;
  CornerCovariance covariance;
  Sight sight;                                   ///< The adjusted readings.
  std::array<double, kReadings> residual{};      ///< Adjusted less given, of all nine.
  std::array<double, kReadings> redundancy{};    ///< 0 where not read.
  std::array<double, kReadings> standardised{};  ///< |v| / (σ √r); 0 where nothing checks it.
  StandIns stand_ins;
  double chi_square = 0;  ///< Of the readings.
  int freedom = 0;
  int iterations = 0;
  bool converged = false;
};

/// Corners near the opening's with level sill and plumb studs, of sizes that were read or else planned: where the
/// structure is judged and where the iteration starts.
[[nodiscard]] Vector6 roughCorners(const SurveyInput& input);

/// The peak from its distances to the corners, by least squares; each with its corner's own doubt along it, but as if
/// the corners' doubts were not connected.
void fixPeak(const SurveyInput& input, const std::array<std::optional<double>, 4>& between, AsBuilt& built);

/// What closes the directions that the readings leave open.
[[nodiscard]] StandIns standInsFor(const SurveyInput& input);

/// Solves for the corners. Not converged: the readings make no quadrilateral, or not one near the shape that their
/// own widths and heights suggest; the other members mean nothing then.
[[nodiscard]] Adjusted adjust(const SurveyInput& input);

/// How far two residuals move together, q_ij / √(q_ii q_jj) of the cofactors of the residuals: ±1 means that an error
/// in the one can't be told from an error in the other. All pairs of the nine; 0 where a reading is unchecked.
[[nodiscard]] Eigen::Matrix<double, kReadings, kReadings> residualCorrelation(const SurveyInput& input,
                                                                              const Vector6& corners);

/// Fills trust, suspects, settle_by, disagreement and slip. `built.readings` must be complete.
///
/// The readings disagree where chi-square is above its limit for the freedom, or where a middle reading tells a bow of
/// more than kStandsOut standard errors (the limit of straightness is the bow's standard error). Then each reading is
/// left out in turn (Baarda's data snooping), and the one without which the fit improves most is named if it stands
/// out, no other ties with it, and the rest agree. If no single one explains it, they are left out by twos. In every
/// other case the readings are in dispute, and those that tie are its candidates.
void judgeReadings(const SurveyInput& input, const Adjusted& adjusted, AsBuilt& built);

/// The bow that a middle reading tells, in its standard errors; 0 where it tells none.
[[nodiscard]] double bowInErrors(const SurveyInput& input, const Adjusted& adjusted, std::size_t middle);

/// The length of the two edges' mean, adjusted: what the middle reads where they are straight.
[[nodiscard]] double meanOfEnds(const Adjusted& adjusted, std::size_t middle);

/// The chance that a chi-square variable of `freedom` degrees exceeds `x`.
///
/// Abramowitz & Stegun, Handbook of Mathematical Functions, 26.4.4 (odd) and 26.4.5 (even). 1 for x ≤ 0; `freedom` ≥ 1.
[[nodiscard]] double chiSquareTail(double x, int freedom);

// How a length is misread or miswritten: what a reading becomes when one usual slip is undone.

/// The length that was probably meant by `read`, where undoing one slip brings it near `expected`: two neighbouring
/// digits changed places, 10, 100 or 1000 too much or too little, or a digit taken for one that looks like it. "Near"
/// is within `within` of what is expected and at least three times nearer than as read. Of several the nearest, slips
/// in the order above being preferred. mm. Empty where no slip explains it.
///
/// Which slips are usual is common practice, no source.
[[nodiscard]] std::optional<double> lengthMeant(double read, double expected, double within);

}  // namespace sillwright::plan
