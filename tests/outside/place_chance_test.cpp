// The chance that a unit fits against Monte Carlo: openings as surveyed from few or many readings, drawn from what the
// survey says of its own errors, each draw with its own largest spare.
//
// `test_place_outside "[report]"` runs 500 openings with 100 000 draws each and 200 whose heads follow a roof, of three
// seeds (Release: minutes), and prints how reliable the chance is.
#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>
#include <tuple>
#include <utility>

#include "plan/stand/clearing.h"
#include "plan/stand/orthant.h"
#include "plan/stand/place.h"
#include "support/catch.h"
#include "support/openings.h"
#include "support/survey_rig.h"

using namespace sillwright;
using namespace sillwright::plan;
using namespace sillwright::testing;
using Catch::Matchers::WithinAbs;

namespace {

struct Doubted {
  AsBuilt opening;
  HeadLine unit{0, 0};
  PlaceRules rules;
};

/// The unit made larger: every corner of its head that stands above its foot rises.
HeadLine grown(const HeadLine& unit, double wider, double higher) {
  const auto raised = [&](double z) { return z > 0 ? z + higher : 0; };
  if (unit.level()) return {unit.width() + wider, unit.top() + higher};
  job::Head head;
  head.left = raised(unit.left());
  head.right = raised(unit.right());
  if (unit.peaked()) std::tie(head.peak_x, head.peak_z) = std::pair{unit.middle().x, unit.middle().z + higher};
  return {unit.width() + wider, head.top(), head};
}

double spareOf(const OpeningShape& shape, const HeadLine& unit, const LeastGaps& least) {
  return largestSpare(Clearing(profilesOf(shape, unit), unit.width(), unit.top(), least));
}

// Errors of the corners as mixtures of independent ones.
Eigen::Matrix<double, 6, 6> mixingOf(const CornerCovariance& covariance) {
  Eigen::Matrix<double, 6, 6> m;
  for (int i = 0; i < 6; ++i) {
    for (int j = 0; j < 6; ++j) m(i, j) = covariance[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix<double, 6, 6>> solver(m);
  return solver.eigenvectors() * solver.eigenvalues().cwiseMax(0).cwiseSqrt().asDiagonal();
}

double shareThatFits(const Doubted& doubted, Dice& dice, int draws) {
  const auto mixing = mixingOf(doubted.opening.covariance);
  int fits = 0;
  for (int n = 0; n < draws; ++n) {
    OpeningShape shape = doubted.opening.shape;
    Eigen::Matrix<double, 6, 1> error;
    for (int i = 0; i < 6; ++i) error(i) = dice.normal();
    error = mixing * error;
    for (int i = 0; i < 6; ++i) {
      Point& corner = shape.corner[static_cast<std::size_t>(1 + i / 2)];
      (i % 2 == 0 ? corner.x : corner.z) += error(i);
    }
    // One reading bows both jambs, another both sill and head; each is counted from the corners.
    std::array<double, 2> bow{};
    for (std::size_t pair = 0; pair < 2; ++pair) {
      const BowDoubt& doubt = doubted.opening.bow_doubt[pair];
      bow[pair] = doubt.own_sigma * dice.normal();
      for (std::size_t i = 0; i < 6; ++i) bow[pair] += doubt.by_corner[i] * error(static_cast<Eigen::Index>(i));
    }
    shape.bow.left += bow[0];
    shape.bow.right += bow[0];
    if (shape.peak) {
      shape.peak->z -= bow[1];
    } else {
      shape.bow.sill += bow[1];
      shape.bow.head += bow[1];
    }
    const double unit_sigma = doubted.rules.unit_tolerance / 2;
    const double wider = unit_sigma * dice.normal();
    if (spareOf(shape, grown(doubted.unit, wider, unit_sigma * dice.normal()), doubted.rules.least) >= 0) ++fits;
  }
  return static_cast<double>(fits) / draws;
}

Stand placed(const Doubted& doubted) { return place(doubted.opening, doubted.unit, doubted.rules); }

/// Which of the nine are read.
std::uint32_t someReadings(rig::Chance& chance) {
  const double kind = chance.uniform();
  if (kind < 0.3) return 0x0f;  // two widths and two heights
  if (kind < 0.4) return 0x05;  // one of each
  return kind < 0.7 ? static_cast<std::uint32_t>(512 * chance.uniform()) : rig::kAllNine;
}

bool agrees(const AsBuilt& opening) { return opening.trust != Trust::Suspect && opening.trust != Trust::Disputed; }

PlaceRules randomRules(rig::Chance& chance) {
  const auto off = [&] { return chance.between(0, 10); };
  PlaceRules rules = rulesWith({off(), off(), off(), off()});
  rules.unit_tolerance = chance.between(0, 2);
  return rules;
}

/// A size that uses up what there is, then a little more or less: sideways, upwards or both.
void tighten(Doubted& doubted, rig::Chance& chance) {
  const int tight = static_cast<int>(3 * chance.uniform());
  const auto spare = [&](const HeadLine& unit) { return spareOf(doubted.opening.shape, unit, doubted.rules.least); };
  const double about = chance.between(-1.2, 3) * std::max(placed(doubted).spare_sigma, 0.3);
  if (!doubted.unit.level()) {  // its slopes change with it: the size between too large and too small
    const HeadLine small = doubted.unit;
    double low = 0, high = 100;
    for (int round = 0; round < 30; ++round) {
      const double by = (low + high) / 2;
      doubted.unit = grown(small, tight == 1 ? by / 4 : by, tight == 0 ? by / 4 : by);
      (spare(doubted.unit) > about ? low : high) = by;
    }
    return;
  }
  for (int round = 0; round < 40; ++round) {
    if (tight != 1) doubted.unit = grown(doubted.unit, spare(grown(doubted.unit, 0, -100)) - about, 0);
    if (tight != 0) doubted.unit = grown(doubted.unit, 0, spare(grown(doubted.unit, -100, 0)) - about);
  }
}

/// An opening of any size out of shape by some millimetres, read sparsely or in full, into which a unit is to go that
/// has little to spare.
Doubted randomDoubted(rig::Chance& chance) {
  Doubted doubted;
  const double w = chance.between(450, 4000);
  const double h = chance.between(450, 2600);
  const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, w, h, chance.between(0, 4))));
  do {
    job::Measured measured = rig::measured(value, someReadings(chance));
    if (chance.uniform() < 0.3) measured.widths[1] = w + chance.between(-6, 6);
    if (chance.uniform() < 0.3) measured.heights[1] = h + chance.between(-6, 6);
    doubted.opening = survey({w, h}, measured, rig::tapeErrors());
  } while (!agrees(doubted.opening));
  doubted.rules = randomRules(chance);
  doubted.unit = {w - chance.between(20, 60), h - chance.between(20, 60)};
  tighten(doubted, chance);
  return doubted;
}

/// An opening under a roof: raked, a triangle, or with a peak between sides or between corners.
Doubted randomUnderRoof(rig::Chance& chance) {
  Doubted doubted;
  const double w = chance.between(900, 3000);
  const double low = chance.uniform() < 0.4 ? 0 : chance.between(450, 1500);
  const double rise = chance.between(std::max(0.15 * w, 300.0), 0.7 * w);  // below 45° at a peak too
  job::Head head;
  head.left = low;
  head.right = low + rise;
  if (chance.uniform() < 0.5) std::swap(head.left, head.right);
  if (chance.uniform() < 0.3) {
    head.left = head.right = low;
    head.peak_x = w * chance.between(0.4, 0.6);
    head.peak_z = low + rise / 2;
  }
  const HeadLine planned(w, head.top(), head);
  rig::Quad quad{{w, 0}, {w, head.right}, {0, head.left}};
  for (Point* p : {&quad.br, head.right > 0 ? &quad.tr : nullptr, head.left > 0 ? &quad.tl : nullptr}) {
    if (p == nullptr) continue;
    p->x += chance.between(0, 4) * chance.normal();
    p->z += chance.between(0, 4) * chance.normal();
  }
  if (head.right == 0) quad.tr = quad.br;
  const auto value = rig::noisy(chance, rig::exactReadings(quad));
  do {
    job::Measured measured = rig::measured(value, someReadings(chance));
    if (head.left == 0) measured.heights[0] = measured.out_of_plumb[0] = std::nullopt;
    if (head.right == 0) measured.heights[2] = measured.out_of_plumb[1] = std::nullopt;
    doubted.opening = survey(planned, measured, rig::tapeErrors());
  } while (!agrees(doubted.opening));
  doubted.rules = randomRules(chance);
  doubted.unit = grown(planned, -chance.between(40, 80), -chance.between(40, 80));
  tighten(doubted, chance);
  return doubted;
}

struct Reliability {
  struct Bin {
    int openings = 0;
    double told = 0, drawn = 0;
  };
  std::array<Bin, 10> bins;
  double worst = 0;
  int beyond = 0;  ///< Openings told more than a point off.

  void add(double told, double drawn) {
    Bin& bin = bins[std::min<std::size_t>(9, static_cast<std::size_t>(told * 10))];
    ++bin.openings;
    bin.told += told;
    bin.drawn += drawn;
    worst = std::max(worst, std::abs(told - drawn));
    if (std::abs(told - drawn) > 0.01) ++beyond;
  }
  [[nodiscard]] std::string table() const {
    std::string table = "told, %      openings  mean told  drawn that fit\n";
    for (std::size_t i = 0; i < bins.size(); ++i) {
      const Bin& bin = bins[i];
      if (bin.openings == 0) continue;
      std::array<char, 100> line{};
      std::snprintf(line.data(), line.size(), "%3zu to %3zu   %8d  %8.2f %%  %8.2f %%\n", 10 * i, 10 * (i + 1),
                    bin.openings, 100 * bin.told / bin.openings, 100 * bin.drawn / bin.openings);
      table += line.data();
    }
    return table;
  }
};

Reliability reliabilityOf(Doubted (*make)(rig::Chance&), int openings, int draws, std::uint64_t start) {
  rig::Chance chance(start);
  Dice dice(start + 1);
  Reliability reliability;
  for (int i = 0; i < openings; ++i) {
    const Doubted doubted = make(chance);
    const Stand stand = placed(doubted);
    const double drawn = shareThatFits(doubted, dice, draws);
    if (std::abs(stand.chance - drawn) > 0.01) {
      const auto& [opening, unit, rules] = doubted;
      std::printf(
          "opening %d: told %.4f drawn %.4f spare %.3f sigma %.3f unit %.0f x %.0f-%.0f read %d bow %.2f %.2f\n", i,
          stand.chance, drawn, stand.spare, stand.spare_sigma, unit.width(), unit.left(), unit.right(),
          opening.read_count, opening.shape.bow.left, opening.shape.bow.sill);
    }
    reliability.add(stand.chance, drawn);
  }
  return reliability;
}

}  // namespace

TEST_CASE("the chance of a fit is that of openings drawn at random, sparsely read and in full, and under a roof") {
  // A share of 10 000 draws has a standard error of 0.5 points at most.
  for (const auto make : {randomDoubted, randomUnderRoof}) {
    const Reliability reliability = reliabilityOf(make, 40, 10'000, 41);
    CAPTURE(reliability.table());
    CHECK(reliability.worst < 0.02);
    CHECK(reliability.beyond <= 4);
  }
}

TEST_CASE("the chance of a fit on 500 openings and on 200 under a roof, of 100 000 draws each", "[.][report]") {
  const std::uint64_t seed = GENERATE(43, 143, 243);
  const auto report = [&](const char* name, Doubted (*make)(rig::Chance&), int openings) {
    const Reliability reliability = reliabilityOf(make, openings, 100'000, seed);
    WARN(name << ", seed " << seed << "\n"
              << reliability.table() << "worst difference " << 100 * reliability.worst << " points, above one point "
              << reliability.beyond);
    CHECK(reliability.beyond <= openings / 100);
  };
  report("four-cornered", randomDoubted, 500);
  report("under a roof", randomUnderRoof, 200);
}

TEST_CASE("foot and head that must both go in are not told as one") {
  // Exactly square, known to 1 mm in BR.x and TR.x each, independently: each goes in with a chance of 1/2 at spare 0,
  // both with 1/4, and a little more because the unit stands at the wider end, 5 mm from it and 45 from the other: it
  // goes in up to atan(45 / 955) past square on either side. The mean of the two governs with 1/2, which is no chance
  // of a fit.
  Doubted doubted;
  doubted.opening = knownExactly(plannedShape({1000, 1000}));
  doubted.opening.covariance[0][0] = doubted.opening.covariance[2][2] = 1;
  doubted.unit = {990, 950};
  doubted.rules = rulesWith({5, 5, 5, 5});
  const Stand stand = placed(doubted);
  CHECK_THAT(stand.spare, WithinAbs(0, 1e-9));
  CHECK_THAT(stand.chance, WithinAbs(0.25 + std::atan(45.0 / 955) / std::numbers::pi, 0.005));
}

TEST_CASE("two widths and two heights read: the racking that nobody read is in the chance") {
  job::Measured measured;
  measured.widths = {1010, std::nullopt, 1010};
  measured.heights = {1010, std::nullopt, 1010};
  Doubted doubted;
  doubted.opening = survey({1010, 1010}, measured, rig::tapeErrors());
  doubted.unit = {995, 995};
  doubted.rules = rulesWith({5, 5, 5, 5});
  Dice dice(44);
  const double drawn = shareThatFits(doubted, dice, 20'000);
  const Stand stand = placed(doubted);
  CHECK_THAT(stand.chance, WithinAbs(drawn, 0.015));
  CHECK(stand.chance < 0.75);  // the normal chance of what governs said 0.9
}

// Orthants with a closed form: of two variables, 1/4 + asin(ρ) / 2π; of three, 1/8 + (asin ρ12 + asin ρ13 + asin ρ23) /
// 4π (Stuart and Ord, Kendall's Advanced Theory of Statistics, from memory).
TEST_CASE("orthant probabilities of two and three correlated variables are as known in closed form") {
  rig::Chance chance(45);
  for (int trial = 0; trial < 200; ++trial) {
    std::array<HalfSpace, 3> all{};
    for (HalfSpace& one : all) {
      for (double& c : one.normal) c = chance.normal();
      one.normal.normalize();
    }
    const double r12 = std::asin(all[0].normal.dot(all[1].normal));
    const double r13 = std::asin(all[0].normal.dot(all[2].normal));
    const double r23 = std::asin(all[1].normal.dot(all[2].normal));
    std::array<HalfSpace, 2> two{all[0], all[1]};
    CHECK_THAT(probabilityOfAll(two), WithinAbs(0.25 + r12 / (2 * std::numbers::pi), 0.003));
    CHECK_THAT(probabilityOfAll(all), WithinAbs(0.125 + (r12 + r13 + r23) / (4 * std::numbers::pi), 0.003));
  }
}

TEST_CASE("variables that follow from each other, and many alike, are integrated") {
  HalfSpace one{};
  one.normal[0] = 1;
  HalfSpace against = one;
  against.normal[0] = -1;
  std::array<HalfSpace, 2> both{one, against};
  both[0].distance = both[1].distance = 1;  // between −1 and 1
  CHECK_THAT(probabilityOfAll(both), WithinAbs(0.682689, 1e-4));
  std::array<HalfSpace, 20> alike;
  alike.fill(one);
  CHECK_THAT(probabilityOfAll(alike), WithinAbs(0.5, 1e-6));
  std::array<HalfSpace, kDoubts> independent;
  for (std::size_t i = 0; i < kDoubts; ++i) {
    independent[i] = {};
    independent[i].normal[i] = 1;
    independent[i].distance = 1;
  }
  CHECK_THAT(probabilityOfAll(independent), WithinAbs(std::pow(0.841345, 10), 1e-4));
  CHECK(probabilityOfAll({}) == 1);
}

TEST_CASE("the quantile is the inverse of the normal distribution") {
  for (double x = -6; x <= 6; x += 0.01) CHECK_THAT(normalQuantile(normalProbability(x)), WithinAbs(x, 1e-6));
}
