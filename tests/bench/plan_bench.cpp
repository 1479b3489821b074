// Planning and judging a job of many openings: microseconds an opening, by one thread (the target is 40) and by all
// cores. The reference beside it is reading the same job from its text.

#include <benchmark/benchmark.h>

#include "bench/many.h"
#include "bench/times_as_fast.h"
#include "check/judge.h"
#include "job/rewrite.h"
#include "plan/plan.h"
#include "practice/read.h"
#include "support/assets.h"

using namespace sillwright;

namespace {

constexpr std::size_t kOpenings = 1000;

const job::Job& job1000() {
  static const job::Job made = bench::manyOpenings(kOpenings);
  return made;
}

const practice::Practice& au() {
  static const practice::Practice read = *practice::load("au", tests::assets(), ".").value;
  return read;
}

void countOpenings(benchmark::State& state) {
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(kOpenings));
  state.counters["an_opening"] = benchmark::Counter(
      static_cast<double>(kOpenings), benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

/// 0: all cores.
void planAndJudge(benchmark::State& state) {
  const base::Threads threads{static_cast<unsigned>(state.range(0))};
  for (auto _ : state) {
    const plan::Plan plan = plan::makePlan(job1000(), au(), threads);
    benchmark::DoNotOptimize(check::judge(job1000(), au(), plan, threads));
  }
  countOpenings(state);
}
BENCHMARK(planAndJudge)->Arg(1)->Arg(0)->Unit(benchmark::kMillisecond)->UseRealTime();

void planOnly(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(plan::makePlan(job1000(), au(), {1}));
  countOpenings(state);
}
BENCHMARK(planOnly)->Unit(benchmark::kMillisecond);

/// One opening of a gable by itself: under its peak, five corners; or with a level head as high, four.
job::Job oneOfGable(bool peaked) {
  job::Job job = *testing::readJob(tests::assets() + "/jobs/gable-loft.toml").value;
  job.openings = {job.openings[1]};
  if (peaked) return job;
  job::Opening& opening = job.openings[0];
  opening.head.reset();
  opening.unit.head.reset();
  opening.sill -= 700;  // room for a lintel over its upper corners
  opening.measured->between = {};
  opening.measured->heights = {opening.height + 1, {}, opening.height};
  opening.measured->diagonals = {2251, 2250};
  return job;
}

void planOneOpening(benchmark::State& state, bool peaked) {
  const job::Job job = oneOfGable(peaked);
  for (auto _ : state) benchmark::DoNotOptimize(plan::makePlan(job, au(), {1}));
}
BENCHMARK_CAPTURE(planOneOpening, five_corners, true);
BENCHMARK_CAPTURE(planOneOpening, four_corners, false);

void readFromText(benchmark::State& state) {
  const std::string text = job::write(job1000());
  for (auto _ : state) benchmark::DoNotOptimize(job::read(text, "many.toml"));
  countOpenings(state);
}
BENCHMARK(readFromText)->Unit(benchmark::kMillisecond);

}  // namespace

int main(int argc, char** argv) {
  return bench::run(
      argc, argv,
      {{"planAndJudge/1/real_time", "readFromText"}, {"planOneOpening/five_corners", "planOneOpening/four_corners"}});
}
