// The cutting plane in pictures: what is gone, what is filled, and that parts in one another don't flicker.

#include <algorithm>
#include <cmath>

#include "bench.h"
#include "render/palette.h"
#include "render/renderer.h"
#include "sample.h"
#include "support/catch.h"
#include "support/contrast.h"
#include "support/pictures.h"

using namespace sillwright;
using render::Camera;
using render::Image;
using render::Look;
using sample::Bench;
using sample::kHeight;
using sample::kWidth;
using scene::Layer;
using scene::Material;
using scene::Scene;

namespace {

glm::vec3 pixelAt(const Image& image, const Camera& camera, glm::vec3 world) {
  const glm::vec3 seen = render::project(camera, world, kWidth, kHeight);
  const auto at = (static_cast<std::size_t>(seen.y) * kWidth + static_cast<std::size_t>(seen.x)) * 3;
  return {image.rgb.at(at), image.rgb.at(at + 1), image.rgb.at(at + 2)};
}

Camera looking(float yaw, float pitch, float distance = 2600.0F) {
  Camera c;
  c.yaw_degrees = yaw;
  c.pitch_degrees = pitch;
  c.distance = distance;
  return c;
}

Look plain() {
  Look look;
  look.shadow = false;
  return look;
}

Look cutBy(glm::vec3 normal, float at) {
  Look look = plain();
  look.cut = scene::Cut{normal, at};
  return look;
}

const glm::vec3 kPaper{0xF4, 0xF0, 0xE6};

}  // namespace

TEST_CASE("one side is gone and the cut is filled: the other side is as it was") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::FlexibleFlashing, Layer::Frame, {-400, -400, -400}, {400, 400, 400});
  const Camera c = looking(0, 0);
  const Image whole = bench.draw(s, c, plain());
  const int calls = bench.counts.draw_calls;
  const Image cut = bench.draw(s, c, cutBy({0, -1, 0}, -100));  // before y = 100 is taken away
  CHECK(bench.counts.draw_calls == calls + 1);
  // The face that fills it stands further off, so the silhouette is smaller: its edge is seen where it must be.
  CHECK(pixelAt(cut, c, {0, 100, 0}).r < 60.0F);
  CHECK(pixelAt(cut, c, {385, 100, 0}).r < 60.0F);
  CHECK(pixelAt(whole, c, {395, -400, 0}) != kPaper);
  CHECK(pixelAt(cut, c, {395, -400, 0}) == kPaper);
  // From behind nothing has changed, and nothing is drawn for the cut.
  const Camera behind = looking(180, 0);
  CHECK(testing::differingShare(bench.draw(s, behind, plain()), bench.draw(s, behind, cutBy({0, -1, 0}, -100)), 0) ==
        0.0);
  CHECK(bench.counts.draw_calls == calls);
  // Without a cut everything is back.
  CHECK(testing::differingShare(whole, bench.draw(s, c, plain()), 0) == 0.0);
  // The side that goes can be the other one.
  const Image turned = bench.draw(s, c, cutBy({0, 1, 0}, 100));
  CHECK(testing::differingShare(whole, turned, 0) == 0.0);
}

TEST_CASE("a cut that takes everything leaves the ground") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::Pine, Layer::Frame, {-400, -400, -400}, {400, 400, 400});
  const Image image = bench.draw(s, looking(0, 0), cutBy({0, -1, 0}, -900));
  CHECK(pixelAt(image, looking(0, 0), {0, 0, 0}) == kPaper);
  CHECK(bench.counts.draw_calls == 0);
}

TEST_CASE("parts in one another: the one with the place is shown whole, from wherever the plane stands") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::Lining, Layer::Lining, {-400, -400, -400}, {400, 400, 400});
  sample::addBox(s, Material::FlexibleFlashing, Layer::Flashing, {-150, -400, -150}, {150, 400, 150});
  for (const float at : {-399.0F, -123.4F, 0.0F, 7.77F, 300.0F}) {
    const Camera c = looking(12, 9);
    const Image image = bench.draw(s, c, cutBy({0, -1, 0}, -at));
    for (const float x : {-140.0F, -60.0F, 0.0F, 75.0F, 140.0F}) {
      for (const float z : {-140.0F, -20.0F, 90.0F, 140.0F}) CHECK(pixelAt(image, c, {x, at, z}).r < 110.0F);
    }
    CHECK(pixelAt(image, c, {-300, at, 200}).r > 130.0F);
    CHECK(testing::differingShare(image, bench.draw(s, c, cutBy({0, -1, 0}, -at)), 0) == 0.0);
  }
}

TEST_CASE("cut glass is filled, and what stands behind it isn't seen through the cut") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::Glass, Layer::Unit, {-300, -300, -300}, {300, 300, 300});
  sample::addBox(s, Material::FlexibleFlashing, Layer::Frame, {-300, 500, -300}, {300, 520, 300});
  const Camera c = looking(0, 0);
  const glm::vec3 through = pixelAt(bench.draw(s, c, plain()), c, {10, 0, 10});
  const glm::vec3 filled = pixelAt(bench.draw(s, c, cutBy({0, -1, 0}, 0)), c, {10, 0, 10});
  CHECK(filled.g > 110.0F);
  CHECK(filled.g > filled.r);
  CHECK(filled.g > through.g + 20.0F);
}

TEST_CASE("a cut profile of metal is hollow, sheet metal is solid") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::Aluminium, Layer::Unit, {-30, -500, -20}, {30, 500, 20});
  sample::addBox(s, Material::Aluminium, Layer::Unit, {-30, -500, 60}, {30, 500, 63});
  const Camera c = looking(0, 0, 260);
  const Image image = bench.draw(s, c, cutBy({0, -1, 0}, 0));
  CHECK(pixelAt(image, c, {0, 0, 0}).r > 200.0F);
  CHECK(pixelAt(image, c, {-28.8F, 0, 0}).r < 150.0F);
  CHECK(pixelAt(image, c, {0, 0, 18.8F}).r < 150.0F);
  CHECK(pixelAt(image, c, {0, 0, 61.5F}).r < 150.0F);
}

TEST_CASE("a sheet of a millimetre is seen in the section of a whole wall") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::Lining, Layer::Frame, {-2000, -2000, -1000}, {2000, 0, 1000});
  sample::addBox(s, Material::FlexibleFlashing, Layer::Flashing, {-2000, 0, -1000}, {2000, 1, 1000});
  sample::addBox(s, Material::Lining, Layer::Frame, {-2000, 1, -1000}, {2000, 2000, 1000});
  Camera c = looking(0, 89, 6000);  // a pixel is some twenty millimetres
  c.target = {0, 0, 500};
  const Image image = bench.draw(s, c, cutBy({0, 0, 1}, 500));
  for (const float x : {-1500.0F, -333.0F, 700.0F, 1700.0F}) {
    const float line = std::min(
        {pixelAt(image, c, {x, 0.5F, 500}).r, pixelAt(image, c, {x, -15, 500}).r, pixelAt(image, c, {x, 16, 500}).r});
    CHECK(line < pixelAt(image, c, {x, 800, 500}).r - 60.0F);
  }
}

TEST_CASE("the number of draw calls with a cut doesn't grow with the scene, and all shown parts are cut") {
  Bench bench;
  const auto boxes = [](int count) {
    Scene s;
    for (int i = 0; i < count; ++i) {
      const glm::vec3 p{static_cast<float>(i % 40) * 60.0F - 1200.0F, 0.0F,
                        static_cast<float>(i / 40) * 60.0F - 700.0F};
      sample::addBox(s, i % 2 == 0 ? Material::Pine : Material::Glass, Layer::Frame, p, p + 40.0F);
    }
    return s;
  };
  bench.draw(boxes(10), looking(0, 10, 5000), cutBy({0, -1, 0}, -20));
  const int few = bench.counts.draw_calls;
  bench.draw(boxes(1000), looking(0, 10, 5000), cutBy({0, -1, 0}, -20));
  CHECK(bench.counts.draw_calls == few);
  CHECK(few == 3);  // opaque, cut, glass
}

TEST_CASE("the faces follow the plane, the layers, the steps and a new scene: asked without, no old ones are shown") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::FlexibleFlashing, Layer::Lining, {-400, -400, -400}, {400, 400, 400});
  const Camera c = looking(0, 0);
  Look look = cutBy({0, -1, 0}, -100);
  CHECK(pixelAt(bench.draw(s, c, look), c, {0, 100, 0}).r < 60.0F);
  look.hidden_layers = 1U << static_cast<unsigned>(Layer::Lining);
  CHECK(pixelAt(bench.draw(s, c, look), c, {0, 100, 0}) == kPaper);
  look.hidden_layers = 0;
  bench.renderer.upload(s);  // without cut(): the old faces may be another scene's
  render::Target target(kWidth, kHeight, 1);
  target.begin();
  CHECK(bench.renderer.draw(c, look, kWidth, kHeight).draw_calls == 1);
}

TEST_CASE("section patterns stand out from their ground, and lines from both, by day and by night") {
  // WCAG 2.1's contrast is made for text; 1.6 is our own least for a hatch that is not to shout, 3 (its least for
  // marks that carry a meaning) for the line round a cut.
  for (const bool dark : {false, true}) {
    const render::Palette p = render::palette(dark);
    for (std::size_t m = 0; m < scene::kMaterials; ++m) {
      for (const render::Finish* finish : {&p.paint[m].cut, &p.paint[m].cut_across}) {
        CAPTURE(dark, m);
        const bool hatched = finish->pattern != render::Pattern::Mottle;
        if (hatched) CHECK(testing::contrast(finish->colour, finish->streak) >= 1.6);
        // On dark parts the line is a white pencil's (dress.glsl): lighter by 0.30.
        const glm::vec3 shown = p.paint[m].cut.colour;
        const glm::vec3 line = shown.g < 0.3F ? shown + 0.30F : p.ink;
        // Sheets are all but lines themselves: what lies beside them tells them (below).
        const bool sheet =
            m == static_cast<std::size_t>(Material::Membrane) || m == static_cast<std::size_t>(Material::FoldedMetal);
        CHECK(testing::contrast(shown, line) >= (testing::luminance(shown) > 0.1 && !sheet ? 3.0 : 1.8));
      }
    }
    using enum Material;
    const auto cut = [&](Material material) { return p.paint[static_cast<std::size_t>(material)].cut.colour; };
    // What lies on one another in every wall can be told apart.
    for (const auto& [a, b] :
         {std::pair(Membrane, Pine), std::pair(Membrane, Cladding), std::pair(FlexibleFlashing, Membrane),
          std::pair(Packer, RevealTimber), std::pair(FoldedMetal, Cladding)}) {
      CHECK(testing::contrast(cut(a), cut(b)) >= 1.6);
    }
  }
}
