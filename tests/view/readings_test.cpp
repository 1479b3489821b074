// Typed text into readings: what is taken, what is refused, and where it goes in the job.

#include "view/readings.h"

#include "job/rules.h"
#include "support/catch.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using view::TapeReading;

namespace {

double read(std::string_view text, TapeReading reading = TapeReading::WidthBottom) {
  const view::ParsedReading parsed = view::parseReading(reading, text);
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
  CHECK(read("-3", TapeReading::SillFall) == -3);
  CHECK(read("−3", TapeReading::SillFall) == -3);
  CHECK(read("+2,5", TapeReading::LeanLeft) == 2.5);
  CHECK(read("0", TapeReading::TiltRight) == 0);
}

TEST_CASE("inches by their sign, an inch being 25.4 mm exactly") {
  // The international inch: 25.4 mm by definition since 1959.
  CHECK_THAT(read("60\""), WithinAbs(60 * 25.4, 1e-9));
  CHECK_THAT(read("60 1/4\""), WithinAbs(60.25 * 25.4, 1e-9));
  CHECK_THAT(read("60.5 \""), WithinAbs(60.5 * 25.4, 1e-9));
  CHECK_THAT(read("-1/8\"", TapeReading::SillFall), WithinAbs(-25.4 / 8, 1e-9));
}

TEST_CASE("nothing clears") {
  for (const char* text : {"", "  "}) {
    const view::ParsedReading parsed = view::parseReading(TapeReading::HeightLeft, text);
    CHECK(parsed.good);
    CHECK_FALSE(parsed.value);
  }
}

TEST_CASE("what is no length is refused in words") {
  for (const char* text :
       {"-", ".", "12 30", "1/2", "15..3", "1530-", "60 1/0\"", "\"", "1,530.5", "--3", "5/", "+-2"}) {
    const view::ParsedReading parsed = view::parseReading(TapeReading::SillFall, text);
    INFO(text);
    CHECK_FALSE(parsed.good);
    CHECK(parsed.refusal.find("sill fall") != std::string::npos);
  }
}

TEST_CASE("what the job file would refuse is refused with its bounds") {
  for (std::size_t i = 0; i < view::kTapeReadings; ++i) {
    const auto reading = static_cast<TapeReading>(i);
    const job::Holds& bounds = view::boundsOf(reading);
    INFO(view::infoOf(reading).name);
    CHECK(read(job::toText(bounds.from), reading) == bounds.from);
    CHECK(read(job::toText(bounds.to), reading) == bounds.to);
    const view::ParsedReading over = view::parseReading(reading, job::toText(bounds.to + 1));
    CHECK_FALSE(over.good);
    CHECK(over.refusal.find(job::describeBounds(bounds)) != std::string::npos);
    CHECK(over.refusal.find(view::infoOf(reading).name) != std::string::npos);
    CHECK_FALSE(view::parseReading(reading, job::toText(bounds.from - 1)).good);
  }
  // A slipped finger: metres for millimetres.
  CHECK_FALSE(view::parseReading(TapeReading::WidthTop, "1,53").good);
}

TEST_CASE("each reading has a place of its own, and clearing the last one leaves nothing measured") {
  std::optional<job::Measured> measured;
  for (std::size_t i = 0; i < view::kTapeReadings; ++i) {
    view::setValue(measured, static_cast<TapeReading>(i), 100.0 + static_cast<double>(i));
  }
  REQUIRE(measured);
  CHECK(measured->widths[1] == 101);
  CHECK(measured->heights[2] == 105);
  CHECK(measured->diagonals[1] == 107);
  CHECK(measured->sill_fall == 108);
  CHECK(measured->lean[0] == 109);
  CHECK(measured->tilt[1] == 112);
  CHECK(measured->wall_depth[1] == 114);
  for (std::size_t i = 0; i < view::kTapeReadings; ++i) {
    const auto reading = static_cast<TapeReading>(i);
    CHECK(view::valueOf(measured, reading) == 100.0 + static_cast<double>(i));
    view::setValue(measured, reading, std::nullopt);
    CHECK_FALSE(view::valueOf(measured, reading));
  }
  CHECK_FALSE(measured);
}

TEST_CASE("the instrument goes from tape to laser and back") {
  std::optional<job::Measured> measured;
  CHECK(std::string(view::instrumentWord(measured)) == "tape");
  view::nextInstrument(measured);
  CHECK(std::string(view::instrumentWord(measured)) == "laser");
  view::nextInstrument(measured);
  CHECK(std::string(view::instrumentWord(measured)) == "tape");
  measured->by = job::StandardErrors{1, 1, 1};
  CHECK(std::string(view::instrumentWord(measured)) == "own errors");
}
