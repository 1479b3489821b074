// How long a wall's frame takes, by opening: walls of 1 to 1000 windows, and a gable.
#include <benchmark/benchmark.h>

#include "plan/frame/frame.h"

using namespace sillwright;

namespace {

practice::Figure figure(double value) {
  practice::Figure made;
  made.value = value;
  return made;
}

practice::Framing rules() {
  practice::Framing made;
  made.nogging_spacing = figure(1350);
  made.nogging_stagger = figure(2);
  made.side_studs = {{1800, figure(1), figure(1)}, {3600, figure(2), figure(1)}};
  return made;
}

plan::WallSpec wallFor(std::int64_t openings, bool gable) {
  plan::WallSpec wall;
  wall.length = 600 + 2400.0 * static_cast<double>(openings);
  wall.top = {{0, 2700}, {wall.length, 2700}};
  if (gable) wall.top = {{0, 2700}, {wall.length / 2, 2700 + wall.length / 4}, {wall.length, 2700}};
  wall.stud = {.depth = 90, .thickness = 45};
  wall.spacing = 450;
  wall.plates = {.top = 2, .bottom = 1};
  return wall;
}

void frame(benchmark::State& state, bool gable) {
  const plan::WallSpec wall = wallFor(state.range(0), gable);
  const practice::Framing framing = rules();
  std::vector<plan::FramedOpening> openings;
  for (std::int32_t i = 0; i < state.range(0); ++i) {
    openings.push_back({i, 600 + 2400.0 * i, 900, 1500, 1100, job::Lintel{140, 45, 2}});
  }
  for (auto _ : state) benchmark::DoNotOptimize(plan::frameWall(wall, openings, framing));
  state.SetItemsProcessed(state.iterations() * state.range(0));
  state.counters["per_opening"] = benchmark::Counter(
      static_cast<double>(state.range(0)), benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

}  // namespace

BENCHMARK_CAPTURE(frame, level, false)->Arg(1)->Arg(4)->Arg(20)->Arg(1000);
BENCHMARK_CAPTURE(frame, gable, true)->Arg(1)->Arg(4);
