#include <cmath>
#include <random>

#include "made.h"
#include "measure.h"

using namespace sillwright;
using namespace sillwright::scene;

namespace {

double between(double low, double high, std::mt19937_64& random) {
  return low + (high - low) * static_cast<double>(random() >> 11) * 0x1.0p-53;
}

/// A job as the reader lets it through, which need not make sense: openings overlap, stick out, hold the wrong unit.
job::Job anyJob(std::mt19937_64& random) {
  job::Job job;
  job.practice = "au";
  for (std::uint64_t w = 1 + random() % 3; w > 0; --w) {
    job::Wall wall;
    wall.name = "w" + std::to_string(w);
    wall.length = between(300, 12000, random);
    wall.top = {{0, between(300, 4000, random)}};
    if (random() % 2 == 0) wall.top.push_back({wall.length * between(0.1, 0.9, random), between(300, 5000, random)});
    wall.top.push_back({wall.length, between(300, 4000, random)});
    if (random() % 2 == 0) wall.cladding = job::Cladding{between(1, 40, random), between(0, 50, random)};
    if (random() % 2 == 0) wall.eave = job::Eave{between(200, 4000, random), between(1, 1500, random)};
    wall.at_x = between(-20000, 20000, random);
    wall.at_y = between(-20000, 20000, random);
    wall.turn_degrees = random() % 2 == 0 ? 90.0 * static_cast<double>(random() % 4) : between(-720, 720, random);
    job.walls.push_back(wall);
  }
  for (std::uint64_t o = random() % 8; o > 0; --o) {
    job::Opening opening;
    opening.name = "o" + std::to_string(o);
    opening.wall = random() % job.walls.size();
    opening.left = between(-500, 12000, random);
    opening.sill = between(0, 3000, random);
    opening.width = between(10, 6000, random);
    opening.height = between(10, 4000, random);
    opening.unit.kind = static_cast<job::UnitKind>(random() % std::size(job::kKindWords));
    opening.unit.width = between(10, 6000, random);
    opening.unit.height = between(10, 4000, random);
    if (random() % 2 == 0) opening.unit.frame = job::FrameSection{between(1, 300, random), between(1, 300, random)};
    if (random() % 2 == 0) opening.unit.reveal = job::Reveal{between(1, 60, random), between(1, 400, random)};
    if (random() % 2 == 0)
      opening.unit.glass = job::Glass{between(1, 50, random), 1 + static_cast<int>(random() % 6), {}};
    if (random() % 3 == 0) opening.unit.fin = between(0, 100, random);
    job.openings.push_back(opening);
  }
  return job;
}

bool finite(const glm::vec3& v) { return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z); }

}  // namespace

TEST_CASE("whatever job is built, every corner is a number, every solid sound and every size bounded") {
  std::mt19937_64 random(20);
  std::size_t seen = 0;
  for (int round = 0; round < 150; ++round) {
    INFO("round " << round);
    const Made made = make(anyJob(random));
    REQUIRE(made.scene.openings.size() == made.job.openings.size());
    REQUIRE(made.scene.walls.size() == made.job.walls.size());
    for (const Solid& solid : made.scene.solids) {
      for (const glm::vec3& corner : solid.corner) REQUIRE(finite(corner));
      REQUIRE(solid.part < made.scene.parts.size());
      const Part& part = made.scene.parts[solid.part];
      INFO("kind " << static_cast<int>(part.kind));
      CHECK(measure::volume(solid) > 0);
      CHECK(measure::shape(solid).off_plane < 0.1);
      ++seen;
    }
    for (const Part& part : made.scene.parts) REQUIRE(finite(part.size));
    CHECK(glm::length(made.scene.bounds.high - made.scene.bounds.low) < 150'000.0F);
  }
  CHECK(seen > 10'000);
}

TEST_CASE("a job without walls is an empty scene") {
  const Made made = make(job::Job{});
  CHECK(made.scene.parts.empty());
  CHECK(made.scene.bounds.low == made.scene.bounds.high);
}
