/// Safety findings of one opening, and putting its glass at a height.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "check/judge.h"
#include "plan/panes.h"
#include "support/simple_job.h"

namespace sillwright::testing {

inline std::vector<check::Finding> judged(const job::Job& job, std::size_t opening = 0) {
  const auto& practice = shipped(job.practice);
  const auto plan = plan::makePlan(job, practice);
  return check::judge(job, practice, plan).openings[opening];
}

inline const check::Finding* about(const std::vector<check::Finding>& findings, const std::string& what) {
  const auto found =
      std::find_if(findings.begin(), findings.end(), [&](const check::Finding& each) { return each.about == what; });
  return found == findings.end() ? nullptr : &*found;
}

inline bool has(const job::Job& job, const char* what) {
  const auto findings = judged(job);
  return about(findings, what) != nullptr;
}

/// What the one finding of what isn't judged says; empty: there is none.
inline std::string notJudged(const job::Job& job) {
  const auto findings = judged(job);
  const auto* finding = about(findings, "not judged");
  return finding == nullptr ? std::string{} : finding->say;
}

/// Puts the opening so that its lowest sight line is just there.
inline void setSightLine(job::Job& job, double height) {
  const auto plan = planAlone(job, 0, shipped(job.practice));
  const double offset = plan.stand.z + plan::partsOf(plan.unit).pane[0].z0;
  job.openings[0].sill = height - offset;
}

/// Puts the opening so that its lowest part that opens is just there.
inline void setLowestOpening(job::Job& job, double height) {
  const auto plan = planAlone(job, 0, shipped(job.practice));
  job.openings[0].sill = height - plan.stand.z - plan::partsOf(plan.unit).clear.z0;
}

/// A fixed window whose one pane is of this sight size.
inline job::Job pane(double width, double height, const char* practice) {
  return simpleJob(job::UnitKind::FixedWindow, width + 2 * (18 + 45), height + 2 * (18 + 45), practice);
}

}  // namespace sillwright::testing
