// What is kept of the last answer is what would come out anew: any edits, one after another, against the whole chain.

#include <rapidcheck.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "check/judge.h"
#include "exchange/check_json.h"
#include "invariants/random_edit.h"
#include "invariants/random_jobs.h"
#include "scene/magnify.h"
#include "scene/rebuild.h"
#include "support/catch.h"

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
  scene::rebuild(kept.scene, kept.blocks, {job, practice, kept.answer.plan, kept.answer.findings, meshes(), times},
                 changes);
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

bool isSame(const scene::Mesh& a, const scene::Mesh& b) {
  return a.name == b.name && a.corner == b.corner && a.line == b.line;
}

bool isSame(const scene::WallFrame& a, const scene::WallFrame& b) {
  return a.origin == b.origin && a.along == b.along && a.inward == b.inward && a.length == b.length &&
         a.height == b.height && a.depth == b.depth;
}

bool isSame(const scene::OpeningFrame& a, const scene::OpeningFrame& b) {
  return a.wall == b.wall && a.centre == b.centre && a.width == b.width && a.height == b.height &&
         a.verdict == b.verdict;
}

template <class Thing>
void requireSame(const std::vector<Thing>& a, const std::vector<Thing>& b) {
  RC_ASSERT(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) RC_ASSERT(isSame(a[i], b[i]));
}

void requireSame(const scene::Scene& a, const scene::Scene& b) {
  requireSame(a.parts, b.parts);
  requireSame(a.solids, b.solids);
  requireSame(a.meshes, b.meshes);
  requireSame(a.uses, b.uses);
  requireSame(a.walls, b.walls);
  requireSame(a.openings, b.openings);
  RC_ASSERT(a.bounds.low == b.bounds.low);
  RC_ASSERT(a.bounds.high == b.bounds.high);
}

std::string reportOf(const job::Job& job, const practice::Practice& practice, const Answer& answer) {
  return exchange::checkJson(job, practice, answer.plan, answer.findings);
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
    requireSame(kept.scene, scene::buildMagnified(job, practice, anew.plan, anew.findings, meshes(), wanted));
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
