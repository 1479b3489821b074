/// A house of any number of openings for the benchmarks: the workshop's wall and measured window over and over.
#pragma once

#include <string>
#include <utility>

#include "job/job.h"
#include "job/read.h"

namespace sillwright::bench {

inline constexpr int kAcross = 6;  ///< Openings in a wall.

[[nodiscard]] inline job::Job house(int openings) {
  job::Job made = *job::readFile(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml").value;
  const job::Wall wall = made.walls[0];
  const job::Opening opening = made.openings[0];
  made.title = "A house of " + std::to_string(openings) + " openings";
  made.walls.clear();
  made.openings.clear();
  for (int i = 0; i < openings; ++i) {
    const int across = i % kAcross;
    if (across == 0) {
      job::Wall one = wall;
      one.name = "w" + std::to_string(made.walls.size());
      one.length = kAcross * 2400.0 + 600;
      one.top.front().x = 0;
      one.top.back().x = one.length;
      one.at_y = static_cast<double>(made.walls.size()) * 6000.0;
      made.walls.push_back(std::move(one));
    }
    job::Opening each = opening;
    each.name = "o" + std::to_string(i);
    each.wall = made.walls.size() - 1;
    each.left = 500.0 + across * 2400.0;
    made.openings.push_back(std::move(each));
  }
  return made;
}

}  // namespace sillwright::bench
