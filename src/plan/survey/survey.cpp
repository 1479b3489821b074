#include "plan/survey/survey.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <variant>

#include "plan/survey/survey_adjust.h"

namespace sillwright::plan {
namespace {

/// No instrument reads better than this; it keeps weights finite where a file says 0.
constexpr double kLeastSigma = 1e-3;

struct ReadingName {
  const char* key;
  job::TapeReading tape;
};
using Tape = job::TapeReading;
constexpr std::array<ReadingName, kAllReadings> kNames = {{{"widths[0]", Tape::WidthBottom},  // in Reading's order
                                                           {"widths[2]", Tape::WidthTop},
                                                           {"heights[0]", Tape::HeightLeft},
                                                           {"heights[2]", Tape::HeightRight},
                                                           {"diagonals[0]", Tape::DiagonalFromBottomLeft},
                                                           {"diagonals[1]", Tape::DiagonalFromTopLeft},
                                                           {"out_of_level", Tape::OutOfLevel},
                                                           {"out_of_plumb[0]", Tape::OutOfPlumbLeft},
                                                           {"out_of_plumb[1]", Tape::OutOfPlumbRight},
                                                           {"widths[1]", Tape::WidthMiddle},
                                                           {"heights[1]", Tape::HeightMiddle}}};

job::StandardErrors errorsOf(const job::Measured& measured, const practice::Survey& survey) {
  if (measured.by) {
    if (const auto* given = std::get_if<job::StandardErrors>(&*measured.by)) return *given;
  }
  const bool laser = measured.by && std::get<job::Instrument>(*measured.by) == job::Instrument::Laser;
  const practice::InstrumentErrors& errors = laser ? survey.laser : survey.tape;
  return {errors.distance.value, errors.diagonal.value, errors.level.value};
}

/// Holds the corner where a triangle has no side to be read: no length, and no lean.
void holdSide(SurveyInput& input, Reading height, Reading plumb) {
  for (const Reading reading : {height, plumb}) {
    const std::size_t k = indexOf(reading);
    input.read[k] = input.held[k] = true;
    input.value[k] = 0;
    input.sigma[k] = kLeastSigma;
  }
}

SurveyInput gather(const HeadLine& line, const job::Measured& measured, const practice::Survey& survey,
                   double straightness) {
  SurveyInput input;
  input.line = line;
  const auto across = [&](double height) { return std::sqrt(line.width() * line.width() + height * height); };
  input.planned = {
      line.width(), line.width(), line.left(), line.right(), across(line.right()), across(line.left()), 0, 0, 0};
  if (!line.level()) input.planned[1] = across(line.right() - line.left());  // it is read along the slope
  const job::Measured& m = measured;
  const std::array given{&m.widths[0],    &m.widths[2],    &m.heights[0],      &m.heights[2],     &m.diagonals[0],
                         &m.diagonals[1], &m.out_of_level, &m.out_of_plumb[0], &m.out_of_plumb[1]};
  for (std::size_t k = 0; k < kReadings; ++k) {
    input.read[k] = given[k]->has_value();
    input.value[k] = given[k]->value_or(input.planned[k]);  // a stand-in says the plan's
  }
  const auto [distance, diagonal, level] = errorsOf(measured, survey);
  input.sigma = {distance, distance, distance, distance, diagonal, diagonal, level, level, level};
  for (double& sigma : input.sigma) sigma = std::max(sigma, kLeastSigma);  // 0 would weigh without end
  input.middle = {measured.widths[1], measured.heights[1]};
  input.middle_sigma = std::max(distance, kLeastSigma);
  input.straight_sigma = std::max(straightness, kLeastSigma);
  input.planned_sigma = std::max(survey.planned.value, kLeastSigma);
  if (line.left() == 0) holdSide(input, Reading::HeightLeft, Reading::OutOfPlumbLeft);  // this overrules what was read
  if (line.right() == 0) holdSide(input, Reading::HeightRight, Reading::OutOfPlumbRight);
  return input;
}

/// Bow of the edges that middle reading `m` was taken between, and its standard error: half the middle's lack against
/// the mean of the adjusted ends.
void tellBow(const SurveyInput& input, const Adjusted& adjusted, std::size_t m, AsBuilt& built) {
  if (!input.middle[m]) return;
  if (adjusted.stand_ins.middle[m]) {  // an end is missing: no bow can be told
    built.middles[m] = MiddleUse::StandsIn;
    return;
  }
  built.middles[m] = MiddleUse::Bow;
  const Vector6 mean = sumOf(adjusted.sight, meanOf(m));
  const double inward = (meanOfEnds(adjusted, m) - *input.middle[m]) / 2;
  const Eigen::Map<const Matrix6> covariance(adjusted.covariance[0].data());
  const double variance = (input.middle_sigma * input.middle_sigma + mean.dot(covariance * mean)) / 4;
  Bow& bow = built.shape.bow;
  (m == 0 ? bow.left : bow.sill) = inward;
  (m == 0 ? bow.right : bow.head) = inward;
  BowDoubt& doubt = built.bow_doubt[m];
  doubt.sigma = std::sqrt(variance);
  doubt.own_sigma = input.middle_sigma / 2;
  Eigen::Map<Vector6>(doubt.by_corner.data()) = mean / 2;
}

void tellReadings(const Adjusted& adjusted, AsBuilt& built) {
  built.from = ShapeFrom::Measured;
  for (std::size_t k = 0; k < kReadings; ++k) {
    AdjustedReading& reading = built.readings[k];
    reading.residual = adjusted.residual[k];
    reading.stands_in = adjusted.stand_ins.planned[k];
    reading.redundancy = adjusted.redundancy[k];
    reading.standardised = adjusted.standardised[k];
    if (reading.stands_in) built.from = ShapeFrom::Mixed;
  }
}

void tellTwist(const job::Measured& measured, AsBuilt& built) {
  if (measured.out_of_plumb_in[0] && measured.out_of_plumb_in[1])
    built.twist = *measured.out_of_plumb_in[1] - *measured.out_of_plumb_in[0];
  built.tilt_alone = measured.out_of_plumb_in[0].has_value() != measured.out_of_plumb_in[1].has_value();
}

/// What is known before anything is solved: the planned outline, and what was read.
AsBuilt asPlanned(const SurveyInput& input) {
  AsBuilt built;
  built.shape = plannedShape(input.line);
  for (std::size_t k = 0; k < kReadings; ++k) {
    const bool read = input.read[k] && !input.held[k];  // a held side has nothing to read
    built.readings[k] = {static_cast<Reading>(k), read, false, input.value[k],
                         input.read[k] ? input.sigma[k] : input.planned_sigma};
    if (read) ++built.read_count;
  }
  return built;
}

}  // namespace

const char* keyOf(Reading reading) { return kNames[indexOf(reading)].key; }
job::TapeReading tapeReadingOf(Reading reading) { return kNames[indexOf(reading)].tape; }
const char* wordsFor(Reading reading) { return job::infoOf(tapeReadingOf(reading)).name; }

std::optional<double> mistakeIn(const AdjustedReading& reading) {
  if (!reading.read || reading.redundancy < kLeastRedundancy) return std::nullopt;
  return -reading.residual / reading.redundancy;
}

AsBuilt survey(const HeadLine& planned, const std::optional<job::Measured>& measured, const practice::Survey& errors,
               double straightness) {
  static const job::Measured nothing;
  const job::Measured& given = measured ? *measured : nothing;
  const SurveyInput input = gather(planned, given, errors, straightness);
  AsBuilt built = asPlanned(input);
  tellTwist(given, built);
  const Adjusted adjusted = adjust(input);  // of nothing read it gives the plan's covariance
  if (built.read_count == 0 && !input.middle[0] && !input.middle[1] && given.between == decltype(given.between){}) {
    built.covariance = adjusted.covariance;
    if (planned.peaked()) fixPeak(input, {}, built);  // no distance: the peak as planned
    return built;
  }
  const auto read = [&built](Reading reading) { return built.readings[indexOf(reading)].read; };
  built.turned_free = !read(Reading::OutOfLevel) && !read(Reading::OutOfPlumbLeft) && !read(Reading::OutOfPlumbRight);
  built.freedom = adjusted.freedom;
  if (!adjusted.converged) {
    built.converged = false;
    built.trust = Trust::Disputed;
    for (std::size_t i = 0; i < kUnknowns; ++i) built.covariance[i][i] = input.planned_sigma * input.planned_sigma;
    return built;
  }
  built.shape = {};
  for (std::size_t i = 1; i < 4; ++i)
    built.shape.corner[i] = {adjusted.corners[2 * i - 2], adjusted.corners[2 * i - 1]};
  built.covariance = adjusted.covariance;
  built.chi_square = adjusted.chi_square;
  tellReadings(adjusted, built);  // before judging, which asks what mistake each would be
  tellBow(input, adjusted, 0, built);
  tellBow(input, adjusted, 1, built);
  const auto value = [&adjusted](Reading reading) { return adjusted.sight.value[indexOf(reading)]; };
  built.out_of_square = value(Reading::DiagonalFromBottomLeft) - value(Reading::DiagonalFromTopLeft);
  judgeReadings(input, adjusted, built);
  if (planned.peaked()) fixPeak(input, given.between, built);  // last: it may dispute what the corners settled
  return built;
}

AsBuilt withTrustedShape(AsBuilt built, const HeadLine& planned, const practice::Survey& errors) {
  if (built.trust != Trust::Suspect && built.trust != Trust::Disputed) return built;
  const AsBuilt unread = survey(planned, std::nullopt, errors);
  built.shape = unread.shape;
  built.covariance = unread.covariance;
  built.bow_doubt = unread.bow_doubt;
  return built;
}

bool wasRead(const AsBuilt& built, Reading reading) {
  const std::size_t k = indexOf(reading);
  return k < kReadings ? built.readings[k].read : built.middles[k - kReadings] != MiddleUse::NotRead;
}

OutOfSquare outOfSquare(double width, double height, double rising, double falling) {
  const double lean = (rising * rising - falling * falling) / (4 * width);
  return {lean, std::asin(std::clamp(lean / height, -1.0, 1.0)) * 180 / std::numbers::pi};
}

OutOfSquare outOfSquare(const OpeningShape& shape) {
  const auto& [bl, br, tr, tl] = shape.corner;
  const double width = std::hypot(br.x - bl.x + tr.x - tl.x, br.z - bl.z + tr.z - tl.z) / 2;
  const double height = std::hypot(tl.x - bl.x + tr.x - br.x, tl.z - bl.z + tr.z - br.z) / 2;
  if (width <= 0 || height <= 0) return {};
  return outOfSquare(width, height, std::hypot(tr.x - bl.x, tr.z - bl.z), std::hypot(br.x - tl.x, br.z - tl.z));
}

}  // namespace sillwright::plan
