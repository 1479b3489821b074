// What keeps the water out: pieces and laps by the practice, and the water's answer to each lap put the wrong way
// round.

#include "plan/weather/weather.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

#include "plan/weather/water.h"
#include "practice/read.h"
#include "support/catch.h"
#include "support/simple_job.h"

namespace {

using namespace sillwright;
using namespace sillwright::plan;

practice::Practice practiceNamed(const std::string& name) {
  auto result = practice::load(name, SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_ASSETS_DIR);
  REQUIRE(result.ok());
  return std::move(*result.value);
}

/// One wall with one opening 1530 × 1060, its sill at 900, the unit 20 smaller each way.
job::Job oneWindow() {
  job::Job job;
  job.walls.resize(1);
  job.walls[0].length = 4000;
  job.openings.resize(1);
  auto& opening = job.openings[0];
  opening.left = 1000;
  opening.sill = 900;
  opening.width = 1530;
  opening.height = 1060;
  opening.unit.width = 1510;
  opening.unit.height = 1040;
  opening.unit.reveal = job::Reveal{18, 100};
  return job;
}

Weather weatherOf(const job::Job& job, const practice::Practice& practice) {
  WallSpec wall;
  wall.length = 4000;
  wall.stud = {90, 45};
  UnitSpec unit;
  unit.width = job.openings[0].unit.width;
  unit.height = job.openings[0].unit.height;
  unit.reveal = job.openings[0].unit.reveal;
  unit.fin = 30;
  Stand stand;
  stand.x = 10;
  stand.z = job.openings[0].sill > 0 ? 10 : 0;
  return weatherproof(job, 0, wall, unit, stand, practice);
}

Sheet& sheetOf(Skin& skin, SheetKind kind, const std::string& part = {}) {
  for (auto& sheet : skin.sheets) {
    if (sheet.kind == kind && sheet.name.find(part) != std::string::npos) return sheet;
  }
  FAIL("no such sheet: " << part);
  return skin.sheets.front();
}

void swapOrders(Sheet& a, Sheet& b) { std::swap(a.order, b.order); }

void leaveOut(Skin& skin, SheetKind kind) {
  std::erase_if(skin.sheets, [&](const Sheet& sheet) { return sheet.kind == kind; });
}

std::string all(const Skin& skin) {
  std::string said;
  const Water water = traceWater(skin);
  for (const auto& leak : water.leaks) said += leak.say + "\n";
  for (const auto& leak : water.behind_cladding) said += "(held) " + leak.say + "\n";
  return said;
}

}  // namespace

TEST_CASE("laps in the right order let no water in, in every practice, window or door, sheltered or not") {
  for (const auto& name : practice::names(SILLWRIGHT_ASSETS_DIR)) {
    const auto practice = practiceNamed(name);
    for (const double sill : {0.0, 150.0, 900.0, 1500.0}) {
      for (const double soffit : {0.0, 2000.0, 2300.0}) {
        job::Job job = oneWindow();
        job.openings[0].sill = sill;
        if (soffit > 0) job.walls[0].eave = job::Eave{soffit, 450};
        const Weather weather = weatherOf(job, practice);
        CAPTURE(name, sill, soffit, weather.head.why);
        CHECK(all(weather.skin) == "");
      }
    }
  }
}

TEST_CASE("cladding comes up over the leg of a sill's flashing to the unit, which comes out under it") {
  for (const auto& name : practice::names(SILLWRIGHT_ASSETS_DIR)) {
    CAPTURE(name);
    const auto practice = practiceNamed(name);
    Skin skin = weatherOf(oneWindow(), practice).skin;
    const Rect leg = boxOf(sheetOf(skin, SheetKind::SillFlashing, "flashing"));
    const Rect fin = boxOf(sheetOf(skin, SheetKind::Fin));
    const Sheet& over = sheetOf(skin, SheetKind::Cladding, "at the sill");
    CHECK(boxOf(over).z1 >= fin.z0);
    CHECK(boxOf(over).z0 < boxOf(over).z1);
    CHECK(boxOf(over).z0 > leg.z0);
    const Rect below = boxOf(sheetOf(skin, SheetKind::Cladding, "below"));
    CHECK(below.z1 < boxOf(over).z0);
    CHECK(below.z1 > leg.z0);
  }
}

TEST_CASE("exposed heads: each wrong lap or missing piece shows where the water goes") {
  const auto practice = practiceNamed("au");
  const Weather weather = weatherOf(oneWindow(), practice);
  REQUIRE(weather.head.needed);
  SECTION("no head flashing: behind the fin and into the opening") {
    Skin skin = weather.skin;
    leaveOut(skin, SheetKind::HeadFlashing);
    leaveOut(skin, SheetKind::HeadFlap);
    leaveOut(skin, SheetKind::HeadTape);
    const Water water = traceWater(skin);
    REQUIRE(!water.leaks.empty());
    bool behind_fin = false;
    for (const auto& leak : water.leaks) {
      behind_fin =
          behind_fin || (leak.lower >= 0 && skin.sheets[static_cast<std::size_t>(leak.lower)].kind == SheetKind::Fin);
    }
    CHECK(behind_fin);
  }
  SECTION("the flap behind the head flashing's upstand") {
    Skin skin = weather.skin;
    leaveOut(skin, SheetKind::HeadTape);
    CHECK(all(skin) == "");  // the tape is the second line here
    swapOrders(sheetOf(skin, SheetKind::HeadFlashing), sheetOf(skin, SheetKind::HeadFlap));
    CHECK(all(skin).find("gets behind the head flashing") != std::string::npos);
    CHECK(!traceWater(skin).leaks.empty());
  }
  SECTION("the head flashing's turn-down behind the fin") {
    Skin skin = weather.skin;
    swapOrders(sheetOf(skin, SheetKind::HeadFlashing), sheetOf(skin, SheetKind::Fin));
    CHECK(!traceWater(skin).leaks.empty());
  }
  SECTION("a lower run of membrane over the upper one") {
    Skin skin = weather.skin;
    swapOrders(sheetOf(skin, SheetKind::MembraneRun, "run 1"), sheetOf(skin, SheetKind::MembraneRun, "run 2"));
    CHECK(!traceWater(skin).leaks.empty());
  }
  SECTION("no membrane at all") {
    Skin skin = weather.skin;
    leaveOut(skin, SheetKind::MembraneRun);
    CHECK(!traceWater(skin).leaks.empty());
  }
  SECTION("no sill flashing") {
    Skin skin = weather.skin;
    leaveOut(skin, SheetKind::SillFlashing);
    const Water water = traceWater(skin);
    CHECK(std::any_of(water.leaks.begin(), water.leaks.end(),
                      [](const Leak& leak) { return leak.source == WaterSource::FrameDrainage; }));
  }
}

TEST_CASE("the sill flashing brings water out: put wrongly it sends it behind the cladding") {
  const auto practice = practiceNamed("au");
  const Weather weather = weatherOf(oneWindow(), practice);
  SECTION("the board below over the sill flashing instead of under it") {
    Skin skin = weather.skin;
    swapOrders(sheetOf(skin, SheetKind::SillFlashing), sheetOf(skin, SheetKind::Cladding, "below"));
    CHECK(all(skin).find("gets behind the cladding below") != std::string::npos);
  }
  SECTION("a jamb flashing under the sill flashing instead of over it") {
    Skin skin = weather.skin;
    swapOrders(sheetOf(skin, SheetKind::SillFlashing), sheetOf(skin, SheetKind::JambFlashing, "left"));
    CHECK(all(skin).find("gets behind the sill flashing") != std::string::npos);
  }
}

TEST_CASE("swaps that touch nothing are harmless") {
  const auto practice = practiceNamed("au");
  Skin skin = weatherOf(oneWindow(), practice).skin;
  swapOrders(sheetOf(skin, SheetKind::JambFlashing, "left"), sheetOf(skin, SheetKind::JambFlashing, "right"));
  CHECK(all(skin) == "");
  swapOrders(sheetOf(skin, SheetKind::HeadFlap), sheetOf(skin, SheetKind::HeadTape));
  CHECK(all(skin) == "");
}

TEST_CASE("lengths of flashings past the opening") {
  // ABCB Housing Provisions 7.5.6(a)(i): at least 110 past the reveal each side; 1810 wide → at least 2030.
  const auto practice = practiceNamed("au");
  job::Job job = oneWindow();
  job.openings[0].width = 1830;
  job.openings[0].unit.width = 1810;
  const Weather weather = weatherOf(job, practice);
  for (const auto& piece : weather.pieces) {
    if (piece.kind == PieceKind::SillFlashing || piece.kind == PieceKind::HeadFlashing)
      CHECK(piece.length >= 1810 + 2 * 110);
  }
}

TEST_CASE("the eave rule") {
  // ABCB Housing Provisions 7.5.6, figure note: the head flashing may be left out where the eave's width is at least
  // three times the height from the opening's top to the eave. 600 for 200: may; 600 for 201: must; 450 for 150: may.
  const auto practice = practiceNamed("au");
  const auto& rule = practice.weather.flashing.eave;
  CHECK(!headNeed(job::Eave{2300, 600}, 2100, rule, practice::Display::Millimetres).needed);
  CHECK(headNeed(job::Eave{2300, 600}, 2099, rule, practice::Display::Millimetres).needed);
  CHECK(!headNeed(job::Eave{2300, 450}, 2150, rule, practice::Display::Millimetres).needed);
  CHECK(headNeed(std::nullopt, 2100, rule, practice::Display::Millimetres).needed);
  // Where the head may go bare, no rain starts above it.
  CHECK(rainFrom(job::Eave{2300, 600}, rule) == Approx(2100));
}

TEST_CASE("the fall of a head flashing") {
  // E2/AS1: at least 15°. By trigonometry 50 mm across falls 13.40 mm, and is 51.76 mm along the metal.
  const auto practice = practiceNamed("nz");
  const Weather weather = weatherOf(oneWindow(), practice);
  const auto head = std::find_if(weather.pieces.begin(), weather.pieces.end(),
                                 [](const Piece& piece) { return piece.kind == PieceKind::HeadFlashing; });
  REQUIRE(head != weather.pieces.end());
  CHECK(head->fall_degrees >= 15);
  const double across = practice.weather.flashing.head_reach.value;
  CHECK(head->folds[1] == Approx(across / std::cos(head->fall_degrees * 3.14159265358979 / 180)));
}

TEST_CASE("the cut in the membrane: a smaller rectangle and four cuts at 45 degrees into the corners") {
  const auto practice = practiceNamed("au");
  const Weather weather = weatherOf(oneWindow(), practice);
  REQUIRE(weather.cut.cuts.size() == 8);
  CHECK(weather.cut.flap == 90);
  for (std::size_t i = 4; i < 8; ++i) {
    const auto& [from, to] = weather.cut.cuts[i];
    CHECK(std::abs(to.x - from.x) == Approx(90));
    CHECK(std::abs(to.z - from.z) == Approx(90));
  }
}

TEST_CASE("where no roll reaches over a sill flashing in one piece it is a strip on the face and a pan over it") {
  // The American strip on the face is 9 in wide, as wide as the widest roll there (AWDI installation manual).
  const auto us = practiceNamed("us");
  const Weather weather = weatherOf(oneWindow(), us);
  const auto pieceOf = [&](PieceKind kind) {
    const auto found = std::find_if(weather.pieces.begin(), weather.pieces.end(),
                                    [&](const Piece& piece) { return piece.kind == kind; });
    REQUIRE(found != weather.pieces.end());
    return *found;
  };
  const Piece strip = pieceOf(PieceKind::SillFlashing);
  CHECK(strip.width == Approx(9 * 25.4));
  CHECK(strip.length == Approx(1530 + 2 * us.weather.flashing.sill_past.usual.value));
  const Piece pan = pieceOf(PieceKind::SillPan);
  CHECK(pan.name == "sill pan");
  CHECK(pan.step == strip.step);
  // Across the studs, turned up behind by the back dam's 1 in and down in front; its ends up the studs.
  CHECK(pan.width >= 90 + 25.4 + 50);
  CHECK(pan.length == Approx(1530 + 2 * 152.4));
  for (const auto& piece : weather.pieces) CHECK_FALSE(piece.too_wide);
  const auto lap =
      std::find_if(weather.laps.begin(), weather.laps.end(), [](const Lap& each) { return each.upper == "sill pan"; });
  REQUIRE(lap != weather.laps.end());
  CHECK(lap->lower == "sill flashing");
  CHECK(lap->lap == 50);
  SECTION("in the right order no water gets in; the strip over the pan loses the frame's own water") {
    CHECK(all(weather.skin) == "");
    Skin skin = weather.skin;
    swapOrders(sheetOf(skin, SheetKind::SillFlashing, "sill flashing"),
               sheetOf(skin, SheetKind::SillFlashing, "sill pan"));
    CHECK(all(skin).find("gets behind the sill flashing") != std::string::npos);
  }
  SECTION("without the strip the pan's water runs behind the board below") {
    Skin skin = weather.skin;
    std::erase_if(skin.sheets, [](const Sheet& sheet) { return sheet.name == "sill flashing"; });
    CHECK(all(skin) != "");
  }
  SECTION("without the pan it runs into the opening or on to the timber") {
    Skin skin = weather.skin;
    std::erase_if(skin.sheets, [](const Sheet& sheet) { return sheet.name == "sill pan"; });
    CHECK(!traceWater(skin).leaks.empty());
  }
}

TEST_CASE("a sill is flashed in one piece where a roll reaches, or where two pieces would not do either") {
  const auto hasPan = [](const Weather& weather) {
    return std::any_of(weather.pieces.begin(), weather.pieces.end(),
                       [](const Piece& piece) { return piece.kind == PieceKind::SillPan; });
  };
  const auto sill = [](const Weather& weather) {
    return *std::find_if(weather.pieces.begin(), weather.pieces.end(),
                         [](const Piece& piece) { return piece.kind == PieceKind::SillFlashing; });
  };
  for (const char* name : {"au", "nz", "uk"}) {
    CAPTURE(name);
    const Weather weather = weatherOf(oneWindow(), practiceNamed(name));
    CHECK_FALSE(hasPan(weather));
    CHECK_FALSE(sill(weather).too_wide);
  }
  const auto us = practiceNamed("us");
  job::Job job = oneWindow();
  job.stock = job::Stock{};
  job.stock->rolls = {400};
  CHECK_FALSE(hasPan(weatherOf(job, us)));
  CHECK(sill(weatherOf(job, us)).width == 400);
  job.stock->rolls = {100};
  CHECK_FALSE(hasPan(weatherOf(job, us)));
  CHECK(sill(weatherOf(job, us)).too_wide);
  // Flashings that came on the unit are cut from no roll.
  job.openings[0].unit.flashing = job::Flashing::Fitted;
  CHECK_FALSE(hasPan(weatherOf(job, us)));
  CHECK_FALSE(sill(weatherOf(job, us)).too_wide);
}

TEST_CASE("a door that stands on the floor but for rounding has no water run in under it") {
  job::Job job = testing::simpleJob(job::UnitKind::HingedDoor, 480, 480, "uk");
  job.openings[0].unit.fin.reset();
  for (const std::size_t side : {std::size_t{0}, std::size_t{2}}) {
    job.openings[0].measured = job::Measured{};
    job.openings[0].measured->heights[side] = 500.5;
    const auto planned = testing::planAlone(job, 0, testing::shipped("uk"));
    CHECK(std::abs(planned.stand.z) < 1e-9);
    for (const auto& leak : planned.water.leaks) CHECK(leak.say.find("lower edge of the unit") == std::string::npos);
  }
}

TEST_CASE("a unit without a fin is closed by the sealant at its face: no water runs in beside it") {
  for (const char* practice : {"au", "nz", "us", "uk"}) {
    job::Job job = testing::simpleJob(job::UnitKind::AwningWindow, 1200, 1000, practice);
    job.openings[0].unit.fin = 0;
    const auto planned = testing::planAlone(job, 0, testing::shipped(practice));
    CAPTURE(practice);
    CHECK(planned.weather.head.needed);  // there is no eave
    for (const auto& leak : planned.water.leaks) CHECK(leak.say == "");
    // Without the sealant it does run in: the line is what keeps it out.
    Skin open = planned.weather.skin;
    std::erase_if(open.sheets, [](const Sheet& sheet) { return sheet.kind == SheetKind::FaceSeal; });
    CHECK(open.sheets.size() + 2 == planned.weather.skin.sheets.size());
    CHECK_FALSE(traceWater(open).leaks.empty());
  }
}
