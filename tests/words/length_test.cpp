// Lengths in words: millimetres, and inches to a sixteenth.
#include "words/text.h"

#include <cmath>
#include <limits>
#include <random>

#include "practice/figure.h"
#include "support/catch.h"

namespace sillwright::words::test {

namespace {

constexpr auto kMetric = practice::Display::Millimetres;
constexpr auto kInches = practice::Display::InchFractions;
using practice::kInch;
using practice::readLength;

/// Evenly spread over ±`most`; by hand, because the standard's distributions differ between libraries.
double anyLength(std::mt19937_64& random, double most) {
  return (static_cast<double>(random() >> 11) / 4503599627370496.0 - 1.0) * most;  // 2^52: from 0 to 2
}

}  // namespace

TEST_CASE("a number has no digits that say nothing") {
  CHECK(number(12.5) == "12.5");
  CHECK(number(35.0749999998) == "35.1");
  CHECK(number(12.04) == "12");
  CHECK(number(-0.04) == "0");
  CHECK(number(0.25, 2) == "0.25");
  CHECK(number(1.999, 2) == "2");
  CHECK(number(100, 0) == "100");
}

TEST_CASE("millimetres are shown to the tenth, and none where it is zero") {
  CHECK(bareLength(1530, kMetric) == "1530");
  CHECK(bareLength(1530.46, kMetric) == "1530.5");
  CHECK(bareLength(-2.5, kMetric) == "-2.5");
  CHECK(bareLength(-0.04, kMetric) == "0");
  CHECK(bareLength(1e5, kMetric) == "100000");
  CHECK(length(12.5, kMetric) == "12.5 mm");
  CHECK(size(1510, 1040.5, kMetric) == "1510 × 1040.5 mm");
}

TEST_CASE("a page that says its unit once has bare figures") {
  CHECK(figure(1530, kMetric) == "1530");
  CHECK(figure(1530.35, kInches) == "60 1/4");  // 60.25 × 25.4 = 1530.35
  CHECK(figures(1530.35, 1524, kInches) == "60 1/4 × 60");
  CHECK(signedFigure(2.5, kMetric) == "+2.5");
  CHECK(signedFigure(0, kMetric) == "0");
  CHECK(signedFigure(-3, kMetric) == "-3");
}

TEST_CASE("inches are shown to the nearest sixteenth, reduced") {
  CHECK(bareLength(60.25 * kInch, kInches) == "60 1/4 in");
  CHECK(bareLength(1524, kInches) == "60 in");
  CHECK(bareLength(0, kInches) == "0 in");
  CHECK(bareLength(kInch / 16, kInches) == "1/16 in");
  CHECK(bareLength(-kInch / 16, kInches) == "-1/16 in");
  CHECK(bareLength(kInch / 2, kInches) == "1/2 in");
  CHECK(bareLength(89, kInches) == "3 1/2 in");  // 3.504 in
  CHECK(bareLength(406.4, kInches) == "16 in");
  CHECK(bareLength(0.7, kInches) == "0 in");  // below half a sixteenth, 0.79
  CHECK(bareLength(-0.7, kInches) == "0 in");
}

TEST_CASE("what rounds up carries into the next inch") {
  CHECK(bareLength((15.0 + 15.99 / 16) * kInch, kInches) == "16 in");
  CHECK(bareLength(15.97 * kInch, kInches) == "16 in");
  CHECK(bareLength(-15.97 * kInch, kInches) == "-16 in");
}

TEST_CASE("a length and its limit that differ never read the same") {
  using Two = std::array<std::string, 2>;
  CHECK(toldApart(3.4544, 3.175, kInches) == Two{"0.136 in", "0.125 in"});  // 0.136 × 25.4 and 1/8 × 25.4
  CHECK(toldApart(6.35, 3.175, kInches) == Two{"1/4 in", "1/8 in"});
  CHECK(toldApart(3.12, 3.06, kMetric) == Two{"3.12 mm", "3.06 mm"});
  CHECK(toldApart(3.2, 3.1, kMetric) == Two{"3.2 mm", "3.1 mm"});
  CHECK(toldApart(3.175, 3.175, kInches) == Two{"1/8 in", "1/8 in"});
  CHECK(toldApart(HUGE_VAL, HUGE_VAL, kInches) == Two{"?", "?"});
}

TEST_CASE("what something weighs is in kilograms, and in pounds where lengths are in inches") {
  CHECK(mass(37.8, kMetric) == "38 kg");
  // A pound is 0.45359237 kg exactly (international yard and pound agreement, 1959): 23 kg are 50.71 lb.
  CHECK(mass(23, kInches) == "51 lb");
  CHECK(mass(23, kInches, 1) == "50.7 lb");
  CHECK(amount(23, "kg", 2, kInches) == "50.7 lb");
  CHECK(amount(25.4, "mm", 2, kInches) == "1 in");
  CHECK(amount(0.95, "kPa", 2, kInches) == "0.95 kPa");
  CHECK(amount(3, "1", 2, kInches) == "3");
}

TEST_CASE("what is no length is shown as a question") {
  for (const double odd : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(), -1e300}) {
    CHECK(bareLength(odd, kInches) == "?");
    CHECK(bareLength(odd, kMetric) == "?");
  }
}

TEST_CASE("a length that is shown reads back to within half of its last step") {
  std::mt19937_64 random(20);
  for (int i = 0; i < 20'000; ++i) {
    const double mm = anyLength(random, i % 2 == 0 ? 100'000.0 : 60.0);
    const std::string inches = bareLength(mm, kInches);
    const std::string tenths = bareLength(mm, kMetric);
    INFO(mm << " is shown as " << inches << ", " << tenths);
    REQUIRE(readLength(inches).has_value());
    REQUIRE(readLength(tenths).has_value());
    CHECK(std::abs(*readLength(inches) - mm) <= kInch / 32 + 1e-9);
    CHECK(std::abs(*readLength(tenths) - mm) <= 0.05 + 1e-9);
    CHECK(bareLength(*readLength(inches), kInches) == inches);
    CHECK(inches.find("/16") == inches.find("/1"));  // reduced: no sixteenths where halves will do
  }
}

TEST_CASE("the display never falls as the length rises") {
  double before = -1;
  for (int i = 0; i < 5'000; ++i) {
    const double mm = i * 0.1;
    const double shown = *readLength(bareLength(mm, kInches));
    CHECK(shown >= before);
    before = shown;
  }
}

}  // namespace sillwright::words::test
