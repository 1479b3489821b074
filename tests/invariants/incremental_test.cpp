// What is kept of the last answer is what would come out anew: any edits, one after another, against the whole chain.

#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "check/judge.h"
#include "invariants/random_edit.h"
#include "invariants/random_jobs.h"
#include "scene/build/build.h"
#include "scene/build/magnify.h"
#include "support/catch.h"
#include "support/check_json.h"
#include "support/simple_job.h"

namespace sillwright::testing {
namespace {

const scene::MeshLibrary& meshes() {
  static const scene::MeshLibrary library = [] {
    scene::MeshLibrary read;
    REQUIRE(scene::loadMeshes(read, SILLWRIGHT_ASSETS_DIR, job::Job{}, SILLWRIGHT_ASSETS_DIR).empty());
    return read;
  }();
  return library;
}

/// An answer that is kept up to date.
struct Kept {
  job::Job job;
  Answer answer;
  scene::Scene scene;
  scene::Blocks blocks;
};

void takeIn(Kept& kept, const job::Job& job, const practice::Practice& practice, double times) {
  const plan::Changes changes = plan::changesBetween(kept.job, job, practice);
  kept.answer.plan = plan::replan(job, practice, std::move(kept.answer.plan), changes);
  kept.answer.findings = check::rejudge(job, practice, kept.answer.plan, std::move(kept.answer.findings), changes);
  scene::rebuild(kept.scene, kept.blocks, {job, practice, kept.answer.plan, meshes(), times}, changes);
  kept.job = job;
}

// Compared by their fields: bytes between them may hold anything.
bool isSame(const scene::Part& a, const scene::Part& b) {
  return a.kind == b.kind && a.material == b.material && a.layer == b.layer && a.step == b.step && a.wall == b.wall &&
         a.opening == b.opening && a.item == b.item && a.size == b.size && a.breaks_out == b.breaks_out;
}

bool isSame(const scene::Solid& a, const scene::Solid& b) {
  return a.corner == b.corner && a.edges == b.edges && a.grain == b.grain && a.part == b.part;
}

bool isSame(const scene::MeshUse& a, const scene::MeshUse& b) {
  return a.mesh == b.mesh && a.part == b.part && a.place == b.place;
}

bool isSame(const scene::Mesh& a, const scene::Mesh& b) { return a.corner == b.corner && a.line == b.line; }

bool isSame(const scene::WallFrame& a, const scene::WallFrame& b) {
  return a.origin == b.origin && a.along == b.along && a.inward == b.inward && a.length == b.length &&
         a.height == b.height && a.depth == b.depth;
}

bool isSame(const scene::OpeningFrame& a, const scene::OpeningFrame& b) {
  return a.wall == b.wall && a.centre == b.centre && a.width == b.width && a.height == b.height;
}

bool isSame(const scene::Group& a, const scene::Group& b) {
  return a.solids == b.solids && a.uses == b.uses && a.inner == b.inner && a.first_solid == b.first_solid &&
         a.first_use == b.first_use && a.parts == b.parts && a.box.has_value() == b.box.has_value();
}

template <class Thing>
bool isSame(const std::vector<Thing>& a, const std::vector<Thing>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Thing& one, const Thing& other) { return isSame(one, other); });
}

bool isSame(const scene::Scene& a, const scene::Scene& b) {
  return isSame(a.parts, b.parts) && isSame(a.solids, b.solids) && isSame(a.meshes, b.meshes) &&
         isSame(a.uses, b.uses) && isSame(a.walls, b.walls) && isSame(a.openings, b.openings) &&
         isSame(a.groups, b.groups) && a.bounds.low == b.bounds.low && a.bounds.high == b.bounds.high;
}

std::string reportOf(const job::Job& job, const practice::Practice& practice, const Answer& answer) {
  return testing::checkJson(job, practice, answer.plan, answer.findings);
}

/// What the report leaves out of a plan but later edits build on.
void requireSameWalls(const plan::Plan& a, const plan::Plan& b) {
  RC_ASSERT(a.walls.size() == b.walls.size());
  for (std::size_t i = 0; i < a.walls.size(); ++i) {
    RC_ASSERT(a.walls[i].openings == b.walls[i].openings);
    RC_ASSERT(a.walls[i].not_in_line == b.walls[i].not_in_line);
    RC_ASSERT(a.walls[i].head_line == b.walls[i].head_line);
  }
}

/// Four walls that close, with so many openings that what one wall changes is a small part of the scene.
job::Job ringOfWalls() {
  constexpr double kSide = 14'000;
  job::Job job = simpleJob(job::UnitKind::SlidingWindow, 1000, 1200, "au");
  const job::Wall wall = job.walls[0];
  const job::Opening opening = job.openings[0];
  job.walls.clear();
  job.openings.clear();
  for (std::size_t w = 0; w < 4; ++w) {
    job::Wall side = wall;
    side.name = "w" + std::to_string(w);
    side.length = w % 2 == 0 ? kSide : kSide - 2 * 90;  // butts between the others' frames
    side.top = {{0, 3000}, {side.length, 3000}};
    side.eave = job::Eave{2700, 500};
    side.turn_degrees = 90 * static_cast<double>(w);
    side.at_x = w == 1 || w == 2 ? kSide : 0;
    side.at_y = std::array{0.0, 90.0, kSide, kSide - 90}[w];
    job.walls.push_back(side);
    for (int i = 0; i < 8; ++i) {
      job::Opening each = opening;
      each.name = side.name + "o" + std::to_string(i);
      each.wall = w;
      each.left = 600 + 1600 * i;
      job.openings.push_back(each);
    }
  }
  return job;
}

void change(job::Job& job, Draw& draw) {
  switch (draw.upTo(3)) {
    case 0:
    case 1:
      return changeValue(job, draw);
    case 2:
      return changeKey(job, draw);
    default:
      return changeHouse(job, draw);
  }
}

/// A job is edited four times, and after each the kept answer is held against a new one.
void keepsUp(const job::Job& first, const practice::Practice& practice, Draw& draw, double wanted) {
  Kept kept;
  job::Job job = first;
  for (int edits = 0; edits < 5; ++edits) {
    const Answer anew = answerTo(job, practice);
    takeIn(kept, job, practice, std::clamp(wanted, 1.0, scene::mostDeviation(job, anew.plan)));
    RC_ASSERT(reportOf(job, practice, kept.answer) == reportOf(job, practice, anew));
    requireSameWalls(kept.answer.plan, anew.plan);
    RC_ASSERT(isSame(kept.scene, scene::build(job, practice, anew.plan, meshes(), wanted)));
    change(job, draw);
  }
}

}  // namespace

TEST_CASE("after any edits the answer that was kept up to date is the whole chain's, to the byte") {
  REQUIRE(holdsForJobs("kept up", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    keepsUp(job, practice, draw, 1);
  }));
}

TEST_CASE("a scene with its deviations drawn larger is kept up to date as well") {
  REQUIRE(holdsForJobs("kept up, magnified", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    keepsUp(job, practice, draw, 6);
  }));
}

TEST_CASE("what a wall is made of shows at its neighbours' corners, and is kept up to date there") {
  const practice::Practice& practice = shipped("au");
  const job::Job ring = ringOfWalls();
  const std::vector<void (*)(job::Wall&)> edits{[](job::Wall& wall) { wall.eave->overhang += 100; },
                                                [](job::Wall& wall) { wall.eave.reset(); },
                                                [](job::Wall& wall) {
                                                  wall.cladding = job::Cladding{30, 20};
                                                },
                                                [](job::Wall& wall) { wall.lining = 25; },
                                                [](job::Wall& wall) {
                                                  wall.stud = job::StudSection{140, 45};
                                                }};
  for (std::size_t edit = 0; edit < edits.size(); ++edit) {
    Kept kept;
    takeIn(kept, ring, practice, 1);
    job::Job job = ring;
    edits[edit](job.walls[1]);
    takeIn(kept, job, practice, 1);
    const Answer anew = answerTo(job, practice);
    CAPTURE(edit);
    CHECK(isSame(kept.scene, scene::build(job, practice, anew.plan, meshes())));
  }
}

TEST_CASE("an edit of one opening marks that opening and its wall alone") {
  REQUIRE(holdsForJobs("marks little", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    if (job.openings.empty()) return;
    job::Job edited = job;
    const auto at = static_cast<std::size_t>(draw.upTo(static_cast<int>(job.openings.size()) - 1));
    edited.openings[at].left += 1;
    const plan::Changes changes = plan::changesBetween(job, edited, practice);
    const std::size_t wall = job.openings[at].wall;
    RC_ASSERT(!changes.all);
    for (std::size_t i = 0; i < job.walls.size(); ++i) {
      RC_ASSERT(changes.walls[i] == 0);
      RC_ASSERT((changes.frames[i] != 0) == (i == wall));
    }
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      const bool with_it = i == at || (job.walls[wall].align_heads && job.openings[i].wall == wall);
      RC_ASSERT((changes.openings[i] != 0) == with_it);
    }
  }));
}

}  // namespace sillwright::testing
