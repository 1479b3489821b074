#include "render/renderer.h"

#include <cmath>
#include <set>

#include "sample.h"
#include "support/catch.h"

using namespace sillwright;

namespace {

float areaOf(const std::vector<glm::vec2>& ring) {
  float twice = 0.0F;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const glm::vec2 a = ring[i];
    const glm::vec2 b = ring[(i + 1) % ring.size()];
    twice += a.x * b.y - a.y * b.x;
  }
  return twice * 0.5F;
}

std::vector<glm::vec2> rectangle(float x0, float y0, float x1, float y1) {
  return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

}  // namespace

TEST_CASE("a polygon is cut to what lies within another") {
  const std::vector<glm::vec2> window = rectangle(0, 0, 10, 10);
  CHECK(areaOf(render::clipTo(rectangle(2, 3, 4, 5), window)) == Approx(4.0F));     // Wholly inside.
  CHECK(areaOf(render::clipTo(rectangle(-5, -5, 5, 5), window)) == Approx(25.0F));  // A corner of it.
  CHECK(areaOf(render::clipTo(rectangle(-5, -5, 25, 25), window)) == Approx(100.0F));
  CHECK(render::clipTo(rectangle(11, 0, 20, 10), window).empty());
  // A diamond whose corners stick out by 2.5 on each side: 15 × 15 / 2 less four triangles of 5 × 2.5 / 2.
  const std::vector<glm::vec2> diamond{{5, -2.5F}, {12.5F, 5}, {5, 12.5F}, {-2.5F, 5}};
  CHECK(areaOf(render::clipTo(diamond, window)) == Approx(112.5F - 4.0F * 6.25F));
  CHECK(render::clipTo({}, window).empty());
}

TEST_CASE("shadows lie on the floor no further than its edge, and on the ground under it") {
  const scene::Scene s = sample::framedWall();  // Its slab runs −600…4200 by −900…1500, 100 thick.
  const render::Shadows shadows = render::layShadows(s);
  std::set<float> heights;
  for (const render::ShadowCorner& c : shadows.laid) {
    heights.insert(std::round(c.place.z));
    if (c.place.z > 0.0F) {
      CHECK(c.place.x > -600.1F);
      CHECK(c.place.x < 4200.1F);
      CHECK(c.place.y > -900.1F);
      CHECK(c.place.y < 1500.1F);
    }
    CHECK(c.spot.x == Approx(c.place.x));  // This wall's axes are the world's.
    CHECK(c.spot.y == Approx(c.place.y));
    CHECK(c.size == glm::vec2(3600, 90));
  }
  CHECK(heights == std::set<float>{-99.0F, 1.0F});
  CHECK(shadows.laid.size() % 3 == 0);
  CHECK(shadows.bare.size() == 6);
}

TEST_CASE("without a floor the shadows lie at the walls' feet, and without walls there are none") {
  scene::Scene s;
  CHECK(render::layShadows(s).laid.empty());
  scene::WallFrame wall;
  wall.origin.z = 300.0F;
  wall.length = 1000.0F;
  s.walls.push_back(wall);
  for (const render::ShadowCorner& c : render::layShadows(s).laid) CHECK(c.place.z == Approx(301.0F));
}
