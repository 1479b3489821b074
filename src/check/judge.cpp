#include "check/judge.h"

#include <algorithm>

#include "check/rules.h"

namespace sillwright::check {
namespace {

void sayNotJudged(Bench& bench) {
  auto& names = bench.not_judged;
  if (names.empty()) return;
  std::string said;
  for (const auto& name : names) {
    if (!said.empty()) said += ", ";
    said += name;
  }
  auto& finding =
      add(bench.findings, Severity::Note, "not judged", "Not judged, the practice names no value: " + said + ".");
  finding.remedy = "Put the value you work by, and where it comes from, into the practice file.";
}

/// Stops first, then what wants attention, then notes; the order of the rules within each.
void sortBySeverity(std::vector<Finding>& findings) {
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
}

std::vector<std::string> usualCautions() {
  return {
      "Units are heavy and glass breaks: enough people, gloves and shoes, carried upright and never flat.",
      "At height, work from a proper platform and never leave an opening unguarded.",
      "Cutting blades, wood dust and silica dust: guards on, eyes, ears and lungs protected.",
      "Before a screw goes in, know what runs behind it: cables and pipes hide in walls.",
      "Lintels, studs and plates are altered only under span tables or an engineer.",
      "Everything here is indicative: local codes, the unit maker's instructions and licensed trades come first.",
  };
}

}  // namespace

bool shapeIsTrusted(const plan::AsBuilt& built) {
  return built.trust != plan::Trust::Suspect && built.trust != plan::Trust::Disputed;
}

Verdict verdictOf(const std::vector<Finding>& findings, const plan::OpeningPlan& opening) {
  Verdict verdict = Verdict::Ready;
  const auto atLeast = [&](Verdict other) { verdict = std::max(verdict, other); };
  for (const auto& finding : findings) {
    if (finding.severity == Severity::Stop) atLeast(Verdict::Stop);
    if (finding.severity == Severity::Attend) atLeast(Verdict::Attend);
  }
  switch (opening.as_built.trust) {
    case plan::Trust::Planned:
    case plan::Trust::Suspect:
    case plan::Trust::Disputed:
      atLeast(Verdict::Unread);
      break;
    case plan::Trust::Unchecked:
    case plan::Trust::Sound:
      break;
  }
  return verdict;
}

Findings judge(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan) {
  Findings result;
  result.walls.resize(plan.walls.size());
  result.openings.resize(plan.openings.size());
  result.verdicts.resize(plan.openings.size());
  for (std::size_t i = 0; i < plan.walls.size(); ++i) {
    judgeFrame(job, practice, plan.walls[i], result.openings, result.walls[i]);
    sortBySeverity(result.walls[i]);
    for (const auto& finding : result.walls[i]) {
      if (finding.severity == Severity::Stop) result.verdict = Verdict::Stop;
      if (finding.severity == Severity::Attend) result.verdict = std::max(result.verdict, Verdict::Attend);
    }
  }
  for (std::size_t i = 0; i < plan.openings.size(); ++i) {
    Bench bench{job, practice, plan, i, result.openings[i], {}};
    const bool trusted = shapeIsTrusted(plan.openings[i].as_built);
    judgeSetOut(bench);
    judgeFit(bench);
    judgeReadings(bench);
    judgePacking(bench);
    if (trusted) judgeFixing(bench);
    judgeStrength(bench);
    judgeSafety(bench);
    if (trusted) judgeWeather(bench);
    judgeInstalled(bench);
    sayNotJudged(bench);
    sortBySeverity(result.openings[i]);
    result.verdicts[i] = verdictOf(result.openings[i], plan.openings[i]);
    if (!enoughRead(job.openings[i])) result.verdicts[i] = std::max(result.verdicts[i], Verdict::Unread);
    result.verdict = std::max(result.verdict, result.verdicts[i]);
  }
  result.cautions = usualCautions();
  return result;
}

}  // namespace sillwright::check
