// Jobs by chance, laid out and commented by chance, changed by chance: what is saved reads back as the changed job,
// and every line that has nothing to do with the change is there byte for byte.
#include <set>

#include "job/read.h"
#include "job/rewrite.h"
#include "job_maker.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::job::test {
namespace {

std::vector<std::string> linesOf(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find('\n', at), text.size() - 1) + 1;
    lines.push_back(text.substr(at, end - at));
    at = end;
  }
  return lines;
}

/// The text with comments behind values and between lines, and now and then other line ends.
std::string commented(const std::string& text, Chance& chance) {
  std::string out;
  int number = 0;
  const auto comment = [&] { return "# é note " + std::to_string(++number); };
  for (auto line : linesOf(text)) {
    line.pop_back();
    if (!line.empty() && chance.below(5) == 0) line += "   " + comment();
    if (chance.below(12) == 0) out += comment() + "\n";
    if (chance.below(20) == 0) out += "\n";
    out += line + "\n";
  }
  return chance.below(4) == 0 ? replaced(out, "\n", "\r\n") : out;
}

template <class T>
void swapSome(T& mine, const T& other, Chance& chance) {
  if (chance.below(3) == 0) mine = other;
}

void changeWall(Wall& wall, const Wall& other, Chance& chance) {
  if (chance.below(3) == 0) {
    wall.length = other.length;
    wall.top = other.top;
  }
  swapSome(wall.stud, other.stud, chance);
  swapSome(wall.spacing, other.spacing, chance);
  swapSome(wall.plates, other.plates, chance);
  swapSome(wall.eave, other.eave, chance);
  swapSome(wall.timber, other.timber, chance);
  swapSome(wall.at_x, other.at_x, chance);
  swapSome(wall.turn_degrees, other.turn_degrees, chance);
  swapSome(wall.align_heads, other.align_heads, chance);
  swapSome(wall.above_ground, other.above_ground, chance);
}

void changeOpening(Opening& opening, const Opening& other, Chance& chance) {
  swapSome(opening.left, other.left, chance);
  swapSome(opening.sill, other.sill, chance);
  swapSome(opening.room, other.room, chance);
  swapSome(opening.lintel, other.lintel, chance);
  swapSome(opening.unit.kind, other.unit.kind, chance);
  swapSome(opening.unit.reveal, other.unit.reveal, chance);
  swapSome(opening.unit.fin, other.unit.fin, chance);
  swapSome(opening.unit.glass, other.unit.glass, chance);
  swapSome(opening.unit.hand, other.unit.hand, chance);
  swapSome(opening.installed, other.installed, chance);
  swapSome(opening.measured, other.measured, chance);
  if (opening.measured && other.measured) {
    swapSome(opening.measured->widths[1], other.measured->widths[1], chance);
    swapSome(opening.measured->out_of_plumb, other.measured->out_of_plumb, chance);
    swapSome(opening.measured->by, other.measured->by, chance);
  }
}

/// The job after up to a handful of changes.
Job changed(Job job, Chance& chance) {
  JobMaker maker(chance);
  if (chance.below(4) == 0) job.title = maker.text();
  if (chance.below(4) == 0) job.wind = maker.job().wind;
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    if (chance.even()) changeWall(job.walls[i], maker.wall("other"), chance);
    if (chance.below(6) == 0) job.walls[i].name = "renamed" + std::to_string(i) + maker.text();
  }
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    if (chance.even()) changeOpening(job.openings[i], maker.opening("other"), chance);
    if (chance.below(6) == 0) job.openings[i].name = "renamed" + std::to_string(i) + maker.text();
    if (chance.below(6) == 0) job.openings[i].wall = chance.below(job.walls.size());
  }
  for (int i = 0; i < 2; ++i) {
    if (!job.openings.empty() && chance.below(4) == 0) {
      job.openings.erase(job.openings.begin() + static_cast<std::ptrdiff_t>(chance.below(job.openings.size())));
    }
    if (chance.below(4) == 0) {
      auto made = maker.opening("new" + std::to_string(i));
      made.wall = chance.below(job.walls.size());
      job.openings.insert(job.openings.begin() + static_cast<std::ptrdiff_t>(chance.below(job.openings.size() + 1)),
                          made);
    }
    if (chance.below(6) == 0) job.walls.push_back(maker.wall("added" + std::to_string(i)));
  }
  if (chance.below(4) == 0) job.stock = chance.even() ? std::optional(maker.stock()) : std::nullopt;
  return job;
}

/// Lines of the old text that stand in the new one, in the same order.
std::size_t linesKept(const std::vector<std::string>& before, const std::vector<std::string>& after) {
  std::vector<std::size_t> row(after.size() + 1);
  for (const auto& line : before) {  // longest common subsequence, a row at a time
    std::size_t diagonal = 0;
    for (std::size_t j = 0; j < after.size(); ++j) {
      const std::size_t above = row[j + 1];
      row[j + 1] = line == after[j] ? diagonal + 1 : std::max(row[j], above);
      diagonal = above;
    }
  }
  return row.back();
}

}  // namespace

TEST_CASE("any job changed in any way reads back from its rewritten text") {
  std::size_t differing = 0;
  for (std::uint64_t seed = 1; seed <= 600; ++seed) {
    Chance chance(seed);
    const auto text = commented(writeToml(JobMaker(chance).job(), chance), chance);
    const auto before = read(text, "made.toml");
    INFO("seed " << seed << "\n" << text << allLines(before.errors));
    REQUIRE(before.ok());
    const Job now = changed(*before.value, chance);
    const auto result = rewrite(text, *before.value, now);
    INFO(allLines(result.errors));
    REQUIRE(result.ok());
    const auto back = read(*result.value, "made.toml");
    REQUIRE(back.ok());
    CHECK(withoutPlaces(*back.value) == withoutPlaces(now));
    if (!sameValues(*before.value, now)) ++differing;
  }
  CHECK(differing > 500);
}

TEST_CASE("a change of one number changes one line, and of that line no other byte") {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Chance chance(seed);
    const auto text = commented(writeToml(JobMaker(chance).job(), chance), chance);
    const auto before = read(text, "made.toml");
    REQUIRE(before.ok());
    Job now = *before.value;
    if (now.openings.empty()) continue;
    auto& opening = now.openings[chance.below(now.openings.size())];
    const bool of_unit = chance.even();
    (of_unit ? opening.unit.width : opening.sill) = 777.125;
    const auto result = rewrite(text, *before.value, now);
    REQUIRE(result.ok());
    const auto was = linesOf(text);
    const auto is = linesOf(*result.value);
    REQUIRE(was.size() == is.size());
    for (std::size_t i = 0; i < was.size(); ++i) {
      if (was[i] == is[i]) continue;
      const auto at = is[i].find("777.125");
      REQUIRE(at != std::string::npos);
      CHECK(was[i].starts_with(is[i].substr(0, at)));
      const auto behind = is[i].substr(at + 7);
      CHECK(was[i].ends_with(behind));
      const auto value = was[i].substr(at, was[i].size() - at - behind.size());
      CHECK(value.find_first_not_of("+-.0123456789e") == std::string::npos);
    }
    CHECK(linesKept(was, is) + 1 == was.size());
  }
}

TEST_CASE("walls and openings that stay as they were keep every byte of their sections, and comments are not lost") {
  for (std::uint64_t seed = 1001; seed <= 1300; ++seed) {
    Chance chance(seed);
    const auto text = commented(writeToml(JobMaker(chance).job(), chance), chance);
    const auto before = read(text, "made.toml");
    REQUIRE(before.ok());
    Job now = *before.value;
    if (now.openings.size() < 2) continue;
    const std::size_t touched = chance.below(now.openings.size());
    const auto line = now.openings[touched].place.line;
    const bool is_last = touched + 1 == now.openings.size();
    const std::size_t first = line - 1;
    const auto was = linesOf(text);
    const std::size_t past = is_last ? was.size() : now.openings[touched + 1].place.line - 1;
    changeOpening(now.openings[touched], JobMaker(chance).opening("other"), chance);
    const auto result = rewrite(text, *before.value, now);
    REQUIRE(result.ok());
    const auto is = linesOf(*result.value);
    INFO("seed " << seed << "\n" << text << "-----\n" << *result.value);
    // All above the opening's header and, but for a stock that follows the last, all below its lines.
    CHECK(std::equal(was.begin(), was.begin() + static_cast<std::ptrdiff_t>(first), is.begin()));
    const std::size_t below = was.size() - past;
    REQUIRE(is.size() >= below);
    CHECK(std::equal(was.end() - static_cast<std::ptrdiff_t>(below), was.end(),
                     is.end() - static_cast<std::ptrdiff_t>(below)));
    // Lines that are comments alone are lost only inside of sections that were removed.
    std::set<std::string> left(is.begin(), is.end());
    const bool removes_section = (before.value->openings[touched].measured && !now.openings[touched].measured) ||
                                 (before.value->openings[touched].installed && !now.openings[touched].installed);
    for (const auto& each : was) {
      if (each[0] == '#' && !removes_section) CHECK(left.count(each) == 1);
    }
  }
}

}  // namespace sillwright::job::test
