// Keeping the water out: pieces, laps, skin and tracing, microseconds an opening of the demo jobs. Wanted: 20 at most.
#include <benchmark/benchmark.h>

#include <string>
#include <vector>

#include "plan/plan.h"
#include "practice/read.h"
#include "support/assets.h"
#include "support/read_job.h"

using namespace sillwright;

namespace {

struct Demo {
  job::Job job;
  practice::Practice practice;
  plan::Plan plan;
  std::size_t opening = 0;
};

/// An opening of a demo job by name.
Demo demo(const std::string& file, const std::string& name) {
  Demo made;
  made.job = *testing::readJob(tests::assets() + "/jobs/" + file).value;
  made.practice = *practice::load(made.job.practice, tests::assets(), tests::assets()).value;
  made.plan = plan::makePlan(made.job, made.practice);
  for (std::size_t i = 0; i < made.job.openings.size(); ++i) {
    if (made.job.openings[i].name == name) made.opening = i;
  }
  return made;
}

plan::Weather weatherOf(const Demo& made) {
  const auto& planned = made.plan.openings[made.opening];
  return plan::weatherproof(made.job, made.opening, made.plan.walls[planned.wall].spec, planned.unit, planned.stand,
                            made.practice);
}

void weatherproofAndTrace(benchmark::State& state, const char* file, const char* name) {
  const Demo made = demo(file, name);
  for (auto _ : state) {
    const plan::Weather weather = weatherOf(made);
    benchmark::DoNotOptimize(plan::traceWater(weather.skin));
  }
}
BENCHMARK_CAPTURE(weatherproofAndTrace, gable, "boatshed.toml", "H1");
BENCHMARK_CAPTURE(weatherproofAndTrace, under_eave, "boatshed.toml", "J2");
BENCHMARK_CAPTURE(weatherproofAndTrace, door, "boatshed.toml", "J1");
BENCHMARK_CAPTURE(weatherproofAndTrace, raking_on_cavity, "raking-studio.toml", "G1");
BENCHMARK_CAPTURE(weatherproofAndTrace, under_peak, "gable-loft.toml", "P1");

void traceAlone(benchmark::State& state) {
  const Demo made = demo("boatshed.toml", "H1");
  const plan::Skin& skin = made.plan.openings[made.opening].weather.skin;
  for (auto _ : state) benchmark::DoNotOptimize(plan::traceWater(skin));
}
BENCHMARK(traceAlone);

}  // namespace
