/// Which ends of the walls are corners of the house, for the wind: it pulls hardest near them.
///
/// An end that meets no other wall is free and counts as a corner. One that meets another wall is a corner where the
/// house turns away from it (an outer corner, at any angle), and none where the walls go on in line or the house turns
/// towards it (the inner corner of an L). Looked at once a job: the walls' places do not depend on their openings.
#pragma once

#include <array>
#include <vector>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::plan {

struct HouseEnd {
  bool corner = true;
  double past_end = 0;  ///< From the wall's end to the corner of the studs' outside faces, + is past the end, mm.
  double apart = 0;  ///< From the wall that would make a square corner with it, if they met; 0: they do, or none would.
  bool operator==(const HouseEnd&) const = default;
};

/// Left and right end of a wall.
using HouseEnds = std::array<HouseEnd, 2>;

/// As Job::walls.
[[nodiscard]] std::vector<HouseEnds> houseCorners(const job::Job& job, const practice::Practice& practice);

/// Whether an opening's unit takes the pressure near a corner: one panel of it has at least the practice's share of its
/// width within the practice's distance. A sliding unit has two panels; the unit stands in the middle of its opening.
/// Without a named distance: never.
[[nodiscard]] bool isNearCorner(const job::Wall& wall, const HouseEnds& ends, const job::Opening& opening,
                                const practice::Wind& rules);

}  // namespace sillwright::plan
