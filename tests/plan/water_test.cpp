// Where water runs, against drops that are moved down in small steps, and against hand-made stacks.

#include "plan/weather/water.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <random>
#include <tuple>

#include "support/catch.h"
#include "support/drops.h"

namespace {

using namespace sillwright::plan;
using namespace sillwright::testing;

Sheet rectangle(const char* name, SheetKind kind, int order, double x0, double z0, double x1, double z1,
                EdgeSeal top = EdgeSeal::Open) {
  Sheet sheet;
  sheet.name = name;
  sheet.kind = kind;
  sheet.order = order;
  sheet.outline = {{x0, z0}, {x1, z0}, {x1, z1}, {x0, z1}};
  sheet.seal = {EdgeSeal::Open, EdgeSeal::Open, top, EdgeSeal::Open};
  return sheet;
}

Skin wall(double width, double height) {
  Skin skin;
  skin.right = width;
  skin.top = height;
  skin.sheltered_above = height;
  return skin;
}

/// The exact answer for a drop at x on that sheet; empty where the strip sees the sheet in no stretch or in several.
std::optional<WaterEnd> exactEnd(const Water& water, double x, int on) {
  std::optional<WaterEnd> end;
  for (const auto& path : water.paths) {
    if (path.source != WaterSource::Rain || x <= path.x_low || x >= path.x_high) continue;
    if (water.legs[path.first_leg].sheet != on) continue;
    if (end) return std::nullopt;
    end = path.end;
  }
  return end;
}

/// What a plan keeps is what the whole trace finds.
void checkSame(const WaterFaults& faults, const WaterFaults& whole) {
  CHECK(faults.strips == whole.strips);
  CHECK(faults.traced == whole.traced);
  for (const auto list : {&WaterFaults::leaks, &WaterFaults::behind_cladding, &WaterFaults::held}) {
    REQUIRE((faults.*list).size() == (whole.*list).size());
    for (std::size_t i = 0; i < (whole.*list).size(); ++i) {
      const Leak &one = (faults.*list)[i], &other = (whole.*list)[i];
      CHECK(std::tie(one.say, one.x_low, one.x_high, one.z) == std::tie(other.say, other.x_low, other.x_high, other.z));
    }
  }
}

}  // namespace

TEST_CASE("a sheet above that laps outside the sheet below sheds water") {
  Skin skin = wall(100, 200);
  skin.sheets = {rectangle("lower run", SheetKind::MembraneRun, 1, 0, 0, 100, 120),
                 rectangle("upper run", SheetKind::MembraneRun, 2, 0, 100, 100, 200)};
  const Water water = traceWater(skin);
  CHECK(water.leaks.empty());
  CHECK(water.behind_cladding.empty());
  REQUIRE(!water.paths.empty());
  CHECK(water.paths.front().end == WaterEnd::Outside);
}

TEST_CASE("the same lap the wrong way round takes water behind the lower sheet") {
  Skin skin = wall(100, 200);
  skin.sheets = {rectangle("upper run", SheetKind::MembraneRun, 1, 0, 100, 100, 200),
                 rectangle("lower run", SheetKind::MembraneRun, 2, 0, 0, 100, 120)};
  const Water water = traceWater(skin);
  REQUIRE(water.leaks.size() >= 1);
  const Leak& leak = water.leaks.front();
  CHECK(leak.end == WaterEnd::Timber);
  CHECK(skin.sheets[static_cast<std::size_t>(leak.lower)].name == "lower run");
  CHECK(skin.sheets[static_cast<std::size_t>(leak.upper)].name == "upper run");
  CHECK(leak.z == Approx(120));
  CHECK(leak.say ==
        "Rain running down the upper run gets behind the lower run, whose top edge is open to it, and runs on to "
        "bare timber.");
}

TEST_CASE("sealing the open edge carries the water on") {
  Skin skin = wall(100, 200);
  skin.sheets = {rectangle("upper run", SheetKind::MembraneRun, 1, 0, 100, 100, 200),
                 rectangle("lower run", SheetKind::MembraneRun, 2, 0, 0, 100, 120, EdgeSeal::Sealed)};
  CHECK(traceWater(skin).leaks.empty());
}

TEST_CASE("water that passes behind the cladding on the membrane is told apart from a leak") {
  Skin skin = wall(100, 200);
  skin.sheets = {rectangle("membrane", SheetKind::MembraneRun, 1, 0, 0, 100, 200),
                 rectangle("cladding", SheetKind::Cladding, 5, 0, 0, 100, 150)};
  const Water water = traceWater(skin);
  CHECK(water.leaks.empty());
  REQUIRE(water.behind_cladding.size() == 1);  // rain on the membrane above the cladding's top edge
  CHECK(water.behind_cladding.front().source == WaterSource::Rain);
}

TEST_CASE("under an eave no rain starts") {
  Skin skin = wall(100, 200);
  skin.sheltered_above = 90;  // all but the lower run's own face is dry
  skin.sheets = {rectangle("upper run", SheetKind::MembraneRun, 1, 0, 100, 100, 200),
                 rectangle("lower run", SheetKind::MembraneRun, 2, 0, 0, 100, 120)};
  CHECK(traceWater(skin).leaks.empty());
}

TEST_CASE("the frame's own water lands on what lies under the sill, or leaks") {
  Skin skin = wall(100, 200);
  skin.opening_width = 100;
  skin.sheets = {rectangle("membrane", SheetKind::MembraneRun, 1, 0, 0, 100, 50),
                 rectangle("sill flashing", SheetKind::SillFlashing, 2, -1, 20, 101, 55),
                 rectangle("unit", SheetKind::UnitFace, 9, 0, 45, 100, 200)};
  skin.frame_drains = {{10, 50}, {90, 50}};
  const auto drained = [](const Water& water) {
    return std::count_if(water.paths.begin(), water.paths.end(), [](const WaterPath& path) {
      return path.source == WaterSource::FrameDrainage && path.end == WaterEnd::Outside;
    });
  };
  CHECK(drained(traceWater(skin)) == 2);
  skin.sheets.erase(skin.sheets.begin(), skin.sheets.begin() + 2);
  const Water bare = traceWater(skin);
  CHECK(drained(bare) == 0);
  CHECK(std::any_of(bare.leaks.begin(), bare.leaks.end(),
                    [](const Leak& leak) { return leak.source == WaterSource::FrameDrainage; }));
}

TEST_CASE("two starts in a strip of a wider leak are one leak") {
  Skin skin = wall(100, 200);
  skin.opening_width = 100;
  skin.opening_height = 100;
  skin.sheets = {rectangle("run", SheetKind::MembraneRun, 1, 0, 100, 100, 200),
                 rectangle("tape", SheetKind::HeadTape, 2, 80, 150, 100, 160, EdgeSeal::Sealed)};
  const auto rain = [](const Water& water) {
    return std::count_if(water.leaks.begin(), water.leaks.end(),
                         [](const Leak& leak) { return leak.source == WaterSource::Rain; });
  };
  CHECK(rain(traceWater(skin)) == 1);  // from above the tape and from under it, at its left from the top alone
  skin.sheets[1] = rectangle("tape", SheetKind::HeadTape, 2, 0, 150, 20, 160, EdgeSeal::Sealed);
  CHECK(rain(traceWater(skin)) == 1);
}

TEST_CASE("exact paths end where drops moved in small steps end, on random stacks") {
  std::mt19937_64 random(20);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  int compared = 0;
  int leaked = 0;
  for (int trial = 0; trial < 120; ++trial) {
    Skin skin = wall(200, 300);
    skin.opening_width = between(20, 120);
    skin.opening_height = between(50, 200);
    const int sheets = 3 + static_cast<int>(random() % 9);
    for (int i = 0; i < sheets; ++i) {
      const double x0 = between(-20, 150);
      const double x1 = x0 + between(20, 120);
      const double z0 = between(-30, 250);
      const double z1 = z0 + between(20, 160);
      Sheet sheet = rectangle("sheet", random() % 4 == 0 ? SheetKind::Cladding : SheetKind::JambFlashing, i + 1, x0, z0,
                              x1, z1, static_cast<EdgeSeal>(random() % 3));
      if (random() % 2 == 0) {  // a sloped top or bottom
        sheet.outline[2].z += between(-15, 15);
        sheet.outline[0].z += between(-4, 4);
      }
      skin.sheets.push_back(sheet);
    }
    const Water water = traceWater(skin);
    checkSame(waterFaults(skin), water);
    // A drop per strip, at its middle, from the start of each path: there the exact heights are the path's own.
    for (const auto& path : water.paths) {
      if (path.source != WaterSource::Rain || path.x_high - path.x_low < 1e-6) continue;
      const double x = (path.x_low + path.x_high) / 2;
      const auto& first = water.legs[path.first_leg];
      const double z = first.z_from - 1e-4;
      if (z <= skin.bottom + 1e-3) continue;
      const WaterEnd stepped = stepDown(skin, x, z, 8e-3);
      CAPTURE(trial, x, z, first.sheet, sheets);
      REQUIRE(static_cast<int>(stepped) == static_cast<int>(path.end));
      ++compared;
      if (path.end == WaterEnd::Timber || path.end == WaterEnd::IntoOpening) ++leaked;
    }
  }
  CHECK(compared > 2000);
  CHECK(leaked > 200);
}

TEST_CASE("beside a corner a sheet is seen, though a line within rounding of it sees none") {
  const double corner = std::nextafter(10.0, 11.0);  // odd: the middle to the next number is that number
  Skin skin = wall(100, 200);
  skin.sheets = {rectangle("lower run", SheetKind::MembraneRun, 0, std::nextafter(corner, 11.0), 0, 100, 110),
                 rectangle("middle run", SheetKind::MembraneRun, 1, 0, 0, 100, 120),
                 rectangle("upper run", SheetKind::MembraneRun, 2, 20, 115, 100, 200)};
  skin.sheets[1].outline = {{100, 0}, {100, 120}, {corner, 120}};
  skin.sheets[1].seal = std::vector<EdgeSeal>(3, EdgeSeal::Open);
  for (const WaterFaults& water : {WaterFaults(traceWater(skin)), waterFaults(skin)}) {
    for (const Leak& leak : water.leaks) CHECK(leak.x_high <= 20);  // beside the upper run nothing keeps the water off
  }
}

TEST_CASE("random drops anywhere agree with the path of their strip and sheet") {
  std::mt19937_64 random(7);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  int compared = 0;
  for (int trial = 0; trial < 60; ++trial) {
    Skin skin = wall(200, 300);
    skin.opening_width = 90;
    skin.opening_height = 120;
    // Disjoint kinds of sheet seen once each, so that a drop's sheet names its stretch.
    for (int i = 0; i < 6; ++i) {
      const double x0 = between(-20, 60);
      const double z0 = between(-30, 200);
      skin.sheets.push_back(rectangle("sheet", SheetKind::JambFlashing, i + 1, x0, z0, x0 + between(60, 160),
                                      z0 + between(20, 160), random() % 2 == 0 ? EdgeSeal::Open : EdgeSeal::Sealed));
    }
    const Water water = traceWater(skin);
    for (int drop = 0; drop < 60; ++drop) {
      const double x = between(0.5, 199.5);
      const double z = between(1, 299);
      const int on = outermostBehind(skin, kOutermost, x, z);
      const auto exact = exactEnd(water, x, on);
      if (!exact || on < 0) continue;
      REQUIRE(static_cast<int>(stepDown(skin, x, z, 5e-3)) == static_cast<int>(*exact));
      ++compared;
    }
  }
  CHECK(compared > 500);
}

TEST_CASE("a pressure holds up h = p / (rho g) of water") {
  // By hand: 300 Pa / (1000 kg/m³ × 9.81 m/s²) = 0.03058 m; 1 kPa is 101.94 mm of water.
  CHECK(headOfWater(0.3) == Approx(30.58).margin(0.005));
  CHECK(headOfWater(1.0) == Approx(101.94).margin(0.005));
  CHECK(headOfWater(0.0) == 0.0);
}
