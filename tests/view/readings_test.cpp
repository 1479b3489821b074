// Typed text into readings: what is taken, what is refused, and where it goes in the job.

#include "view/values/readings.h"

#include <random>

#include "job/rule.h"
#include "plan/survey/survey.h"
#include "practice/read.h"
#include "support/catch.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using job::TapeReading;

namespace {

constexpr auto kMm = practice::Display::Millimetres;
constexpr auto kInches = practice::Display::InchFractions;

double read(std::string_view text, TapeReading reading = TapeReading::WidthBottom, practice::Display display = kMm) {
  const view::ParsedReading parsed = view::parseReading(reading, text, display);
  INFO(text << ": " << parsed.refusal);
  REQUIRE(parsed.good);
  REQUIRE(parsed.value);
  return *parsed.value;
}

}  // namespace

TEST_CASE("millimetres, with a comma or a point") {
  CHECK(read("1530") == 1530);
  CHECK(read(" 1530.5 ") == 1530.5);
  CHECK(read("1530,5") == 1530.5);
  CHECK(read("-3", TapeReading::OutOfLevel) == -3);
  CHECK(read("−3", TapeReading::OutOfLevel) == -3);
  CHECK(read("+2,5", TapeReading::OutOfPlumbLeft) == 2.5);
  CHECK(read("0", TapeReading::OutOfPlumbInRight) == 0);
}

TEST_CASE("inches by their sign, an inch being 25.4 mm exactly") {
  // The international inch: 25.4 mm by definition since 1959.
  CHECK_THAT(read("60\""), WithinAbs(60 * 25.4, 1e-9));
  CHECK_THAT(read("60 1/4\""), WithinAbs(60.25 * 25.4, 1e-9));
  CHECK_THAT(read("60.5 \""), WithinAbs(60.5 * 25.4, 1e-9));
  CHECK_THAT(read("-1/8\"", TapeReading::OutOfLevel), WithinAbs(-25.4 / 8, 1e-9));
}

TEST_CASE("where figures are shown in inches a bare figure is inches, and millimetres have their sign") {
  for (const char* text : {"60", "60\"", "5'", "5' 0\"", "5'-0\"", "60 in", "1524 mm"}) {
    INFO(text);
    CHECK_THAT(read(text, TapeReading::WidthBottom, kInches), WithinAbs(60 * 25.4, 1e-9));
  }
  for (const char* text : {"60 1/2", "60-1/2", "60.5", "60,5", "5' 0 1/2\""}) {
    INFO(text);
    CHECK_THAT(read(text, TapeReading::WidthBottom, kInches), WithinAbs(60.5 * 25.4, 1e-9));
  }
  CHECK_THAT(read("-1/8", TapeReading::OutOfLevel, kInches), WithinAbs(-25.4 / 8, 1e-9));
  CHECK_THAT(read("5' 0\""), WithinAbs(60 * 25.4, 1e-9));  // in millimetres too: the sign tells
}

TEST_CASE("a refusal says its lengths as the drawing does, with no more figures than they mean") {
  const job::Holds bounds = job::mm(35.0749999999998, 25'400);
  const auto say = [&](std::string_view text, practice::Display display) {
    return view::parseLength("sill of N1", bounds, text, display).refusal;
  };
  CHECK(say("20.04999999998", kMm) == "sill of N1 must be from 35.1 to 25400 mm, not 20 mm");
  CHECK(say("1/2", kInches) == "sill of N1 must be from 1 3/8 to 1000 in, not 1/2 in");
  CHECK(say("high", kInches).find("in inches") != std::string::npos);
}

TEST_CASE("nothing clears") {
  for (const char* text : {"", "  "}) {
    const view::ParsedReading parsed = view::parseReading(TapeReading::HeightLeft, text, kMm);
    CHECK(parsed.good);
    CHECK_FALSE(parsed.value);
  }
}

TEST_CASE("what is no length is refused in words") {
  for (const char* text :
       {"-", ".", "12 30", "1/2", "15..3", "1530-", "60 1/0\"", "\"", "1,530.5", "--3", "5/", "+-2"}) {
    const view::ParsedReading parsed = view::parseReading(TapeReading::OutOfLevel, text, kMm);
    INFO(text);
    CHECK_FALSE(parsed.good);
    CHECK(parsed.refusal.find("level of the sill") != std::string::npos);
  }
}

TEST_CASE("what the job file would refuse is refused with its bounds") {
  for (std::size_t i = 0; i < job::kTapeReadings; ++i) {
    const auto reading = static_cast<TapeReading>(i);
    const job::Holds& bounds = job::boundsOf(reading);
    INFO(job::infoOf(reading).name);
    CHECK(read(job::toText(bounds.from), reading) == bounds.from);
    CHECK(read(job::toText(bounds.to), reading) == bounds.to);
    const view::ParsedReading over = view::parseReading(reading, job::toText(bounds.to + 1), kMm);
    CHECK_FALSE(over.good);
    CHECK(over.refusal.find(job::describeBounds(bounds)) != std::string::npos);
    CHECK(over.refusal.find(job::infoOf(reading).name) != std::string::npos);
    CHECK_FALSE(view::parseReading(reading, job::toText(bounds.from - 1), kMm).good);
  }
  // A slipped finger: metres for millimetres.
  CHECK_FALSE(view::parseReading(TapeReading::WidthTop, "1,53", kMm).good);
}

TEST_CASE("each reading has a place of its own, and clearing the last one leaves nothing measured") {
  std::optional<job::Measured> measured;
  for (std::size_t i = 0; i < job::kTapeReadings; ++i) {
    job::setValue(measured, static_cast<TapeReading>(i), 100.0 + static_cast<double>(i));
  }
  REQUIRE(measured);
  CHECK(measured->widths[1] == 101);
  CHECK(measured->heights[2] == 105);
  CHECK(measured->diagonals[1] == 107);
  CHECK(measured->out_of_level == 108);
  CHECK(measured->out_of_plumb[0] == 109);
  CHECK(measured->out_of_plumb_in[1] == 112);
  CHECK(measured->wall_depth[1] == 114);
  for (std::size_t i = 0; i < job::kTapeReadings; ++i) {
    const auto reading = static_cast<TapeReading>(i);
    CHECK(job::valueOf(measured, reading) == 100.0 + static_cast<double>(i));
    job::setValue(measured, reading, std::nullopt);
    CHECK_FALSE(job::valueOf(measured, reading));
  }
  CHECK_FALSE(measured);
}

TEST_CASE("readings that follow a corner tell the adjustment where it went") {
  std::mt19937_64 random(7);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1.0p-53;
  };
  const auto practice = practice::load("nz", SILLWRIGHT_ASSETS_DIR, {});
  REQUIRE(practice.ok());
  for (int round = 0; round < 200; ++round) {
    const double width = between(500, 3000);
    const double height = between(500, 2400);
    plan::OpeningShape shape = plan::plannedShape({width, height});
    for (std::size_t i = 1; i < 4; ++i) {
      shape.corner[i].x += between(-8, 8);
      shape.corner[i].z += between(-8, 8);
    }
    auto nine = plan::nineReadings(shape);
    for (double& each : nine) each += between(-0.5, 0.5);
    job::Measured measured;
    measured.widths = {nine[0], {}, nine[1]};
    measured.heights = {nine[2], {}, nine[3]};
    measured.diagonals = {nine[4], nine[5]};
    measured.out_of_level = nine[6];
    measured.out_of_plumb = {nine[7], nine[8]};
    const auto before = plan::survey({width, height}, measured, practice.value->survey);
    const auto corner = static_cast<plan::Corner>(1 + round % 3);
    const plan::Point by{between(-10, 10), between(-10, 10)};
    view::moveCorner(measured, before.shape, corner, by);
    const auto after = plan::survey({width, height}, measured, practice.value->survey);
    for (std::size_t i = 0; i < 4; ++i) {
      const bool moved = i == static_cast<std::size_t>(corner);
      CHECK(after.shape.corner[i].x == Approx(before.shape.corner[i].x + (moved ? by.x : 0)).margin(0.15));
      CHECK(after.shape.corner[i].z == Approx(before.shape.corner[i].z + (moved ? by.z : 0)).margin(0.15));
    }
  }
}
