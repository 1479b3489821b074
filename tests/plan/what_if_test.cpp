// What if a lap is the wrong way round, a piece is left out or cut short: on the skins of the demo jobs, and in words.

#include "plan/weather/what_if.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "plan/weather/skin.h"
#include "plan/work/order_of_work.h"
#include "support/catch.h"
#include "support/demo_jobs.h"
#include "support/drops.h"

namespace {

using namespace sillwright;
using namespace sillwright::plan;
using sillwright::testing::demoJobs;

/// Runs `look` at each opening of the demo jobs whose unit fits.
template <class Look>
void atEachDemo(Look look) {
  int seen = 0;
  for (const auto& demo : demoJobs()) {
    for (std::size_t i = 0; i < demo.plan.openings.size(); ++i) {
      if (!demo.plan.openings[i].isFlashed()) continue;  // nothing of ours to trace
      if (!demo.plan.openings[i].stand.fits) continue;
      CAPTURE(demo.job.file, demo.job.openings[i].name);
      look(demo, i);
      ++seen;
    }
  }
  CHECK(seen >= 10);
}

Skin changed(const Skin& skin, const WhatIf& what_if) {
  CAPTURE(toText(what_if));
  const auto result = applyWhatIf(skin, what_if);
  for (const auto& error : result.errors) UNSCOPED_INFO(base::toLine(error));
  REQUIRE(result.ok());
  return *result.value;
}

bool dry(const Water& water) { return water.leaks.empty() && water.behind_cladding.empty(); }

std::vector<Leak> all(const Water& water) {
  std::vector<Leak> leaks = water.leaks;
  leaks.insert(leaks.end(), water.behind_cladding.begin(), water.behind_cladding.end());
  return leaks;
}

bool inSlope(const Skin& skin) {
  return std::any_of(skin.sheets.begin(), skin.sheets.end(), [](const Sheet& sheet) { return !sheet.level.empty(); });
}

/// Whether one of the leaks is that of the lap: behind the sheet that now lies outside, at its upper edge; or, under
/// the unit, the frame's own water with nothing to fall on.
bool foundAt(const ForbiddenSwap& lap, const Skin& skin, const Water& water) {
  const auto leaks = all(water);
  return std::any_of(leaks.begin(), leaks.end(), [&](const Leak& leak) {
    const bool beside = leak.x_high < lap.x_low || leak.x_low > lap.x_high;
    if (beside) return false;
    if (leak.lower < 0) return leak.source == WaterSource::FrameDrainage && std::abs(leak.z - lap.z) < 2;
    // In a slope the lap is at another height at each x.
    const bool there = inSlope(skin) || std::abs(leak.z - lap.z) < 1e-6;
    return skin.sheets[static_cast<std::size_t>(leak.lower)].name == lap.swap.first && there;
  });
}

/// Whether a triangle's corner leaves the boards beside it less than a board's height, and so nothing to lap with.
bool besideCorner(const ForbiddenSwap& lap, const Skin& skin) {
  return std::any_of(skin.sheets.begin(), skin.sheets.end(), [&](const Sheet& sheet) {
    const bool in_lap = sheet.name == lap.swap.first || sheet.name == lap.swap.second;
    return in_lap && sheet.kind == SheetKind::Cladding && boxOf(sheet).z1 - boxOf(sheet).z0 < 150;
  });
}

/// Whether the pan's front reaches past the top of the boards below: then what runs behind a strip that wrongly lies
/// over the pan comes out over the boards all the same.
bool panReachesBoards(const ForbiddenSwap& lap, const Skin& skin) {
  const auto called = [&](const std::string& name) {
    return std::find_if(skin.sheets.begin(), skin.sheets.end(), [&](const Sheet& each) { return each.name == name; });
  };
  const auto boards = std::find_if(skin.sheets.begin(), skin.sheets.end(),
                                   [](const Sheet& each) { return each.kind == SheetKind::Cladding; });
  const bool pan_and_strip = lap.swap.first == "sill flashing" && lap.swap.second == "sill pan";
  return pan_and_strip && boards != skin.sheets.end() && boxOf(*called("sill pan")).z0 < boxOf(*boards).z1;
}

/// The demo window with an exposed head.
const Skin& gableSkin() {
  static const Skin skin = [] {
    const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml");
    for (std::size_t i = 0; i < demo.job.openings.size(); ++i) {
      if (demo.job.openings[i].name == "H1") return demo.plan.openings[i].weather.skin;
    }
    return Skin{};
  }();
  return skin;
}

const Sheet& sheetOf(const Skin& skin, SheetKind kind) {
  const auto found =
      std::find_if(skin.sheets.begin(), skin.sheets.end(), [&](const Sheet& sheet) { return sheet.kind == kind; });
  REQUIRE(found != skin.sheets.end());
  return *found;
}

WhatIf parsed(const std::string& text) {
  const auto result = parseWhatIf(text);
  for (const auto& error : result.errors) UNSCOPED_INFO(base::toLine(error));
  REQUIRE(result.ok());
  return *result.value;
}

}  // namespace

TEST_CASE("as planned, no opening of the demo jobs lets water in") {
  atEachDemo([](const testing::DemoJob& demo, std::size_t i) {
    CHECK(demo.plan.openings[i].water.strips > 5);
    const bool on_floor = demo.job.openings[i].sill <= 0;
    CHECK(explain(demo.plan.openings[i].water, demo.plan.openings[i].weather.skin) ==
          (on_floor ? "What is traced is shed outside; the door's threshold and its pan are not traced."
                    : "All water is shed outside."));
  });
}

TEST_CASE("each swap of neighbouring laps that the trade forbids leaks at that lap: a sheltered one stays dry") {
  int wet = 0;
  int sheltered = 0;
  atEachDemo([&](const testing::DemoJob& demo, std::size_t i) {
    const Skin& skin = demo.plan.openings[i].weather.skin;
    const auto laps = forbiddenSwaps(skin);
    CHECK(laps.size() >= 3);
    for (const auto& lap : laps) {
      CAPTURE(toText(lap.swap), lap.z, lap.x_low, lap.x_high, skin.sheltered_above);
      const Skin wrong = changed(skin, lap.swap);
      const Water water = traceWater(wrong);
      CAPTURE(explain(water, wrong));
      if (lap.z >= skin.sheltered_above) {
        CHECK(dry(water));
        ++sheltered;
      } else if (panReachesBoards(lap, skin)) {
        CHECK(dry(water));
      } else if (inSlope(skin) && besideCorner(lap, skin)) {
        continue;
      } else {
        CHECK(foundAt(lap, wrong, water));
        ++wet;
      }
    }
  });
  CHECK(wet > 60);
  CHECK(sheltered > 5);
}

TEST_CASE("swaps that the trade has no rule about and water doesn't mind are harmless") {
  using Kinds = std::pair<SheetKind, SheetKind>;
  const std::vector<Kinds> harmless = {{SheetKind::JambFlashing, SheetKind::Fin},
                                       {SheetKind::JambFlashing, SheetKind::JambFlashing},
                                       {SheetKind::Fin, SheetKind::UnitFace},
                                       {SheetKind::HeadFlap, SheetKind::HeadTape}};
  int tried = 0;
  atEachDemo([&](const testing::DemoJob& demo, std::size_t i) {
    const Skin& skin = demo.plan.openings[i].weather.skin;
    for (std::size_t b = 0; b < skin.sheets.size(); ++b) {
      for (std::size_t a = 0; a < b; ++a) {
        const Kinds kinds{skin.sheets[a].kind, skin.sheets[b].kind};
        if (std::find(harmless.begin(), harmless.end(), kinds) == harmless.end()) continue;
        const SwapSheets swap{skin.sheets[a].name, skin.sheets[b].name};
        CAPTURE(toText(swap));
        CHECK(dry(traceWater(changed(skin, swap))));
        ++tried;
      }
    }
  });
  CHECK(tried > 40);
}

TEST_CASE("drops moved in small steps end where the exact tracing says, on the demo skins and on each wrong lap") {
  int compared = 0;
  const auto compare = [&](const Skin& skin) {
    const Water water = traceWater(skin);
    // Some drops of each skin: steps of a hundredth of a millimetre over two metres are slow.
    std::mt19937_64 random(water.paths.size());
    for (const auto& path : water.paths) {
      if (path.source != WaterSource::Rain || random() % 16 != 0) continue;
      const double x = (path.x_low + path.x_high) / 2;
      const double z = water.legs[path.first_leg].z_from - 1e-3;
      CAPTURE(x, z, path.first_leg);
      REQUIRE(static_cast<int>(testing::stepDown(skin, x, z, 0.25)) == static_cast<int>(path.end));
      ++compared;
    }
  };
  atEachDemo([&](const testing::DemoJob& demo, std::size_t i) {
    const Skin& skin = demo.plan.openings[i].weather.skin;
    compare(skin);
    for (const auto& lap : forbiddenSwaps(skin)) compare(changed(skin, lap.swap));
  });
  CHECK(compared > 500);
}

TEST_CASE("turning one lap leaves the others as they were") {
  const Skin& skin = gableSkin();
  const Skin wrong = changed(skin, parsed("swap sill flashing, left jamb flashing"));
  const auto orderOf = [](const Skin& in, const std::string& name) {
    for (const auto& sheet : in.sheets) {
      if (sheet.name == name) return sheet.order;
    }
    return -1;
  };
  CHECK(orderOf(wrong, "left jamb flashing") < orderOf(wrong, "sill flashing"));
  CHECK(orderOf(wrong, "right jamb flashing") > orderOf(wrong, "sill flashing"));
  CHECK(orderOf(wrong, "fin") > orderOf(wrong, "left jamb flashing"));
  CHECK(orderOf(wrong, "cladding below") < orderOf(wrong, "sill flashing"));
  CHECK(explain(traceWater(wrong), wrong) ==
        "Water behind the cladding running down the left jamb flashing gets behind the sill flashing, whose top edge "
        "is open to it, then behind the cladding below; it leaves at the wall's foot, behind the cladding.");
  // Both at once, by the name that means both.
  const Skin both = changed(skin, parsed("swap sill flashing, jamb flashings"));
  CHECK(orderOf(both, "left jamb flashing") < orderOf(both, "sill flashing"));
  CHECK(orderOf(both, "right jamb flashing") < orderOf(both, "sill flashing"));
}

TEST_CASE("a door's pan left out or turned is not said to shed all water: its threshold isn't traced") {
  const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml");
  const auto door = std::find_if(demo.job.openings.begin(), demo.job.openings.end(),
                                 [](const job::Opening& opening) { return opening.sill <= 0; });
  REQUIRE(door != demo.job.openings.end());
  const auto& planned = demo.plan.openings[static_cast<std::size_t>(door - demo.job.openings.begin())];
  for (const char* wrong : {"without sill pan", "swap sill pan, left jamb flashing"}) {
    CAPTURE(wrong);
    const Skin skin = changed(planned.weather.skin, parsed(wrong));
    const std::string said = explain(traceWater(skin), skin);
    CHECK(said.find("All water") == std::string::npos);
    CHECK(said.find("not traced") != std::string::npos);
  }
}

TEST_CASE("a lap shortened by parts of a millimetre reads back from its words") {
  for (const char* said : {"shorten sill flashing 40", "shorten sill flashing 0.6565", "shorten k  . .6565"}) {
    CAPTURE(said);
    const auto read = parseWhatIf(said);
    REQUIRE(read.ok());
    const auto again = parseWhatIf(toText(*read.value));
    REQUIRE(again.ok());
    CHECK(*again.value == *read.value);
  }
}

TEST_CASE("a piece or a step left out shows where the water goes") {
  const Skin& skin = gableSkin();
  SECTION("the head flashing, with the flap left down") {
    const Skin without = changed(changed(skin, parsed("without step head flap")), parsed("without head flashing"));
    const Water water = traceWater(without);
    CHECK(explain(water, without).find("gets behind the fin") != std::string::npos);
    CHECK(explain(water, without).find("into the opening") != std::string::npos);
  }
  SECTION("the sill flashing") {
    const Water water = traceWater(changed(skin, parsed("without sill flashing")));
    CHECK(std::any_of(water.leaks.begin(), water.leaks.end(),
                      [](const Leak& leak) { return leak.source == WaterSource::FrameDrainage; }));
  }
  SECTION("the membrane, the step") {
    CHECK(!traceWater(changed(skin, parsed("without step membrane"))).leaks.empty());
  }
  SECTION("the tape alone: the flap still laps the upstand") {
    CHECK(dry(traceWater(changed(skin, parsed("without head tape")))));
  }
}

TEST_CASE("a lap cut short holds until it is gone") {
  const Skin& skin = gableSkin();
  const double foot = boxOf(sheetOf(skin, SheetKind::SillFlashing)).z0;
  const double board = -45;  // common practice, no source: the board's top 30 up under a flashing 75 down
  CHECK(foot == Approx(-75));
  CHECK(dry(traceWater(changed(skin, parsed("shorten sill flashing 29")))));
  const Skin open = changed(skin, parsed("shorten sill flashing 31 mm"));
  CHECK(boxOf(sheetOf(open, SheetKind::SillFlashing)).z0 == Approx(foot + 31));
  const Water water = traceWater(open);
  REQUIRE(!water.behind_cladding.empty());
  CHECK(water.behind_cladding.front().z == Approx(board));
  CHECK(water.behind_cladding.front().say.find("gets behind the cladding below") != std::string::npos);
}

TEST_CASE("changes are written and read in the same words") {
  const std::vector<WhatIf> all = {SwapSheets{"sill flashing", "left jamb flashing"}, LeaveOutSheet{"head flashing"},
                                   LeaveOutStep{StepKind::HeadFlap}, ShortenLap{"jamb flashing", 40},
                                   ShortenLap{"fin", 0.1}};
  for (const auto& what_if : all) CHECK(parsed(toText(what_if)) == what_if);
  CHECK(toText(all[0]) == "swap sill flashing, left jamb flashing");
  CHECK(parsed("  swap  fin ,  head flashing ") == WhatIf{SwapSheets{"fin", "head flashing"}});
  CHECK(parsed("shorten jamb flashing 40 mm") == WhatIf{ShortenLap{"jamb flashing", 40}});
  for (std::size_t i = 0; i < kStepKinds; ++i) {
    const LeaveOutStep step{static_cast<StepKind>(i)};
    CHECK(parsed(toText(step)) == WhatIf{step});
  }
  const auto several = parseWhatIfs("without head tape; swap fin, head flashing;");
  REQUIRE(several.ok());
  CHECK(several.value->size() == 2);
  REQUIRE(parseWhatIfs("").ok());
  CHECK(parseWhatIfs("").value->empty());
}

TEST_CASE("what a person typed never breaks the line of the sentence that refuses it") {
  for (const char* text : {"sell\nit", "without step a\nb"}) {
    const auto read = parseWhatIf(text);
    REQUIRE(read.errors.size() == 1);
    const std::string line = base::toLine(read.errors[0]);
    INFO(line);
    CHECK(line.find('\n') == std::string::npos);
  }
}

TEST_CASE("what is not understood or can't be done is said in a sentence") {
  for (const char* text :
       {"", "swap", "swap fin", "swap fin,", "without", "without step dancing", "shorten", "shorten fin", "shorten 40",
        "shorten fin -3", "shorten fin nan", "move fin", "swapfin, unit"}) {
    CAPTURE(text);
    const auto result = parseWhatIf(text);
    CHECK(!result.ok());
    REQUIRE(result.errors.size() == 1);
    CHECK(result.errors.front().say.size() > 10);
  }
  const Skin& skin = gableSkin();
  for (const char* text : {"swap fin, gutter", "without gutter", "without step re-check", "shorten gutter 10",
                           "shorten sill flashing 75", "swap fin, fin"}) {
    CAPTURE(text);
    CHECK(!applyWhatIf(skin, parsed(text)).ok());
  }
  CHECK(applyWhatIf(skin, parsed("without gutter")).errors.front().say.find("sill flashing") != std::string::npos);
}

TEST_CASE("a letter that means many sheets turns many laps, and their depths stay small numbers") {
  int done = 0;
  atEachDemo([&](const testing::DemoJob& demo, std::size_t i) {
    const Skin& skin = demo.plan.openings[i].weather.skin;
    for (const char* text : {"swap s, c", "swap l, c", "swap d, j"}) {
      const auto result = applyWhatIf(skin, parsed(text));
      if (!result.ok()) continue;
      ++done;
      for (const Sheet& sheet : result.value->sheets) {
        CHECK(sheet.order >= 1);
        CHECK(sheet.order <= static_cast<int>(skin.sheets.size()));
      }
    }
  });
  CHECK(done > 0);
}

TEST_CASE("steps done in the right order make the skin again: in a wrong one the laps turn") {
  atEachDemo([](const testing::DemoJob& demo, std::size_t i) {
    const Skin& skin = demo.plan.openings[i].weather.skin;
    const auto steps = stepsAt(demo.plan.openings[i]);
    const Skin again = skinInOrder(skin, steps);
    REQUIRE(again.sheets.size() == skin.sheets.size());
    CHECK(dry(traceWater(again)));
    std::vector<const Sheet*> made;
    for (const Sheet& sheet : skin.sheets) {
      const auto same = std::find_if(again.sheets.begin(), again.sheets.end(), [&](const Sheet& other) {
        return other.name == sheet.name && boxOf(other).x0 == boxOf(sheet).x0;
      });
      REQUIRE(same != again.sheets.end());
      made.push_back(&*same);
    }
    for (std::size_t b = 0; b < skin.sheets.size(); ++b) {
      for (std::size_t a = 0; a < b; ++a) {
        if (skin.sheets[a].order == skin.sheets[b].order || !overlapOf(skin.sheets[a], skin.sheets[b]).any) continue;
        CAPTURE(skin.sheets[a].name, skin.sheets[b].name);
        CHECK(made[a]->order < made[b]->order);
      }
    }
  });
  const Skin& skin = gableSkin();
  std::vector<StepKind> steps;
  for (std::size_t i = 0; i < kStepKinds; ++i) steps.push_back(static_cast<StepKind>(i));
  const auto swapped = [&](StepKind a, StepKind b) {
    auto order = steps;
    std::swap(order[static_cast<std::size_t>(a)], order[static_cast<std::size_t>(b)]);
    return order;
  };
  CHECK(!dry(traceWater(skinInOrder(skin, swapped(StepKind::SillFlashing, StepKind::JambFlashings)))));
  CHECK(!dry(traceWater(skinInOrder(skin, swapped(StepKind::LiftIn, StepKind::HeadFlashing)))));
  CHECK(dry(traceWater(skinInOrder(skin, swapped(StepKind::TryOpening, StepKind::ReadAgain)))));
  // Not done at all.
  auto without = steps;
  std::erase(without, StepKind::Membrane);
  CHECK(!dry(traceWater(skinInOrder(skin, without))));
}
