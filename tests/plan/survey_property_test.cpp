// What holds for the survey of any opening, whatever was read of it: all 512 subsets of the nine readings.

#include <Eigen/Dense>
#include <algorithm>
#include <bit>
#include <cmath>
#include <string>

#include "plan/survey/survey.h"
#include "plan/survey/survey_adjust.h"
#include "support/catch.h"
#include "support/survey_rig.h"

using namespace sillwright;
using namespace sillwright::plan;
using Catch::Matchers::WithinAbs;

namespace {

constexpr double kWidth = 1530;
constexpr double kHeight = 1060;

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

/// Derivatives of the readings of a rectangle, from its picture: a width sees its ends move along x, a height along z.
Matrix rectangleDesign(double width, double height) {
  const double diagonal = std::hypot(width, height);
  const double c = width / diagonal;
  const double s = height / diagonal;
  Matrix design(9, 6);         // BR.x BR.z TR.x TR.z TL.x TL.z
  design << 1, 0, 0, 0, 0, 0,  //
      0, 0, 1, 0, -1, 0,       //
      0, 0, 0, 0, 0, 1,        //
      0, -1, 0, 1, 0, 0,       //
      0, 0, c, s, 0, 0,        //
      c, -s, 0, 0, -c, s,      //
      0, 1, 0, 0, 0, 0,        //
      0, 0, 0, 0, 1, 0,        //
      -1, 0, 1, 0, 0, 0;
  return design;
}

int rankOf(std::uint32_t which) {
  Matrix design = rectangleDesign(kWidth, kHeight);
  for (int k = 0; k < 9; ++k) {
    if ((which >> k & 1U) == 0) design.row(k).setZero();
  }
  Eigen::FullPivLU<Matrix> lu(design);
  lu.setThreshold(1e-9);
  return static_cast<int>(lu.rank());
}

bool allFinite(const AsBuilt& built) {
  bool finite = std::isfinite(built.chi_square) && std::isfinite(built.disagreement) &&
                std::isfinite(built.out_of_square) && std::isfinite(built.bow_doubt[0].sigma) &&
                std::isfinite(built.shape.bow.left) && std::isfinite(built.shape.bow.sill);
  for (const Point& p : built.shape.corner) finite = finite && std::isfinite(p.x) && std::isfinite(p.z);
  for (const auto& row : built.covariance) {
    for (const double c : row) finite = finite && std::isfinite(c);
  }
  for (const auto& r : built.readings) {
    finite = finite && std::isfinite(r.residual) && std::isfinite(r.redundancy) && std::isfinite(r.standardised);
  }
  return finite;
}

Matrix covarianceOf(const AsBuilt& built) {
  Matrix m(6, 6);
  for (int i = 0; i < 6; ++i) {
    for (int j = 0; j < 6; ++j) m(i, j) = built.covariance[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
  }
  return m;
}

double adjustedValue(const AsBuilt& built, std::size_t k) {
  return built.readings[k].value + built.readings[k].residual;
}

SurveyInput inputOf(const rig::Nine& value, std::uint32_t which) {
  SurveyInput input;
  input.planned = rig::exactReadings(rig::rectangle(kWidth, kHeight));
  input.value = input.planned;
  input.sigma = rig::kTape;
  input.planned_sigma = 5;
  input.middle_sigma = 1;
  for (std::size_t k = 0; k < kReadings; ++k) {
    input.read[k] = (which >> k & 1U) != 0;
    if (input.read[k]) input.value[k] = value[k];
  }
  return input;
}

}  // namespace

TEST_CASE("every subset of the readings, with and without the middles, gives a whole answer") {
  rig::Chance chance(21);
  const auto errors = rig::tapeErrors();
  for (std::uint32_t which = 0; which < 512; ++which) {
    const int rank = rankOf(which);
    for (std::uint32_t middles = 0; middles < 4; ++middles) {
      const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, kWidth, kHeight)));
      auto measured = rig::measured(value, which);
      if ((middles & 1U) != 0) measured.widths[1] = kWidth + 3 * chance.normal();
      if ((middles & 2U) != 0) measured.heights[1] = kHeight + 3 * chance.normal();
      const AsBuilt built = survey({kWidth, kHeight}, measured, errors);
      CAPTURE(which, middles);
      REQUIRE(built.converged);
      REQUIRE(allFinite(built));
      REQUIRE(built.read_count == std::popcount(which));
      REQUIRE(built.freedom == built.read_count - rank);
      REQUIRE((built.trust == Trust::Planned) == (which == 0 && middles == 0));
      REQUIRE((built.trust == Trust::Unchecked) == (built.freedom == 0 && (which != 0 || middles != 0)));
      REQUIRE(built.turned_free == ((which >> 6U) == 0 && (which != 0 || middles != 0)));
      // Nothing read is lost: it either has its place among the nine, tells a bow or stands in.
      REQUIRE((built.middles[0] != MiddleUse::NotRead) == ((middles & 1U) != 0));
      REQUIRE((built.middles[1] != MiddleUse::NotRead) == ((middles & 2U) != 0));
      REQUIRE((built.middles[0] == MiddleUse::StandsIn || built.middles[1] == MiddleUse::StandsIn ||
               (built.from == ShapeFrom::Measured) == (rank == 6)));
      if (which == 0 && middles == 0) continue;
      const Eigen::SelfAdjointEigenSolver<Matrix> spread(covarianceOf(built));
      REQUIRE(spread.eigenvalues()(0) > 0);
      // The plan is a wide guess: nothing is known worse than the plan and its level let it be.
      REQUIRE(spread.eigenvalues()(5) < 40 * 25);
      REQUIRE((covarianceOf(built) - covarianceOf(built).transpose()).norm() == 0);
    }
  }
}

TEST_CASE("readings that nothing checks are met exactly, and no plan pulls at those that are checked") {
  rig::Chance chance(22);
  const auto errors = rig::tapeErrors();
  for (std::uint32_t which = 1; which < 512; ++which) {
    const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, kWidth, kHeight)));
    const auto measured = rig::measured(value, which);
    const AsBuilt built = survey({kWidth, kHeight}, measured, errors);
    const AsBuilt other = survey({kWidth + 12, kHeight - 9}, measured, errors);
    CAPTURE(which);
    CHECK(other.freedom == built.freedom);
    // To first order a flat edge is blind across itself; the little that a sloping one sees of the plan is of the
    // order of slope times closing error: hundredths of a millimetre, for a plan that is 12 mm off.
    const double blind = built.freedom == 0 ? 1e-6 : 0.04;
    for (std::size_t k = 0; k < kReadings; ++k) {
      if (!built.readings[k].read) continue;
      CHECK_THAT(adjustedValue(built, k), WithinAbs(adjustedValue(other, k), blind));
      if (built.freedom == 0) CHECK_THAT(built.readings[k].residual, WithinAbs(0, 1e-6));
    }
    CHECK_THAT(built.chi_square, WithinAbs(other.chi_square, 0.3));
  }
}

// Σ r_i is the trace of the projector on to the residuals: observations less unknowns, whatever was read.
TEST_CASE("redundancy numbers sum to the freedom") {
  rig::Chance chance(23);
  const auto errors = rig::tapeErrors();
  for (std::uint32_t which = 0; which < 512; ++which) {
    const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, kWidth, kHeight)));
    const AsBuilt built = survey({kWidth, kHeight}, rig::measured(value, which), errors);
    double sum = 0;
    for (const auto& reading : built.readings) {
      sum += reading.redundancy;
      CHECK(reading.redundancy >= 0);
      CHECK(reading.redundancy <= 1);
      if (!reading.read) CHECK(reading.redundancy == 0);
    }
    CAPTURE(which);
    CHECK_THAT(sum, WithinAbs(built.freedom, rankOf(which) == 6 ? 1e-9 : 1e-5));
  }
}

TEST_CASE("the residuals of a full set stand square to every movement of the corners") {
  rig::Chance chance(24);
  for (int trial = 0; trial < 200; ++trial) {
    const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, kWidth, kHeight)));
    const AsBuilt built = survey({kWidth, kHeight}, rig::measured(value), rig::tapeErrors());
    const auto& corner = built.shape.corner;
    const rig::Quad quad{corner[1], corner[2], corner[3]};
    // Derivatives by central differences of the rig's own readings.
    for (std::size_t u = 0; u < 6; ++u) {
      const auto moved = [&](double by) {
        rig::Quad q = quad;
        Point& p = u < 2 ? q.br : u < 4 ? q.tr : q.tl;
        (u % 2 == 0 ? p.x : p.z) += by;
        return rig::exactReadings(q);
      };
      const auto more = moved(0.01);
      const auto less = moved(-0.01);
      double along = 0;
      for (std::size_t k = 0; k < kReadings; ++k) {
        along += (more[k] - less[k]) / 0.02 * built.readings[k].residual / (rig::kTape[k] * rig::kTape[k]);
      }
      CHECK_THAT(along, WithinAbs(0, 1e-6));
    }
  }
}

TEST_CASE("an opening seen from the other side is the mirror image, whatever was read") {
  rig::Chance chance(25);
  const auto errors = rig::tapeErrors();
  constexpr std::array<std::size_t, 9> kMirrored = {0, 1, 3, 2, 5, 4, 6, 8, 7};
  for (std::uint32_t which = 1; which < 512; ++which) {
    const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, kWidth, kHeight)));
    rig::Nine mirrored{};
    std::uint32_t which_mirrored = 0;
    for (std::size_t k = 0; k < kReadings; ++k) {
      mirrored[kMirrored[k]] = k < 6 ? value[k] : -value[k];
      which_mirrored |= (which >> k & 1U) << kMirrored[k];
    }
    const AsBuilt built = survey({kWidth, kHeight}, rig::measured(value, which), errors);
    const AsBuilt other = survey({kWidth, kHeight}, rig::measured(mirrored, which_mirrored), errors);
    CAPTURE(which);
    // The mirror's origin is the first one's BR.
    const auto [bl, br, tr, tl] = built.shape.corner;
    const auto& m = other.shape.corner;
    CHECK_THAT(m[1].x, WithinAbs(br.x - bl.x, 1e-6));
    CHECK_THAT(m[1].z, WithinAbs(bl.z - br.z, 1e-6));
    CHECK_THAT(m[2].x, WithinAbs(br.x - tl.x, 1e-6));
    CHECK_THAT(m[2].z, WithinAbs(tl.z - br.z, 1e-6));
    CHECK_THAT(m[3].x, WithinAbs(br.x - tr.x, 1e-6));
    CHECK_THAT(m[3].z, WithinAbs(tr.z - br.z, 1e-6));
    CHECK_THAT(other.chi_square, WithinAbs(built.chi_square, 1e-6));
    CHECK(other.trust == built.trust);
    for (std::size_t k = 0; k < kReadings; ++k) {
      const auto& a = built.readings[k];
      const auto& b = other.readings[kMirrored[k]];
      CHECK_THAT(b.residual, WithinAbs(k < 6 ? a.residual : -a.residual, 1e-6));
      CHECK_THAT(b.redundancy, WithinAbs(a.redundancy, 1e-5));
      CHECK(b.stands_in == a.stands_in);
    }
  }
}

// The covariance is a promise about what would come out if all were read again and again. 4000 repeats estimate a
// variance to about √(2/4000) = 2.2 %; 10 % is more than four times that.
TEST_CASE("the covariance is the scatter of repeated readings") {
  rig::Chance chance(26);
  const rig::Quad quad = rig::framed(chance, kWidth, kHeight);
  const auto exact = rig::exactReadings(quad);
  for (const std::uint32_t which : {0x1ffU, 0x1cfU, 0x03fU, 0x0d5U, 0x005U}) {
    CAPTURE(which);
    // Where the plan stands in, its values are as uncertain as they say, so they are varied too.
    const SurveyInput still = inputOf(exact, which);
    const Adjusted expected = adjust(still);
    REQUIRE(expected.converged);
    constexpr int kRepeats = 4000;
    Vector sum = Vector::Zero(6);
    Matrix squares = Matrix::Zero(6, 6);
    for (int repeat = 0; repeat < kRepeats; ++repeat) {
      SurveyInput input = still;
      for (std::size_t k = 0; k < kReadings; ++k) {
        input.value[k] += (input.read[k] ? input.sigma[k] : input.planned_sigma) * chance.normal();
      }
      const Adjusted adjusted = adjust(input);
      REQUIRE(adjusted.converged);
      Vector off(6);
      for (std::size_t i = 0; i < 6; ++i) {
        off(static_cast<Eigen::Index>(i)) = adjusted.corners[i] - expected.corners[i];
      }
      sum += off;
      squares += off * off.transpose();
    }
    const Matrix scatter = squares / kRepeats;
    for (Eigen::Index i = 0; i < 6; ++i) {
      const auto a = static_cast<std::size_t>(i);
      CHECK(scatter(i, i) == Approx(expected.covariance[a][a]).epsilon(0.1));
      CHECK_THAT(sum(i) / kRepeats, WithinAbs(0, 5 * std::sqrt(expected.covariance[a][a] / kRepeats) + 0.02));
      for (Eigen::Index j = 0; j < i; ++j) {
        const auto b = static_cast<std::size_t>(j);
        const double scale = std::sqrt(expected.covariance[a][a] * expected.covariance[b][b]);
        CHECK_THAT(scatter(i, j), WithinAbs(expected.covariance[a][b], 0.1 * scale));
      }
    }
  }
}
