/// What has to be worked out anew where one job takes the place of another: the rest is taken from the last answer.
///
/// Told from the two jobs alone, by value. Each part of an answer depends on little: an opening's plan on the opening,
/// its wall, the house's corners at that wall and what the whole job shares; with heads in line also on the wall's
/// other openings. What is marked may come out the same; what is not marked does come out the same.
#pragma once

#include <vector>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// A flag a thing; char, because threads may not share the bytes of a vector<bool>.
using Flags = std::vector<char>;

struct Changes {
  bool all = true;  ///< Nothing can be kept; the lists may then be empty.
  Flags walls;      ///< As Job::walls: what the job says of the wall, or its place in the house.
  Flags frames;     ///< As Job::walls: the wall, or any of its openings.
  Flags openings;   ///< As Job::openings: the plan of the opening.
};

/// Both jobs with the same practice.
[[nodiscard]] Changes changesBetween(const job::Job& before, const job::Job& after, const practice::Practice& practice);

/// All marked.
[[nodiscard]] Changes everything(const job::Job& job);

}  // namespace sillwright::plan
