#include "sheet/paper/dimension.h"

#include <algorithm>
#include <cmath>
#include <random>

#include "support/catch.h"

using sillwright::sheet::spread;

namespace {

double costOf(const std::vector<double>& places, const std::vector<double>& wanted) {
  double sum = 0;
  for (std::size_t i = 0; i < places.size(); ++i) sum += (places[i] - wanted[i]) * (places[i] - wanted[i]);
  return sum;
}

struct Row {
  std::vector<double> wanted, sizes;
  double all = 0;
};

Row randomRow(std::mt19937_64& random) {
  const auto uniform = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11U) * 0x1p-53;
  };
  Row row;
  const std::size_t count = 1 + random() % 12;
  for (std::size_t i = 0; i < count; ++i) {
    row.wanted.push_back(uniform(-5, 105));
    row.sizes.push_back(uniform(1, 6));
    row.all += row.sizes.back();
  }
  std::sort(row.wanted.begin(), row.wanted.end());
  return row;
}

}  // namespace

TEST_CASE("labels with room stay where they want to be") {
  const std::vector<double> wanted{10, 20, 40};
  const std::vector<double> sizes{3, 3, 3};
  CHECK(spread(wanted, sizes, 0, 50) == wanted);
}

TEST_CASE("two labels on one spot part evenly") {
  const std::vector<double> wanted{10, 10};
  const std::vector<double> sizes{4, 2};
  // Middles 3 apart (2 + 1), their mean still at 10.
  const auto places = spread(wanted, sizes, 0, 50);
  CHECK(places[0] == Approx(8.5));
  CHECK(places[1] == Approx(11.5));
}

TEST_CASE("labels are kept within their room") {
  const std::vector<double> wanted{-3, 49};
  const std::vector<double> sizes{4, 4};
  const auto places = spread(wanted, sizes, 0, 50);
  CHECK(places[0] == Approx(2));
  CHECK(places[1] == Approx(48));
}

TEST_CASE("more labels than room run on past its end, still apart") {
  const std::vector<double> wanted{5, 5, 5};
  const std::vector<double> sizes{4, 4, 4};
  const auto places = spread(wanted, sizes, 0, 10);
  CHECK(places[0] == Approx(2));
  CHECK(places[1] - places[0] == Approx(4));
  CHECK(places[2] - places[1] == Approx(4));
}

TEST_CASE("no labels") { CHECK(spread({}, {}, 0, 1).empty()); }

TEST_CASE("none overlap, and no other way of that moves them less") {
  std::mt19937_64 random(11);
  for (int round = 0; round < 300; ++round) {
    const Row row = randomRow(random);
    const auto places = spread(row.wanted, row.sizes, 0, 100);
    for (std::size_t i = 1; i < places.size(); ++i) {
      REQUIRE(places[i] - places[i - 1] >= (row.sizes[i] + row.sizes[i - 1]) / 2 - 1e-9);
    }
    REQUIRE(places.front() - row.sizes.front() / 2 >= -1e-9);
    REQUIRE(places.back() + row.sizes.back() / 2 <= 100 + 1e-9);
    // Neighbours of the answer that also fit: any better one would be found by moving a stretch of labels together.
    for (int other = 0; other < 60; ++other) {
      std::vector<double> moved = places;
      const std::size_t from = random() % moved.size();
      const std::size_t to = from + random() % (moved.size() - from);
      const double by = (static_cast<double>(random() % 2001) - 1000) / 2000;
      for (std::size_t i = from; i <= to; ++i) moved[i] += by;
      bool fits = moved.front() - row.sizes.front() / 2 >= 0 && moved.back() + row.sizes.back() / 2 <= 100;
      for (std::size_t i = 1; i < moved.size(); ++i) {
        fits = fits && moved[i] - moved[i - 1] >= (row.sizes[i] + row.sizes[i - 1]) / 2;
      }
      if (fits) REQUIRE(costOf(moved, row.wanted) >= costOf(places, row.wanted) - 1e-9);
    }
  }
}
