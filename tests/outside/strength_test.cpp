// Wind, fixings, weight and beams against published figures. Where a figure's source is itself second-hand, the source
// that was seen is named.

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "plan/beam.h"
#include "plan/dowel.h"
#include "plan/fix.h"
#include "plan/fixing_capacity.h"
#include "plan/mass.h"
#include "plan/wind.h"
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

double ultimate(const char* wind_class, bool corner) {
  return *plan::windOn(job::Wind{std::string(wind_class)}, corner, shipped("au")).ultimate_kpa;
}

double least(const std::array<double, plan::kYieldModes>& loads) {
  return *std::min_element(loads.begin(), loads.end());
}

/// A practice whose lintel checks have no factors, and one grade of these strengths.
practice::Practice plainTimber(double bending, double shear, double stiffness) {
  practice::Practice practice;
  practice::Timber& timber = practice.strength.timber;
  practice::TimberGrade grade;
  grade.name = "plain";
  practice::Figure figure;
  figure.value = bending;
  grade.bending.bands.push_back({1e9, figure});
  const auto rule = [](double value) {
    practice::Figure made;
    made.value = value;
    return practice::Rule{made};
  };
  grade.shear = rule(shear);
  grade.stiffness = rule(stiffness);
  timber.grades.push_back(grade);
  timber.usual_grade = "plain";
  timber.lintel.load_factor = timber.lintel.duration = timber.lintel.capacity_factor = rule(1);
  timber.lintel.live_deflection_ratio = rule(1);
  return practice;
}

job::Wall carrying(double newtons_per_mm) {
  job::Wall wall;
  wall.supports = job::Supports{newtons_per_mm * 1000, 1};
  return wall;
}

}  // namespace

// ---------------------------------------------------------------------------------------------------------- wind

TEST_CASE("AS 4055: free-stream pressures of N1 to N6, as an Australian structural practice prints them") {
  constexpr std::array<const char*, 6> kNames{"N1", "N2", "N3", "N4", "N5", "N6"};
  constexpr std::array<double, 6> kPrinted{0.69, 0.96, 1.50, 2.23, 3.29, 4.44};  // kPa
  for (std::size_t i = 0; i < 6; ++i) {
    // Windows away from corners take 0.9 of it, near them 1.35 (from memory).
    CHECK_THAT(ultimate(kNames[i], false) / 0.9, WithinAbs(kPrinted[i], 0.005));
    CHECK_THAT(ultimate(kNames[i], true) / 1.35, WithinAbs(kPrinted[i], 0.005));
  }
}

TEST_CASE("AS 2047: ultimate ratings that a trade article names for cyclone classes") {
  CHECK(std::round(ultimate("C4", false) * 10) / 10 == 5.3);  // 5300 Pa
  CHECK(std::round(ultimate("C3", true) * 10) / 10 == 5.9);   // "5900 Pa, N5, C3 corner"
  CHECK(ultimate("N6", true) > 5.9);                          // the same article: N6 corner is beyond that unit
}

TEST_CASE("NZS 4211: water pressure of the extra-high zone is 455 Pa, 0.30 of 1515") {
  // BRANZ Build 129; the ratio is this project's reading of it.
  const auto load = plan::windOn(job::Wind{std::string("EH")}, false, shipped("nz"));
  CHECK_THAT(*load.water_kpa, WithinAbs(0.30 * *load.serviceability_kpa, 0.001));
  const auto high = plan::windOn(job::Wind{std::string("H")}, false, shipped("nz"));
  CHECK_THAT(*high.water_kpa, WithinAbs(0.30 * 0.970, 1e-9));
}

// ------------------------------------------------------------------------------------------------- where fixings go

TEST_CASE("NHBC Standards 6.7.11: number of fixings on jambs of 900, 1200 and 2100 with ends at 150") {
  CHECK(plan::fixingsNeeded(900, 150, 600, 2) == 2);
  CHECK(plan::fixingsNeeded(1200, 150, 600, 2) == 3);
  CHECK(plan::fixingsNeeded(2100, 150, 600, 2) == 4);
  job::Job job = testing::simpleJob(job::UnitKind::FixedWindow, 1500, 1200, "uk");
  const auto fixings = plan::planOpening(job, 0, shipped("uk")).fixings;
  std::vector<double> left;
  for (const auto& fixing : fixings.points) {
    if (fixing.side == plan::Side::Left) left.push_back(fixing.at);
  }
  CHECK(left == std::vector<double>{150, 600, 1050});  // at 450
}

TEST_CASE("E2/AS1 (from memory): a sill of 1800 takes five pairs at 375") {
  CHECK(plan::fixingsNeeded(1800, 150, 450, 0) == 5);
  CHECK_THAT((1800 - 300) / 4.0, WithinAbs(375, 1e-12));
}

// ---------------------------------------------------------------------------------------- bearing, bending, pull-out

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
      const auto capacity = plan::lateralCapacity({&gauge, 19, kGap[i], 40}, spf, strength.fixing_design);
      CHECK_THAT(*capacity.n / 1.6, WithinRel(row->z[i], 0.005));
    }
  }
}

TEST_CASE("regression figures of this project: bearing by EN 1995-1-1 in the gap equations") {
  // No. 10, d_ef 1.1 × .152 in, t1 19, t2 40, ρ 310 in both, f_u 540 (M_y = 0.3·f_u·d^2.6), characteristic, N.
  constexpr std::array<std::array<double, 2>, 7> kRows{
      {{0, 755}, {1, 726}, {2, 699}, {5, 626}, {10, 528}, {15, 452}, {20, 394}}};
  const double d = 1.1 * .152 * kInch;
  const double q = plan::embeddingEc5(310, d) * d;
  const double moment = 0.3 * 540 * std::pow(d, 2.6);
  for (const auto& row : kRows) {
    CHECK_THAT(least(plan::yieldLoads({q, q, 40, 19, moment, moment, row[0]})), WithinAbs(row[1], 0.6));
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
  for (std::size_t i = 0; i < 5; ++i) {
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
  const auto right = plan::lateralCapacity({&gauge, .5 * kInch, 0, 1.5 * kInch}, &fir, design);
  CHECK_THAT(*right.n / kPound, WithinAbs(90, 0.6));
  gauge.root = gauge.shank;
  const auto wrong = plan::lateralCapacity({&gauge, .5 * kInch, 0, 1.5 * kInch}, &fir, design);
  CHECK(*wrong.n > *right.n * 1.15);
}

// -------------------------------------------------------------------------------------------------- glass, lifting

TEST_CASE("glass weighs what reference pages print") {
  const auto kg = [](double w, double h, double thickness, int panes) {
    return plan::glassMass(w * h, {thickness, panes, std::nullopt}, shipped("au").safety.masses.glass.value);
  };
  CHECK_THAT(kg(1700, 500, 12, 1), WithinAbs(25.5, 1e-9));
  CHECK_THAT(kg(1000, 1000, 4, 2), WithinAbs(20, 1e-9));
  CHECK_THAT(kg(1000, 1000, 6.38, 1), WithinAbs(16, 0.05));
  CHECK_THAT(kg(1000, 1000, 6, 1), WithinAbs(15, 1e-9));
  CHECK_THAT(kg(1000, 1000, 10, 1), WithinAbs(25, 1e-9));
  CHECK_THAT(kg(1200, 1500, 4, 2), WithinAbs(36, 1e-9));
  // 6 × 1200 × 1500: 27.0 kg, 265 N (regression figure of this project).
  CHECK_THAT(kg(1200, 1500, 6, 1) * plan::kGravity, WithinAbs(264.9, 0.05));
}

TEST_CASE("lifting limits: NIOSH's load constant alone, HSE L23's shares for teams (from memory)") {
  CHECK(plan::teamLimit(1, shipped("au").safety.lifting) == 23);
  const auto& hse = shipped("uk").safety.lifting;
  CHECK(plan::teamLimit(1, hse) == 25);  // HSE INDG143, close to the body at elbow height
  CHECK_THAT(plan::teamLimit(2, hse), WithinAbs(2.0 / 3 * 50, 0.05));
  CHECK_THAT(plan::teamLimit(3, hse), WithinAbs(0.5 * 75, 1e-9));
}

// ------------------------------------------------------------------------------------------------------------ beams

TEST_CASE("beams worked on engineering calculation pages") {
  // 75 × 225, L 4.8 m, 2.4 kN/m, E 11 GPa: I 7119 cm⁴, δ 21.18 mm.
  CHECK_THAT(plan::sectionInertia(75, 225) / 1e4, WithinAbs(7119, 0.5));
  CHECK_THAT(plan::uniformLoad(2.4, 4800, 11000, 71190000).deflection, WithinAbs(21.184, 0.001));
  // 100 × 200: I 66 666 668 mm⁴, Z 666 667 mm³ as printed.
  CHECK_THAT(plan::sectionInertia(100, 200), WithinAbs(66666668, 2));
  CHECK_THAT(plan::sectionModulus(100, 200), WithinAbs(666667, 0.5));
  // C24 50 × 195, k_mod .6, γ 1.3, and the notebook's own size factor .95: 3.33 kNm.
  CHECK_THAT(24 * 0.6 / 1.3 * 0.95 * plan::sectionModulus(50, 195) / 1e6, WithinAbs(3.33, 0.005));
}

TEST_CASE("100 × 200 under 5 kNm and 10 kN: 7.5 and 0.75 N/mm²") {
  // A uniform load of 10 N/mm over 2 m makes both. A grade of just those strengths is then just used up.
  const auto check = plan::checkLintel({200, 100, 1}, 2000, 0, carrying(10), plainTimber(7.5, 0.75, 11000));
  CHECK_THAT(*check.bending, WithinRel(1.0, 1e-12));
  CHECK_THAT(*check.shear, WithinRel(1.0, 1e-12));
  // And 21.184 mm of 4800 for the beam above.
  const auto beam = plan::checkLintel({225, 75, 1}, 4800, 0, carrying(2.4), plainTimber(24, 2.5, 11000));
  CHECK_THAT(*beam.deflection * 4800, WithinAbs(21.184, 0.002));
}

TEST_CASE("IRC 2021 R602.7(1): the roof-and-ceiling column gives one load, bending governing") {
  // As given on a public reference sheet. By hand with SPF No. 2 and C_D 1.15 its spans come back to 628 … 676 lb/ft.
  const auto& us = shipped("us");
  int rows = 0;
  for (const auto& entry : us.strength.timber.spans) {
    if (entry.carries != "roof and ceiling") continue;
    const job::Lintel header{entry.depth, entry.thickness, entry.plies};
    const auto check = plan::checkLintel(header, entry.span.value, 0, carrying(1), us);
    REQUIRE((check.bending && check.shear && check.deflection));
    const auto loadAt = [](double ratio) { return 1 / ratio / kPound * 12 * kInch; };  // lb/ft at ratio 1
    CAPTURE(entry.header);
    if (entry.plies == 2 || entry.depth > 230) {
      const bool listed = entry.header == "2-2x4" || entry.header == "2-2x6" || entry.header == "2-2x8" ||
                          entry.header == "2-2x10" || entry.header == "2-2x12" || entry.header == "3-2x10" ||
                          entry.header == "4-2x10";
      if (listed) {
        CHECK_THAT(loadAt(*check.bending), WithinRel(645, 0.05));
        ++rows;
      }
    }
    // Neither shear nor deflection comes before bending.
    CHECK(*check.shear < *check.bending);
    CHECK(*check.deflection < *check.bending);
  }
  CHECK(rows == 7);
}
