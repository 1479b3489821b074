/// One context and renderer for a test case of the renderer's.
#pragma once

#include "render/offscreen.h"
#include "render/renderer.h"

namespace sillwright::sample {

inline constexpr int kWidth = 320;
inline constexpr int kHeight = 200;

struct Bench {
  render::Offscreen context;
  render::Renderer renderer;
  render::DrawCounts counts;

  render::Image draw(const scene::Scene& scene, const render::Camera& camera, const render::Look& look = {},
                     int width = kWidth, int height = kHeight, int samples = 4) {
    renderer.upload(scene);
    renderer.cut(scene, look);
    render::Target target(width, height, samples);
    target.begin();
    counts = renderer.draw(camera, look, width, height);
    target.resolve();
    return {width, height, target.read()};
  }
};

}  // namespace sillwright::sample
