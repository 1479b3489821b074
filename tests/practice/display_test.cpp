// Lengths in words: millimetres, and inches to a sixteenth.
#include "practice/display.h"

#include <cmath>
#include <limits>
#include <random>

#include "support/catch.h"

namespace sillwright::practice::test {

namespace {

constexpr auto kMetric = Display::Millimetres;
constexpr auto kInches = Display::InchFractions;

/// Evenly spread over ±`most`; by hand, because the standard's distributions differ between libraries.
double anyLength(std::mt19937_64& random, double most) {
  return (static_cast<double>(random() >> 11) / 4503599627370496.0 - 1.0) * most;  // 2^52: from 0 to 2
}

}  // namespace

TEST_CASE("millimetres are shown to as many decimals as are asked for") {
  CHECK(showLength(1530, kMetric) == "1530");
  CHECK(showLength(1530.4, kMetric) == "1530");
  CHECK(showLength(1530.46, kMetric, 1) == "1530.5");
  CHECK(showLength(-2.5, kMetric, 1) == "-2.5");
  CHECK(showLength(-0.04, kMetric, 1) == "0.0");
  CHECK(showLength(-0.4, kMetric) == "0");
  CHECK(showLength(0, kMetric) == "0");
  CHECK(showLength(1e5, kMetric) == "100000");
}

TEST_CASE("inches are shown to the nearest sixteenth, reduced") {
  CHECK(showLength(60.25 * kInch, kInches) == "60 1/4 in");
  CHECK(showLength(1524, kInches) == "60 in");
  CHECK(showLength(0, kInches) == "0 in");
  CHECK(showLength(kInch / 16, kInches) == "1/16 in");
  CHECK(showLength(-kInch / 16, kInches) == "-1/16 in");
  CHECK(showLength(kInch / 2, kInches) == "1/2 in");
  CHECK(showLength(89, kInches) == "3 1/2 in");  // 3.504 in
  CHECK(showLength(406.4, kInches) == "16 in");
  CHECK(showLength(0.7, kInches) == "0 in");  // below half a sixteenth, 0.79
  CHECK(showLength(-0.7, kInches) == "0 in");
}

TEST_CASE("what rounds up carries into the next inch and the next foot") {
  CHECK(showLength((15.0 + 15.99 / 16) * kInch, kInches) == "16 in");
  CHECK(showLength(15.97 * kInch, kInches) == "16 in");
  CHECK(showLength(-15.97 * kInch, kInches) == "-16 in");
  CHECK(showFeet(11.98 * kInch, kInches) == "1 ft 0 in");
  CHECK(showFeet(23.98 * kInch, kInches) == "2 ft 0 in");
  CHECK(showFeet(60.25 * kInch, kInches) == "5 ft 0 1/4 in");
  CHECK(showFeet(-60.25 * kInch, kInches) == "-5 ft 0 1/4 in");
  CHECK(showFeet(11.5 * kInch, kInches) == "11 1/2 in");
  CHECK(showFeet(1530, kMetric) == "1530");
}

TEST_CASE("what is no length is shown as a question") {
  for (const double odd : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(), -1e300}) {
    CHECK(showLength(odd, kInches) == "?");
    CHECK(showLength(odd, kMetric) == "?");
    CHECK(showFeet(odd, kInches) == "?");
  }
}

TEST_CASE("a length that is shown reads back to within half of its last step") {
  std::mt19937_64 random(20);
  for (int i = 0; i < 20'000; ++i) {
    const double mm = anyLength(random, i % 2 == 0 ? 100'000.0 : 60.0);
    const std::string inches = showLength(mm, kInches);
    const std::string feet = showFeet(mm, kInches);
    const std::string tenths = showLength(mm, kMetric, 1);
    INFO(mm << " is shown as " << inches << ", " << feet << ", " << tenths);
    REQUIRE(readLength(inches).has_value());
    REQUIRE(readLength(feet).has_value());
    REQUIRE(readLength(tenths).has_value());
    CHECK(std::abs(*readLength(inches) - mm) <= kInch / 32 + 1e-9);
    CHECK(*readLength(feet) == Approx(*readLength(inches)).margin(1e-9));
    CHECK(std::abs(*readLength(tenths) - mm) <= 0.05 + 1e-9);
    CHECK(showLength(*readLength(inches), kInches) == inches);
    CHECK(inches.find("/16") == inches.find("/1"));  // reduced: no sixteenths where halves will do
  }
}

TEST_CASE("the display never falls as the length rises") {
  double before = -1;
  for (int i = 0; i < 5'000; ++i) {
    const double mm = i * 0.1;
    const double shown = *readLength(showLength(mm, kInches));
    CHECK(shown >= before);
    before = shown;
  }
}

TEST_CASE("words that are no length are not read as one") {
  for (const char* words :
       {"",   "-",     " 5",  "5 ",  "5in", "in",  "1/0 in", "5 4 in",         "5 1/ in", "5 ft", "5 ft in",  "--5",
        "+5", "5 1/4", "1/4", "5,5", "nan", "inf", "1e3 in", "5 ft 3 ft 1 in", "0x10",    ".5",   "5 -1/4 in"}) {
    INFO(words);
    CHECK_FALSE(readLength(words).has_value());
  }
  CHECK(*readLength("5") == 5);
  CHECK(*readLength("2.5 in") == Approx(63.5));
  CHECK(*readLength("1 ft 0 in") == Approx(304.8));
}

}  // namespace sillwright::practice::test
