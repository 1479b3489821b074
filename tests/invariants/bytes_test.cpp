// Files: what is written reads as what was meant, a save touches what changed and nothing else, and the same job gives
// the same report to the byte.

#include <rapidcheck.h>

#include <optional>
#include <string>
#include <string_view>

#include "exchange/check_json.h"
#include "invariants/random_edit.h"
#include "invariants/random_jobs.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"
#include "support/catch.h"
#include "support/check_json.h"

namespace sillwright::testing {
namespace {

job::Job readBack(std::string_view text) {
  auto result = job::read(text, "random.toml");
  for (const auto& error : result.errors) RC_LOG() << base::toLine(error) << "\n";
  RC_ASSERT(result.ok());
  return std::move(*result.value);
}

std::string rewritten(std::string_view text, const job::Job& before, const job::Job& after) {
  auto result = job::rewrite(text, before, after);
  for (const auto& error : result.errors) RC_LOG() << base::toLine(error) << "\n";
  RC_ASSERT(result.ok());
  return std::move(*result.value);
}

/// `values`, each wall and opening known as the one that stands in `job` at its place.
job::Job atPlacesOf(const job::Job& job, job::Job values) {
  for (std::size_t i = 0; i < job.walls.size(); ++i) values.walls[i].place = job.walls[i].place;
  for (std::size_t i = 0; i < job.openings.size(); ++i) values.openings[i].place = job.openings[i].place;
  return values;
}

/// As a person's file: a comment behind some lines, empty lines and comments between some, perhaps with the line ends
/// of another machine.
std::string decorated(const std::string& text, Draw& draw) {
  const std::string line_end = draw.oneIn(3) ? "\r\n" : "\n";
  const bool comments = draw.oneIn(2);
  std::string out = draw.oneIn(4) ? "# as measured" + line_end : std::string{};
  std::size_t line = 0;
  for (std::size_t at = 0; at < text.size(); ++line) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    out += text.substr(at, end - at);
    if (comments && end > at && line % 3 == 1) out += "   # so it was";
    out += line_end;
    if (comments && line % 7 == 2) out += "# between" + line_end;
    at = end + 1;
  }
  return out;
}

/// The text after a change was saved, which must be read as the changed job, and then taken back and saved again.
template <class Change>
std::string thereAndBack(const std::string& text, Change change) {
  const job::Job before = readBack(text);
  job::Job after = before;
  change(after);
  const std::string saved = rewritten(text, before, after);
  const job::Job read = readBack(saved);
  RC_ASSERT(job::sameValues(read, after));
  return rewritten(saved, read, atPlacesOf(read, before));
}

}  // namespace

TEST_CASE("a job that is written and read again is the same job, and is written the same") {
  REQUIRE(holdsForJobs("written and read", [](const job::Job& job, const practice::Practice&, Draw&) {
    const std::string text = job::write(job);
    const job::Job again = readBack(text);
    RC_ASSERT(job::sameValues(job, again));
    RC_ASSERT(job::write(again) == text);
  }));
}

TEST_CASE("saving without a change keeps every byte") {
  REQUIRE(holdsForJobs("saved unchanged", [](const job::Job& job, const practice::Practice&, Draw& draw) {
    const std::string text = decorated(job::write(job), draw);
    const job::Job read = readBack(text);
    RC_ASSERT(job::sameValues(job, read));
    RC_ASSERT(rewritten(text, read, read) == text);
  }));
}

TEST_CASE("a value that is changed and changed back leaves every byte as it was") {
  REQUIRE(holdsForJobs("value there and back", [](const job::Job& job, const practice::Practice&, Draw& draw) {
    const std::string text = decorated(job::write(job), draw);
    RC_ASSERT(thereAndBack(text, [&](job::Job& changed) { changeValue(changed, draw); }) == text);
  }));
}

TEST_CASE("a key that is put in or taken out and back again leaves the file saying the same") {
  REQUIRE(holdsForJobs("key there and back", [](const job::Job& job, const practice::Practice&, Draw& draw) {
    const std::string text = decorated(job::write(job), draw);
    const job::Job again = readBack(thereAndBack(text, [&](job::Job& changed) { changeKey(changed, draw); }));
    RC_ASSERT(job::sameValues(again, readBack(text)));
  }));
}

TEST_CASE("worked out a few walls at a time, a job gives the same report to the byte and the same verdict") {
  REQUIRE(holdsForJobs("report in parts", [](const job::Job& drawn, const practice::Practice& practice, Draw&) {
    job::Job job = drawn;  // what is said of the whole job is judged in every part of it
    job.built = 1950;
    if (!practice.unit.heat.empty()) job.heat = practice.unit.heat.front().name;
    if (!practice.unit.bushfire.empty()) job.bushfire = practice.unit.bushfire.front().name;
    const Answer answer = answerTo(job, practice);
    std::string parts;
    const auto verdict = exchange::reportJob(job, practice, [&](std::string_view text) { parts += text; });
    RC_ASSERT(parts == testing::checkJson(job, practice, answer.plan, answer.findings));
    RC_ASSERT(verdict == answer.findings.verdict);
  }));
}

TEST_CASE("the same job gives the same report to the byte, by another copy of its practice too") {
  // A second copy stands elsewhere in memory: an order by address would show.
  REQUIRE(holdsForJobs("report", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const Answer answer = answerTo(job, practice);
    const std::string report = testing::checkJson(job, practice, answer.plan, answer.findings);
    const practice::Practice copy = practice;
    const Answer again = answerTo(job, copy);
    RC_ASSERT(testing::checkJson(job, copy, again.plan, again.findings) == report);
    const job::Job read = readBack(job::write(job));
    const Answer of_file = answerTo(read, practice);
    RC_ASSERT(testing::checkJson(read, practice, of_file.plan, of_file.findings) == report);
  }));
}

}  // namespace sillwright::testing
