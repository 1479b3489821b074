#include "sheet/paper/flat.h"

#include "support/catch.h"

using namespace sillwright;
using sheet::areaOf;
using sheet::Box;
using sheet::clipped;
using sheet::Vec;

TEST_CASE("clipping keeps what is inside") {
  const std::vector<Vec> square{{0, 0}, {10, 0}, {10, 10}, {0, 10}};
  CHECK(areaOf(clipped(square, Box{2, 3, 7, 9})).size == Approx(5 * 6));
  CHECK(areaOf(clipped(square, Box{-5, -5, 50, 50})).size == Approx(100));
  CHECK(areaOf(clipped(square, Box{20, 20, 30, 30})).size == 0);
  const std::vector<Vec> triangle{{0, 0}, {10, 0}, {0, 10}};
  // The half of the square below its diagonal.
  CHECK(areaOf(clipped(triangle, Box{0, 0, 5, 5})).size == Approx(25));
}

TEST_CASE("area and centroid don't depend on the way round") {
  const std::vector<Vec> round{{0, 0}, {6, 0}, {6, 3}, {0, 3}};
  const std::vector<Vec> back(round.rbegin(), round.rend());
  for (const auto& polygon : {round, back}) {
    CHECK(areaOf(polygon).size == Approx(18));
    CHECK(areaOf(polygon).middle.x == Approx(3));
    CHECK(areaOf(polygon).middle.y == Approx(1.5));
  }
}
