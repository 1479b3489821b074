// What a screw holds: bearing, bending, pull-out by the American and European methods, against published
// figures. Where a figure's source is itself second-hand, the source that was seen is named.

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "outside/reference/dowel_reference.h"
#include "plan/hold/fixing_capacity.h"
#include "support/catch.h"
#include "support/simple_job.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using testing::shipped;

namespace {

constexpr double kPsi = 0.006894757293168361;
constexpr double kPound = 4.4482216152605;
constexpr double kInch = 25.4;

double least(const std::array<double, plan::kYieldModes>& loads) {
  return *std::min_element(loads.begin(), loads.end());
}

}  // namespace

TEST_CASE("NDS 2018 Table 12.3.3: dowel bearing strength below 1/4 in, printed to 50 psi") {
  constexpr std::array<std::array<double, 2>, 4> kPrinted{{{.42, 3350}, {.43, 3500}, {.50, 4650}, {.55, 5550}}};
  for (const auto& row : kPrinted) CHECK_THAT(plan::embeddingNds(row[0]) / kPsi, WithinAbs(row[1], 25));
}

TEST_CASE("EN 1995-1-1, 8.7: bearing strength without pre-drilling, regression figures of this project") {
  // ρ 310, d 4.247 (1.1 × the root of a No. 10): 16.47 N/mm²; Is = f_h·t·d = 1329.2 N for t 19, Im 2798.2 for t 40.
  const double f = plan::embeddingEc5(310, 4.247);
  CHECK_THAT(f * 19 * 4.247, WithinAbs(1329.2, 0.1));
  CHECK_THAT(f * 40 * 4.247, WithinAbs(2798.2, 0.1));
}

TEST_CASE("EN 1995-1-1: bearing strength of bored wood, as a structural textbook and a public test file print it") {
  CHECK_THAT(outside::embeddingEc5Bored(340, 16), WithinAbs(23.42, 0.005));
  CHECK_THAT(outside::embeddingEc5Bored(320, 16), WithinAbs(22.04, 0.005));
  CHECK_THAT(outside::embeddingEc5Bored(386, 11), WithinAbs(28.17028, 0.000005));
  CHECK_THAT(outside::embeddingEc5Bored(350, 10), WithinAbs(25.83, 0.005));
}

TEST_CASE("EN 1995-1-1: yield moment, as a public test file prints it") {
  CHECK_THAT(plan::yieldMomentEc5(650, 11), WithinAbs(99461.6347, 0.00005));
  CHECK_THAT(plan::yieldMomentEc5(360, 10), WithinAbs(42995.5744, 0.00005));
}

TEST_CASE("a textbook's bolt group between thick steel plates: mode (m) 12.7 kN, bolt tension 33.7 kN") {
  // C24 (ρ 350), bolts d 12, f_u 400, at (±90, ±85), (±90, 0), (0, ±85); M 3.25 kNm, V 10.05 kN, H 1 kN.
  // The example adds F_ax/4 of the washers' 12.6 kN before its limit of 25 %.
  constexpr std::array<std::array<double, 2>, 8> kBolts{
      {{90, 85}, {90, -85}, {-90, 85}, {-90, -85}, {90, 0}, {-90, 0}, {0, 85}, {0, -85}}};
  double polar = 0;
  for (const auto& bolt : kBolts) polar += bolt[0] * bolt[0] + bolt[1] * bolt[1];
  const double along = 3.25e6 * 85 / polar + 1000.0 / 8;
  const double across = 3.25e6 * 90 / polar + 10050.0 / 8;
  const double degrees = std::atan2(across, along) * 180 / std::acos(-1.0);
  CHECK_THAT(degrees, WithinAbs(54.8, 0.05));
  const double bearing = outside::embeddingEc5Bolt(350, 12, degrees);
  CHECK_THAT(bearing, WithinAbs(18.65, 0.005));
  // A thick plate bears any load: its member of the joint is as hard as can be, and the bolt bends at its face.
  const double moment = plan::yieldMomentEc5(400, 12);
  const auto loads = outside::yieldLoadsEc5({bearing * 12, 1e12, 1e4, 1e4, moment, moment, 0});
  CHECK_THAT(least(loads), WithinAbs(9533, 1));
  CHECK_THAT((least(loads) + 12600.0 / 4) / 1000, WithinAbs(12.7, 0.05));
  CHECK_THAT(400 * 84.3 / 1000, WithinAbs(33.7, 0.05));  // an M12's stress area
}

TEST_CASE("the last step of a textbook's five-member joint: 2 bolts of 6.4 kN, k_mod 0.8, γ_M 1.3: 7.88 kN") {
  practice::Gauge gauge;
  gauge.shank.value = gauge.root.value = 10;
  practice::Figure figure;
  figure.value = 400;
  gauge.yield = figure;
  practice::FixingDesign design = shipped("uk").strength.fixing_design;
  design.duration_wind->value = 0.8;
  const auto terms = plan::lateralTerms(gauge, shipped("uk").strength.timber.find("C24"), design);
  REQUIRE(terms.missing == nullptr);
  CHECK_THAT(2 * 6.4 * terms.factor, WithinAbs(7.88, 0.005));
}

TEST_CASE("EN 1995-1-1 (8.6) with its factors, regression figures of this project") {
  struct Row {
    double f1, f2, t1, t2, d, moment;
    std::array<double, 6> printed;  // a … f, N
  };
  const double d_ef = 1.1 * .152 * kInch;
  const double thin = plan::embeddingEc5(310, d_ef);
  const std::array<Row, 2> rows{
      {{outside::embeddingEc5Bored(350, 10),
        outside::embeddingEc5Bored(250, 10),
        80,
        120,
        10,
        plan::yieldMomentEc5(360, 10),
        {20664.0, 22140.0, 8924.6, 7304.7, 8554.0, 4947.6}},
       {thin, thin, 19, 40, d_ef, plan::yieldMomentEc5(540, d_ef), {1329.2, 2798.2, 945.8, 792.3, 1154.2, 1134.7}}}};
  for (const Row& row : rows) {
    const auto loads =
        outside::yieldLoadsEc5({row.f2 * row.d, row.f1 * row.d, row.t2, row.t1, row.moment, row.moment, 5});
    constexpr std::array<std::size_t, 6> kMode{1, 0, 2, 4, 3, 5};  // a … f in the order Im Is II IIIm IIIs IV
    for (std::size_t i = 0; i < 6; ++i) CHECK_THAT(loads[kMode[i]], WithinAbs(row.printed[i], 0.06));
  }
}

TEST_CASE("a gauge whose tensile strength is named is reckoned by EN 1995-1-1 throughout in a European practice") {
  // The regression figures of the gap equations below, by way of the practice: No. 10, f_u 540, C16 in both.
  const auto& uk = shipped("uk").strength;
  const practice::TimberGrade* grade = uk.timber.find("C16");  // ρ 310, as the reveal's
  practice::Gauge ten = uk.gauges[2];
  REQUIRE(ten.name == "10g");
  practice::Figure tensile;
  tensile.value = 540;
  ten.tensile = tensile;
  ten.yield.reset();
  constexpr std::array<std::array<double, 2>, 3> kRows{{{0, 755}, {10, 528}, {20, 394}}};
  for (const auto& row : kRows) {
    const auto capacity = plan::lateralCapacity({&ten, 19, row[0], 40 + ten.shank.value},
                                                plan::lateralTerms(ten, grade, uk.fixing_design));
    CHECK_THAT(*capacity.n * 1.3 / 1.1, WithinAbs(row[1], 0.6));  // γ_M, k_mod
  }
  // America's method doesn't ask for it.
  const auto& us = shipped("us").strength;
  practice::Gauge american = us.gauges[2];
  const double by_yield = plan::lateralTerms(american, &us.timber.grades[0], us.fixing_design).moment;
  american.tensile = tensile;
  CHECK(plan::lateralTerms(american, &us.timber.grades[0], us.fixing_design).moment == by_yield);
}

TEST_CASE("EN 1995-1-1 (8.6) without its 1.05 and 1.15 is the general dowel equations without a gap") {
  std::mt19937_64 random(86);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  for (int i = 0; i < 20000; ++i) {
    const double f1 = between(8, 40);
    const double beta = between(0.3, 3);
    const double d = between(2, 20);
    const double t1 = between(5, 150);
    const double t2 = between(5, 150);
    const double m = between(500, 300000);
    const double r = t2 / t1;
    const double a = f1 * t1 * d;
    const double b = beta * f1 * t2 * d;
    const double c =
        f1 * t1 * d / (1 + beta) *
        (std::sqrt(beta + 2 * beta * beta * (1 + r + r * r) + beta * beta * beta * r * r) - beta * (1 + r));
    const double dd = f1 * t1 * d / (2 + beta) *
                      (std::sqrt(2 * beta * (1 + beta) + 4 * beta * (2 + beta) * m / (f1 * d * t1 * t1)) - beta);
    const double e =
        f1 * t2 * d / (1 + 2 * beta) *
        (std::sqrt(2 * beta * beta * (1 + beta) + 4 * beta * (1 + 2 * beta) * m / (f1 * d * t2 * t2)) - beta);
    const double f = std::sqrt(2 * beta / (1 + beta)) * std::sqrt(2 * m * f1 * d);
    const auto loads = plan::yieldLoads({beta * f1 * d, f1 * d, t2, t1, m, m, 0});
    const std::array<double, 6> ec5{b, a, c, e, dd, f};  // Im Is II IIIm IIIs IV
    for (std::size_t mode = 0; mode < 6; ++mode) {
      CAPTURE(i, mode);
      REQUIRE(std::abs(loads[mode] / ec5[mode] - 1) < 1e-12);
    }
  }
}

TEST_CASE("regression figures of this project: screws through 19 mm of reveal across a gap, NDS") {
  // G 0.42 in both (F_e 3350 psi), 40 mm in the stud less half the point, root diameter, K_D 2.2, C_D 1. N. Not
  // published: they hold the code to its own first answer.
  constexpr std::array<double, 7> kGap{0, 1, 2, 5, 10, 15, 20};
  struct Row {
    double shank, root, yield_ksi;
    std::array<double, 7> z;
  };
  constexpr std::array<Row, 2> kRows{{{.164, .131, 90, {304.6, 291.5, 279.2, 246.7, 204.5, 173.1, 143.6}},
                                      {.190, .152, 80, {370.6, 355.2, 340.6, 301.9, 251.1, 213.2, 184.2}}}};
  for (const auto& row : kRows) {
    const double root = row.root * kInch;
    const double q = 3350 * kPsi * root;
    const double moment = plan::plasticMoment(row.yield_ksi * 1000 * kPsi, root);
    for (std::size_t i = 0; i < kGap.size(); ++i) {
      const auto loads = plan::yieldLoads({q, q, 40 - row.shank * kInch, 19, moment, moment, kGap[i]});
      CHECK_THAT(least(loads) / 2.2, WithinAbs(row.z[i], 0.06));
      // A No. 8 bends twice across 20; else the screw bends in the stud.
      const std::size_t governs = row.shank < 0.18 && kGap[i] == 20 ? 5 : 4;
      CHECK(least(loads) == loads[governs]);
    }
  }
  // The same through the American practice: F_e isn't rounded there (3364 psi), wind is 1.6.
  const auto& strength = shipped("us").strength;
  const auto* spf = strength.timber.find("SPF No.2");
  for (const auto& gauge : strength.gauges) {
    const Row* row = gauge.name == "#8" ? &kRows[0] : gauge.name == "#10" ? &kRows[1] : nullptr;
    if (row == nullptr) continue;
    for (std::size_t i = 0; i < kGap.size(); ++i) {
      const auto capacity =
          plan::lateralCapacity({&gauge, 19, kGap[i], 40}, plan::lateralTerms(gauge, spf, strength.fixing_design));
      CHECK_THAT(*capacity.n / 1.6, WithinRel(row->z[i], 0.005));
    }
  }
}

TEST_CASE("regression figures of this project: bearing by EN 1995-1-1 in the gap equations") {
  // d_ef 1.1 times the root, t1 19, t2 40, ρ 310 in both, f_u 540, characteristic, N.
  constexpr std::array<double, 7> kGap{0, 1, 2, 5, 10, 15, 20};
  struct Row {
    double root;
    std::array<double, 7> printed;
  };
  constexpr std::array<Row, 2> kRows{
      {{.152, {755, 726, 699, 626, 528, 452, 394}}, {.131, {618, 593, 570, 507, 424, 362, 313}}}};
  for (const Row& row : kRows) {
    const double d = 1.1 * row.root * kInch;
    const double q = plan::embeddingEc5(310, d) * d;
    const double moment = plan::yieldMomentEc5(540, d);
    for (std::size_t i = 0; i < kGap.size(); ++i) {
      CHECK_THAT(least(plan::yieldLoads({q, q, 40, 19, moment, moment, kGap[i]})), WithinAbs(row.printed[i], 0.6));
    }
  }
}

TEST_CASE("NDS 2018 12.2: withdrawal of wood screws") {
  const auto pounds = [](double gravity, double shank_in) {
    return plan::withdrawalNds(gravity, shank_in * kInch) * kInch / kPound;
  };
  CHECK_THAT(pounds(.50, .190), WithinAbs(135, 0.5));  // Table 12.2B, No. 10
  CHECK(std::floor(pounds(.45, .190)) == 109);         // printed with its fraction cut
  CHECK_THAT(1.5 * kInch * plan::withdrawalNds(.42, .190 * kInch), WithinAbs(637.3, 0.05));  // N, 1.5 in of thread
  // Regression figures of this project, lb/in.
  constexpr std::array<double, 5> kShank{.138, .164, .190, .216, .242};
  constexpr std::array<double, 5> kSpf{69, 82, 96, 109, 122};
  constexpr std::array<double, 5> kFir{98, 117, 135, 154, 172};
  constexpr std::array<double, 5> kLight{48, 57, 66, 75, 84};
  for (std::size_t i = 0; i < 5; ++i) {
    CHECK_THAT(pounds(.35, kShank[i]), WithinAbs(kLight[i], 0.6));
    CHECK_THAT(pounds(.42, kShank[i]), WithinAbs(kSpf[i], 0.6));
    CHECK_THAT(pounds(.50, kShank[i]), WithinAbs(kFir[i], 0.6));
  }
}

TEST_CASE("the wrong diameter gives the wrong answer: No. 10 by its shank") {
  // NDS 2018 Table 12L prints 90 lb by the root; by the shank it would be a third more.
  practice::Gauge gauge;
  gauge.shank.value = .190 * kInch;
  gauge.root.value = .152 * kInch;
  practice::Figure yield;
  yield.value = 80000 * kPsi;
  gauge.yield = yield;
  const auto& us = shipped("us").strength;
  practice::FixingDesign design = us.fixing_design;
  design.duration_wind->value = 1;
  design.reveal_gravity->value = .50;
  practice::TimberGrade fir = *us.timber.find("DF-L No.2");
  const auto right =
      plan::lateralCapacity({&gauge, .5 * kInch, 0, 1.5 * kInch}, plan::lateralTerms(gauge, &fir, design));
  CHECK_THAT(*right.n / kPound, WithinAbs(90, 0.6));
  gauge.root = gauge.shank;
  const auto wrong =
      plan::lateralCapacity({&gauge, .5 * kInch, 0, 1.5 * kInch}, plan::lateralTerms(gauge, &fir, design));
  CHECK(*wrong.n > *right.n * 1.15);
}
