/// The report of a plan and findings that are there already: exchange::reportJob's to the byte.
#pragma once

#include "exchange/check_json.h"

namespace sillwright::testing {

inline std::string checkJson(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                             const check::Findings& findings) {
  std::string out;
  out.reserve(4096 * (1 + job.openings.size()));
  std::string one;
  const exchange::ReportTexts texts{
      [&](std::size_t i) -> std::string_view {
        one.clear();
        exchange::addWall(one, job.walls[i], plan.walls[i], findings.walls[i]);
        return one;
      },
      [&](std::size_t i) -> std::string_view {
        one.clear();
        exchange::addOpening(one, job, plan, findings, i);
        return one;
      },
  };
  exchange::writeReport(job, practice, findings, texts, [&](std::string_view text) { out += text; });
  return out;
}

}  // namespace sillwright::testing
