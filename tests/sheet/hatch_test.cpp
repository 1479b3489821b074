#include "sheet/paper/painter.h"

#include <random>

#include "support/catch.h"

using sillwright::sheet::hatchLines;
using sillwright::sheet::Vec;

TEST_CASE("a square is hatched on the page's grid") {
  const std::array<Vec, 4> square{Vec{1, 1}, Vec{11, 1}, Vec{11, 11}, Vec{1, 11}};
  // Level lines 2.5 apart through the page's corner: 2.5, 5, 7.5 and 10 lie in 1 … 11, each 10 long.
  const auto lines = hatchLines(square, 0, 2.5);
  REQUIRE(lines.size() == 4);
  for (const auto& [from, to] : lines) {
    CHECK(from.y == Approx(to.y));
    CHECK(length(to - from) == Approx(10));
  }
}

TEST_CASE("45 degrees runs up to the right on paper") {
  const std::array<Vec, 4> square{Vec{0, 0}, Vec{10, 0}, Vec{10, 10}, Vec{0, 10}};
  for (const auto& [from, to] : hatchLines(square, 45, 1)) {
    const Vec run = to - from;
    CHECK(run.x * run.y < 0);  // y goes down the page
    CHECK(std::abs(run.x) == Approx(std::abs(run.y)));
  }
}

TEST_CASE("no shape and no spacing give no lines") {
  const std::array<Vec, 2> stroke{Vec{0, 0}, Vec{5, 5}};
  const std::array<Vec, 3> triangle{Vec{0, 0}, Vec{5, 0}, Vec{0, 5}};
  CHECK(hatchLines(stroke, 45, 1).empty());
  CHECK(hatchLines(triangle, 45, 0).empty());
  CHECK(hatchLines(triangle, 45, -1).empty());
}

TEST_CASE("the lines' length times their spacing is the area, whatever the angle") {
  // An L: not convex, so that a line may cross it twice. Area 10 · 4 + 4 · 6 = 64.
  const std::array<Vec, 6> shape{Vec{0, 0}, Vec{10, 0}, Vec{10, 4}, Vec{4, 4}, Vec{4, 10}, Vec{0, 10}};
  constexpr double kSpacing = 0.01;
  std::mt19937_64 random(7);
  for (int i = 0; i < 40; ++i) {
    const double degrees = static_cast<double>(random() % 1800) / 10;
    double sum = 0;
    for (const auto& [from, to] : hatchLines(shape, degrees, kSpacing)) sum += length(to - from);
    CAPTURE(degrees);
    CHECK(sum * kSpacing == Approx(64).epsilon(0.005));
  }
}
