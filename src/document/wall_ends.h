/// Walls that meet at their ends: what follows where one is made longer, and which corners of the house no longer
/// close.
#pragma once

#include <cstddef>
#include <string>

#include "job/job.h"

namespace sillwright::document {

/// Gives a wall another length. What meets its right end goes along: a wall in that direction gives or takes the
/// length, its openings staying where they are; any other is moved, and takes along what meets its far end. A wall that
/// would be shorter than its openings and corners allow stays, and the corner opens.
void lengthenWall(job::Job& job, std::size_t wall, double length);

/// "the corner with west opens", "the top no longer meets that of west": what a change did at a wall's ends. Empty:
/// nothing.
[[nodiscard]] std::string openedAt(const job::Job& before, const job::Job& after, std::size_t wall);

}  // namespace sillwright::document
