// Mistakes of 5 to 30 mm planted in readings of openings: how often they show, and whether the right one is named.
//
// What can be told is a matter of geometry. With all nine readings there are three checks: the loop of widths and
// leans, and each diagonal against what it spans. A height is seen by one diagonal alone, so that a mistake in the one
// can't be told from a mistake in the other: both are named, always. The tolerance of the test and the size of the
// tape's errors then say how small a mistake still shows (smallestMistakeSeen).

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <string>
#include <utility>

#include "plan/survey/survey.h"
#include "support/catch.h"
#include "support/survey_rig.h"

using namespace sillwright;
using namespace sillwright::plan;

namespace {

/// Shares of the trials with a mistake in one reading.
struct Rates {
  double redundancy = 0;
  double seen = 0;       ///< smallestMistakeSeen, mm
  double named = 0;      ///< Suspect, and it is the one.
  double candidate = 0;  ///< Disputed, and it is among the candidates.
  double wrong = 0;      ///< Suspect, and it is another.
  double missed = 0;     ///< Disputed, and it is not among the candidates.
  double silent = 0;     ///< The readings pass as sound.
  double size = 0;       ///< Mean number of candidates of a dispute.
  int trials = 0;
};

/// `least`: mistakes are at least this many times the smallest that is seen.
Rates plant(std::size_t k, double width, double height, double least, int trials, std::uint64_t start) {
  rig::Chance chance(start + k);
  const auto errors = rig::tapeErrors();
  Rates rates;
  double sizes = 0;
  while (rates.trials < trials) {
    auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, width, height)));
    const double mistake = chance.sign() * chance.between(5, 30);
    value[k] += mistake;
    const AsBuilt built = survey({width, height}, rig::measured(value), errors);
    rates.redundancy = built.readings[k].redundancy;
    rates.seen = *rig::smallestMistakeSeen(built.readings[k]);
    if (std::abs(mistake) < least * rates.seen) continue;
    ++rates.trials;
    const bool among = (built.suspects >> k & 1U) != 0;
    if (built.trust == Trust::Suspect) (among ? rates.named : rates.wrong) += 1;
    if (built.trust == Trust::Disputed) (among ? rates.candidate : rates.missed) += 1;
    if (built.trust == Trust::Disputed) sizes += std::popcount(built.suspects);
    if (built.trust == Trust::Sound) rates.silent += 1;
  }
  const double disputes = rates.candidate + rates.missed;
  if (disputes > 0) rates.size = sizes / disputes;
  for (double* share : {&rates.named, &rates.candidate, &rates.wrong, &rates.missed, &rates.silent}) *share /= trials;
  return rates;
}

std::string line(std::size_t k, const Rates& r) {
  std::array<char, 200> text{};
  std::snprintf(text.data(), text.size(),
                "%-18s r %.3f  seen from %4.1f mm  named %5.1f %%  among %.1f candidates %5.1f %%  wrong %4.1f %%  "
                "missed %4.1f %%  silent %5.1f %%\n",
                wordsFor(static_cast<Reading>(k)), r.redundancy, r.seen, 100 * r.named, r.size, 100 * r.candidate,
                100 * r.wrong, 100 * r.missed, 100 * r.silent);
  return text.data();
}

bool isHeightOrDiagonal(std::size_t k) { return k >= 2 && k <= 5; }

constexpr std::uint64_t kStart = 20260314;

}  // namespace

TEST_CASE("a mistake that is large enough to be seen is found, and its reading is among those named") {
  for (const auto& [width, height] : {std::pair(1530.0, 1060.0), std::pair(600.0, 2100.0), std::pair(2400.0, 2100.0)}) {
    std::string table;
    for (std::size_t k = 0; k < kReadings; ++k) {
      const Rates rates = plant(k, width, height, 1.25, 1000, kStart);
      table += line(k, rates);
      CAPTURE(width, height, table);
      CHECK(rates.named + rates.candidate >= 0.95);
      CHECK(rates.wrong <= 0.02);
      CHECK(rates.size < 4.5);
    }
  }
}

TEST_CASE("where geometry can tell the readings apart, the one is named") {
  // Wide or low openings tell a width from a lean; in a narrow, high one the four of them stay in dispute.
  struct Case {
    double width, height, named;
  };
  for (const auto& [width, height, named] : {Case{1530, 1060, 0.95}, Case{2400, 2100, 0.90}}) {
    std::string table;
    for (std::size_t k = 0; k < kReadings; ++k) {
      if (isHeightOrDiagonal(k)) continue;
      const Rates rates = plant(k, width, height, 2, 1000, kStart);
      table += line(k, rates);
      CAPTURE(width, height, table);
      CHECK(rates.named >= named);
      CHECK(rates.wrong <= 0.02);
    }
  }
}

TEST_CASE("a height and the diagonal that sees it are named together, and one more reading is asked for") {
  rig::Chance chance(5);
  const std::array<std::pair<Reading, Reading>, 2> pairs = {
      {{Reading::HeightRight, Reading::DiagonalFromBottomLeft}, {Reading::HeightLeft, Reading::DiagonalFromTopLeft}}};
  for (const auto& [height, diagonal] : pairs) {
    for (const Reading wrong : {height, diagonal}) {
      auto value = rig::exactReadings(rig::framed(chance, 1530, 1060));
      value[static_cast<std::size_t>(wrong)] += 25;
      const AsBuilt built = survey({1530, 1060}, rig::measured(value), rig::tapeErrors());
      CHECK(built.trust == Trust::Disputed);
      CHECK(built.suspects == (rig::bit(height) | rig::bit(diagonal)));
      CHECK(built.settle_by == height);
      CHECK(built.disagreement > 10);
      CHECK(built.disagreement < 26);
    }
  }
}

TEST_CASE("a bottom width that is wrong by 20 mm is named, with how far it is off") {
  rig::Chance chance(6);
  auto value = rig::exactReadings(rig::framed(chance, 1530, 1060));
  value[0] += 20;
  const AsBuilt built = survey({1530, 1060}, rig::measured(value), rig::tapeErrors());
  REQUIRE(built.trust == Trust::Suspect);
  CHECK(built.suspects == rig::bit(Reading::WidthBottom));
  CHECK(built.settle_by == Reading::WidthBottom);
  CHECK(built.disagreement == Approx(20).margin(1e-6));
}

TEST_CASE("with one redundancy a mistake shows but is never given one name") {
  rig::Chance chance(7);
  const auto errors = rig::tapeErrors();
  int subsets = 0;
  int disputes = 0;
  for (std::uint32_t which = 1; which < 512; ++which) {
    const auto exact = rig::exactReadings(rig::framed(chance, 1530, 1060));
    if (survey({1530, 1060}, rig::measured(exact, which), errors).freedom != 1) continue;
    ++subsets;
    for (std::size_t k = 0; k < kReadings; ++k) {
      if ((which >> k & 1U) == 0) continue;
      auto value = rig::noisy(chance, exact);
      value[k] += chance.sign() * chance.between(5, 60);
      const AsBuilt built = survey({1530, 1060}, rig::measured(value, which), errors);
      CAPTURE(which, k);
      CHECK(built.trust != Trust::Suspect);
      if (built.trust != Trust::Disputed) continue;
      ++disputes;
      CHECK(std::popcount(built.suspects) >= 2);
      REQUIRE(built.settle_by);
      // To settle it: one of the candidates again, or a reading that was not taken.
      CHECK(((built.suspects | ~which) >> static_cast<unsigned>(*built.settle_by) & 1U) == 1);
      CHECK(built.disagreement > 0);
      // All that anything checks stand equal: w_i = √χ².
      for (const auto& reading : built.readings) {
        if (reading.standardised > 0) CHECK(reading.standardised == Approx(std::sqrt(built.chi_square)).epsilon(0.02));
      }
    }
  }
  CHECK(subsets > 20);
  CHECK(disputes > 100);
}

// Two mistakes can look exactly like one in a third reading (a top width and a rising diagonal like the right stud's
// lean); a top width and the sill's fall look like no single one.
TEST_CASE("two mistakes at once are not blamed on one reading where no single mistake explains them") {
  rig::Chance chance(8);
  const auto errors = rig::tapeErrors();
  int named = 0;
  constexpr int kTrials = 500;
  for (int trial = 0; trial < kTrials; ++trial) {
    auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, 1530, 1060)));
    value[1] += chance.sign() * chance.between(15, 30);
    value[6] += chance.sign() * chance.between(15, 30);
    const AsBuilt built = survey({1530, 1060}, rig::measured(value), errors);
    CHECK(built.trust != Trust::Sound);
    if (built.trust == Trust::Suspect) ++named;
  }
  CHECK(named <= kTrials / 50);
}

TEST_CASE("readings without a mistake are doubted once in a hundred times") {
  rig::Chance chance(9);
  const auto errors = rig::tapeErrors();
  constexpr int kTrials = 8000;
  int doubted = 0;
  double chi_square = 0;
  for (int trial = 0; trial < kTrials; ++trial) {
    const auto value = rig::noisy(chance, rig::exactReadings(rig::framed(chance, 1530, 1060)));
    const AsBuilt built = survey({1530, 1060}, rig::measured(value), errors);
    if (built.trust != Trust::Sound) ++doubted;
    chi_square += built.chi_square;
  }
  // 80 expected, ± 4 × √80; the mean of chi-square is its freedom, 3, ± 4 × √(6 / 8000).
  CHECK(doubted > 44);
  CHECK(doubted < 116);
  CHECK(chi_square / kTrials == Approx(3).margin(0.11));
}

TEST_CASE("rates of mistakes found, by reading", "[.][report]") {
  for (const auto& [width, height] : {std::pair(1530.0, 1060.0), std::pair(600.0, 2100.0), std::pair(2400.0, 2100.0)}) {
    for (const double least : {0.0, 1.25, 2.0}) {
      std::string table;
      for (std::size_t k = 0; k < kReadings; ++k) table += line(k, plant(k, width, height, least, 4000, kStart));
      WARN(width << " x " << height << ", mistakes of 5 to 30 mm of at least " << least << " times what is seen\n"
                 << table);
    }
  }
}
