// The largest spare against GLPK (GNU Linear Programming Kit), which knows nothing of openings.
#include "glpk_place.h"
#include "plan/stand/place.h"
#include "support/catch.h"
#include "support/openings.h"

using namespace sillwright;
using namespace sillwright::plan;
using namespace sillwright::testing;
using Catch::Matchers::WithinAbs;

namespace {

double spareOf(const Problem& p) { return place(knownExactly(p.shape), {p.width, p.height}, rulesWith(p.least)).spare; }

}  // namespace

TEST_CASE("the largest spare is that of a general LP solver on 10 000 openings") {
  GlpkPlace glpk;
  Dice dice(1);
  double worst = 0;
  for (int i = 0; i < 10'000; ++i) {
    const Problem p = i % 4 == 0 ? wildProblem(dice, false) : siteProblem(dice, false);
    const double difference = std::abs(spareOf(p) - glpk.largestSpare(p));
    worst = std::max(worst, difference);
    if (difference > 1e-6) {
      CAPTURE(i, p.width, p.height, difference);
      CHECK(difference <= 1e-6);
    }
  }
  CHECK(worst <= 1e-6);
}

TEST_CASE("bowed edges: the largest spare is the best of every case that a general LP solver finds") {
  GlpkPlace glpk;
  Dice dice(2);
  double worst = 0;
  for (int i = 0; i < 1500; ++i) {
    const Problem p = i % 2 == 0 ? wildProblem(dice, true) : siteProblem(dice, true);
    const double difference = std::abs(spareOf(p) - glpk.largestSpare(p));
    worst = std::max(worst, difference);
    if (difference > 1e-6) {
      CAPTURE(i, p.width, p.height, difference);
      CHECK(difference <= 1e-6);
    }
  }
  CHECK(worst <= 1e-6);
}
