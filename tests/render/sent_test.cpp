// Places on the card: what stays where it is, what is sent again, and by what the card knows a part.
#include "render/sent.h"

#include <algorithm>
#include <random>

#include "sample.h"
#include "support/catch.h"

using namespace sillwright;
using render::kEmpty;
using render::Sent;
using render::Stretch;

namespace {

/// Blocks of so many boxes each, a part a box; the first block's are floors. No two boxes are alike.
scene::Scene rowOf(const std::vector<std::size_t>& blocks) {
  scene::Scene s;
  s.walls.resize(2);
  s.walls[0].length = s.walls[1].length = 1000;
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    for (std::size_t i = 0; i < blocks[b]; ++i) {
      const glm::vec3 low(static_cast<float>(100 * i), static_cast<float>(1000 * b), 0);
      const auto material = b == 0 ? scene::Material::Floor : scene::Material::Pine;
      sample::addBox(s, material, scene::Layer::Frame, low, low + glm::vec3(90, 90, 90), b == 0 ? -1 : 1);
    }
    s.groups.push_back({blocks[b], 0, std::nullopt, 0});
  }
  return s;
}

std::size_t countOf(const std::vector<Stretch>& stretches, bool empty) {
  std::size_t count = 0;
  for (const Stretch& each : stretches) count += (each.solid == kEmpty) == empty ? each.count : 0;
  return count;
}

/// Which solid of the scene lies at each place, kept by following what `take` says.
struct Card {
  Sent sent;
  std::vector<std::array<glm::vec3, 8>> at;
  std::vector<char> holds;

  std::vector<Stretch> take(const scene::Scene& scene) {
    const auto changed = sent.take(scene);
    at.resize(sent.places());
    holds.resize(sent.places(), 0);
    for (const Stretch& each : changed) {
      for (std::size_t i = 0; i < each.count; ++i) {
        holds[each.place + i] = each.solid == kEmpty ? 0 : 1;
        if (each.solid != kEmpty) at[each.place + i] = scene.solids[each.solid + i].corner;
      }
    }
    return changed;
  }

  void requireHolds(const scene::Scene& scene) const {
    std::vector<std::array<glm::vec3, 8>> held;
    for (std::size_t i = 0; i < at.size(); ++i) {
      if (holds[i] != 0) held.push_back(at[i]);
    }
    REQUIRE(held.size() == scene.solids.size());
    for (std::size_t i = 0; i < held.size(); ++i) REQUIRE(held[i] == scene.solids[i].corner);
  }
};

}  // namespace

TEST_CASE("a scene taken again is not sent again") {
  Card card;
  const scene::Scene scene = rowOf({2, 5, 40});
  CHECK(countOf(card.take(scene), false) == 47);
  CHECK(card.sent.groundChanged());
  card.requireHolds(scene);
  CHECK(card.take(scene).empty());
  CHECK_FALSE(card.sent.groundChanged());
}

TEST_CASE("a solid more or less in one block moves nothing in the others, and their parts keep their keys") {
  Card card;
  static_cast<void>(card.take(rowOf({2, 5, 40})));
  const render::PartKey last = card.sent.keyOf(46);
  CHECK(last == render::PartKey{2, 39});
  for (const std::size_t count : {6U, 4U, 13U, 1U, 5U}) {
    const scene::Scene scene = rowOf({2, count, 40});
    const auto changed = card.take(scene);
    card.requireHolds(scene);
    CHECK(countOf(changed, false) <= 12);
    CHECK_FALSE(card.sent.groundChanged());
    CHECK(card.sent.keyOf(static_cast<std::int64_t>(scene.parts.size()) - 1) == last);
  }
}

TEST_CASE("a block that outgrows its places has all laid out anew") {
  Card card;
  static_cast<void>(card.take(rowOf({2, 5, 40})));
  const scene::Scene scene = rowOf({2, 14, 40});
  CHECK(countOf(card.take(scene), false) == 56);
  card.requireHolds(scene);
}

TEST_CASE("a moved wall's solids are sent, and the ground has changed: a floor likewise") {
  Card card;
  scene::Scene scene = rowOf({2, 5, 40});
  static_cast<void>(card.take(scene));
  scene.walls[1].inward = {1, 0, 0};
  CHECK(countOf(card.take(scene), false) == 45);
  CHECK(card.sent.groundChanged());
  scene.solids[0].corner[7].z += 1;
  CHECK(countOf(card.take(scene), false) == 1);
  CHECK(card.sent.groundChanged());
  scene.parts[20].layer = scene::Layer::Unit;
  CHECK(countOf(card.take(scene), false) == 1);
  CHECK_FALSE(card.sent.groundChanged());
}

TEST_CASE("parts are known by their block, also beside blocks of nothing") {
  Card card;
  static_cast<void>(card.take(rowOf({0, 3, 0, 2, 0})));
  CHECK(card.sent.keyOf(-1) == render::PartKey{});
  CHECK(card.sent.keyOf(0) == render::PartKey{1, 0});
  CHECK(card.sent.keyOf(2) == render::PartKey{1, 2});
  CHECK(card.sent.keyOf(3) == render::PartKey{3, 0});
  CHECK(card.sent.keyOf(4) == render::PartKey{3, 1});
}

TEST_CASE("after any edits the card holds the scene, in its order") {
  std::minstd_rand chance(5);
  Card card;
  std::vector<std::size_t> blocks{1, 30, 7, 200, 0, 12};
  for (int round = 0; round < 200; ++round) {
    std::size_t& block = blocks[1 + chance() % 5];
    block = std::max<std::size_t>(block + chance() % 7, 3) - 3;
    if (chance() % 40 == 0) blocks.push_back(chance() % 50);
    const scene::Scene scene = rowOf(blocks);
    static_cast<void>(card.take(scene));
    card.requireHolds(scene);
  }
}
