// The frame against published rules and figures. What could only be seen second-hand says so.
#include <set>

#include "plan/frame_walls.h"
#include "practice/read.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::test;

namespace {

practice::Practice load(const char* name) {
  auto result = practice::load(name, SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_SOURCE_DIR);
  REQUIRE(result.ok());
  return std::move(*result.value);
}

/// A wall without openings whose studs are `clear` long, with the practice's own sizes.
WallSpec wallOfStuds(double clear, const practice::Practice& practice) {
  job::Wall wall;
  wall.length = 3000;
  const auto& rules = practice.framing;
  const double plates = (rules.top_plates.value + rules.bottom_plates.value) * rules.stud_thickness.value;
  wall.top = {{0, clear + plates}, {3000, clear + plates}};
  return plan::settleWall(wall, practice);
}

/// Rows of noggings, by bays: how many noggings each bay has.
std::set<std::size_t> rowsInBays(const Frame& frame) {
  std::set<std::size_t> counts;
  const auto noggings = of(frame, MemberPart::Nogging);
  for (const Member& first : noggings) {
    counts.insert(static_cast<std::size_t>(
        std::count_if(noggings.begin(), noggings.end(), [&](const Member& m) { return left(m) == left(first); })));
  }
  return counts;
}

}  // namespace

TEST_CASE("nogging rows at no more than 1350 centres: studs of 2700 have one row, of 2701 two") {
  // AS 1684 series, section 6, noggings: largest centres 1350; "walls up to 2700 high need one row". Read in two public
  // teaching texts (RMIT toolbox, a lecture), not in the standard itself.
  const practice::Practice au = load("au");
  const Frame one = plan::frameWall(wallOfStuds(2700, au), {}, au.framing);
  CHECK(of(one, MemberPart::CommonStud).front().length == Approx(2700));
  CHECK(rowsInBays(one) == std::set<std::size_t>{1});
  CHECK(rowsInBays(plan::frameWall(wallOfStuds(2701, au), {}, au.framing)) == std::set<std::size_t>{2});
  CHECK(rowsInBays(plan::frameWall(wallOfStuds(4050, au), {}, au.framing)) == std::set<std::size_t>{2});
  CHECK(rowsInBays(plan::frameWall(wallOfStuds(4051, au), {}, au.framing)) == std::set<std::size_t>{3});
  CHECK(of(plan::frameWall(wallOfStuds(1350, au), {}, au.framing), MemberPart::Nogging).empty());
  CHECK(rowsInBays(plan::frameWall(wallOfStuds(1351, au), {}, au.framing)) == std::set<std::size_t>{1});
}

TEST_CASE("noggings are staggered by no more than twice their breadth, and are at least 25 thick") {
  // AS 1684 series, section 6, noggings (read in the RMIT toolbox): stagger at most 2 x breadth (35: 70, 45: 90);
  // thickness at least 25.
  const practice::Practice au = load("au");
  for (const double thickness : {35.0, 45.0}) {
    for (const double clear : {2310.0, 2700.0, 3300.0, 4800.0}) {
      WallSpec wall = wallOfStuds(clear, au);
      wall.stud.thickness = thickness;
      const Frame frame = plan::frameWall(wall, {}, au.framing);
      const auto noggings = of(frame, MemberPart::Nogging);
      REQUIRE_FALSE(noggings.empty());
      for (const Member& a : noggings) {
        CHECK(high(a) - low(a) >= 25);
        for (const Member& b : noggings) {
          const double stagger = std::abs(low(a) - low(b));
          const bool same_row = stagger < 600;
          if (same_row) CHECK(stagger <= 2 * thickness + 1e-9);
        }
      }
    }
  }
}

TEST_CASE("jack studs have the size and the spacing of the common studs") {
  // AS 1684 series, section 6, Openings, Fig. 6.9 (read in a public lecture).
  const practice::Practice au = load("au");
  WallSpec wall = wallOfStuds(2610, au);
  wall.length = 6000;
  wall.top.back().x = 6000;
  const Frame frame = plan::frameWall(wall, std::vector{opening(0, 1300, 900, 2400, 1200)}, au.framing);
  REQUIRE(frame.faults.empty());
  // 450 x 3 … 450 x 8 = 1350 … 3600: the studs of all six stand inside 1300 … 3700.
  for (const MemberPart part : {MemberPart::JackStudAbove, MemberPart::JackStudBelow}) {
    const auto jacks = of(frame, part);
    REQUIRE(jacks.size() == 6);
    for (std::size_t i = 0; i < jacks.size(); ++i) {
      CHECK((left(jacks[i]) + right(jacks[i])) / 2 == Approx(450 * (static_cast<double>(i) + 3)));
      CHECK(jacks[i].width == wall.stud.thickness);
      CHECK(jacks[i].depth == wall.stud.depth);
    }
  }
}

TEST_CASE("jack studs under headers at the spans of the code's table") {
  // IRC 2021 Table R602.7(1), roof and ceiling, 30 psf ground snow, 24 ft: span and number of jack studs (NJ) at each
  // end; read on a public reference sheet, not in the code itself. The practice draws at least as many.
  struct Row {
    double feet, inches;
    int jack_studs;
    double depth;
  };
  const practice::Practice us = load("us");
  for (const Row& row :
       {Row{3, 1, 1, 89}, Row{4, 7, 1, 140}, Row{5, 9, 1, 184}, Row{6, 10, 2, 235}, Row{8, 1, 2, 286}}) {
    INFO(row.feet << " ft " << row.inches << " in");
    job::Opening at_span;
    at_span.width = (row.feet * 12 + row.inches) * 25.4 - 1;
    std::vector<plan::Assumption> assumed;
    const auto header = plan::settleLintel(at_span, us, assumed);
    REQUIRE(header.has_value());
    CHECK(header->depth == row.depth);
    CHECK(header->plies == 2);

    WallSpec wall = wallOfStuds(2500, us);
    wall.length = 6000;
    wall.top.back().x = 6000;
    FramedOpening framed = opening(0, 1500, 700, at_span.width, 1200);
    framed.lintel = header;
    const Frame frame = plan::frameWall(wall, std::vector{framed}, us.framing);
    REQUIRE(frame.faults.empty());
    CHECK(of(frame, MemberPart::BearingStud).size() >= static_cast<std::size_t>(2 * row.jack_studs));
  }
}

TEST_CASE("framing lumber as it is dressed") {
  // American Softwood Lumber Standard PS 20: a 2x4 is 1 1/2 x 3 1/2 in, 38 x 89 mm (read on two public pages).
  const practice::Practice us = load("us");
  const Frame frame = plan::frameWall(wallOfStuds(2400, us), {}, us.framing);
  for (const Member& stud : of(frame, MemberPart::CommonStud)) {
    CHECK(stud.width == 38);
    CHECK(stud.depth == 89);
  }
}
