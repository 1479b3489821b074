// What follows a drag in a house of 30 openings: a new plan, the findings and the scene, without drawing. The target is
// 1 ms. The reference beside it is reading the same job from its text, which a drag need not do.

#include <benchmark/benchmark.h>

#include "check/judge.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "plan/plan.h"
#include "practice/read.h"
#include "view/dimension.h"
#include "view/document.h"

using namespace sillwright;

namespace {

constexpr int kWalls = 5;
constexpr int kAcross = 6;

/// The workshop's wall and measured window, five times six.
view::Document house() {
  view::Document made =
      *view::load(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml", SILLWRIGHT_ASSETS_DIR).value;
  const job::Wall wall = made.job.walls[0];
  const job::Opening opening = made.job.openings[0];
  made.job.walls.clear();
  made.job.openings.clear();
  for (int w = 0; w < kWalls; ++w) {
    job::Wall one = wall;
    one.name = "w" + std::to_string(w);
    one.length = kAcross * 2400.0 + 600;
    one.top.front().x = 0;
    one.top.back().x = one.length;
    one.at_y = w * 6000.0;
    made.job.walls.push_back(one);
    for (int i = 0; i < kAcross; ++i) {
      job::Opening each = opening;
      each.name = "o" + std::to_string(w * kAcross + i);
      each.wall = static_cast<std::size_t>(w);
      each.left = 500.0 + i * 2400.0;
      made.job.openings.push_back(each);
    }
  }
  view::rebuild(made);
  return made;
}

void dragAStep(benchmark::State& state) {
  view::Document document = house();
  double by = 0;
  for (auto _ : state) {
    by = by > 20 ? 0 : by + 1;
    view::setValue(document.job, {view::DimensionKind::Left, 7}, 2900 + by);
    view::rebuild(document);
    benchmark::DoNotOptimize(document.scene.solids.data());
  }
}
BENCHMARK(dragAStep)->Unit(benchmark::kMicrosecond);

void planOnly(benchmark::State& state) {
  const view::Document document = house();
  for (auto _ : state) benchmark::DoNotOptimize(plan::makePlan(document.job, *document.practice));
}
BENCHMARK(planOnly)->Unit(benchmark::kMicrosecond);

void judgeOnly(benchmark::State& state) {
  const view::Document document = house();
  for (auto _ : state) benchmark::DoNotOptimize(check::judge(document.job, *document.practice, document.plan));
}
BENCHMARK(judgeOnly)->Unit(benchmark::kMicrosecond);

void readFromText(benchmark::State& state) {
  const view::Document document = house();
  const std::string text = job::write(document.job);
  for (auto _ : state) benchmark::DoNotOptimize(job::read(text, "house.toml"));
}
BENCHMARK(readFromText)->Unit(benchmark::kMicrosecond);

}  // namespace
