#include "invariants/random_jobs.h"

#include <rapidcheck.h>

#include <algorithm>
#include <cstdlib>
#include <utility>
#include <vector>

#include "check/judge.h"
#include "invariants/random_job.h"
#include "job/rewrite.h"
#include "support/check_json.h"
#include "support/simple_job.h"

namespace sillwright::testing {
namespace {

using Numbers = std::vector<std::uint32_t>;

/// Smaller rows to try: long stretches of zeros first, then each number by itself.
std::vector<Numbers> smaller(const Numbers& numbers) {
  std::vector<Numbers> all;
  for (std::size_t length = numbers.size() / 2; length > 0; length /= 2) {
    for (std::size_t from = 0; from < numbers.size(); from += length) {
      const auto first = numbers.begin() + static_cast<std::ptrdiff_t>(from);
      const auto last = numbers.begin() + static_cast<std::ptrdiff_t>(std::min(from + length, numbers.size()));
      if (std::all_of(first, last, [](std::uint32_t number) { return number == 0; })) continue;
      all.push_back(numbers);
      std::fill_n(all.back().begin() + static_cast<std::ptrdiff_t>(from), last - first, 0U);
    }
  }
  return all;
}

/// At first most numbers are 0 and the jobs plain; later none is.
rc::Shrinkable<Numbers> randomNumbers(rc::Random random, int size) {
  Numbers numbers(kJobNumbers + kPropertyNumbers);
  for (auto& number : numbers) {
    const auto bits = random.next();
    const bool plain = static_cast<int>(bits % 100) >= size;
    number = plain ? 0 : static_cast<std::uint32_t>(bits >> 40U);
  }
  return rc::shrinkable::shrinkRecur(std::move(numbers),
                                     [](const Numbers& from) { return rc::seq::fromContainer(smaller(from)); });
}

/// Read by the library when the first property is checked.
void sameJobsOnEveryRun() { ::setenv("RC_PARAMS", "seed=20260314 max_success=300 max_size=120", 0); }

}  // namespace

bool holdsForJobs(const std::string& says, const Property& property) {
  sameJobsOnEveryRun();
  return rc::check(says, [&] {
    const Numbers numbers = *rc::Gen<Numbers>(randomNumbers).as("numbers");
    const job::Job job = jobFrom(numbers);
    RC_LOG() << job::write(job);
    Draw more(std::span<const std::uint32_t>{numbers}.subspan(kJobNumbers));
    property(job, shipped(job.practice), more);
  });
}

Answer answerTo(const job::Job& job, const practice::Practice& practice) {
  Answer answer;
  answer.plan = plan::makePlan(job, practice);
  answer.findings = check::judge(job, practice, answer.plan);
  return answer;
}

std::string wallReport(const job::Job& job, const practice::Practice& practice, const Answer& answer,
                       std::size_t wall) {
  std::string report;  // members are named after their openings, so the whole job is asked
  exchange::addWall(report, job, practice, answer.plan, answer.findings, wall);
  return report;
}

std::string openingReport(const job::Job& job, const practice::Practice& practice, const Answer& answer,
                          std::size_t opening) {
  job::Job alone = job;
  alone.walls = {job.walls[job.openings[opening].wall]};
  alone.openings = {job.openings[opening]};
  alone.openings[0].wall = 0;
  Answer one;
  one.plan.walls.resize(1);
  one.plan.openings = {answer.plan.openings[opening]};
  one.findings.walls.resize(1);
  one.findings.openings = {answer.findings.openings[opening]};
  one.findings.verdicts = {answer.findings.verdicts[opening]};
  one.findings.bases = {answer.findings.bases[opening]};
  return testing::checkJson(alone, practice, one.plan, one.findings);
}

}  // namespace sillwright::testing
