// Figures, bands, and the small questions that are asked of a practice.
#include <cmath>
#include <limits>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "practice/practice.h"
#include "practice/read.h"
#include "support.h"
#include "support/catch.h"
#include "words/text.h"

namespace sillwright::practice::test {

namespace {

Figure figureOf(double value) {
  Figure figure;
  figure.value = value;
  return figure;
}

/// Every figure of a practice with its key.
std::vector<std::pair<std::string, Figure>> keyed(Practice practice) {
  std::vector<std::pair<std::string, Figure>> list;
  for (const Listed& one : figuresOf(practice)) {
    list.emplace_back(one.key, *one.figure);
  }
  return list;
}

}  // namespace

TEST_CASE("a band holds up to and including its size") {
  const Bands bands{{{1500, figureOf(5)}, {3000, figureOf(7.5)}}};
  CHECK(bands.at(0)->value == 5);
  CHECK(bands.at(1500)->value == 5);
  CHECK(bands.at(std::nextafter(1500.0, 2000.0))->value == 7.5);
  CHECK(bands.at(3000)->value == 7.5);
  CHECK(bands.at(3000.1) == nullptr);
  CHECK(bands.at(std::numeric_limits<double>::quiet_NaN()) == nullptr);
  CHECK(Bands{}.at(100) == nullptr);
}

TEST_CASE("a figure by wind class is found by the whole name") {
  const ByClass figures{{{"N1", figureOf(40)}, {"N10", figureOf(50)}}};
  CHECK(figures.at("N10")->value == 50);
  CHECK(figures.at("N") == nullptr);
  CHECK(figures.at("n1") == nullptr);
}

TEST_CASE("a figure is cited with its clause, edition, and doubt") {
  Figure figure{110, "mm", "ABCB Housing Provisions", "7.5.6(a)(i)", "2022", Status::Published, ""};
  CHECK(cite(figure) == "ABCB Housing Provisions 7.5.6(a)(i), 2022");
  figure.status = Status::Memory;
  CHECK(cite(figure) == "ABCB Housing Provisions 7.5.6(a)(i), 2022 (from memory)");
  figure.clause.clear();
  figure.edition.clear();
  CHECK(cite(figure) == "ABCB Housing Provisions (from memory)");
  CHECK(cite({5, "mm", "common practice, no source", "", "", Status::CommonPractice, ""}) ==
        "common practice, no source");
  figure.status = Status::SecondHand;  // the source itself says by whom it is quoted
  CHECK(cite(figure) == "ABCB Housing Provisions");
  CHECK(std::string(toWord(Status::Published)) == "published");
  CHECK(std::string(toWord(Status::SecondHand)) == "second-hand");
  CHECK(std::string(toWord(Status::CommonPractice)) == "common practice");
  CHECK(std::string(toWord(Status::Memory)) == "memory");
}

TEST_CASE("the smallest practice reads and names no rule") {
  const auto result = read(completed(kTopKeys), "least");
  INFO(allLines(result.errors));
  REQUIRE(result.ok());
  const Practice& least = *result.value;
  CHECK(least.clearance == Clearance{});
  for (const auto& [key, figure] : keyed(least)) {
    for (const std::string_view table : {"packing.", "opening_tolerance.", "wind.", "safety.glass."}) {
      CHECK_FALSE(std::string_view(key).starts_with(table));
    }
  }
  CHECK(least.weather.flashing.sill_past.usual.value == 150);
  CHECK_FALSE(least.weather.flashing.sill_past.least.has_value());
  CHECK(least.safety.fallRule(job::Room::Bedroom) == nullptr);
  CHECK_FALSE(least.weather.flashing.eave.shelters(10'000, 1));
}

TEST_CASE("a byte order mark and Windows line ends change nothing") {
  const std::string text = completed(kTopKeys);
  std::string windows = "\xEF\xBB\xBF";
  for (const char c : text) {
    windows += c == '\n' ? "\r\n" : std::string(1, c);
  }
  const auto result = read(windows, "x");
  REQUIRE(result.ok());
  CHECK(result.value->name == read(text, "x").value->name);
  CHECK(keyed(*result.value) == keyed(*read(text, "x").value));
}

TEST_CASE("a single figure holds for every size") {
  const auto result = read(
      completed(std::string(kTopKeys) + "[clearance]\nside_least = { value = 5, unit = \"mm\", status = \"memory\", "
                                        "source = \"Guide\" }\n"),
      "x");
  REQUIRE(result.ok());
  CHECK(result.value->clearance.side_least.at(1e9)->value == 5);
}

TEST_CASE("a pressure that is given stands, else speed and coefficient make one, else there is none") {
  Wind wind;
  WindClass one;
  one.ultimate_speed = figureOf(50);
  one.general_coefficient = figureOf(0.9);
  CHECK_FALSE(pressures(wind, one, false).ultimate.has_value());  // no air density
  wind.air_density = figureOf(1.2);
  CHECK(*pressures(wind, one, false).ultimate == Approx(1.35));  // 0.9 · ½ · 1.2 · 50² Pa
  CHECK_FALSE(pressures(wind, one, true).ultimate.has_value());  // no corner coefficient
  one.ultimate_kpa = figureOf(2);
  const Pressures given = pressures(wind, one, false);
  CHECK(*given.ultimate == 2);
  CHECK(given.from_ultimate == &*one.ultimate_kpa);
  CHECK_FALSE(given.water.has_value());
  wind.water_share = figureOf(0.3);
  CHECK_FALSE(pressures(wind, one, false).water.has_value());  // a share of nothing
  one.service_kpa = figureOf(1.5);
  CHECK(*pressures(wind, one, false).water == Approx(0.45));
  one.water_kpa = figureOf(0.2);
  CHECK(*pressures(wind, one, false).water == 0.2);
}

TEST_CASE("a screw is found by gauge and length") {
  Strength strength;
  strength.gauges.resize(2);
  strength.gauges[0].name = "8g";
  strength.gauges[1].name = "#8";
  CHECK(findScrew(strength, "8g x 75")->length == 75);
  CHECK(findScrew(strength, "8g x 75")->gauge == &strength.gauges[0]);
  CHECK(findScrew(strength, "#8 x 2 1/2 in")->length == Approx(63.5));
  for (const char* name : {"", "8g", "8g x ", " x 75", "8g x -75", "8g x 0", "10g x 75", "8g x 75 mm", "8g  x 75",
                           "8g x 75 x 75", "8G x 75", "8g x nan", "8g x 1e3"}) {
    INFO(name);
    CHECK_FALSE(findScrew(strength, name).has_value());
  }
}

TEST_CASE("an eave shelters by its ratio, at the limit only where the rule says so") {
  EaveRule rule;
  CHECK_FALSE(rule.shelters(600, 200));
  rule.ratio = figureOf(3);
  CHECK(rule.shelters(600, 200));
  CHECK_FALSE(rule.shelters(600, 201));
  CHECK(rule.shelters(10, -50));       // the soffit is below the head
  CHECK_FALSE(rule.shelters(0, -50));  // no eave at all
  rule.comparison = Comparison::MoreThan;
  CHECK_FALSE(rule.shelters(600, 200));
  CHECK(rule.shelters(601, 200));
}

TEST_CASE("a room has its own rule of falls, or that of the rest") {
  Safety safety;
  safety.falls.resize(2);
  safety.falls[1].rooms = {job::Room::Bedroom};
  CHECK(safety.fallRule(job::Room::Bedroom) == &safety.falls[1]);
  CHECK(safety.fallRule(job::Room::WetArea) == &safety.falls[0]);
}

}  // namespace sillwright::practice::test
