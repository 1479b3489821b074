// Where a unit stands: microseconds an opening, and how that compares with a general LP solver on the same openings.
#include <benchmark/benchmark.h>

#include <ctime>
#include <vector>

#include "outside/glpk_place.h"
#include "plan/stand/clearing.h"
#include "plan/stand/pack.h"
#include "plan/stand/place.h"
#include "support/openings.h"

using namespace sillwright;
using namespace sillwright::plan;
using namespace sillwright::testing;

namespace {

// Straight or bowed openings of a site, into which the unit goes; the same where it is ordered too large; and openings
// far out of shape with units of any size.
enum Kind : int { kStraight, kBowed, kTooLarge, kWild };

std::vector<Problem> problemsOf(int kind) {
  Dice dice(99);
  std::vector<Problem> problems;
  while (problems.size() < 1000) {
    Problem p = kind == kWild ? wildProblem(dice, true) : siteProblem(dice, kind != kStraight);
    if (kind == kTooLarge) p.width += 20;
    const double spare = largestSpare(Clearing(p.shape, p.width, p.height, p.least));
    if (kind == kWild || (spare >= 0) == (kind != kTooLarge)) problems.push_back(p);
  }
  return problems;
}

struct Ready {
  AsBuilt opening;
  PlaceRules rules;
  double width, height;
};

std::vector<Ready> readyOf(const std::vector<Problem>& problems) {
  std::vector<Ready> ready;
  for (const Problem& p : problems) {
    Ready one{knownExactly(p.shape), rulesWith(p.least), p.width, p.height};
    one.rules.unit_tolerance = 2;
    for (std::size_t i = 0; i < 6; ++i) one.opening.covariance[i][i] = 1;
    ready.push_back(one);
  }
  return ready;
}

void largestSpareOnly(benchmark::State& state) {
  const std::vector<Problem> problems = problemsOf(static_cast<int>(state.range(0)));
  std::size_t i = 0;
  for (auto _ : state) {
    const Problem& p = problems[i++ % problems.size()];
    benchmark::DoNotOptimize(largestSpare(Clearing(p.shape, p.width, p.height, p.least)));
  }
}
BENCHMARK(largestSpareOnly)->Arg(kStraight)->Arg(kBowed)->Arg(kTooLarge)->Arg(kWild);

// As placeOpening, of openings and units that are known exactly: without the chance.
void placeAlone(benchmark::State& state) {
  std::vector<Ready> ready = readyOf(problemsOf(static_cast<int>(state.range(0))));
  for (Ready& one : ready) {
    one.opening.covariance = {};
    one.rules.unit_tolerance = 0;
  }
  std::size_t i = 0;
  for (auto _ : state) {
    const Ready& one = ready[i++ % ready.size()];
    benchmark::DoNotOptimize(place(one.opening, {one.width, one.height}, one.rules));
  }
}
BENCHMARK(placeAlone)->Arg(kStraight)->Arg(kBowed)->Arg(kTooLarge)->Arg(kWild);

// What governs the largest spare and the chance that there is any.
void chanceOfFitting(benchmark::State& state) {
  const std::vector<Ready> ready = readyOf(problemsOf(static_cast<int>(state.range(0))));
  std::vector<Profiles> edges;
  std::vector<Clearing> clearings;
  std::vector<double> spare;
  for (const Ready& one : ready) {
    edges.push_back(profilesOf(one.opening.shape));
    clearings.emplace_back(edges.back(), one.width, one.height, one.rules.least);
    spare.push_back(largestSpare(clearings.back()));
  }
  std::size_t i = 0;
  for (auto _ : state) {
    const std::size_t k = i++ % ready.size();
    benchmark::DoNotOptimize(governingOf(ready[k].opening, edges[k], clearings[k], spare[k], 1));
  }
}
BENCHMARK(chanceOfFitting)->Arg(kStraight)->Arg(kBowed)->Arg(kTooLarge)->Arg(kWild);

void placeOpening(benchmark::State& state) {
  const std::vector<Ready> ready = readyOf(problemsOf(static_cast<int>(state.range(0))));
  std::size_t i = 0;
  for (auto _ : state) {
    const Ready& one = ready[i++ % ready.size()];
    benchmark::DoNotOptimize(place(one.opening, {one.width, one.height}, one.rules));
  }
}
BENCHMARK(placeOpening)->Arg(kStraight)->Arg(kBowed)->Arg(kTooLarge)->Arg(kWild);

// Processor time, so that a busy machine slows neither side of a comparison more than the other.
double secondsFor(const auto& work) {
  const std::clock_t start = std::clock();
  work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

// The same linear programmes by GLPK; and what all of place takes beside it (stand, governors, chance, four sizes).
void againstGlpk(benchmark::State& state) {
  const std::vector<Problem> problems = problemsOf(static_cast<int>(state.range(0)));
  const std::vector<Ready> ready = readyOf(problems);
  GlpkPlace glpk;
  double ours = 0, theirs = 0, all = 0;
  constexpr int kRounds = 20;  // of ours for one of theirs: processor time comes in steps
  for (auto _ : state) {
    ours += secondsFor([&] {
      for (int i = 0; i < kRounds; ++i) {
        for (const Problem& p : problems) {
          benchmark::DoNotOptimize(largestSpare(Clearing(p.shape, p.width, p.height, p.least)));
        }
      }
    });
    all += secondsFor([&] {
      for (int i = 0; i < kRounds; ++i) {
        for (const Ready& one : ready) benchmark::DoNotOptimize(place(one.opening, {one.width, one.height}, one.rules));
      }
    });
    theirs += secondsFor([&] {
      for (const Problem& p : problems) benchmark::DoNotOptimize(glpk.largestSpare(p));
    });
  }
  const double openings = static_cast<double>(state.iterations()) * static_cast<double>(problems.size());
  state.counters["spare_us"] = ours / openings / kRounds * 1e6;
  state.counters["place_us"] = all / openings / kRounds * 1e6;
  state.counters["glpk_us"] = theirs / openings * 1e6;
  state.counters["times_as_fast"] = theirs * kRounds / ours;
  state.counters["all_of_place_times_as_fast"] = theirs * kRounds / all;
}
BENCHMARK(againstGlpk)->Arg(kStraight)->Arg(kBowed)->Unit(benchmark::kMillisecond);

practice::Rule rule(double value) { return practice::Figure{value, "mm", "", "", "", {}, ""}; }

void packOpening(benchmark::State& state) {
  const std::vector<double> stock{1, 1.5, 2, 3, 5, 6, 8, 10};
  practice::Packing rules;
  rules.spacing_sill = rules.spacing_jamb = rule(450);
  rules.from_corner = rule(150);
  rules.most_stack = rule(20);
  rules.most_pieces = rule(3);
  const PackerTable table = packerTable(stock, rules);
  const std::vector<Ready> ready = readyOf(problemsOf(kBowed));
  std::vector<Stand> stands;
  std::vector<UnitSpec> units;
  for (const Ready& one : ready) {
    stands.push_back(place(one.opening, {one.width, one.height}, one.rules));
    UnitSpec unit;
    unit.width = one.width;
    unit.height = one.height;
    units.push_back(unit);
  }
  std::size_t i = 0;
  for (auto _ : state) {
    const std::size_t k = i++ % ready.size();
    benchmark::DoNotOptimize(pack(ready[k].opening, units[k], stands[k], rules, table));
  }
}
BENCHMARK(packOpening);

void makePackerTable(benchmark::State& state) {
  const std::vector<double> stock{1, 1.5, 2, 3, 5, 6, 8, 10};
  for (auto _ : state) benchmark::DoNotOptimize(PackerTable(stock, 3, 20));
}
BENCHMARK(makePackerTable);

}  // namespace
