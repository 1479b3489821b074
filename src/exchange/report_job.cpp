// The report of a job too large to be held as a plan: a few walls at a time are planned, judged and written down.
#include <algorithm>
#include <utility>

#include "check/judge.h"
#include "exchange/check_parts.h"
#include "plan/plan.h"

namespace sillwright::exchange {
namespace {

/// Openings that are worked out together: enough that what they share is looked up seldom, and few enough that their
/// plans stay in the processor's nearest memory.
constexpr std::size_t kOpeningsTogether = 32;

/// Some of the job's walls, by their indices, with all their openings.
struct Part {
  std::vector<std::size_t> walls;
  std::vector<std::size_t> openings;
};

std::vector<Part> partsOf(const job::Job& job) {
  std::vector<std::vector<std::size_t>> of_wall(job.walls.size());
  for (std::size_t i = 0; i < job.openings.size(); ++i) of_wall[job.openings[i].wall].push_back(i);
  std::vector<Part> parts(1);
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    if (parts.back().openings.size() >= kOpeningsTogether) parts.emplace_back();
    Part& part = parts.back();
    part.walls.push_back(i);
    part.openings.insert(part.openings.end(), of_wall[i].begin(), of_wall[i].end());
  }
  return parts;
}

/// What the whole job says, with nothing in it.
job::Job shellOf(const job::Job& job) {
  job::Job shell;
  shell.file = job.file;
  shell.title = job.title;
  shell.practice = job.practice;
  shell.wind = job.wind;
  shell.stock = job.stock;
  return shell;
}

/// Where in the parts' texts one wall or one opening stands.
struct Stretch {
  std::size_t part = 0;
  std::size_t from = 0;
  std::size_t size = 0;
};

/// What is kept of the parts.
struct Kept {
  std::vector<std::string> texts;        ///< As the parts.
  std::vector<check::Verdict> verdicts;  ///< As the parts.
  std::vector<check::Basis> bases;
  std::vector<Stretch> walls;
  std::vector<Stretch> openings;
  std::vector<std::string> cautions;  ///< The job's, from any part.

  [[nodiscard]] std::string_view at(const Stretch& stretch) const {
    return std::string_view(texts[stretch.part]).substr(stretch.from, stretch.size);
  }
};

/// Works out one part and keeps what is said of it. `text`: to write in, so that its room is used again.
void report(const job::Job& job, const practice::Practice& practice, const std::vector<plan::HouseEnds>& corners,
            const Part& part, std::size_t number, std::string& text, Kept& kept) {
  job::Job some = shellOf(job);
  std::vector<plan::HouseEnds> ends;
  for (const std::size_t wall : part.walls) {
    some.walls.push_back(job.walls[wall]);
    ends.push_back(corners[wall]);
  }
  for (const std::size_t opening : part.openings) {
    some.openings.push_back(job.openings[opening]);
    std::size_t& wall = some.openings.back().wall;
    wall -= part.walls.front();  // the walls of a part follow each other
  }
  const plan::Plan plan = plan::makePlanOfPart(some, practice, std::move(ends));
  check::Findings findings = check::judge(some, practice, plan, {1});
  text.clear();
  for (std::size_t i = 0; i < part.walls.size(); ++i) {
    const std::size_t from = text.size();
    addWall(text, some.walls[i], plan.walls[i], findings.walls[i]);
    kept.walls[part.walls[i]] = {number, from, text.size() - from};
  }
  for (std::size_t i = 0; i < part.openings.size(); ++i) {
    const std::size_t from = text.size();
    addOpening(text, some, plan, findings, i);
    kept.openings[part.openings[i]] = {number, from, text.size() - from};
  }
  kept.texts[number].assign(text.data(), text.size());
  kept.verdicts[number] = findings.verdict;
  kept.bases[number] = findings.basis;
  if (number == 0) kept.cautions = std::move(findings.cautions);
}

}  // namespace

check::Verdict reportJob(const job::Job& job, const practice::Practice& practice, const Sink& sink,
                         base::Threads threads) {
  const std::vector<plan::HouseEnds> corners = plan::houseCorners(job, practice);
  const std::vector<Part> parts = partsOf(job);
  Kept kept;
  kept.texts.resize(parts.size());
  kept.verdicts.resize(parts.size());
  kept.bases.resize(parts.size());
  kept.walls.resize(job.walls.size());
  kept.openings.resize(job.openings.size());
  base::inParallel(parts.size(), 1, threads, [&](std::size_t first, std::size_t last) {
    std::string text;
    for (std::size_t i = first; i < last; ++i) report(job, practice, corners, parts[i], i, text, kept);
  });
  check::Findings whole;
  whole.cautions = std::move(kept.cautions);
  whole.verdict = *std::max_element(kept.verdicts.begin(), kept.verdicts.end());
  whole.basis = *std::max_element(kept.bases.begin(), kept.bases.end());
  const ReportTexts texts{[&](std::size_t i) { return kept.at(kept.walls[i]); },
                          [&](std::size_t i) { return kept.at(kept.openings[i]); }};
  writeReport(job, practice, whole, texts, sink);
  return whole.verdict;
}

}  // namespace sillwright::exchange
