// What holds a unit: points, screws, demand and capacity of one opening. The target is 5 µs.

#include <benchmark/benchmark.h>

#include "plan/plan.h"
#include "practice/read.h"
#include "support/assets.h"
#include "support/read_job.h"

using namespace sillwright;

namespace {

struct Bench {
  job::Job job = *testing::readJob(tests::assets() + "/jobs/boatshed.toml").value;
  practice::Practice practice = *practice::load("au", tests::assets(), ".").value;
  plan::Plan plan = plan::makePlan(job, practice);
  plan::ScrewStock stock = plan::screwsAtHand(job, practice);
};

const Bench& bench() {
  static const Bench made;
  return made;
}

/// One pass is every opening of the job.
void fixOpenings(benchmark::State& state) {
  const Bench& b = bench();
  for (auto _ : state) {
    for (std::size_t i = 0; i < b.plan.openings.size(); ++i) {
      const plan::OpeningPlan& o = b.plan.openings[i];
      const auto timber = plan::fixingTimber(b.job.walls[o.wall], b.plan.walls[o.wall].spec, b.job.openings[i].width,
                                             o.lintel, b.practice);
      benchmark::DoNotOptimize(
          plan::fix(o.unit, o.stand, o.packing, o.wind, o.mass.total_kg, timber, b.stock, b.practice));
    }
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(b.plan.openings.size()));
}
BENCHMARK(fixOpenings);

void weighOpenings(benchmark::State& state) {
  const Bench& b = bench();
  for (auto _ : state) {
    for (const plan::OpeningPlan& o : b.plan.openings) {
      benchmark::DoNotOptimize(plan::massOf(o.unit, std::nullopt, b.practice));
    }
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(b.plan.openings.size()));
}
BENCHMARK(weighOpenings);

}  // namespace
