// The adjustment against figures printed by others.
//
// Source of the printed figures: a free course collection on the adjustment of geodetic networks (rev. 3.5, 2020) that
// reworks textbook examples of trilateration. Its standard errors are scaled by the standard error of unit weight.
// Figures marked "computed" are not published: they were worked out for this test by hand or with another program.

#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "outside/reference/network.h"
#include "plan/survey/survey.h"
#include "plan/survey/survey_adjust.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::outside;
using namespace sillwright::plan;
using Catch::Matchers::WithinAbs;

namespace {

Observation distance(std::size_t from, std::size_t to, double value, double sigma) {
  return {Observed::Distance, from, to, value, sigma};
}

/// Standard errors as the source prints them: scaled by the adjustment's own standard error of unit weight.
std::array<double, 2> scaled(const NetworkResult& result, std::size_t point) {
  const auto sigma = result.sigmaOf(point);
  return {sigma[0] * result.sigmaZero(), sigma[1] * result.sigmaZero()};
}

void checkPoint(const NetworkResult& result, std::size_t point, double x, double z, double within) {
  CAPTURE(point);
  CHECK_THAT(result.points[point].x, WithinAbs(x, within));
  CHECK_THAT(result.points[point].z, WithinAbs(z, within));
}

void checkSigma(const NetworkResult& result, std::size_t point, double x, double z, double within) {
  CAPTURE(point);
  const auto sigma = scaled(result, point);
  CHECK_THAT(sigma[0], WithinAbs(x, within));
  CHECK_THAT(sigma[1], WithinAbs(z, within));
}

/// Corner C of a quadrilateral from AB along x and two distances each: y above the line.
Point intersect(double base, double from_a, double from_b) {
  const double x = (base * base + from_a * from_a - from_b * from_b) / (2 * base);
  return {x, std::sqrt(from_a * from_a - x * x)};
}

/// A quadrilateral by its six lengths, free: A at the origin, B along x, C and D roughly by intersection.
struct SixLengths {
  double ab, bc, cd, ad, ac, bd;
};

double misclosureOfCd(const SixLengths& s) {
  const Point c = intersect(s.ab, s.ac, s.bc);
  const Point d = intersect(s.ab, s.ad, s.bd);
  return std::hypot(c.x - d.x, c.z - d.z) - s.cd;
}

NetworkResult adjustSix(const SixLengths& s) {
  const std::vector<NetworkPoint> points = {
      {{0, 0}}, {{s.ab, 0}}, {intersect(s.ab, s.ac, s.bc)}, {intersect(s.ab, s.ad, s.bd)}};
  return adjustNetwork(points, {distance(0, 1, s.ab, 1), distance(1, 2, s.bc, 1), distance(2, 3, s.cd, 1),
                                distance(0, 3, s.ad, 1), distance(0, 2, s.ac, 1), distance(1, 3, s.bd, 1)});
}

}  // namespace

// Two known points and five distances, a square with both diagonals on a fixed side. Metres.
TEST_CASE("published: two fixed points and five distances") {
  const std::vector<NetworkPoint> points = {{{0, 1000}, true}, {{1000, 1000}, true}, {{0, 0}}, {{1000, 0}}};
  const NetworkResult result = adjustNetwork(
      points, {distance(0, 2, 1000.02, 0.010), distance(0, 3, 1414.20, 0.010), distance(1, 2, 1414.24, 0.010),
               distance(1, 3, 999.98, 0.010), distance(2, 3, 1000.00, 0.010)});
  REQUIRE(result.converged);
  CHECK(result.freedom == 1);
  CHECK(result.defect == 0);
  checkPoint(result, 2, -0.0096, -0.0226, 0.00007);
  checkPoint(result, 3, 999.9930, 0.0174, 0.00007);
  CHECK_THAT(result.sigmaZero() * 10, WithinAbs(6.882, 0.0005));  // printed in mm: unit weight is 10 mm
  checkSigma(result, 2, 0.00901, 0.00637, 0.000005);
  checkSigma(result, 3, 0.00901, 0.00637, 0.000005);
  const std::array<double, 5> residuals = {0.00260, -0.00368, -0.00368, 0.00260, 0.00260};
  for (std::size_t i = 0; i < residuals.size(); ++i) {
    CAPTURE(i);
    CHECK_THAT(result.observations[i].residual, WithinAbs(residuals[i], 0.000015));
  }
}

// A free braced figure, six distances between four points, inner constraints on all of them: the case nearest to an
// opening read with both diagonals. Metres; the printed standard errors are in centimetres.
TEST_CASE("published: a free braced figure of six distances") {
  const std::vector<NetworkPoint> points = {{{170.71, 270.71}}, {{100, 100}}, {{241.42, 100}}, {{170.71, 170.71}}};
  const NetworkResult result = adjustNetwork(
      points, {distance(0, 3, 100.01, 0.01), distance(1, 3, 100.02, 0.01), distance(2, 3, 100.03, 0.01),
               distance(0, 1, 184.785, 0.01), distance(1, 2, 141.44, 0.01), distance(0, 2, 184.805, 0.01)});
  REQUIRE(result.converged);
  CHECK(result.freedom == 1);
  CHECK(result.defect == 3);  // two shifts and a turn
  checkPoint(result, 3, 170.7123, 170.7185, 0.00005);
  checkPoint(result, 0, 170.7032, 270.7213, 0.00005);
  checkPoint(result, 1, 99.9912, 99.9971, 0.00005);
  checkPoint(result, 2, 241.4333, 99.9830, 0.00005);
  checkSigma(result, 3, 0.01079, 0.00682, 0.000006);
  checkSigma(result, 0, 0.00810, 0.00551, 0.000006);
  checkSigma(result, 1, 0.00641, 0.00705, 0.000006);
  checkSigma(result, 2, 0.00640, 0.00705, 0.000006);
  CHECK_THAT(result.sigmaZero(), WithinAbs(1.1764, 0.00005));  // computed
}

TEST_CASE("published: the same figure with three points fixed") {
  const std::vector<NetworkPoint> points = {
      {{170.71, 270.71}, true}, {{100, 100}, true}, {{241.42, 100}, true}, {{170.71, 170.71}}};
  const NetworkResult result =
      adjustNetwork(points, {distance(0, 3, 100.01, 0.01), distance(1, 3, 100.02, 0.01), distance(2, 3, 100.03, 0.01)});
  REQUIRE(result.converged);
  CHECK(result.freedom == 1);
  checkPoint(result, 3, 170.7029, 170.7234, 0.00005);
  checkSigma(result, 3, 0.03303, 0.02335, 0.000005);
}

TEST_CASE("computed: a textbook's six lengths that miss by almost one") {
  const SixLengths lengths{1525.456, 2176.945, 1697.435, 2401.435, 3073.845, 2483.115};
  CHECK_THAT(std::abs(misclosureOfCd(lengths)), WithinAbs(0.9861, 0.00005));
  const NetworkResult result = adjustSix(lengths);
  REQUIRE(result.converged);
  const std::array<double, 6> residuals = {0.0810, 0.1128, 0.0672, 0.0975, -0.1422, -0.1129};
  for (std::size_t i = 0; i < residuals.size(); ++i) {
    CAPTURE(i);
    CHECK_THAT(result.observations[i].residual, WithinAbs(residuals[i], 0.00005));
  }
  CHECK_THAT(result.sigmaZero(), WithinAbs(0.2574, 0.00005));
}

// The lengths are a paper's; which line is which was not said there, and this is the order that closes best.
TEST_CASE("computed: six lengths of a photogrammetric test field") {
  const SixLengths lengths{2167.437, 1511.014, 1937.887, 1341.785, 2775.364, 2173.715};
  CHECK_THAT(std::abs(misclosureOfCd(lengths)), WithinAbs(0.0248, 0.00005));
  const NetworkResult result = adjustSix(lengths);
  REQUIRE(result.converged);
  CHECK_THAT(result.sigmaZero(), WithinAbs(0.0110, 0.00005));
}

TEST_CASE("computed: an opening's four sides and diagonals, by the network and by the survey") {
  // A bottom left, B bottom right, C top right, D top left: sill, right, head, left, rising, falling.
  const SixLengths lengths{1200, 2099, 1204, 2101, 2423, 2414};
  CHECK_THAT(misclosureOfCd(lengths), WithinAbs(-4.697, 0.0005));
  const std::array<double, 6> adjusted = {1199.710, 2098.494, 1203.711, 2100.495, 2423.584, 2414.581};

  const NetworkResult network = adjustSix(lengths);
  REQUIRE(network.converged);
  CHECK(network.freedom == 1);
  CHECK_THAT(network.sigmaZero(), WithinAbs(1.165, 0.0005));
  const std::array<double, 6> given = {1200, 2099, 1204, 2101, 2423, 2414};
  for (std::size_t i = 0; i < 6; ++i) {
    CHECK_THAT(given[i] + network.observations[i].residual, WithinAbs(adjusted[i], 0.0005));
  }

  job::Measured measured;
  measured.widths = {1200, std::nullopt, 1204};
  measured.heights = {2101, std::nullopt, 2099};
  measured.diagonals = {2423, 2414};
  measured.by = job::StandardErrors{1, 1, 1};
  practice::Survey errors;
  errors.planned.value = 5;
  const AsBuilt built = survey({1200, 2100}, measured, errors);
  REQUIRE(built.converged);
  CHECK(built.freedom == 1);
  CHECK(built.turned_free);
  CHECK_THAT(std::sqrt(built.chi_square), WithinAbs(1.165, 0.0005));
  const std::array<Reading, 6> order = {Reading::WidthBottom,
                                        Reading::HeightRight,
                                        Reading::WidthTop,
                                        Reading::HeightLeft,
                                        Reading::DiagonalFromBottomLeft,
                                        Reading::DiagonalFromTopLeft};
  for (std::size_t i = 0; i < 6; ++i) {
    const AdjustedReading& reading = built.readings[static_cast<std::size_t>(order[i])];
    CHECK_THAT(reading.value + reading.residual, WithinAbs(adjusted[i], 0.0005));
    CHECK_THAT(reading.residual, WithinAbs(network.observations[i].residual, 1e-6));
    CHECK_THAT(reading.redundancy, WithinAbs(network.observations[i].redundancy, 1e-5));
  }
}

// No published formula was found for the lean; derived from the law of cosines: D₁² − D₂² = 4 W H sin ε. Computed for
// the opening above, with the means of its opposite sides.
TEST_CASE("computed: out of square from the diagonals of an opening") {
  const OutOfSquare square = outOfSquare(1202, 2100, 2423, 2414);
  CHECK_THAT(square.lean, WithinAbs(9.05, 0.005));
  CHECK_THAT(square.degrees, WithinAbs(0.247, 0.0005));
  // To first order (D₁ − D₂) D / (2 W).
  CHECK_THAT(square.lean, WithinAbs(9 * std::hypot(1202, 2100) / (2 * 1202), 0.01));
}

TEST_CASE("published: equal diagonals make a parallelogram a rectangle, of diagonal √(W² + H²)") {
  CHECK(outOfSquare(1202, 2100, 2420, 2420).lean == 0);
  // The 3-4-5 triangle.
  job::Measured measured;
  measured.widths = {1200, std::nullopt, 1200};
  measured.heights = {900, std::nullopt, 900};
  measured.diagonals = {1500, 1500};
  practice::Survey errors;
  errors.planned.value = 5;
  errors.tape.distance.value = errors.tape.diagonal.value = errors.tape.level.value = 1;
  const AsBuilt built = survey({1200, 900}, measured, errors);
  CHECK_THAT(built.chi_square, WithinAbs(0, 1e-12));
  CHECK_THAT(outOfSquare(built.shape).lean, WithinAbs(0, 1e-9));
}

// Upper percentage points of chi-square as printed in any statistical table (from memory).
TEST_CASE("the limits of chi-square are the tables'") {
  struct Row {
    int freedom;
    double five, one, tenth;  // 5 %, 1 %, 0.1 %
  };
  for (const auto& [freedom, five, one, tenth] :
       {Row{1, 3.841, 6.635, 10.828}, Row{2, 5.991, 9.210, 13.816}, Row{3, 7.815, 11.345, 16.266},
        Row{4, 9.488, 13.277, 18.467}, Row{5, 11.070, 15.086, 20.515}, Row{10, 18.307, 23.209, 29.588},
        Row{30, 43.773, 50.892, 59.703}}) {
    CAPTURE(freedom);
    for (const auto& [limit, chance] : {std::pair{five, 0.05}, std::pair{one, 0.01}, std::pair{tenth, 0.001}}) {
      CHECK(chiSquareTail(limit - 0.0006, freedom) > chance);  // printed to three decimals
      CHECK(chiSquareTail(limit + 0.0006, freedom) < chance);
    }
  }
  CHECK(chiSquareTail(0, 3) == 1);
  // 3.29 is the two-sided limit of 0.1 % of a normal variable: its square is chi-square of one degree.
  CHECK_THAT(chiSquareTail(3.29 * 3.29, 1), WithinAbs(0.001, 0.00001));
}
