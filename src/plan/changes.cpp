#include "plan/changes.h"

#include <algorithm>
#include <cstddef>

#include "plan/house_corners.h"

namespace sillwright::plan {
namespace {

/// Whether the openings hang in the walls as before and what the whole job shares is the same.
bool areComparable(const job::Job& before, const job::Job& after) {
  return before.practice == after.practice && before.wind == after.wind && before.bushfire == after.bushfire &&
         before.heat == after.heat && before.stock == after.stock && before.walls.size() == after.walls.size() &&
         std::equal(before.openings.begin(), before.openings.end(), after.openings.begin(), after.openings.end(),
                    [](const job::Opening& a, const job::Opening& b) { return a.wall == b.wall; });
}

/// Walls that are not as they were, and those whose corners of the house have moved with another wall.
void markWalls(const job::Job& before, const job::Job& after, const practice::Practice& practice, Flags& walls) {
  bool any = false;
  for (std::size_t i = 0; i < walls.size(); ++i) {
    walls[i] = before.walls[i] == after.walls[i] ? 0 : 1;
    any = any || walls[i] != 0;
  }
  if (!any) return;
  const std::vector<HouseEnds> ends_before = houseCorners(before, practice);
  const std::vector<HouseEnds> ends_after = houseCorners(after, practice);
  for (std::size_t i = 0; i < walls.size(); ++i) {
    if (ends_before[i] != ends_after[i]) walls[i] = 1;
  }
}

}  // namespace

Changes changesBetween(const job::Job& before, const job::Job& after, const practice::Practice& practice) {
  if (!areComparable(before, after)) return everything(after);
  Changes changes{false, Flags(after.walls.size()), {}, Flags(after.openings.size())};
  markWalls(before, after, practice, changes.walls);
  changes.frames = changes.walls;
  for (std::size_t i = 0; i < after.openings.size(); ++i) {
    if (before.openings[i] == after.openings[i]) continue;
    changes.openings[i] = 1;
    changes.frames[after.openings[i].wall] = 1;
  }
  for (std::size_t i = 0; i < after.openings.size(); ++i) {
    const std::size_t wall = after.openings[i].wall;
    const bool in_line = after.walls[wall].align_heads && changes.frames[wall] != 0;
    if (changes.walls[wall] != 0 || in_line) changes.openings[i] = 1;
  }
  return changes;
}

Changes everything(const job::Job& job) {
  return {true, Flags(job.walls.size(), 1), Flags(job.walls.size(), 1), Flags(job.openings.size(), 1)};
}

}  // namespace sillwright::plan
