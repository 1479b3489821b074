#include "render/renderer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <stdexcept>
#include <string>

#include "bench.h"
#include "sample.h"
#include "support/catch.h"
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

glm::vec3 pixel(const Image& image, float x, float y) {
  const auto column = static_cast<std::size_t>(x);
  const auto row = static_cast<std::size_t>(y);
  const std::size_t at = (row * static_cast<std::size_t>(image.width) + column) * 3;
  return {image.rgb.at(at), image.rgb.at(at + 1), image.rgb.at(at + 2)};
}

glm::vec3 pixelAt(const Image& image, const Camera& camera, glm::vec3 world) {
  const glm::vec3 seen =
      render::project(camera, world, static_cast<float>(image.width), static_cast<float>(image.height));
  return pixel(image, seen.x, seen.y);
}

float luminance(glm::vec3 rgb) { return 0.299F * rgb.r + 0.587F * rgb.g + 0.114F * rgb.b; }  // ITU-R BT.601.

/// Darkest of the pixels within one of where a world point is seen.
float darkestNear(const Image& image, const Camera& camera, glm::vec3 world) {
  const glm::vec3 seen =
      render::project(camera, world, static_cast<float>(image.width), static_cast<float>(image.height));
  float least = 255.0F;
  for (const float dx : {-1.0F, 0.0F, 1.0F}) {
    for (const float dy : {-1.0F, 0.0F, 1.0F})
      least = std::min(least, luminance(pixel(image, seen.x + dx, seen.y + dy)));
  }
  return least;
}

Camera looking(float yaw, float pitch, float distance = 2600.0F) {
  Camera c;
  c.yaw_degrees = yaw;
  c.pitch_degrees = pitch;
  c.distance = distance;
  return c;
}

Scene cube(Material material, Layer layer = Layer::Frame) {
  Scene s;
  sample::addBox(s, material, layer, {-400, -400, -400}, {400, 400, 400});
  return s;
}

/// Pixels from where a point is seen to the nearest edge of `cube` that a camera at its left, front and above sees.
float pixelsToLines(const Camera& camera, glm::vec3 world) {
  const auto seen = [&](glm::vec3 p) { return glm::vec2(render::project(camera, p, kWidth, kHeight)); };
  const glm::vec2 at = seen(world);
  float least = 1e9F;
  for (const auto& edge : scene::kEdges) {
    if (edge[0] == 3 || edge[1] == 3) continue;  // Corner 3, at +x, +y, −z, is the hidden one.
    const auto corner = [](std::uint8_t i) {
      return glm::vec3((i & 1U) != 0 ? 400 : -400, (i & 2U) != 0 ? 400 : -400, (i & 4U) != 0 ? 400 : -400);
    };
    const glm::vec2 a = seen(corner(edge[0]));
    const glm::vec2 b = seen(corner(edge[1]));
    const float along = glm::clamp(glm::dot(at - a, b - a) / glm::dot(b - a, b - a), 0.0F, 1.0F);
    least = std::min(least, glm::length(at - a - (b - a) * along));
  }
  return least;
}

const glm::vec3 kPaper{0xF4, 0xF0, 0xE6};
const glm::vec3 kNight{0x20, 0x24, 0x2A};

}  // namespace

TEST_CASE("an empty scene is the ground's colour everywhere, by day and by night") {
  Bench bench;
  Look look;
  const Image day = bench.draw({}, looking(0, 0), look);
  look.dark = true;
  const Image night = bench.draw({}, looking(0, 0), look);
  for (const auto& at : {glm::vec2(0, 0), glm::vec2(kWidth - 1, kHeight - 1), glm::vec2(160, 100)}) {
    CHECK(pixel(day, at.x, at.y) == kPaper);
    CHECK(pixel(night, at.x, at.y) == kNight);
  }
  CHECK(bench.counts.draw_calls == 0);
}

TEST_CASE("a box shows its material's colour, each face with a light of its own, on the exact ground") {
  Bench bench;
  const Camera c = looking(-35, 25);
  const Image image = bench.draw(cube(Material::Lining), c);
  CHECK(pixel(image, 2, 2) == kPaper);
  const glm::vec3 left = pixelAt(image, c, {-400, 0, 0});
  const glm::vec3 front = pixelAt(image, c, {0, -400, 0});
  const glm::vec3 top = pixelAt(image, c, {0, 0, 400});
  // Lining #ECEAE4 or near: pale, and close to grey.
  for (const glm::vec3& face : {left, front, top}) {
    CHECK(luminance(face) > 150.0F);
    CHECK(std::abs(face.r - face.b) < 24.0F);
  }
  CHECK(std::abs(luminance(left) - luminance(front)) > 12.0F);
  CHECK(luminance(top) > luminance(front) + 12.0F);

  const Image pine = bench.draw(cube(Material::Pine), c);
  const glm::vec3 wood = pixelAt(pine, c, {0, -400, 0});
  CHECK(wood.r > wood.g + 10.0F);
  CHECK(wood.g > wood.b + 25.0F);
  CHECK(luminance(pixelAt(bench.draw(cube(Material::FlexibleFlashing), c), c, {0, -400, 0})) < 70.0F);
}

TEST_CASE("edges in view are inked along their length, hidden ones are not") {
  Bench bench;
  const Camera c = looking(-35, 25);
  const Image image = bench.draw(cube(Material::Lining), c);
  for (const float t : {-300.0F, -100.0F, 100.0F, 300.0F}) {
    CHECK(darkestNear(image, c, {-400, -400, t}) < 120.0F);  // Between two faces in view.
    CHECK(darkestNear(image, c, {t, -400, 400}) < 120.0F);
    CHECK(darkestNear(image, c, {400, -400, t}) < 120.0F);  // Outline.
  }
  // Points of the three hidden edges, where no line in view happens to cross them.
  int looked_at = 0;
  for (float t = -390.0F; t < 395.0F; t += 30.0F) {
    for (const glm::vec3& hidden : {glm::vec3(t, 400, -400), glm::vec3(400, t, -400), glm::vec3(400, 400, t)}) {
      if (pixelsToLines(c, hidden) < 4.0F) continue;
      CHECK(darkestNear(image, c, hidden) > 150.0F);
      ++looked_at;
    }
  }
  CHECK(looked_at > 40);
}

TEST_CASE("an edge left out of the mask isn't inked") {
  Bench bench;
  const Camera c = looking(-35, 25);
  Scene s = cube(Material::Lining);
  for (std::size_t e = 0; e < 12; ++e) {
    const auto& pair = scene::kEdges[e];
    if ((pair[0] == 0 && pair[1] == 4) || (pair[0] == 4 && pair[1] == 0)) {
      s.solids[0].edges = static_cast<std::uint16_t>(0x0fffU & ~(1U << e));
    }
  }
  const Image image = bench.draw(s, c);
  CHECK(darkestNear(image, c, {-400, -400, 0}) > 150.0F);
  CHECK(darkestNear(image, c, {0, -400, 400}) < 120.0F);
}

TEST_CASE("a sheet of one millimetre hides the edges behind it, from eight metres and at a glance") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::Pine, Layer::Frame, {-45, 0, -600}, {45, 90, 600});
  sample::addBox(s, Material::Lining, Layer::Membrane, {-1500, -1, -1000}, {1500, 0, 1000});
  for (const float yaw : {0.0F, 40.0F, 75.0F, -75.0F}) {
    const Camera c = looking(yaw, 8, 8000);
    const Image image = bench.draw(s, c, {}, 640, 400);
    for (float z = -550.0F; z < 560.0F; z += 50.0F) {
      CHECK(luminance(pixelAt(image, c, {-45, -1, z})) > 140.0F);
      CHECK(luminance(pixelAt(image, c, {45, -1, z})) > 140.0F);
    }
  }
}

TEST_CASE("glass lets pine through and changes it") {
  Bench bench;
  const Camera c = looking(0, 5);
  Scene s;
  sample::addBox(s, Material::Pine, Layer::Frame, {-900, 0, -700}, {900, 90, 700});
  const glm::vec3 bare = pixelAt(bench.draw(s, c), c, {210, 0, 110});
  sample::addBox(s, Material::Glass, Layer::Unit, {-400, -200, -400}, {400, -195, 400});
  const glm::vec3 through = pixelAt(bench.draw(s, c), c, {210, 0, 110});
  const glm::vec3 alone = pixelAt(bench.draw(cube(Material::Glass), c), c, {100, -400, 100});
  CHECK(through.b > bare.b + 8.0F);     // Paler and bluer than the wood,
  CHECK(through.r > through.b + 8.0F);  // and still wood.
  CHECK(alone.g >= alone.r);
  CHECK(glm::length(through - alone) > 15.0F);
}

TEST_CASE("panes one behind the other darken in turn whatever their order in the scene") {
  Bench bench;
  const Camera c = looking(0, 0);
  const auto panes = [](bool near_first) {
    Scene s;
    for (int i = 0; i < 3; ++i) {
      const float y = static_cast<float>(near_first ? i : 2 - i) * 300.0F;
      sample::addBox(s, Material::Glass, Layer::Unit, {-400, y, -400}, {400, y + 5, 400});
    }
    return s;
  };
  // The parts' own patterns differ with their number; an outline inside tells whether one was dropped.
  const Image a = bench.draw(panes(true), c);
  const Image b = bench.draw(panes(false), c);
  CHECK(testing::differingShare(a, b, 24) < 0.01);
  CHECK(pixelAt(a, c, {0, 0, 0}) != kPaper);
}

TEST_CASE("hiding a layer, stepping back and pulling apart change the picture") {
  Bench bench;
  const Scene s = sample::framedWall();
  Camera c = looking(30, 20);
  render::framePoints(c, s.bounds.corners(), 1.6F);
  const Image all = bench.draw(s, c);
  const std::size_t solids = bench.counts.solids;

  Look hidden;
  hidden.hidden_layers = 1U << static_cast<unsigned int>(Layer::Membrane);
  const Image bare = bench.draw(s, c, hidden);
  CHECK(testing::differingShare(all, bare, 24) > 0.05);
  CHECK(bench.counts.solids < solids);

  Look early;
  early.hidden_steps = ~1U;
  CHECK(testing::differingShare(all, bench.draw(s, c, early), 24) > 0.1);
  early.hidden_steps = 1U << 31U;  // no part is of it
  CHECK(testing::differingShare(all, bench.draw(s, c, early), 0) == 0.0);

  Look apart;
  apart.spread = 200.0F;
  CHECK(testing::differingShare(all, bench.draw(s, c, apart), 24) > 0.1);
}

TEST_CASE("spread moves a layer out along its own wall's normal") {
  Bench bench;
  Scene s;
  scene::WallFrame wall;  // Turned: its outside looks along +X.
  wall.along = {0, 1, 0};
  wall.inward = {-1, 0, 0};
  wall.depth = 90.0F;
  s.walls.push_back(wall);
  sample::addBox(s, Material::Lining, Layer::Membrane, {-50, -50, -50}, {50, 50, 50}, 0);
  const Camera c = looking(0, 0);
  Look look;
  look.shadow = false;
  look.spread = 150.0F;
  const Image image = bench.draw(s, c, look);
  const float out = -render::spreadOffset(Layer::Membrane, look.spread);
  REQUIRE(out > 0.0F);
  CHECK(pixelAt(image, c, {0, 0, 0}) == kPaper);
  CHECK(pixelAt(image, c, {out, -50, 0}) != kPaper);
  CHECK(pixelAt(image, c, {-out, -50, 0}) == kPaper);
}

TEST_CASE("what is picked, hovered or lit can be told") {
  Bench bench;
  const Camera c = looking(-35, 25);
  Scene s = cube(Material::Pine);
  s.parts[0].opening = 0;
  s.parts[0].step = scene::PartStep{3};
  const Image plain = bench.draw(s, c);
  const glm::vec3 wood = pixelAt(plain, c, {0, -400, 0});
  Look look;
  look.picked_part = 0;
  const Image picked = bench.draw(s, c, look);
  CHECK(pixelAt(picked, c, {0, -400, 0}).b > wood.b);
  const glm::vec3 outline = pixelAt(picked, c, {-400, -400, 0});
  CHECK(outline.b > outline.r + 40.0F);
  look = {};
  look.hovered_part = 0;
  CHECK(luminance(pixelAt(bench.draw(s, c, look), c, {0, -400, 0})) > luminance(wood) + 5.0F);
  look = {};
  look.lit_step = scene::PartStep{3};
  CHECK(luminance(pixelAt(bench.draw(s, c, look), c, {0, -400, 0})) > luminance(wood) + 2.0F);
}

TEST_CASE("the number of draw calls doesn't grow with the scene") {
  Bench bench;
  const auto boxes = [](int count) {
    Scene s;
    for (int i = 0; i < count; ++i) {
      const glm::vec3 p{static_cast<float>(i % 40) * 60.0F - 1200.0F, 0.0F,
                        static_cast<float>(i / 40) * 60.0F - 700.0F};
      sample::addBox(s, i % 2 == 0 ? Material::Pine : Material::Glass, Layer::Frame, p, p + 40.0F);
    }
    scene::Mesh mesh;
    mesh.corner = {{0, 0, 0}, {20, 0, 0}, {0, 0, 20}};
    s.meshes.push_back(mesh);
    for (int i = 0; i < count; ++i) s.uses.push_back({0, static_cast<std::uint32_t>(i / 2 * 2), glm::mat4(1.0F)});
    return s;
  };
  Look look;
  look.shadow = false;
  bench.draw(boxes(10), looking(0, 10, 5000), look);
  const render::DrawCounts few = bench.counts;
  bench.draw(boxes(1000), looking(0, 10, 5000), look);
  CHECK(few.draw_calls == bench.counts.draw_calls);
  CHECK(few.draw_calls == 3);
  CHECK(few.solids == 20);
  CHECK(bench.counts.solids == 2000);
}

TEST_CASE("a hexahedron with slanted faces is filled inside its slopes and not outside") {
  Bench bench;
  Scene s;
  const std::uint32_t part = sample::addPart(s, Material::Pine, Layer::Frame);
  scene::Solid solid = sample::boxSolid({-500, -50, -400}, {500, 50, 400}, 0, part);
  solid.corner[4].x = solid.corner[6].x = 100.0F;  // A raking end: the upper left corner cut back to x = 100.
  s.solids.push_back(solid);
  const Camera c = looking(0, 0);
  const Image image = bench.draw(s, c);
  CHECK(pixelAt(image, c, {-430, -50, -370}) != kPaper);
  CHECK(pixelAt(image, c, {300, -50, 350}) != kPaper);
  CHECK(pixelAt(image, c, {-300, -50, 300}) == kPaper);
  CHECK(pixelAt(image, c, {-150, -50, 150}) == kPaper);  // The slope passes x = −200 at z = 0.
  CHECK(pixelAt(image, c, {-50, -50, -50}) != kPaper);
}

TEST_CASE("a solid drawn out to a wedge has no blot where its corners meet") {
  Bench bench;
  Scene s;
  const std::uint32_t part = sample::addPart(s, Material::Lining, Layer::Frame);
  scene::Solid solid = sample::boxSolid({-500, -50, -400}, {500, 50, 400}, 0, part);
  for (const std::size_t i : {std::size_t{5}, std::size_t{7}}) solid.corner[i] = solid.corner[i - 1];
  s.solids.push_back(solid);
  const Camera c = looking(0, 0);
  const Image image = bench.draw(s, c);
  CHECK(luminance(pixelAt(image, c, {-200, -50, -100})) > 150.0F);
  CHECK(pixelAt(image, c, {400, -50, 300}) == kPaper);
}

TEST_CASE("a mesh is drawn where it is placed, with its lines inked") {
  Bench bench;
  Scene s;
  const std::uint32_t part = sample::addPart(s, Material::Lining, Layer::Unit);
  scene::Mesh mesh;  // A square in the plane y = 0 of two triangles; its diagonal isn't a line.
  mesh.corner = {{0, 0, 0}, {1, 0, 0}, {1, 0, 1}, {0, 0, 0}, {1, 0, 1}, {0, 0, 1}};
  mesh.line = {{0, 0, 0}, {1, 0, 0}, {1, 0, 0}, {1, 0, 1}, {1, 0, 1}, {0, 0, 1}, {0, 0, 1}, {0, 0, 0}};
  s.meshes.push_back(mesh);
  glm::mat4 place(600.0F);
  place[3] = {-300, 0, -300, 1};
  s.uses.push_back({0, part, place});
  const Camera c = looking(0, 0);
  const Image image = bench.draw(s, c);
  CHECK(luminance(pixelAt(image, c, {-100, 0, 50})) > 150.0F);
  CHECK(pixelAt(image, c, {-100, 0, 50}) != kPaper);
  CHECK(pixelAt(image, c, {350, 0, 0}) == kPaper);
  CHECK(darkestNear(image, c, {300, 0, 100}) < 170.0F);
  CHECK(darkestNear(image, c, {0, 0, 0}) > 150.0F);

  const Image behind = bench.draw(s, looking(180, 0));  // Its other side is no blot.
  CHECK(luminance(pixelAt(behind, looking(180, 0), {-100, 0, 50})) > 130.0F);
  CHECK(darkestNear(behind, looking(180, 0), {300, 0, 100}) < 170.0F);
}

TEST_CASE("the same scene gives the same picture twice, in one context and in two") {
  const Scene s = sample::framedWall();
  Camera c = looking(30, 20);
  render::framePoints(c, s.bounds.corners(), 1.6F);
  Image first;
  {
    Bench bench;
    first = bench.draw(s, c);
    CHECK(testing::differingShare(first, bench.draw(s, c), 0) == 0.0);
  }
  Bench other;
  CHECK(testing::differingShare(first, other.draw(s, c), 0) == 0.0);
}

TEST_CASE("a wall casts a soft shadow on the floor, strongest at its foot, and no band or dots") {
  Bench bench;
  Scene s;
  scene::WallFrame wall;
  wall.length = 2000.0F;
  wall.depth = 90.0F;
  s.walls.push_back(wall);
  sample::addBox(s, Material::Pine, Layer::Frame, {0, 0, 0}, {2000, 90, 45}, 0);
  sample::addBox(s, Material::Floor, Layer::Ground, {-1500, -1800, -100}, {3500, 1800, 0});
  Camera c = looking(0, 35, 4000);
  c.target = {1000, 0, 0};
  Look look;
  look.shadow = false;
  const Image without = bench.draw(s, c, look);
  look.shadow = true;
  const Image with = bench.draw(s, c, look);
  float last = -1.0F;
  for (const float y : {-900.0F, -500.0F, -300.0F, -150.0F, -60.0F}) {
    const float darker = luminance(pixelAt(without, c, {1000, y, 0})) - luminance(pixelAt(with, c, {1000, y, 0}));
    CHECK(darker >= last - 1.0F);
    last = darker;
  }
  CHECK(last > 12.0F);
  CHECK(pixelAt(without, c, {1000, -900, 0}) == pixelAt(with, c, {1000, -900, 0}));
}

TEST_CASE("a target changes size, and asks for no more samples than there are") {
  Bench bench;
  render::Target target(64, 48, 64);
  CHECK(target.samples() >= 1);
  CHECK(target.samples() <= 64);
  target.resize(100, 30, 1);
  CHECK(target.width() == 100);
  CHECK(target.height() == 30);
  CHECK(target.samples() == 1);
  bench.renderer.upload(cube(Material::Pine));
  target.begin();
  bench.renderer.draw(looking(0, 20), {}, 100, 30);
  target.resolve();
  const std::vector<std::uint8_t> rgb = target.read();
  REQUIRE(rgb.size() == std::size_t{100} * 30 * 3);
  const Image image{100, 30, rgb};
  CHECK(pixel(image, 0, 0) == kPaper);
  CHECK(pixel(image, 50, 15) != kPaper);
}

TEST_CASE("the top row comes first") {
  Bench bench;
  Scene s;
  sample::addBox(s, Material::Pine, Layer::Frame, {-300, -50, 300}, {300, 50, 700});
  const Image image = bench.draw(s, looking(0, 0));
  CHECK(pixel(image, 160, 60) != kPaper);
  CHECK(pixel(image, 160, 140) == kPaper);
}

TEST_CASE("an eye inside the house still draws what is before it") {
  Bench bench;
  const Scene s = sample::framedWall();
  Camera c = looking(0, 0, 300);
  c.target = {1800, 300, 300};  // A hand's breadth from the lower wall, looking out of it.
  c.yaw_degrees = 160.0F;
  const Image image = bench.draw(s, c);
  CHECK(testing::differingShare(image, bench.draw({}, c), 8) > 0.3);
}

TEST_CASE("a scene that names parts or meshes it doesn't have is refused") {
  Bench bench;
  Scene s = cube(Material::Pine);
  s.uses.push_back({3, 0, glm::mat4(1.0F)});
  CHECK_THROWS_AS(bench.renderer.upload(s), std::runtime_error);
}

TEST_CASE("a scene that differs a little from the one before is drawn as by a renderer that knows none") {
  Bench kept;
  Scene s = sample::framedWall();
  const Camera c = looking(20, 20, 3000);
  static_cast<void>(kept.draw(s, c));
  std::minstd_rand chance(9);
  // A picture that is kept too, of which only what has changed is drawn again.
  render::Renderer in_part;
  render::Target held(kWidth, kHeight, 4);
  in_part.upload(s);
  held.begin();
  in_part.draw(c, {}, kWidth, kHeight);
  float least = 1.0F;
  for (int step = 0; step < 24; ++step) {
    const std::size_t at = chance() % s.solids.size();
    switch (step % 4) {
      case 0:  // moved
        for (glm::vec3& corner : s.solids[at].corner) corner += glm::vec3(0, -40, 25);
        break;
      case 1:  // of another material, in another layer
        s.parts[s.solids[at].part].material = Material::FoldedMetal;
        s.parts[s.solids[at].part].layer = Layer::Flashing;
        break;
      case 2:  // one fewer, or one more
        if (step % 8 < 4) {
          s.solids.erase(s.solids.begin() + static_cast<std::ptrdiff_t>(at));
        } else {
          s.solids.push_back(s.solids[at]);
        }
        break;
      default:  // its ink
        s.solids[at].edges ^= 0x0f0f;
    }
    Look look;
    look.hovered_part = step % 3 == 0 ? static_cast<std::int64_t>(chance() % s.parts.size()) : -1;
    const Image image = kept.draw(s, c, look);
    render::Renderer anew;
    anew.upload(s);
    render::Target target(kWidth, kHeight, 4);
    target.begin();
    anew.draw(c, look, kWidth, kHeight);
    target.resolve();
    CHECK(image.rgb == target.read());
    in_part.upload(s);
    held.begin();
    float share = 0.0F;
    for (const render::PixelBox& box : in_part.draw(c, look, kWidth, kHeight, true).boxes) {
      share += render::areaOf(box) / (kWidth * kHeight);
    }
    least = std::min(least, share);
    held.resolve();
    INFO("step " << step);
    CHECK(testing::differingShare({kWidth, kHeight, held.read()}, {kWidth, kHeight, target.read()}, 0) == 0.0);
  }
  CHECK(least < 0.2F);
}
