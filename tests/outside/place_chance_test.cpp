// The chance that a unit fits against Monte Carlo: openings drawn from the covariance, each with its own largest spare.
#include <cmath>

#include "plan/stand/clearing.h"
#include "plan/stand/place.h"
#include "support/catch.h"
#include "support/openings.h"

using namespace sillwright;
using namespace sillwright::plan;
using namespace sillwright::testing;
using Catch::Matchers::WithinAbs;

namespace {

// Errors of the corners as six mixtures of six independent ones, so that drawing them needs no decomposition.
using Mixing = std::array<std::array<double, 6>, 6>;

struct Doubted {
  Problem problem;
  Mixing mixing{};
  double bow_sigma = 0;
  double unit_tolerance = 0;
};

CornerCovariance covarianceOf(const Mixing& mixing) {
  CornerCovariance covariance{};
  for (std::size_t i = 0; i < 6; ++i) {
    for (std::size_t j = 0; j < 6; ++j) {
      for (std::size_t k = 0; k < 6; ++k) covariance[i][j] += mixing[i][k] * mixing[j][k];
    }
  }
  return covariance;
}

// BR.x, BR.z, TR.x, TR.z, TL.x, TL.z
void shift(OpeningShape& shape, std::size_t i, double by) {
  Point& corner = shape.corner[1 + i / 2];
  (i % 2 == 0 ? corner.x : corner.z) += by;
}

double share(const Doubted& doubted, Dice& dice, int draws) {
  int fits = 0;
  for (int n = 0; n < draws; ++n) {
    Problem p = doubted.problem;
    std::array<double, 6> error{};
    for (double& e : error) e = dice.normal();
    for (std::size_t i = 0; i < 6; ++i) {
      double by = 0;
      for (std::size_t k = 0; k < 6; ++k) by += doubted.mixing[i][k] * error[k];
      shift(p.shape, i, by);
    }
    // One reading bows both jambs, another both sill and head.
    const double jambs = doubted.bow_sigma * dice.normal();
    const double sill_head = doubted.bow_sigma * dice.normal();
    p.shape.bow.left += jambs;
    p.shape.bow.right += jambs;
    p.shape.bow.sill += sill_head;
    p.shape.bow.head += sill_head;
    p.width += doubted.unit_tolerance / 2 * dice.normal();
    p.height += doubted.unit_tolerance / 2 * dice.normal();
    if (largestSpare(Clearing(p.shape, p.width, p.height, p.least)) >= 0) ++fits;
  }
  return static_cast<double>(fits) / draws;
}

Stand placed(const Doubted& doubted) {
  AsBuilt opening = knownExactly(doubted.problem.shape);
  opening.covariance = covarianceOf(doubted.mixing);
  opening.bow_sigma = doubted.bow_sigma;
  PlaceRules rules = rulesWith(doubted.problem.least);
  rules.unit_tolerance = doubted.unit_tolerance;
  return place(opening, doubted.problem.width, doubted.problem.height, rules);
}

constexpr int kDraws = 40'000;  // standard error of a share at most 0.25 %

}  // namespace

TEST_CASE("the chance of a fit is that of openings drawn at random, to 1 %") {
  Dice dice(41);
  int judged = 0;
  for (int i = 0; i < 24; ++i) {
    Doubted doubted;
    Problem& p = doubted.problem;
    // Out of shape by several standard errors, so that it is clear what governs: studs leaning in by 12 to 20 with
    // height to spare, or a sill and head closing in with width to spare; some bowed.
    const bool wide = i % 2 == 0;
    const double w = dice.between(600, 3000);
    const double h = dice.between(600, 2400);
    p.shape = plannedShape(w, h);
    const double in = dice.between(12, 20);
    if (wide) {
      p.shape.corner[3].x = in;
      p.shape.corner[2].x -= dice.between(12, 20);
    } else {
      p.shape.corner[1].z = in;
      p.shape.corner[2].z -= dice.between(12, 20);
    }
    if (i % 3 == 0) (wide ? p.shape.bow.left : p.shape.bow.sill) = 25;
    for (std::size_t a = 0; a < 6; ++a) {
      for (std::size_t b = 0; b < 6; ++b) doubted.mixing[a][b] = dice.between(-0.5, 0.5);
    }
    doubted.bow_sigma = i % 3 == 0 ? 0.8 : 0;
    doubted.unit_tolerance = dice.between(0, 2);
    p.least = {5, 5, 5, 5};
    p.width = w - 60;
    p.height = h - 60;
    (wide ? p.width : p.height) = (wide ? w : h) - 40;
    // Then the least gaps are set so that the fit is in doubt.
    const double spare = placed(doubted).spare;
    p = tighter(p, spare - dice.between(-0.7, 0.7));
    const Stand stand = placed(doubted);
    CAPTURE(i, stand.spare, stand.spare_sigma);
    CHECK_THAT(stand.chance, WithinAbs(share(doubted, dice, kDraws), 0.01));
    if (stand.chance > 0.02 && stand.chance < 0.98) ++judged;
  }
  CHECK(judged > 12);
}

TEST_CASE("where two constraints govern alike the chance is of first order: too high, by a known amount") {
  // Exactly square, known to 1 mm in BR.x and TR.x each, independently. Both foot and head must go in, each with chance
  // 1/2 at spare 0: together between 1/4 and 1/2. The normal chance says 1/2.
  Doubted doubted;
  doubted.problem.shape = plannedShape(1000, 1000);
  doubted.problem.width = 990;
  doubted.problem.height = 950;
  doubted.problem.least = {5, 5, 5, 5};
  doubted.mixing[0][0] = doubted.mixing[2][2] = 1;
  const Stand stand = placed(doubted);
  CHECK_THAT(stand.spare, WithinAbs(0, 1e-9));
  CHECK_THAT(stand.chance, WithinAbs(0.5, 1e-9));
  Dice dice(43);
  const double drawn = share(doubted, dice, kDraws);
  CHECK(drawn > 0.24);
  CHECK(drawn < 0.5);
}
