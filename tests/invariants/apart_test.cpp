// What has nothing to do with an opening or a wall changes nothing of its answer: the order of the file, where the
// house stands, what else is built. All bit for bit, but for where the house is turned.

#include <rapidcheck.h>

#include <algorithm>
#include <numeric>
#include <vector>

#include "invariants/random_jobs.h"
#include "support/catch.h"
#include "support/simple_job.h"

namespace sillwright::testing {
namespace {

/// 0 … count − 1 in a drawn order.
std::vector<std::size_t> shuffled(Draw& draw, std::size_t count) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (std::size_t i = count; i > 1; --i) {
    std::swap(order[i - 1], order[static_cast<std::size_t>(draw.upTo(static_cast<int>(i) - 1))]);
  }
  return order;
}

/// Two openings that begin at the same place and share area: which of them is framed is told by their order.
bool startsAreApart(const job::Job& job) {
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (job.openings[i].wall == job.openings[j].wall && job.openings[i].left == job.openings[j].left) return false;
    }
  }
  return true;
}

void sameWalls(const job::Job& job, const Answer& before, const job::Job& changed, const Answer& after,
               const practice::Practice& practice) {
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    RC_ASSERT(wallReport(job, practice, before, i) == wallReport(changed, practice, after, i));
  }
}

void sameOpenings(const job::Job& job, const Answer& before, const job::Job& changed, const Answer& after,
                  const practice::Practice& practice) {
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    RC_ASSERT(openingReport(job, practice, before, i) == openingReport(changed, practice, after, i));
  }
}

}  // namespace

TEST_CASE("the order of walls and openings in the file changes no answer") {
  REQUIRE(holdsForJobs("order of the file", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    RC_PRE(startsAreApart(job));
    const auto walls = shuffled(draw, job.walls.size());
    const auto openings = shuffled(draw, job.openings.size());
    job::Job other = job;
    std::vector<std::size_t> now_at(walls.size());
    for (std::size_t i = 0; i < walls.size(); ++i) {
      other.walls[i] = job.walls[walls[i]];
      now_at[walls[i]] = i;
    }
    for (std::size_t i = 0; i < openings.size(); ++i) {
      other.openings[i] = job.openings[openings[i]];
      other.openings[i].wall = now_at[other.openings[i].wall];
    }
    const Answer before = answerTo(job, practice);
    const Answer after = answerTo(other, practice);
    for (std::size_t i = 0; i < walls.size(); ++i) {
      RC_ASSERT(wallReport(other, practice, after, i) == wallReport(job, practice, before, walls[i]));
    }
    for (std::size_t i = 0; i < openings.size(); ++i) {
      RC_ASSERT(openingReport(other, practice, after, i) == openingReport(job, practice, before, openings[i]));
    }
    RC_ASSERT(before.findings.verdict == after.findings.verdict);
  }));
}

TEST_CASE("where the house stands changes no answer") {
  REQUIRE(holdsForJobs("house moved", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    const double dx = draw.off(100'000, 250);
    const double dy = draw.off(100'000, 250);
    job::Job moved = job;
    for (auto& wall : moved.walls) {
      wall.at_x += dx;
      wall.at_y += dy;
    }
    const Answer before = answerTo(job, practice);
    const Answer after = answerTo(moved, practice);
    sameWalls(job, before, moved, after, practice);
    sameOpenings(job, before, moved, after, practice);
  }));
}

TEST_CASE("a wall added far away changes no answer") {
  REQUIRE(holdsForJobs("wall added", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    job::Job larger = job;
    job::Wall wall = job.walls[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.walls.size()) - 1))];
    wall.name = "far";
    wall.at_x = 900'000;
    wall.at_y = 900'000;
    larger.walls.push_back(wall);
    if (!job.openings.empty()) {
      job::Opening opening = job.openings.front();
      opening.name = "far";
      opening.wall = job.walls.size();
      larger.openings.push_back(opening);
    }
    const Answer before = answerTo(job, practice);
    const Answer after = answerTo(larger, practice);
    sameWalls(job, before, larger, after, practice);
    sameOpenings(job, before, larger, after, practice);
  }));
}

TEST_CASE("a window taken away changes nothing of the openings that are not near it") {
  constexpr double kFar = 2000;  // farther than side studs reach, on walls whose heads needn't be in line
  REQUIRE(holdsForJobs("window taken away", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    RC_PRE(!job.openings.empty());
    const auto gone = static_cast<std::size_t>(draw.upTo(static_cast<int>(job.openings.size()) - 1));
    const job::Opening& away = job.openings[gone];
    // Glass beside a doorway is judged by how near the doorway is.
    RC_PRE(!job::isDoor(away.unit.kind));
    job::Job smaller = job;
    smaller.openings.erase(smaller.openings.begin() + static_cast<std::ptrdiff_t>(gone));
    const Answer before = answerTo(job, practice);
    const Answer after = answerTo(smaller, practice);
    for (std::size_t i = 0; i < smaller.openings.size(); ++i) {
      const std::size_t was = i < gone ? i : i + 1;
      const job::Opening& opening = job.openings[was];
      const bool near = opening.wall == away.wall && opening.left < away.left + away.width + kFar &&
                        away.left < opening.left + opening.width + kFar;
      if (near || (opening.wall == away.wall && job.walls[opening.wall].align_heads)) continue;
      RC_ASSERT(openingReport(smaller, practice, after, i) == openingReport(job, practice, before, was));
    }
  }));
}

TEST_CASE("an opening planned by itself is planned as it is among the others") {
  REQUIRE(holdsForJobs("planOpening", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    Answer before = answerTo(job, practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      if (job.walls[job.openings[i].wall].align_heads) continue;
      const std::string among = openingReport(job, practice, before, i);
      before.plan.openings[i] = planAlone(job, i, practice);
      RC_ASSERT(openingReport(job, practice, before, i) == among);
    }
  }));
}

TEST_CASE("an opening set out elsewhere along its wall is surveyed, placed and packed as before") {
  REQUIRE(holdsForJobs("moved along", [](const job::Job& job, const practice::Practice& practice, Draw& draw) {
    const double by = draw.off(600, 0.5);
    job::Job moved = job;
    for (auto& opening : moved.openings) opening.left += by;
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      plan::OpeningPlan before = planAlone(job, i, practice);
      const plan::OpeningPlan after = planAlone(moved, i, practice);
      if (before.wind.near_corner != after.wind.near_corner) continue;
      RC_ASSERT(before.stand.x == after.stand.x);
      RC_ASSERT(before.stand.z == after.stand.z);
      RC_ASSERT(before.stand.chance == after.stand.chance);
      RC_ASSERT(before.packing.points.size() == after.packing.points.size());
      RC_ASSERT(before.fixings.points.size() == after.fixings.points.size());
      RC_ASSERT(before.fixings.worst_ratio == after.fixings.worst_ratio);
      RC_ASSERT(before.weather.pieces.size() == after.weather.pieces.size());
    }
  }));
}

}  // namespace sillwright::testing
