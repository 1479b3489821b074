#include <random>

#include "scene/build/strips.h"
#include "support/catch.h"

using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;

namespace {

std::vector<Strip> stripsOf(const std::vector<Rect>& rects) {
  std::vector<Strip> strips;
  for (const Rect& rect : rects) strips.push_back(stripOf(rect));
  return strips;
}

double areaOf(const std::vector<Strip>& all) {
  double sum = 0;
  for (const Strip& strip : all) sum += (strip.left.length() + strip.right.length()) / 2 * (strip.x1 - strip.x0);
  return sum;
}

double inkedSides(const std::vector<Strip>& all) {
  double sum = 0;
  for (const Strip& strip : all) {
    if ((strip.edges & kLeftHigh) == kLeftHigh) sum += strip.left.length();
    if ((strip.edges & kRightHigh) == kRightHigh) sum += strip.right.length();
  }
  return sum;
}

double inkedLevels(const std::vector<Strip>& all) {
  double sum = 0;
  for (const Strip& strip : all) {
    if ((strip.edges & kBottomLong) == kBottomLong) sum += strip.x1 - strip.x0;
    if ((strip.edges & kTopLong) == kTopLong) sum += strip.x1 - strip.x0;
  }
  return sum;
}

int deepEdges(const std::vector<Strip>& all) {
  int count = 0;
  for (const Strip& strip : all) {
    for (const std::uint16_t bit : {kDeepBottomLeft, kDeepBottomRight, kDeepTopLeft, kDeepTopRight}) {
      if ((strip.edges & bit) != 0) ++count;
    }
  }
  return count;
}

double below(double value, std::mt19937_64& random) { return value * static_cast<double>(random() >> 11) * 0x1.0p-53; }

bool inHole(const std::vector<Rect>& holes, double x, double z) {
  return std::any_of(holes.begin(), holes.end(),
                     [&](const Rect& h) { return x > h.x0 && x < h.x1 && z > h.z0 && z < h.z1; });
}

int stripsAt(const std::vector<Strip>& all, double x, double z) {
  int count = 0;
  for (const Strip& strip : all) {
    if (x <= strip.x0 || x >= strip.x1) continue;
    const double share = (x - strip.x0) / (strip.x1 - strip.x0);
    const double low = strip.left.low + share * (strip.right.low - strip.left.low);
    const double high = strip.left.high + share * (strip.right.high - strip.left.high);
    if (z > low && z < high) ++count;
  }
  return count;
}

}  // namespace

TEST_CASE("an area without holes is one strip, inked all round") {
  const std::vector<Strip> all = strips({{0, 2440}, {3600, 2440}}, 0, {});
  REQUIRE(all.size() == 1);
  CHECK(all[0].edges == kAllEdges);
  CHECK(areaOf({all[0]}) == Approx(3600.0 * 2440));
}

TEST_CASE("round an opening the outline is inked and the seams are not") {
  const std::vector<Rect> holes = {{1000, 900, 2500, 2000}};
  const std::vector<Strip> all = strips({{0, 2440}, {3600, 2440}}, 0, stripsOf(holes));
  CHECK(areaOf(all) == Approx(3600.0 * 2440 - 1500.0 * 1100));
  CHECK(inkedSides(all) == Approx(2 * 2440 + 2 * 1100));
  CHECK(inkedLevels(all) == Approx(2 * 3600 + 2 * 1500));
  // Through the sheet: four corners outside, four at the opening.
  CHECK(deepEdges(all) == 8);
}

TEST_CASE("a hole that reaches the floor leaves no strip under it, and one over the top none above") {
  const std::vector<Rect> door = {{1000, 0, 2000, 2100}};
  const std::vector<Strip> with_door = strips({{0, 2440}, {3600, 2440}}, 0, stripsOf(door));
  CHECK(areaOf(with_door) == Approx(3600.0 * 2440 - 1000.0 * 2100));
  const std::vector<Rect> through = {{1000, -100, 2000, 9000}};
  const std::vector<Strip> cut = strips({{0, 2440}, {3600, 2440}}, 0, stripsOf(through));
  REQUIRE(cut.size() == 2);
  CHECK_FALSE(cut[0].joined);
  CHECK_FALSE(cut[1].joined);
  CHECK(cut[1].edges == kAllEdges);
}

TEST_CASE("nothing is left of an area that is all hole, or has no width, or no height") {
  const std::vector<Rect> all = {{-10, -10, 4000, 3000}};
  CHECK(strips({{0, 2440}, {3600, 2440}}, 0, stripsOf(all)).empty());
  CHECK(strips({{0, 2440}, {0, 2440}}, 0, {}).empty());
  CHECK(strips({{0, 0}, {3600, 0}}, 0, {}).empty());
  CHECK(strips({{0, 100}}, 0, {}).empty());
}

TEST_CASE("a gable's top is followed, and cut where it crosses an opening's head") {
  const Line gable = {{0, 2000}, {2000, 3000}, {4000, 2000}};
  const std::vector<Rect> holes = {{200, 1000, 1200, 2400}};  // its upper corners are outside the wall
  const std::vector<Strip> all = strips(gable, 0, stripsOf(holes));
  // The hole's part inside: up to the slope z = 2000 + x/2 left of x = 800, to 2400 right of it.
  const double inside = 1000.0 * 1000 + (1100 + 1400) / 2.0 * 600 - 1000 * 600 + 1400.0 * 400 - 1000 * 400;
  CHECK_THAT(areaOf(all), WithinAbs(4000.0 * 2500 - inside, 2000));
}

TEST_CASE("random areas are covered once where there is no hole, and not at all where there is") {
  std::mt19937_64 random(7);
  for (int round = 0; round < 300; ++round) {
    Line top = {{0, 500 + below(3000, random)}};
    const int points = 1 + static_cast<int>(random() % 3);
    for (int i = 0; i < points; ++i)
      top.emplace_back(top.back().x + 200 + below(3000, random), 500 + below(3000, random));
    std::vector<Rect> holes;
    for (std::uint64_t i = random() % 6; i > 0; --i) {
      const double x = below(top.back().x * 1.2, random) - 300, z = below(3500, random) - 200;
      holes.push_back({x, z, x + below(1500, random), z + below(1500, random)});
    }
    const std::vector<Strip> all = strips(top, 0, stripsOf(holes));
    for (const Strip& strip : all) {
      CHECK(strip.x1 > strip.x0);
      CHECK(strip.left.length() > 0);
      CHECK(strip.right.length() > 0);
    }
    for (int probe = 0; probe < 100; ++probe) {
      const double x = below(top.back().x, random), z = below(4000, random);
      const double high = heightAt(top, x);
      if (std::abs(z - high) < 2) continue;  // pointed ends are opened by half a millimetre
      const bool expected = z < high && !inHole(holes, x, z);
      INFO("round " << round << " at " << x << ", " << z);
      REQUIRE(stripsAt(all, x, z) == (expected ? 1 : 0));
    }
  }
}

TEST_CASE("a line runs on past its ends and is held down to a cap") {
  const Line line = {{0, 1000}, {1000, 2000}, {2000, 2000}};
  CHECK(heightAt(line, -100) == Approx(900));
  CHECK(heightAt(line, 500) == Approx(1500));
  CHECK(heightAt(line, 2500) == Approx(2000));
  const Line capped = cappedLine(line, -100, 2000, 1500);
  REQUIRE(capped.size() == 5);
  CHECK(capped[0].x == Approx(-100));
  CHECK(capped[2].x == Approx(500));
  CHECK(capped[2].y == Approx(1500));
  CHECK(capped[4].y == Approx(1500));
}
