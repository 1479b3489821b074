// Files: what is written reads as what was meant, a save touches what changed and nothing else, and the same job gives
// the same report to the byte.

#include <rapidcheck.h>

#include <optional>
#include <string>
#include <string_view>

#include "exchange/check_json.h"
#include "invariants/random_jobs.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"
#include "support/catch.h"

namespace sillwright::testing {
namespace {

job::Job readBack(std::string_view text) {
  auto result = job::read(text, "random.toml");
  for (const auto& error : result.errors) RC_LOG() << job::toLine(error) << "\n";
  RC_ASSERT(result.ok());
  return std::move(*result.value);
}

std::string rewritten(std::string_view text, const job::Job& before, const job::Job& after) {
  auto result = job::rewrite(text, before, after);
  for (const auto& error : result.errors) RC_LOG() << job::toLine(error) << "\n";
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

template <class T>
void toggle(std::optional<T>& value, T instead) {
  if (value) {
    value.reset();
  } else {
    value = instead;
  }
}

/// Another value for one thing that is there.
void changeValue(job::Job& job, Draw& draw) {
  auto& wall = job.walls[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.walls.size()) - 1))];
  const int what = draw.upTo(9);
  const double by = 1 + draw.between(0, 40, 0.25);
  if (job.openings.empty() || what == 0) {
    for (auto& point : wall.top) point.z += by;
    return;
  }
  auto& opening = job.openings[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.openings.size()) - 1))];
  switch (what) {
    case 1:
      opening.left += by;
      break;
    case 2:
      opening.unit.width += by;
      break;
    case 3:
      opening.name += " \"north\"";
      break;
    case 4:
      opening.unit.kind = job::UnitKind::AwningWindow;
      break;
    case 5:
      if (opening.measured && opening.measured->widths[0]) *opening.measured->widths[0] += by;
      break;
    case 6:
      if (opening.unit.reveal) opening.unit.reveal->depth += by;
      break;
    case 7:
      if (opening.installed && opening.installed->opens) opening.installed->opens = !*opening.installed->opens;
      break;
    case 8:
      if (wall.drop) *wall.drop += by;
      break;
    default:
      opening.sill += by;
  }
}

/// A key put in or taken out.
void changeKey(job::Job& job, Draw& draw) {
  auto& wall = job.walls[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.walls.size()) - 1))];
  const int what = draw.upTo(9);
  if (job.openings.empty() || what == 0) return toggle(wall.spacing, 555.0);
  auto& opening = job.openings[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.openings.size()) - 1))];
  switch (what) {
    case 1:
      return toggle(opening.room, job::Room::Stair);
    case 2:
      return toggle(opening.unit.reveal, job::Reveal{19, 111});
    case 3:
      return toggle(opening.unit.mass_kg, 33.0);
    case 4:
      return toggle(wall.eave, job::Eave{2345, 432});
    case 5:
      if (opening.measured) toggle(opening.measured->widths[1], 1234.0);
      return;
    case 6:
      if (opening.measured) toggle(opening.measured->sill_fall, 1.5);
      return;
    case 7:
      return toggle(wall.drop, 900.0);
    case 8:
      return toggle(opening.lintel, job::Lintel{190, 45, 2});
    default:
      return toggle(opening.unit.fin, 22.0);
  }
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

TEST_CASE("the same job gives the same report to the byte, by another copy of its practice too") {
  // A second copy stands elsewhere in memory: an order by address would show.
  REQUIRE(holdsForJobs("report", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const Answer answer = answerTo(job, practice);
    const std::string report = exchange::checkJson(job, practice, answer.plan, answer.findings);
    const practice::Practice copy = practice;
    const Answer again = answerTo(job, copy);
    RC_ASSERT(exchange::checkJson(job, copy, again.plan, again.findings) == report);
    const job::Job read = readBack(job::write(job));
    const Answer of_file = answerTo(read, practice);
    RC_ASSERT(exchange::checkJson(read, practice, of_file.plan, of_file.findings) == report);
  }));
}

}  // namespace sillwright::testing
