#include "scene/pick.h"

#include <random>

#include "made.h"
#include "measure.h"

using namespace sillwright;
using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

/// As scene::Rays, where nothing but layers is hidden.
std::optional<Hit> pick(const Scene& scene, glm::vec3 from, glm::vec3 direction, std::uint32_t hidden_layers) {
  PickFilter filter;
  filter.hidden_layers = hidden_layers;
  return Rays(scene, filter).pick(from, direction);
}

constexpr std::uint32_t bit(Layer layer) { return 1U << static_cast<unsigned>(layer); }

PartKind kindAt(const Scene& scene, const Hit& hit) { return scene.parts.at(hit.part).kind; }

}  // namespace

TEST_CASE("a ray picks the nearest part, and through hidden layers what is behind them") {
  const Made made = make(oneOpening("fixed window", kReveal));
  const glm::vec3 from{300, -1000, 1222}, in{0, 1, 0};
  const auto cladding = pick(made.scene, from, in, 0);
  REQUIRE(cladding);
  CHECK(kindAt(made.scene, *cladding) == PartKind::CladdingBoard);
  CHECK(cladding->distance > 1000 - 16.1F);
  CHECK(cladding->distance < 1000 - 9);
  const auto membrane = pick(made.scene, from, in, bit(Layer::Cladding));
  REQUIRE(membrane);
  CHECK(kindAt(made.scene, *membrane) == PartKind::Membrane);
  const auto lining = pick(made.scene, from, in, bit(Layer::Cladding) | bit(Layer::Membrane) | bit(Layer::Frame));
  REQUIRE(lining);
  CHECK(kindAt(made.scene, *lining) == PartKind::Lining);
  CHECK_THAT(lining->distance, WithinAbs(1090, 1e-3));
  CHECK_THAT(lining->point.y, WithinAbs(90, 1e-3));
}

TEST_CASE("the length of the direction doesn't matter, and distances are in millimetres") {
  const Made made = make(oneOpening("fixed window", kReveal));
  const auto one = pick(made.scene, {1700, -500, 1400}, {0, 1, 0}, 0);
  const auto long_one = pick(made.scene, {1700, -500, 1400}, {0, 250, 0}, 0);
  REQUIRE(one);
  REQUIRE(long_one);
  CHECK(kindAt(made.scene, *one) == PartKind::GlassPane);
  CHECK(one->part == long_one->part);
  CHECK_THAT(one->distance, WithinAbs(static_cast<double>(long_one->distance), 1e-3));
}

TEST_CASE("a ray that misses, points away or has no direction picks nothing") {
  const Made made = make(oneOpening("fixed window", kReveal));
  CHECK_FALSE(pick(made.scene, {300, -1000, 9000}, {0, 1, 0}, 0));
  CHECK_FALSE(pick(made.scene, {300, -1000, 1200}, {0, -1, 0}, 0));
  CHECK_FALSE(pick(made.scene, {300, -1000, 1200}, {0, 0, 0}, 0));
  CHECK_FALSE(pick(made.scene, {300, -1000, 1200}, {0, NAN, 0}, 0));
  CHECK_FALSE(pick(Scene{}, {0, 0, 0}, {0, 1, 0}, 0));
}

TEST_CASE("parts of later steps aren't there, and pulled layers are met where they are shown") {
  const Made made = make(oneOpening("fixed window", kReveal));
  PickFilter filter;
  filter.hidden_steps = ~1U;
  const auto frame = Rays(made.scene, filter).pick({22, -1000, 1200}, {0, 1, 0});
  REQUIRE(frame);
  CHECK(kindAt(made.scene, *frame) == PartKind::CommonStud);
  CHECK_THAT(frame->distance, WithinAbs(1000, 1e-3));
  PickFilter pulled;
  pulled.shift[static_cast<std::size_t>(Layer::Cladding)] = -300;
  const auto cladding = Rays(made.scene, pulled).pick({300, -1000, 1222}, {0, 1, 0});
  REQUIRE(cladding);
  CHECK(cladding->distance < 700);
  CHECK(cladding->point.y < -300);
}

TEST_CASE("meshes are picked by their triangles") {
  const Made made = make(oneOpening("hinged door", kReveal + "hand = \"left\"\n"));
  // From inside, straight at the lever's plate: on the right stile as seen from outside, a metre up.
  const Box leaf = measure::boxOf(made.scene, measure::kindIs(PartKind::SashStile));
  const auto hit = pick(made.scene, {leaf.high.x - 45, 2000, made.plan.openings[0].stand.z + 1000}, {0, -1, 0}, 0);
  REQUIRE(hit);
  CHECK(kindAt(made.scene, *hit) == PartKind::Handle);
  CHECK(hit->point.y > leaf.high.y);
}

TEST_CASE("every solid of a scene is met by a ray at its middle, at no greater distance than its face") {
  const Made made = makeFile("boatshed.toml");
  for (std::size_t i = 0; i < made.scene.solids.size(); i += 7) {
    const Solid& solid = made.scene.solids[i];
    const glm::vec3 middle(measure::middle(solid));
    const glm::vec3 from = middle + glm::vec3(-3000, -20000, 9000);
    const auto hit = pick(made.scene, from, middle - from, 0);
    INFO("solid " << i);
    REQUIRE(hit);
    CHECK(hit->distance <= glm::distance(from, middle) + 0.1F);
  }
}

TEST_CASE("passing groups over changes nothing that is picked, pulled apart or cut") {
  std::minstd_rand chance(5);
  const auto part = [&](float low, float high) {
    return low + (high - low) * static_cast<float>(chance() % 10'000) / 10'000.0F;
  };
  int hits = 0;
  for (const char* name : {"boatshed.toml", "raking-studio.toml"}) {
    const Scene scene = makeFile(name).scene;
    REQUIRE(scene.groups.size() > 2);
    Scene bare = scene;
    bare.groups.clear();
    for (int i = 0; i < 600; ++i) {
      PickFilter filter;
      if (i % 3 == 1) filter.shift.fill(part(-200.0F, 200.0F));
      if (i % 3 == 1) filter.shift[2] = part(-400.0F, 400.0F);
      if (i % 3 == 2)
        filter.cut = Cut{glm::normalize(glm::vec3(part(-1, 1), part(-1, 1), part(-1, 1.1F))), part(-500, 3000)};
      const glm::vec3 size = scene.bounds.high - scene.bounds.low;
      const glm::vec3 at = scene.bounds.low + size * glm::vec3(part(0, 1), part(0, 1), part(0, 1));
      const glm::vec3 from = at + glm::vec3(part(-9000, 9000), part(-9000, 9000), part(-500, 6000));
      const auto with = Rays(scene, filter).pick(from, at - from);
      const auto without = Rays(bare, filter).pick(from, at - from);
      REQUIRE(with.has_value() == without.has_value());
      if (!with) continue;
      ++hits;
      CHECK(with->part == without->part);
      CHECK(with->distance == without->distance);
    }
  }
  CHECK(hits > 400);
}
