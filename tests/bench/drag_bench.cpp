// What follows a step of a drag: a new plan, the findings and the scene, without drawing. The target is 1 ms in a house
// of 30 openings and 2 ms among 1,000. The reference beside it is the same with nothing kept of the step before.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <vector>

#include "bench/many.h"
#include "bench/programs.h"
#include "bench/times_as_fast.h"
#include "check/judge.h"
#include "document/document.h"
#include "plan/plan.h"
#include "support/assets.h"
#include "view/values/dimension.h"

using namespace sillwright;

namespace {

/// Houses of walls of ten openings each.
document::Document house(std::int64_t openings) {
  document::Document made = *document::load(tests::assets() + "/jobs/workshop-window.toml", tests::assets()).value;
  made.job = bench::manyOpenings(made.job, static_cast<std::size_t>(openings));
  document::rebuild(made);
  return made;
}

/// An opening in the middle of the house, a millimetre to and fro; the parts of its wall become more and less with it.
void dragAStep(benchmark::State& state) {
  document::Document document = house(state.range(0));
  const std::size_t opening = document.job.openings.size() / 2 + 3;
  const double left = document.job.openings[opening].left;
  double by = 0;
  std::vector<double> microseconds;
  for (auto _ : state) {
    const double start = bench::secondsNow();
    by = by >= 200 ? 0 : by + 1;
    view::setValue(document.job, {view::DimensionKind::Left, opening}, left + by);
    document::rebuild(document);
    benchmark::DoNotOptimize(document.scene.solids.data());
    microseconds.push_back(1e6 * (bench::secondsNow() - start));
  }
  state.counters["median_us"] = bench::median(microseconds);
  std::sort(microseconds.begin(), microseconds.end());
  state.counters["one_in_100_us"] = microseconds[microseconds.size() * 99 / 100];
  state.counters["solids"] = static_cast<double>(document.scene.solids.size());
}
BENCHMARK(dragAStep)->Arg(30)->Arg(1000)->Unit(benchmark::kMicrosecond);

/// The same step with nothing kept.
void allAnew(benchmark::State& state) {
  document::Document document = house(state.range(0));
  for (auto _ : state) {
    document.planned.reset();
    document.blocks = {};
    document::rebuild(document);
    benchmark::DoNotOptimize(document.scene.solids.data());
  }
}
BENCHMARK(allAnew)->Arg(30)->Arg(1000)->Unit(benchmark::kMicrosecond);

void planOnly(benchmark::State& state) {
  const document::Document document = house(30);
  for (auto _ : state) benchmark::DoNotOptimize(plan::makePlan(document.job, *document.practice));
}
BENCHMARK(planOnly)->Unit(benchmark::kMicrosecond);

void judgeOnly(benchmark::State& state) {
  const document::Document document = house(30);
  for (auto _ : state) benchmark::DoNotOptimize(check::judge(document.job, *document.practice, document.plan));
}
BENCHMARK(judgeOnly)->Unit(benchmark::kMicrosecond);

}  // namespace

int main(int argc, char** argv) {
  return bench::run(argc, argv, {{"dragAStep/30", "allAnew/30"}, {"dragAStep/1000", "allAnew/1000"}});
}
