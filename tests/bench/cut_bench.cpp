// What a cut costs: working out its section anew (a drag of the plane does, every frame), and a frame of 1280 × 800
// with and without it, in software where there is no card.

#include <benchmark/benchmark.h>
#include <epoxy/gl.h>

#include "document/document.h"
#include "render/offscreen.h"
#include "render/renderer.h"
#include "scene/section/section.h"
#include "support/assets.h"
#include "view/values/camera_control.h"

using namespace sillwright;

namespace {

constexpr int kWidth = 1280;
constexpr int kHeight = 800;

const document::Document& house() {
  static const document::Document made =
      *document::load(tests::assets() + "/jobs/boatshed.toml", tests::assets()).value;
  return made;
}

view::Cutting level(double at) {
  view::Cutting cutting;
  cutting.axis = view::CutAxis::Z;
  cutting.at = at;
  return cutting;
}

void section(benchmark::State& state) {
  const scene::Scene& scene = house().scene;
  double at = 1500;
  std::size_t faces = 0;
  for (auto _ : state) {
    at = at > 1600 ? 1500 : at + 1;
    const auto made = scene::sectionOf(scene, *view::planeOf(scene, level(at)), {});
    faces = made.size();
    benchmark::DoNotOptimize(made.data());
  }
  state.counters["solids"] = static_cast<double>(scene.solids.size());
  state.counters["faces"] = static_cast<double>(faces);
}
BENCHMARK(section)->Unit(benchmark::kMicrosecond);

/// 0: no cut; 1: a cut at rest; 2: a cut that moves.
void frame(benchmark::State& state) {
  const render::Offscreen context;
  render::Renderer renderer;
  render::Target target(kWidth, kHeight, 4);
  const scene::Scene& scene = house().scene;
  renderer.upload(scene);
  const view::Canvas canvas{.width = kWidth, .height = kHeight};
  const render::Camera camera = view::standAt(scene, view::StandingView::House, {}, canvas);
  render::Look look;
  double at = 1500;
  int calls = 0;
  for (auto _ : state) {
    if (state.range(0) == 2) at = at > 1600 ? 1500 : at + 1;
    if (state.range(0) > 0) look.cut = view::planeOf(scene, level(at));
    target.begin();
    renderer.cut(scene, look);
    calls = renderer.draw(camera, look, kWidth, kHeight).draw_calls;
    glFinish();
  }
  state.counters["draw calls"] = calls;
}
BENCHMARK(frame)->Arg(0)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
