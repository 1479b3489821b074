// Whatever the reader lets through, what leaves the program holds numbers: no "nan", no "inf", no null.

#include <nlohmann/json.hpp>
#include <random>
#include <regex>

#include "check/judge.h"
#include "cli/text.h"
#include "exchange/csv.h"
#include "fuzz/likely_job.h"
#include "scene/build/build.h"
#include "sheet/sheets.h"
#include "support/catch.h"
#include "support/check_json.h"
#include "support/simple_job.h"
#include "takeoff/order.h"

using namespace sillwright;

namespace {

constexpr unsigned kJobs = 120;
constexpr unsigned kJobsOnPaper = 16;  // drawing takes longer than all else

/// As wide as the reader's bounds, from one end to the other; mostly near enough to a house to be planned throughout.
job::Job wideJob(unsigned seed) {
  std::mt19937 random(seed);
  std::vector<std::uint8_t> choices(2000);
  for (auto& choice : choices) choice = static_cast<std::uint8_t>(random() >> 24U);
  fuzz::Bytes bytes(choices.data(), choices.size());
  const char* const practices[] = {"au", "nz", "us", "uk"};
  return fuzz::LikelyJob(bytes, testing::shipped(practices[seed % 4])).make();
}

/// The first that is no number in a text, with what stands round it. words::length says "?" of what is none.
std::string noNumber(const std::string& text) {
  static const std::regex kNone(R"((^|[^A-Za-z])(nan|inf|infinity|null)([^A-Za-z]|$)| \? )");
  std::smatch found;
  if (!std::regex_search(text, found, kNone)) return {};
  const auto at = static_cast<std::size_t>(found.position());
  return text.substr(at < 60 ? 0 : at - 60, 120);
}

/// Plans and judges so many wide jobs; `see` is given each that its practice agrees with.
template <class See>
void forWideJobs(unsigned count, const See& see) {
  for (unsigned seed = 0; seed < count; ++seed) {
    CAPTURE(seed);
    const job::Job job = wideJob(seed);
    const auto& practice = testing::shipped(job.practice);
    if (!plan::disagreements(job, practice).empty()) continue;
    const plan::Plan plan = plan::makePlan(job, practice);
    see(job, practice, plan, check::judge(job, practice, plan));
  }
}

}  // namespace

TEST_CASE("no report, table, list or step of any job that is read holds what is no number") {
  forWideJobs(kJobs, [](const auto& job, const auto& practice, const auto& plan, const auto& findings) {
    const std::string report = testing::checkJson(job, practice, plan, findings);
    CHECK(nlohmann::json::accept(report));
    CHECK(noNumber(report) == "");
    CHECK(noNumber(cli::checkWords(job, practice, 100, true).text) == "");
    CHECK(noNumber(cli::crewText(job, plan, 100)) == "");
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      CHECK(noNumber(cli::stepsText(job, practice, plan, i, 100)) == "");
    }
    takeoff::TakeoffOptions quick;
    quick.steps = 10'000;
    for (const auto& table : takeoff::allLists(job, practice, plan, findings, quick)) {
      CHECK(noNumber(exchange::csv(table, practice.display)) == "");
      CHECK(noNumber(cli::listText(table, practice.display, 100)) == "");
    }
  });
}

TEST_CASE("no sheet of any job that is read letters what is no number") {
  forWideJobs(kJobsOnPaper, [](const auto& job, const auto& practice, const auto& plan, const auto& findings) {
    const scene::Scene scene = scene::build(job, practice, plan, {});
    for (const auto& page : sheet::layOut({job, practice, plan, findings, scene})) {
      for (const auto& label : page.labels) CHECK(noNumber(label.text) == "");
    }
  });
}
