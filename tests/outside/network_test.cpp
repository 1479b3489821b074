#include "outside/reference/network.h"

#include <cmath>
#include <vector>

#include "plan/survey/survey.h"
#include "support/catch.h"
#include "support/survey_rig.h"

using namespace sillwright;
using namespace sillwright::plan;
using namespace sillwright::outside;
using Catch::Matchers::WithinAbs;

namespace {

Observation observed(Observed kind, std::size_t from, std::size_t to, double value, double sigma) {
  return {kind, from, to, value, sigma};
}

/// The nine readings of an opening as a network of four points, BL fixed.
NetworkResult openingAsNetwork(const rig::Nine& value, double width, double height) {
  const std::vector<NetworkPoint> points = {
      {{0, 0}, true}, {{width, 0}}, {{width, height}}, {{0, height}}};  // BL BR TR TL
  return adjustNetwork(points, {observed(Observed::Distance, 0, 1, value[0], rig::kTape[0]),
                                observed(Observed::Distance, 3, 2, value[1], rig::kTape[1]),
                                observed(Observed::Distance, 0, 3, value[2], rig::kTape[2]),
                                observed(Observed::Distance, 1, 2, value[3], rig::kTape[3]),
                                observed(Observed::Distance, 0, 2, value[4], rig::kTape[4]),
                                observed(Observed::Distance, 3, 1, value[5], rig::kTape[5]),
                                observed(Observed::UpZ, 0, 1, value[6], rig::kTape[6]),
                                observed(Observed::AcrossX, 0, 3, value[7], rig::kTape[7]),
                                observed(Observed::AcrossX, 1, 2, value[8], rig::kTape[8])});
}

}  // namespace

// Heights between three points in a loop: 10.000 + 5.000 − 15.009 closes by −9 mm; of equal weight, each takes a third.
TEST_CASE("a levelling loop shares its misclosure") {
  const std::vector<NetworkPoint> points = {{{0, 0}, true}, {{100, 10}}, {{200, 15}}};
  const auto result =
      adjustNetwork(points, {observed(Observed::UpZ, 0, 1, 10.000, 0.002), observed(Observed::UpZ, 1, 2, 5.000, 0.002),
                             observed(Observed::UpZ, 0, 2, 15.009, 0.002), observed(Observed::AcrossX, 0, 1, 100, 0.01),
                             observed(Observed::AcrossX, 0, 2, 200, 0.01)});
  REQUIRE(result.converged);
  CHECK(result.freedom == 1);
  CHECK_THAT(result.points[1].z, WithinAbs(10.003, 1e-9));
  CHECK_THAT(result.points[2].z, WithinAbs(15.006, 1e-9));
  CHECK_THAT(result.observations[0].residual, WithinAbs(0.003, 1e-9));
  CHECK_THAT(result.observations[2].residual, WithinAbs(-0.003, 1e-9));
  for (std::size_t i = 0; i < 3; ++i) CHECK_THAT(result.observations[i].redundancy, WithinAbs(1.0 / 3, 1e-9));
  CHECK_THAT(result.chi_square, WithinAbs(3 * 1.5 * 1.5, 1e-9));
  CHECK_THAT(result.sigmaOf(1)[1], WithinAbs(0.002 * std::sqrt(2.0 / 3), 1e-12));
  CHECK(result.sigmaOf(0)[0] == 0);
  CHECK(result.observations[3].standardised == 0);
}

TEST_CASE("the opening is one case of the network") {
  rig::Chance chance(31);
  for (int trial = 0; trial < 60; ++trial) {
    const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, 1530, 1060)));
    const AsBuilt built = survey({1530, 1060}, rig::measured(value), rig::tapeErrors());
    const NetworkResult network = openingAsNetwork(value, 1530, 1060);
    REQUIRE(network.converged);
    // Corners and residuals to a millionth; what follows from derivatives to their freshness, 0.02 mm in a metre.
    CHECK(network.freedom == built.freedom);
    CHECK_THAT(network.chi_square, WithinAbs(built.chi_square, 1e-6));
    for (std::size_t c = 0; c < 4; ++c) {
      CHECK_THAT(network.points[c].x, WithinAbs(built.shape.corner[c].x, 1e-6));
      CHECK_THAT(network.points[c].z, WithinAbs(built.shape.corner[c].z, 1e-6));
    }
    for (std::size_t k = 0; k < kReadings; ++k) {
      CHECK_THAT(network.observations[k].residual, WithinAbs(built.readings[k].residual, 1e-6));
      CHECK_THAT(network.observations[k].redundancy, WithinAbs(built.readings[k].redundancy, 1e-5));
      CHECK_THAT(network.observations[k].standardised, WithinAbs(built.readings[k].standardised, 1e-4));
    }
    for (std::size_t i = 0; i < 6; ++i) {
      for (std::size_t j = 0; j < 6; ++j) {
        CHECK_THAT(network.covariance[(i + 2) * 8 + j + 2], WithinAbs(built.covariance[i][j], 2e-5));
      }
    }
  }
}

TEST_CASE("a free network moves as little as it can, and its shape is that of the fixed one") {
  rig::Chance chance(32);
  std::vector<NetworkPoint> points;
  for (int i = 0; i < 7; ++i) points.push_back({{chance.between(0, 5000), chance.between(0, 5000)}});
  std::vector<Observation> observations;
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (std::size_t j = i + 1; j < points.size(); ++j) {
      const double exact = std::hypot(points[i].at.x - points[j].at.x, points[i].at.z - points[j].at.z);
      observations.push_back(observed(Observed::Distance, i, j, exact + 2 * chance.normal(), 2));
    }
  }
  const NetworkResult free = adjustNetwork(points, observations);
  REQUIRE(free.converged);
  CHECK(free.defect == 3);
  CHECK(free.freedom == 21 - 14 + 3);

  // Inner constraints: no mean shift, no mean turn about the points.
  double shift_x = 0;
  double shift_z = 0;
  double turn = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double dx = free.points[i].x - points[i].at.x;
    const double dz = free.points[i].z - points[i].at.z;
    shift_x += dx;
    shift_z += dz;
    turn += free.points[i].x * dz - free.points[i].z * dx;
  }
  CHECK_THAT(shift_x, WithinAbs(0, 1e-8));
  CHECK_THAT(shift_z, WithinAbs(0, 1e-8));
  CHECK_THAT(turn / 5000, WithinAbs(0, 1e-7));

  // The same held by a point and the direction to a second: other coordinates, the same residuals and redundancy.
  points[0].fixed = true;
  auto held = observations;
  const double direction = std::atan2(points[1].at.z - points[0].at.z, points[1].at.x - points[0].at.x);
  for (auto& point : points) {  // turned so that the second lies along x
    const double x = point.at.x - points[0].at.x;
    const double z = point.at.z - points[0].at.z;
    if (&point == points.data()) continue;
    point.at = {points[0].at.x + x * std::cos(direction) + z * std::sin(direction),
                points[0].at.z - x * std::sin(direction) + z * std::cos(direction)};
  }
  held.push_back(observed(Observed::UpZ, 0, 1, 0, 0.001));
  const NetworkResult fixed = adjustNetwork(points, held);
  REQUIRE(fixed.converged);
  CHECK(fixed.defect == 0);
  CHECK(fixed.freedom == free.freedom);
  CHECK(fixed.chi_square == Approx(free.chi_square));
  double redundancy = 0;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    CHECK_THAT(fixed.observations[i].residual, WithinAbs(free.observations[i].residual, 1e-6));
    CHECK_THAT(fixed.observations[i].redundancy, WithinAbs(free.observations[i].redundancy, 1e-6));
    redundancy += free.observations[i].redundancy;
  }
  CHECK_THAT(redundancy, WithinAbs(free.freedom, 1e-9));
}

TEST_CASE("differences alone leave two shifts open, and nothing at all is no network") {
  const std::vector<NetworkPoint> points = {{{0, 0}}, {{10, 1}}};
  const auto result =
      adjustNetwork(points, {observed(Observed::AcrossX, 0, 1, 12, 1), observed(Observed::UpZ, 0, 1, 2, 1)});
  REQUIRE(result.converged);
  CHECK(result.defect == 2);
  CHECK(result.freedom == 0);
  CHECK_THAT(result.points[0].x, WithinAbs(-1, 1e-9));
  CHECK_THAT(result.points[1].x, WithinAbs(11, 1e-9));
  CHECK(result.sigmaZero() == 0);
  CHECK_FALSE(adjustNetwork({}, {}).converged);
  CHECK_FALSE(adjustNetwork(points, {}).converged);
  CHECK_FALSE(adjustNetwork(points, {observed(Observed::AcrossX, 0, 1, std::nan(""), 1)}).converged);
}
