/// The report of a plan and findings that are there already: exchange::reportJob's to the byte.
#pragma once

#include "exchange/check_json.h"

namespace sillwright::testing {

inline std::string checkJson(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                             const check::Findings& findings) {
  std::vector<std::string> walls(job.walls.size()), openings(job.openings.size());
  for (std::size_t i = 0; i < walls.size(); ++i) exchange::addWall(walls[i], job, practice, plan, findings, i);
  for (std::size_t i = 0; i < openings.size(); ++i) exchange::addOpening(openings[i], job, plan, findings, i);
  std::string out;
  exchange::writeReport(job, practice, findings, walls, openings, [&](std::string_view text) { out += text; });
  return out;
}

}  // namespace sillwright::testing
