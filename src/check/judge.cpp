#include "check/judge.h"

#include <algorithm>
#include <utility>

#include "check/rules.h"

namespace sillwright::check {
namespace {

/// Judging an opening takes some 6 µs, starting a thread and waiting for it more.
constexpr std::size_t kOpeningsWorthAThread = 32;

void sayNotJudged(Bench& bench) {
  if (bench.not_judged.empty()) return;
  auto& finding = add(bench.findings, Severity::Note, "not judged",
                      "Not judged, the practice names no value: " + base::joined(bench.not_judged) + ".");
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

/// The openings of the walls that are marked.
std::vector<std::size_t> openingsOf(const job::Job& job, const plan::Flags& walls) {
  std::vector<std::size_t> openings;
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    if (walls[job.openings[i].wall] != 0) openings.push_back(i);
  }
  return openings;
}

/// Adds to the findings that the frame has already made of the opening.
Verdict judgeOpening(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, std::size_t index,
                     std::vector<Finding>& findings) {
  Bench bench{job, practice, plan, index, findings, {}};
  const bool trusted = shapeIsTrusted(plan.openings[index].as_built);
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
  sortBySeverity(findings);
  return verdictOf(findings, job.openings[index], plan.openings[index]);
}

/// The worst of the openings, and of the walls' own findings.
Verdict worst(const Findings& findings) {
  Verdict verdict = Verdict::Ready;
  for (const auto& of_wall : findings.walls) {
    for (const auto& finding : of_wall) {
      if (finding.severity == Severity::Stop) return Verdict::Stop;
      if (finding.severity == Severity::Attend) verdict = std::max(verdict, Verdict::Attend);
    }
  }
  for (const Verdict of_opening : findings.verdicts) verdict = std::max(verdict, of_opening);
  return verdict;
}

}  // namespace

bool shapeIsTrusted(const plan::AsBuilt& built) {
  return built.trust != plan::Trust::Suspect && built.trust != plan::Trust::Disputed;
}

Verdict verdictOf(const std::vector<Finding>& findings, const job::Opening& opening, const plan::OpeningPlan& planned) {
  Verdict verdict = enoughRead(opening) ? Verdict::Ready : Verdict::Unread;
  const auto atLeast = [&](Verdict other) { verdict = std::max(verdict, other); };
  for (const auto& finding : findings) {
    if (finding.severity == Severity::Stop) atLeast(Verdict::Stop);
    if (finding.severity == Severity::Attend) atLeast(Verdict::Attend);
  }
  switch (planned.as_built.trust) {
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

Findings judge(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, base::Threads threads) {
  return rejudge(job, practice, plan, {}, plan::everything(job), threads);
}

Findings rejudge(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, Findings before,
                 const plan::Changes& changes, base::Threads threads) {
  Findings result = changes.all ? Findings{} : std::move(before);
  result.walls.resize(plan.walls.size());
  result.openings.resize(plan.openings.size());
  result.verdicts.resize(plan.openings.size());
  const std::vector<std::size_t> openings = openingsOf(job, changes.frames);
  for (const std::size_t i : openings) result.openings[i].clear();
  for (std::size_t i = 0; i < plan.walls.size(); ++i) {
    if (changes.frames[i] == 0) continue;
    result.walls[i].clear();
    judgeFrame(job, practice, plan.walls[i], result.openings, result.walls[i]);
    sortBySeverity(result.walls[i]);
  }
  base::inParallel(openings.size(), kOpeningsWorthAThread, threads, [&](std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) {
      result.verdicts[openings[i]] = judgeOpening(job, practice, plan, openings[i], result.openings[openings[i]]);
    }
  });
  result.verdict = worst(result);
  result.cautions = usualCautions();
  return result;
}

}  // namespace sillwright::check
