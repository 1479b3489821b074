#include "render/visible.h"

#include <algorithm>
#include <bit>
#include <random>
#include <set>

#include "render/palette.h"
#include "sample.h"
#include "support/catch.h"

using namespace sillwright;
using render::Camera;
using render::Look;
using render::Visible;

namespace {

constexpr glm::vec2 kSize{1600.0F, 1000.0F};

/// What is listed of a scene.
struct Lists {
  std::vector<std::uint32_t> opaque;
  std::vector<std::uint32_t> glass;
  std::size_t solids = 0;
};

render::Seen seenOf(const scene::Scene& scene) {
  render::Seen seen;
  render::renew(seen, scene, scene.solids.size(), {{0, 0, scene.solids.size()}});
  return seen;
}

Lists seenBy(const scene::Scene& scene, const Camera& camera, const Look& look = {}) {
  const render::Seen seen = seenOf(scene);
  Visible v;
  render::listVisible(v, seen, camera, look, kSize, false);
  return {v.opaqueFaces(seen, nullptr), v.glass.facesIn(seen, nullptr), v.solids};
}

std::uint32_t faceOf(std::uint32_t entry) { return entry >> 8U & 7U; }
std::uint32_t outlinesOf(std::uint32_t entry) { return entry & 15U; }
std::uint32_t inkedOf(std::uint32_t entry) { return entry >> 4U & 15U; }

Camera fromUpperLeft() {
  Camera c;
  c.yaw_degrees = -30.0F;
  c.pitch_degrees = 25.0F;
  return c;
}

scene::Scene oneBox() {
  scene::Scene s;
  sample::addBox(s, scene::Material::Pine, scene::Layer::Frame, {-500, -500, -500}, {500, 500, 500});
  return s;
}

}  // namespace

TEST_CASE("a box in view has three faces listed, with nine of the twelve edges, six of them outline") {
  const Lists v = seenBy(oneBox(), fromUpperLeft());
  REQUIRE(v.opaque.size() == 3);
  std::set<std::uint32_t> faces;
  int outlines = 0;
  int inked = 0;
  for (const std::uint32_t entry : v.opaque) {
    faces.insert(faceOf(entry));
    outlines += std::popcount(outlinesOf(entry));
    inked += std::popcount(inkedOf(entry));
  }
  // Seen from the left, front and above: faces −u, −v, +w. Three shared edges count twice, the outline's six once.
  CHECK(faces == std::set<std::uint32_t>{0, 2, 5});
  CHECK(outlines == 6);
  CHECK(inked == 12);
}

TEST_CASE("an edge that isn't to be inked is left out of both its faces") {
  scene::Scene s = oneBox();
  s.solids[0].edges = 0;
  for (const std::uint32_t entry : seenBy(s, fromUpperLeft()).opaque) CHECK(inkedOf(entry) == 0);
  int with_one = 0;
  for (unsigned int bit = 0; bit < 12; ++bit) {
    s.solids[0].edges = static_cast<std::uint16_t>(1U << bit);
    int count = 0;
    for (const std::uint32_t entry : seenBy(s, fromUpperLeft()).opaque) count += std::popcount(inkedOf(entry));
    with_one += count;
  }
  CHECK(with_one == 12);
}

TEST_CASE("nearer solids come first, and glass farthest first in a list of its own") {
  scene::Scene s;
  for (int i = 0; i < 5; ++i) {
    const float y = static_cast<float>((i * 3) % 5) * 1000.0F;
    sample::addBox(s, scene::Material::Pine, scene::Layer::Frame, {0, y, 0}, {100, y + 100, 100});
    sample::addBox(s, scene::Material::Glass, scene::Layer::Unit, {300, y, 0}, {400, y + 10, 100});
  }
  Camera c;
  c.target = {0, 2000, 0};
  const Lists v = seenBy(s, c);
  const auto depth = [&](std::uint32_t entry) { return s.solids[entry >> 11U].corner[0].y; };
  const auto nearer = [&](std::uint32_t a, std::uint32_t b) { return depth(a) < depth(b); };
  CHECK(v.solids == 10);
  CHECK(std::is_sorted(v.opaque.begin(), v.opaque.end(), nearer));
  CHECK(std::is_sorted(v.glass.rbegin(), v.glass.rend(), nearer));
  CHECK_FALSE(v.glass.empty());
}

TEST_CASE("what lies outside the view, in a hidden layer or at a later step isn't listed") {
  scene::Scene s = oneBox();
  s.parts[0].step = scene::PartStep{4};
  Camera c = fromUpperLeft();
  Look look;
  look.hidden_steps = 1U << 4U;
  CHECK(seenBy(s, c, look).solids == 0);
  look.hidden_steps = ~(1U << 4U);
  CHECK(seenBy(s, c, look).solids == 1);
  look.hidden_layers = 1U << static_cast<unsigned int>(scene::Layer::Frame);
  CHECK(seenBy(s, c, look).solids == 0);
  c.target = {0, -20000, 0};  // Now it lies behind.
  c.distance = 100.0F;
  c.pitch_degrees = 0.0F;
  c.yaw_degrees = 180.0F;
  CHECK(seenBy(s, c).solids == 0);
  c.yaw_degrees = 0.0F;
  CHECK(seenBy(s, c).solids == 1);
}

TEST_CASE("nothing in view is ever dropped: every box whose middle projects into the picture is listed") {
  scene::Scene s;
  for (int x = -5; x <= 5; ++x) {
    for (int y = -5; y <= 5; ++y) {
      const glm::vec3 p{static_cast<float>(x) * 900.0F, static_cast<float>(y) * 900.0F, 0.0F};
      sample::addBox(s, scene::Material::Pine, scene::Layer::Frame, p, p + 40.0F);
    }
  }
  for (int i = 0; i < 24; ++i) {
    Camera c;
    c.yaw_degrees = static_cast<float>(i) * 15.0F;
    c.distance = 3000.0F;
    c.parallel = i % 2 == 1;
    const Lists v = seenBy(s, c);
    std::set<std::uint32_t> listed;
    for (const std::uint32_t entry : v.opaque) listed.insert(entry >> 11U);
    for (std::uint32_t k = 0; k < s.solids.size(); ++k) {
      const glm::vec3 at = render::project(c, s.solids[k].corner[0] + 20.0F, 1600, 1000);
      const bool inside = (c.parallel || at.z > 0.0F) && at.x > 0 && at.x < 1600 && at.y > 0 && at.y < 1000;
      if (inside) CHECK(listed.count(k) == 1);
    }
  }
}

TEST_CASE("layers are pulled apart in their order, the frame stays") {
  float last = -1e9F;
  for (std::size_t i = 0; i + 1 < scene::kLayers; ++i) {
    const float offset = render::spreadOffset(static_cast<scene::Layer>(i), 100.0F);
    CHECK(offset > last);
    last = offset;
  }
  CHECK(render::spreadOffset(scene::Layer::Frame, 100.0F) == 0.0F);
  CHECK(render::spreadOffset(scene::Layer::Cladding, 100.0F) < 0.0F);
  CHECK(render::spreadOffset(scene::Layer::Ground, 100.0F) == 0.0F);
}

TEST_CASE("every painted tile has tones, and joins itself without a seam") {
  for (std::size_t i = 0; i < render::kPatterns; ++i) {
    const auto pattern = static_cast<render::Pattern>(i);
    const std::vector<std::uint8_t> tile = render::paintTile(pattern);
    const auto [low, high] = std::minmax_element(tile.begin(), tile.end());
    CHECK(int{*high} - int{*low} > 40);
    if (pattern == render::Pattern::EndGrain) continue;  // Rings don't repeat.
    // Across the join, rows and columns differ no more than neighbours do inside, on average.
    const auto at = [&](int x, int y) {
      return int{tile[static_cast<std::size_t>(y % render::kTile) * render::kTile +
                      static_cast<std::size_t>(x % render::kTile)]};
    };
    int inside = 0;
    int across = 0;
    for (int k = 0; k < render::kTile; ++k) {
      for (const int j : {60, 100, 180, 220})
        inside += std::abs(at(j, k) - at(j + 1, k)) + std::abs(at(k, j) - at(k, j + 1));
      across += 4 * (std::abs(at(255, k) - at(256, k)) + std::abs(at(k, 255) - at(k, 256)));
    }
    INFO("pattern " << i);
    CHECK(across <= inside * 2 + 4 * render::kTile);
  }
}

TEST_CASE("solids are put in the order of their depths, those that are as good as equal as they stood") {
  std::minstd_rand chance(3);
  // Depths from 1 to 1000 are told apart to a 1000th, whatever lies at the eye itself.
  constexpr float kAlike = 1.0F + 1.0F / 1000.0F;
  for (const std::size_t count : {0U, 1U, 2U, 700U, 30'000U}) {
    std::vector<render::Ranked> list;
    std::vector<float> depth;
    for (std::size_t i = 0; i < count; ++i) {
      const float far = 1.0F + static_cast<float>(chance() % 999'000) * 1e-3F;
      depth.push_back(i % 5 == 0 ? 1e-6F * static_cast<float>(i % 7) : i % 3 == 0 ? std::round(far) : far);
      list.push_back({std::bit_cast<std::uint32_t>(depth.back()), static_cast<std::uint32_t>(i), 1});
    }
    std::vector<render::Ranked> spare;
    render::sortByDepth(list, spare);
    REQUIRE(list.size() == count);
    std::set<std::uint32_t> all;
    for (std::size_t i = 0; i < count; ++i) {
      all.insert(list[i].solid);
      if (i == 0) continue;
      const float before = depth[list[i - 1].solid];
      const float after = depth[list[i].solid];
      CHECK((before <= after * kAlike || before < 0.1F));
      if (before == after) CHECK(list[i - 1].solid < list[i].solid);
    }
    CHECK(all.size() == count);
  }
}

TEST_CASE("what is a small part of a pixel isn't drawn, and is as soon as it is more") {
  scene::Scene s = oneBox();
  sample::addBox(s, scene::Material::Packer, scene::Layer::Packing, {600, 0, 0}, {610, 10, 10});
  for (const bool parallel : {false, true}) {
    Camera camera = fromUpperLeft();
    camera.parallel = parallel;
    const auto drawn = [&](float pixels_across) {  // of the small one's ten millimetres, in a picture 1000 high
      camera.distance = 1.0F;
      camera.distance = 10.0F / pixels_across * 1000.0F / (2.0F * camera.halfHeight());
      return seenBy(s, camera).solids;
    };
    CHECK(drawn(3.0F) == 2);
    CHECK(drawn(0.7F) == 2);
    CHECK(drawn(0.2F) == 1);
  }
}

TEST_CASE("faces narrower than a small part of a pixel aren't drawn, and the others' edges stay what they were") {
  scene::Scene s;
  sample::addBox(s, scene::Material::Membrane, scene::Layer::Membrane, {-500, -1, -500}, {500, 0, 500});
  for (const bool parallel : {false, true}) {
    Camera camera = fromUpperLeft();
    camera.parallel = parallel;
    const auto seenFrom = [&](float pixels_across) {  // of the sheet's millimetre
      camera.distance = 1.0F;
      camera.distance = 1.0F / pixels_across * 1000.0F / (2.0F * camera.halfHeight());
      return seenBy(s, camera);
    };
    const Lists near = seenFrom(0.3F);
    const Lists far = seenFrom(0.1F);
    CHECK(near.opaque.size() == 3);
    REQUIRE(far.opaque.size() == 1);
    const auto same = std::find_if(near.opaque.begin(), near.opaque.end(),
                                   [&](std::uint32_t entry) { return faceOf(entry) == faceOf(far.opaque[0]); });
    REQUIRE(same != near.opaque.end());
    CHECK(*same == far.opaque[0]);
  }
}

TEST_CASE("where the eye stays, listing what has changed lists all, and a box has what touches it") {
  scene::Scene s;
  for (int i = 0; i < 6000; ++i) {  // three patches
    const glm::vec3 p{static_cast<float>(i % 80) * 100.0F, static_cast<float>(i / 80) * 100.0F, 0.0F};
    const scene::Material material = i % 7 == 0 ? scene::Material::Glass : scene::Material::Pine;
    sample::addBox(s, material, scene::Layer::Frame, p, p + 60.0F);
  }
  Camera camera = fromUpperLeft();
  camera.target = {4000, 3700, 0};
  camera.distance = 9000.0F;
  render::Seen seen = seenOf(s);
  Visible v;
  render::listVisible(v, seen, camera, {}, kSize, false);
  const std::size_t moved = 3000;
  for (glm::vec3& corner : s.solids[moved].corner) corner.z += 700.0F;
  render::renew(seen, s, s.solids.size(), {{moved, moved, 1}});
  v.forget({moved});
  render::listVisible(v, seen, camera, {}, kSize, true);
  const Lists all = seenBy(s, camera);
  CHECK(v.solids == all.solids);
  CHECK(v.opaqueFaces(seen, nullptr) == all.opaque);
  CHECK(v.glass.facesIn(seen, nullptr) == all.glass);

  const render::PixelBox box{700.0F, 300.0F, 900.0F, 420.0F};
  const render::Within within{render::Projection(camera, kSize.x, kSize.y), 0.0F, box};
  std::vector<std::uint32_t> asked;
  for (const std::uint32_t entry : all.opaque) {
    const std::size_t solid = entry >> 11U;
    render::PixelBox round = render::kNowhere;
    for (const glm::vec3& corner : s.solids[solid].corner) {
      const glm::vec3 at = render::project(camera, corner, kSize.x, kSize.y);
      round = render::joined(round, {at.x, at.y, at.x, at.y});
    }
    if (within.touches(round)) asked.push_back(entry);
  }
  const std::vector<std::uint32_t> listed = v.opaqueFaces(seen, &within);
  REQUIRE_FALSE(asked.empty());
  CHECK(listed.size() < all.opaque.size() / 4);
  // In their order; those that only come near the box are no harm.
  std::size_t found = 0;
  for (const std::uint32_t entry : listed) found += found < asked.size() && asked[found] == entry ? 1 : 0;
  CHECK(found == asked.size());
}

TEST_CASE("boxes put together hold all they held, and apart no pixel is in two of them") {
  std::minstd_rand chance(4);
  const auto some = [&] { return static_cast<float>(chance() % 480) - 40.0F; };
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<render::PixelBox> all;
    std::vector<render::PixelBox> boxes;
    for (int i = 0; i < 8; ++i) {
      const float x = some();
      const float y = some();
      all.push_back({x, y, x + static_cast<float>(chance() % 90), y + static_cast<float>(chance() % 300)});
      render::addBox(boxes, all.back());
    }
    std::vector<int> times(400 * 400, 0);
    const auto paint = [&](const render::PixelBox& box, int by) {
      for (int y = std::max(0, static_cast<int>(box.y)); y < std::min(400, static_cast<int>(box.w)); ++y) {
        for (int x = std::max(0, static_cast<int>(box.x)); x < std::min(400, static_cast<int>(box.z)); ++x)
          times[static_cast<std::size_t>(y * 400 + x)] += by;
      }
    };
    for (const render::PixelBox& box : render::apart(boxes, {400.0F, 400.0F})) paint(box, 100);
    CHECK(*std::max_element(times.begin(), times.end()) <= 100);
    for (const render::PixelBox& box : all) paint(box, -1);
    CHECK(*std::min_element(times.begin(), times.end()) >= 0);
  }
}
