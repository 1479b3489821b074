// The same answer for any number of threads, and the work shared out whole.

#include <algorithm>
#include <atomic>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "bench/many.h"
#include "check/judge.h"
#include "exchange/check_json.h"
#include "plan/plan.h"
#include "support/catch.h"
#include "support/check_json.h"
#include "support/simple_job.h"

namespace sillwright::testing {

TEST_CASE("a large job gives the same report to the byte by 1, 2 and 7 threads") {
  job::Job job = bench::manyOpenings(400);
  std::reverse(job.openings.begin() + 100, job.openings.end());  // no wall's openings where its neighbours' are
  job::Wall& across = job.walls[4];  // after four walls of ten openings, which are worked out together
  across.turn_degrees = 90;
  across.at_x = job.walls[3].at_x + job.walls[3].length + 200;
  across.at_y = job.walls[3].at_y;
  const practice::Practice& practice = shipped(job.practice);
  const auto report = [&](unsigned threads) {
    const plan::Plan plan = plan::makePlan(job, practice, {threads});
    const check::Findings findings = check::judge(job, practice, plan, {threads});
    return testing::checkJson(job, practice, plan, findings);
  };
  const std::string one = report(1);
  CHECK(one.size() > 400 * 1000);
  CHECK(one.find("house corner") != std::string::npos);
  CHECK(report(2) == one);
  CHECK(report(7) == one);
  for (const unsigned threads : {1U, 2U, 7U}) {
    std::string parts;
    exchange::reportJob(job, practice, [&](std::string_view text) { parts += text; }, {threads});
    CHECK(parts == one);
  }
}

TEST_CASE("every part of the work is done once, however it is shared out") {
  for (const unsigned threads : {0U, 1U, 2U, 7U, 64U}) {
    for (const std::size_t count : {0U, 1U, 5U, 100U, 1001U}) {
      std::vector<std::atomic<int>> done(count);
      base::inParallel(count, 3, {threads}, [&](std::size_t first, std::size_t last) {
        for (std::size_t i = first; i < last; ++i) ++done[i];
      });
      const bool once = std::all_of(done.begin(), done.end(), [](const auto& times) { return times == 1; });
      CAPTURE(threads, count);
      CHECK(once);
    }
  }
}

TEST_CASE("what goes wrong in a thread is told to whoever asked for the work") {
  for (const unsigned threads : {1U, 4U}) {
    CHECK_THROWS_AS(base::inParallel(1000, 1, {threads},
                                     [](std::size_t first, std::size_t last) {
                                       if (first <= 500 && 500 < last) throw std::runtime_error("no memory");
                                     }),
                    std::runtime_error);
  }
}

}  // namespace sillwright::testing
