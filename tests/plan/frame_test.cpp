#include <tuple>

#include "plan/frame/frame.h"
#include "plan/frame_walls.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::test;

namespace {

/// Part, x0, x1, z0, z1, length of a level member.
using Line = std::tuple<MemberPart, double, double, double, double, double>;

std::vector<Line> lines(const Frame& frame) {
  std::vector<Line> made;
  for (const Member& m : frame.members) made.emplace_back(m.part, left(m), right(m), low(m), high(m), m.length);
  std::sort(made.begin(), made.end());
  return made;
}

void requireSame(std::vector<Line> worked, const Frame& frame) {
  std::sort(worked.begin(), worked.end());
  const std::vector<Line> framed = lines(frame);
  REQUIRE(framed.size() == worked.size());
  for (std::size_t i = 0; i < worked.size(); ++i) {
    INFO("member " << i << ", part " << static_cast<int>(std::get<0>(worked[i])) << " from x "
                   << std::get<1>(worked[i]));
    CHECK(std::get<0>(framed[i]) == std::get<0>(worked[i]));
    CHECK(std::get<1>(framed[i]) == Approx(std::get<1>(worked[i])).margin(1e-9));
    CHECK(std::get<2>(framed[i]) == Approx(std::get<2>(worked[i])).margin(1e-9));
    CHECK(std::get<3>(framed[i]) == Approx(std::get<3>(worked[i])).margin(1e-9));
    CHECK(std::get<4>(framed[i]) == Approx(std::get<4>(worked[i])).margin(1e-9));
    CHECK(std::get<5>(framed[i]) == Approx(std::get<5>(worked[i])).margin(1e-9));
  }
}

}  // namespace

TEST_CASE("a 2.4 m wall with one window, every member worked by hand") {
  // Wall 2400 long, plates' top at 2400, studs 90 x 45 at 600, two top plates and one bottom plate, so the studs run
  // from 45 to 2400 - 90 = 2310: 2265 long. Window 900 x 1000 at 800, sill 900, head 1900, lintel 140 deep of two
  // plies, one bearing and one jamb stud a side.
  //   Left side:  bearing 755-800, jamb 710-755.   Right side: bearing 1700-1745, jamb 1745-1790.
  //   Commons:    0-45; 600 +- 22.5; 1200 falls in the window: jacks below (45 to 855) and above (2040 to 2310);
  //               1800 +- 22.5 runs into the right jamb stud: left out; last 2355-2400. Bay 1790 to 2355: 565 < 600.
  //   Lintel:     over the bearing studs, 755-1745: 990 long, 1900 to 2040; two plies.
  //   Trimmer:    800-1700, 855 to 900.
  //   Noggings:   2265 / 1350 = 1.7: one row, at 45 + 2265 / 2 = 1177.5, up and down by half of 45 from bay to bay:
  //               centres 1200 (45-577.5), 1155 (622.5-710), 1200 (1790-2355: the bays left of it, counted along the
  //               lower part of the window, are 755.. up, 1222.5.. down, so this one is up). Inside the window's width
  //               the row's height lies in the window (900 to 1900).
  const WallSpec wall = levelWall(2400, 2400, 600);
  const Frame frame = plan::frameWall(wall, std::vector{opening(0, 800, 900, 900, 1000)}, usualRules());
  CHECK(frame.faults.empty());
  requireSame(
      {
          {MemberPart::BottomPlate, 0, 2400, 0, 45, 2400},
          {MemberPart::TopPlate, 0, 2400, 2355, 2400, 2400},
          {MemberPart::TopPlate, 0, 2400, 2310, 2355, 2400},
          {MemberPart::CommonStud, 0, 45, 45, 2310, 2265},
          {MemberPart::CommonStud, 577.5, 622.5, 45, 2310, 2265},
          {MemberPart::CommonStud, 2355, 2400, 45, 2310, 2265},
          {MemberPart::JambStud, 710, 755, 45, 2310, 2265},
          {MemberPart::JambStud, 1745, 1790, 45, 2310, 2265},
          {MemberPart::BearingStud, 755, 800, 45, 1900, 1855},
          {MemberPart::BearingStud, 1700, 1745, 45, 1900, 1855},
          {MemberPart::JackStudBelow, 1177.5, 1222.5, 45, 855, 810},
          {MemberPart::JackStudAbove, 1177.5, 1222.5, 2040, 2310, 270},
          {MemberPart::Lintel, 755, 1745, 1900, 2040, 990},
          {MemberPart::Lintel, 755, 1745, 1900, 2040, 990},
          {MemberPart::SillTrimmer, 800, 1700, 855, 900, 900},
          {MemberPart::Nogging, 45, 577.5, 1177.5, 1222.5, 532.5},
          {MemberPart::Nogging, 622.5, 710, 1132.5, 1177.5, 87.5},
          {MemberPart::Nogging, 1790, 2355, 1177.5, 1222.5, 565},
      },
      frame);
  const std::vector<Member> plies = of(frame, MemberPart::Lintel);
  CHECK(plies[0].y0 == 0);
  CHECK(plies[0].y1 == 45);
  CHECK(plies[1].y0 == 45);
  CHECK(plies[1].y1 == 90);
  CHECK(plies[0].width == 140);
  CHECK(plies[0].depth == 45);
  for (const Member& m : frame.members) {
    CHECK(m.cut_degrees == 0);
    CHECK(m.slope_degrees == 0);
    CHECK_FALSE(m.apex.has_value());
  }
}

TEST_CASE("a door stands on the floor: the bottom plate is cut out between the jambs") {
  // Door 900 x 2100 at 600: plate 0-600 and 1500-2400; bearing studs 555-600 and 1500-1545 stand on the plate's ends.
  const Frame frame =
      plan::frameWall(levelWall(2400, 2700, 600), std::vector{opening(0, 600, 0, 900, 2100)}, usualRules());
  CHECK(frame.faults.empty());
  const auto plates = of(frame, MemberPart::BottomPlate);
  REQUIRE(plates.size() == 2);
  CHECK(right(plates[0]) == 600);
  CHECK(left(plates[1]) == 1500);
  CHECK(of(frame, MemberPart::SillTrimmer).empty());
  CHECK(of(frame, MemberPart::JackStudBelow).empty());
  const auto bearing = of(frame, MemberPart::BearingStud);
  REQUIRE(bearing.size() == 2);
  CHECK(left(bearing[0]) == 555);
  CHECK(low(bearing[0]) == 45);
  CHECK(high(bearing[0]) == 2100);
}

TEST_CASE("two bottom plates are both cut out for a door whose sill is inside them") {
  WallSpec wall = levelWall(2400, 2700, 600);
  wall.plates.bottom = 2;
  const Frame frame = plan::frameWall(wall, std::vector{opening(0, 600, 60, 900, 2000)}, usualRules());
  CHECK(of(frame, MemberPart::BottomPlate).size() == 4);
}

TEST_CASE("an opening close over another takes nothing from the lower one's sill") {
  // The upper sill stands 10 above the lower lintel: there is no room for its trimmer.
  const WallSpec wall = levelWall(2400, 3000, 450);
  const FramedOpening lower = opening(0, 600, 900, 1200, 600);
  FramedOpening upper = lower;
  upper.index = 1;
  upper.sill = lower.sill + lower.height + lower.lintel->depth + 10;
  const Frame alone = plan::frameWall(wall, std::vector{lower}, usualRules());
  const Frame both = plan::frameWall(wall, std::vector{lower, upper}, usualRules());
  REQUIRE(of(alone, MemberPart::JackStudBelow).size() > 1);
  CHECK(of(both, MemberPart::JackStudBelow).size() == of(alone, MemberPart::JackStudBelow).size());
  REQUIRE(both.faults.size() >= 1);
  const auto fault = std::find_if(both.faults.begin(), both.faults.end(),
                                  [](const auto& each) { return each.kind == FrameFaultKind::NoRoomForSill; });
  REQUIRE(fault != both.faults.end());
  CHECK(fault->other == 0);
  CHECK(fault->by == Approx(35));
}

TEST_CASE("the studs under an upper sill stand on the lower lintel") {
  const WallSpec wall = levelWall(2400, 3000, 450);
  const FramedOpening lower = opening(0, 600, 300, 1200, 600);
  FramedOpening upper = lower;
  upper.index = 1;
  upper.sill = lower.sill + lower.height + lower.lintel->depth + 400;
  const Frame frame = plan::frameWall(wall, std::vector{lower, upper}, usualRules());
  const double lintel_top = lower.sill + lower.height + lower.lintel->depth;
  const auto studs = of(frame, MemberPart::JackStudAbove);
  CHECK(std::count_if(studs.begin(), studs.end(), [&](const auto& stud) {
          return std::abs(low(stud) - lintel_top) < 1e-6 && std::abs(high(stud) - (upper.sill - 45)) < 1e-6;
        }) >= 2);
}

TEST_CASE("a sill just above the bottom plate leaves no room for a trimmer") {
  // Plate's top 45, trimmer 45: sill 89 is 1 short, sill 90 lets the trimmer lie on the plate, sill 45 is the plate.
  const WallSpec wall = levelWall(2400, 2700, 600);
  const auto framed = [&](double sill) {
    return plan::frameWall(wall, std::vector{opening(0, 600, sill, 900, 1000)}, usualRules());
  };
  const Frame short_of_room = framed(89);
  REQUIRE(short_of_room.faults.size() == 1);
  CHECK(short_of_room.faults[0].kind == FrameFaultKind::NoRoomForSill);
  CHECK(short_of_room.faults[0].by == Approx(1));
  CHECK(of(short_of_room, MemberPart::SillTrimmer).empty());
  CHECK(of(short_of_room, MemberPart::JackStudBelow).empty());
  CHECK(framed(90).faults.empty());
  CHECK(of(framed(90), MemberPart::SillTrimmer).size() == 1);
  CHECK(of(framed(90), MemberPart::JackStudBelow).empty());
  CHECK(framed(45).faults.empty());
  CHECK(of(framed(45), MemberPart::SillTrimmer).empty());
  CHECK(of(framed(45), MemberPart::BottomPlate).size() == 1);
}

TEST_CASE("without bearing studs the lintel hangs between the jamb studs") {
  practice::Framing rules = usualRules();
  rules.side_studs = {sideStuds(1800, 2, 0)};
  const Frame frame = plan::frameWall(levelWall(3000, 2400, 450), std::vector{opening(0, 1000, 900, 900, 1000)}, rules);
  CHECK(frame.faults.empty());
  CHECK(of(frame, MemberPart::BearingStud).empty());
  const auto jambs = of(frame, MemberPart::JambStud);
  REQUIRE(jambs.size() == 4);
  CHECK(left(jambs[0]) == 910);
  CHECK(right(jambs[3]) == 1990);
  for (const Member& ply : of(frame, MemberPart::Lintel)) {
    CHECK(left(ply) == 1000);
    CHECK(right(ply) == 1900);
  }
}

TEST_CASE("side studs follow the opening's width, and a width past the rules is said") {
  const WallSpec wall = levelWall(9000, 2700, 600);
  const auto jambs = [&](double width) {
    return of(plan::frameWall(wall, std::vector{opening(0, 2000, 900, width, 1000)}, usualRules()),
              MemberPart::JambStud)
        .size();
  };
  CHECK(jambs(1800) == 2);
  CHECK(jambs(1801) == 4);
  const Frame wide = plan::frameWall(wall, std::vector{opening(0, 2000, 900, 3700, 1000)}, usualRules());
  REQUIRE(wide.faults.size() == 1);
  CHECK(wide.faults[0].kind == FrameFaultKind::WiderThanRules);
  CHECK(wide.faults[0].by == Approx(100));
  CHECK(of(wide, MemberPart::JambStud).size() == 4);
}

TEST_CASE("a lintel that reaches the plates is said, and how far") {
  // Plates' underside 2310, head 2200: 110 of room for 140.
  const Frame frame =
      plan::frameWall(levelWall(2400, 2400, 600), std::vector{opening(0, 800, 900, 900, 1300)}, usualRules());
  REQUIRE(frame.faults.size() == 1);
  CHECK(frame.faults[0].kind == FrameFaultKind::NoRoomForLintel);
  CHECK(frame.faults[0].by == Approx(30));
  for (const Member& ply : of(frame, MemberPart::Lintel)) CHECK(high(ply) == Approx(2310));
  CHECK(of(frame, MemberPart::JackStudAbove).empty());
}

TEST_CASE("under a slope the lintel's nearer end decides") {
  // 20 in 100 falling to the right: at the lintel's right end, x = 1745, the plates' underside is
  // 2800 - 0.2 * 1745 - 90 * sqrt(1.04) = 2359.22; head 2250 + 140 = 2390 is 30.78 too high.
  WallSpec wall = levelWall(2400, 0, 600);
  wall.top = {{0, 2800}, {2400, 2320}};
  const Frame frame = plan::frameWall(wall, std::vector{opening(0, 800, 900, 900, 1350)}, usualRules());
  REQUIRE(frame.faults.size() == 1);
  CHECK(frame.faults[0].kind == FrameFaultKind::NoRoomForLintel);
  CHECK(frame.faults[0].by == Approx(2390 - (2800 - 349 - 90 * std::sqrt(1.04))).margin(1e-9));
}

TEST_CASE("neither job nor practice names a lintel") {
  FramedOpening bare = opening(3, 800, 900, 900, 1000);
  bare.lintel.reset();
  const Frame frame = plan::frameWall(levelWall(2400, 2400, 600), std::vector{bare}, usualRules());
  REQUIRE(frame.faults.size() == 1);
  CHECK(frame.faults[0].kind == FrameFaultKind::NoLintelNamed);
  CHECK(frame.faults[0].opening == 3);
  CHECK(of(frame, MemberPart::Lintel).empty());
  CHECK(of(frame, MemberPart::JackStudAbove).empty());
}

TEST_CASE("openings too close for their side studs share what fits") {
  // 150 between them, 4 x 45 = 180 wanted: short by 30. Both bearing studs and one full stud fit (3 x 45 = 135).
  const Frame frame =
      plan::frameWall(levelWall(4000, 2400, 600),
                      std::vector{opening(4, 800, 900, 900, 1000), opening(7, 1850, 900, 900, 1000)}, usualRules());
  REQUIRE(frame.faults.size() == 1);
  CHECK(frame.faults[0].kind == FrameFaultKind::NoRoomForSideStuds);
  CHECK(frame.faults[0].opening == 4);
  CHECK(frame.faults[0].other == 7);
  CHECK(frame.faults[0].by == Approx(30));
  CHECK(of(frame, MemberPart::BearingStud).size() == 4);
  CHECK(of(frame, MemberPart::JambStud).size() == 3);
  // With exactly the room there is no fault.
  CHECK(plan::frameWall(levelWall(4000, 2400, 600),
                        std::vector{opening(0, 800, 900, 900, 1000), opening(1, 1880, 900, 900, 1000)}, usualRules())
            .faults.empty());
}

TEST_CASE("openings that overlap: the one further left is framed") {
  const Frame frame =
      plan::frameWall(levelWall(4000, 2400, 600),
                      std::vector{opening(1, 1500, 900, 900, 1000), opening(0, 800, 1000, 900, 600)}, usualRules());
  REQUIRE(frame.faults.size() == 1);
  CHECK(frame.faults[0].kind == FrameFaultKind::OpeningsOverlap);
  CHECK(frame.faults[0].opening == 1);
  CHECK(frame.faults[0].other == 0);
  CHECK(frame.faults[0].by == Approx(200));
  for (const Member& ply : of(frame, MemberPart::Lintel)) CHECK(ply.opening == 0);
}

TEST_CASE("every opening that overlaps another is told, also where the other isn't framed") {
  // 1 overlaps 0, which is framed; 2 overlaps 1 alone, and is framed.
  const Frame frame = plan::frameWall(
      levelWall(6000, 2400, 600),
      std::vector{opening(0, 800, 900, 900, 1000), opening(1, 1600, 900, 1000, 1000), opening(2, 2500, 900, 900, 1000)},
      usualRules());
  std::vector<std::pair<int, int>> pairs;
  for (const auto& fault : frame.faults) {
    if (fault.kind == FrameFaultKind::OpeningsOverlap) pairs.emplace_back(fault.opening, fault.other);
  }
  CHECK(pairs == std::vector<std::pair<int, int>>{{1, 0}, {1, 2}});
}

TEST_CASE("past the wall's end, into the end stud, and just clear of it") {
  const WallSpec wall = levelWall(4000, 2400, 600);
  const auto framed = [&](double at) {
    return plan::frameWall(wall, std::vector{opening(0, at, 900, 900, 1000)}, usualRules());
  };
  // Two side studs of 45 need 90: at 80 they are 10 past the end.
  REQUIRE(framed(80).faults.size() == 1);
  CHECK(framed(80).faults[0].kind == FrameFaultKind::OutsideWall);
  CHECK(framed(80).faults[0].by == Approx(10));
  // At 90 the jamb stud is the wall's end stud; at 100 it is 10 away from the end and 35 into the end stud.
  CHECK(framed(90).faults.empty());
  REQUIRE(framed(100).faults.size() == 1);
  CHECK(framed(100).faults[0].kind == FrameFaultKind::NoRoomForSideStuds);
  CHECK(framed(100).faults[0].other == -1);
  CHECK(framed(100).faults[0].by == Approx(35));
  CHECK(framed(135).faults.empty());
  // The right end likewise: opening 3010 to 3910 with 90 of studs ends at 4000.
  CHECK(framed(3010).faults.empty());
  REQUIRE(framed(3030).faults.size() == 1);
  CHECK(framed(3030).faults[0].by == Approx(20));
  // Wholly outside.
  const Frame gone = framed(5000);
  REQUIRE(gone.faults.size() == 1);
  CHECK(gone.faults[0].kind == FrameFaultKind::OutsideWall);
  CHECK(of(gone, MemberPart::Lintel).empty());
}

TEST_CASE("a window above a door with its jambs in line shares the door's studs") {
  const Frame frame =
      plan::frameWall(levelWall(3600, 3600, 600),
                      std::vector{opening(0, 1000, 0, 900, 2100), opening(1, 1000, 2500, 900, 600)}, usualRules());
  CHECK(frame.faults.empty());
  CHECK(of(frame, MemberPart::JambStud).size() == 2);
  // Each side: one to the door's lintel, one from the top of that lintel (2240) to the window's.
  const auto bearing = of(frame, MemberPart::BearingStud);
  REQUIRE(bearing.size() == 4);
  CHECK(low(bearing[1]) == Approx(2240));
  CHECK(high(bearing[1]) == Approx(3100));
  CHECK(bearing[1].opening == 1);
  // Jack studs on the door's lintel carry the window's trimmer.
  const auto between = of(frame, MemberPart::JackStudAbove);
  REQUIRE(between.size() >= 2);
  CHECK(low(between[0]) == Approx(2240));
  CHECK(high(between[0]) == Approx(2455));
}

TEST_CASE("a window above a door whose studs would stand in the door") {
  const Frame frame =
      plan::frameWall(levelWall(3600, 3600, 600),
                      std::vector{opening(0, 1000, 0, 1500, 2100), opening(1, 1400, 2500, 600, 600)}, usualRules());
  REQUIRE_FALSE(frame.faults.empty());
  CHECK(frame.faults[0].kind == FrameFaultKind::NoRoomForSideStuds);
  CHECK(frame.faults[0].opening == 1);
  CHECK(frame.faults[0].other == 0);
  for (const Member& m : frame.members) {
    if (m.opening == 1) CHECK(low(m) >= 2240 - 1e-9);
  }
}

TEST_CASE("a gable: plates and studs by trigonometry") {
  // 7200 wide, 2440 at the ends, 3640 at the ridge: tan = 1200 / 3600 = 1/3, 18.4349 degrees.
  WallSpec wall = levelWall(7200, 0, 450);
  wall.top = {{0, 2440}, {3600, 3640}, {7200, 2440}};
  const Frame frame = plan::frameWall(wall, {}, usualRules());
  CHECK(frame.faults.empty());
  const double pitch = std::atan2(1200.0, 3600.0);
  const auto plates = of(frame, MemberPart::TopPlate);
  REQUIRE(plates.size() == 4);
  for (const Member& plate : plates) {
    // Both ends are plumb (the mitre at the ridge of equal slopes too): a parallelogram, long by 3600 / cos plus what
    // the plumb cut adds over its thickness, 45 tan.
    CHECK(plate.length == Approx(3600 / std::cos(pitch) + 45 * std::tan(pitch)).epsilon(1e-12));
    CHECK(std::abs(plate.slope_degrees) == Approx(18.434948822922).epsilon(1e-12));
    CHECK(plate.cut_degrees == Approx(18.434948822922).epsilon(1e-12));
  }
  // Stud at 450 k: its higher side under the plates, 90 / cos below the top line.
  const auto studs = of(frame, MemberPart::CommonStud);
  REQUIRE(studs.size() == 17);
  for (int k = 1; k <= 7; ++k) {
    const double long_side = 450 * k + 22.5;
    CHECK(studs[static_cast<std::size_t>(k)].length ==
          Approx(2440 + long_side * std::tan(pitch) - 90 / std::cos(pitch) - 45).epsilon(1e-12));
    CHECK(studs[static_cast<std::size_t>(k)].cut_degrees == Approx(18.434948822922).epsilon(1e-12));
  }
  // The stud under the ridge is pointed.
  REQUIRE(studs[8].apex.has_value());
  CHECK(studs[8].apex->x == Approx(3600));
  CHECK(studs[8].length == Approx(3640 - 90 / std::cos(pitch) - 45).epsilon(1e-12));
}

TEST_CASE("a valley: the stud under it is notched, the plates meet in a mitre") {
  WallSpec wall = levelWall(4800, 0, 600);
  wall.top = {{0, 3000}, {2400, 2400}, {4800, 3000}};
  const Frame frame = plan::frameWall(wall, {}, usualRules());
  const auto studs = of(frame, MemberPart::CommonStud);
  const Member& middle = studs[4];
  REQUIRE(middle.apex.has_value());
  CHECK(middle.apex->x == Approx(2400));
  CHECK(middle.apex->z < middle.corner[2].z);
  CHECK(middle.length == Approx(middle.corner[2].z - 45));
}

TEST_CASE("a raking wall that turns level: the mitre is half the turn") {
  // Level to 2000, then 30 degrees up: cut 15 at the mitre, 30 plumb at the right end.
  WallSpec wall = levelWall(4000, 0, 600);
  wall.top = {{0, 2400}, {2000, 2400}, {4000, 2400 + 2000 * std::tan(std::acos(-1) / 6)}};
  const Frame frame = plan::frameWall(wall, {}, usualRules());
  const auto plates = of(frame, MemberPart::TopPlate);
  REQUIRE(plates.size() == 4);
  CHECK(plates[0].cut_degrees == Approx(15));
  CHECK(plates[0].slope_degrees == 0);
  CHECK(plates[1].cut_degrees == Approx(30));
  // A mitre lies on the line that halves the angle: (0, -1) turned by 15 degrees from the corner, 45 / cos(15) long.
  const double half = std::acos(-1) / 12;
  CHECK(plates[0].corner[1].x == Approx(2000 + 45 * std::tan(half)));
  CHECK(plates[0].corner[1].z == Approx(2355));
}

TEST_CASE("height below the top line is measured square to the slope") {
  WallSpec wall = levelWall(6000, 0, 600);
  wall.top = {{0, 2400}, {3000, 5400}, {6000, 2400}};
  CHECK(plan::heightBelowTop(wall, 0, 1000) == Approx(3400));
  CHECK(plan::heightBelowTop(wall, 90, 1000) == Approx(3400 - 90 * std::sqrt(2.0)));
  CHECK(plan::heightBelowTop(wall, 90, 3000) == Approx(5400 - 90 * std::sqrt(2.0)));
  CHECK(plan::heightBelowTop(wall, 90, -100) == Approx(2300 - 90 * std::sqrt(2.0)));
  CHECK(plan::heightBelowTop(wall, 90, 6100) == Approx(2300 - 90 * std::sqrt(2.0)));
  // A slope too short for its plates falls out: its neighbours meet.
  wall.top = {{0, 2400}, {2990, 2400}, {3010, 2410}, {6000, 2410}};
  for (const double x : {0.0, 2950.0, 3000.0, 3050.0, 6000.0}) {
    CHECK(plan::heightBelowTop(wall, 90, x) <= 2320);
    CHECK(plan::heightBelowTop(wall, 90, x) >= 2300);
  }
  // A bump of 20 on a level top: its slopes shrink by 90 * (tan 45 - tan 22.5) = 52.7, more than their 28.3.
  wall.top = {{0, 2400}, {3000, 2400}, {3020, 2420}, {3040, 2400}, {6000, 2400}};
  for (const double x : {0.0, 2990.0, 3010.0, 3020.0, 3035.0, 6000.0}) {
    CHECK(plan::heightBelowTop(wall, 90, x) == Approx(2310));
  }
  // 30 below they still stand: the ridge is 30 * sqrt(2) under 2420.
  CHECK(plan::heightBelowTop(wall, 30, 3020) == Approx(2420 - 30 * std::sqrt(2.0)));
}

TEST_CASE("a bay of less than 20 mm has no noggings, thin as the studs may be") {
  WallSpec wall = levelWall(1000, 2400, 450);
  wall.stud = {.depth = 90, .thickness = 15};
  const auto noggings = [&](double length) {
    wall.length = length;
    wall.top = {{0, 2400}, {length, 2400}};
    const Frame frame = plan::frameWall(wall, {}, usualRules());
    return std::count_if(frame.members.begin(), frame.members.end(),
                         [](const Member& m) { return m.part == MemberPart::Nogging && m.length < 100; });
  };
  // The last common stud is centred on 900; the end stud takes the wall's last 15.
  CHECK(noggings(907.5 + 15 + 19.9) == 0);
  CHECK(noggings(907.5 + 15 + 20.1) > 0);
}

TEST_CASE("a step in the top line of less than 20 mm keeps its plates: those beside it meet them") {
  WallSpec wall = levelWall(2000, 2400, 450);
  wall.top = {{0, 2400}, {1000, 2410}, {1015, 2410}, {2000, 2400}};
  const Frame frame = plan::frameWall(wall, {}, usualRules());
  CHECK(std::count_if(frame.members.begin(), frame.members.end(), [](const Member& m) {
          return m.part == MemberPart::TopPlate && m.length < 20;
        }) == wall.plates.top);
}

TEST_CASE("a top line steeper than its plates are thick reaches no lower than the ground") {
  // A run 1 wide that rises by 17,560: a plate square to it and cut plumb at the wall's end would reach 790 m down.
  WallSpec wall = levelWall(3600, 2440, 450);
  wall.top = {{0, 2440}, {1, 20000}, {1899, 20000}, {1900, 2440}, {1901, 20000}, {3600, 20000}};
  for (const Member& plate : of(plan::frameWall(wall, {}, usualRules()), MemberPart::TopPlate)) {
    CHECK(low(plate) >= 0);
    CHECK(plate.length < 20000);
  }
}

TEST_CASE("a plate just longer than its stock is not joined 150 mm before its end: no piece is shorter than two bays") {
  for (const double length : {6100.0, 6150.0, 6900.0, 12200.0}) {
    CAPTURE(length);
    WallSpec wall = levelWall(length, 2400, 600);
    wall.plates.bottom = 2;
    const Frame frame = plan::frameWall(wall, {}, usualRules(), 6000);
    for (const MemberPart part : {MemberPart::TopPlate, MemberPart::BottomPlate}) {
      const auto plates = of(frame, part);
      REQUIRE(plates.size() >= 4);
      for (const Member& plate : plates) CHECK(plate.length >= 1200);
    }
  }
}

TEST_CASE("a plate that meets no common stud, under an opening from end to end, is not joined 12 mm before its end") {
  const Frame frame =
      plan::frameWall(levelWall(6010, 2400, 600), std::vector{opening(0, 300, 900, 5400, 1000)}, usualRules(), 6000);
  for (const MemberPart part : {MemberPart::TopPlate, MemberPart::BottomPlate}) {
    const auto plates = of(frame, part);
    REQUIRE(plates.size() >= 2);
    for (const Member& plate : plates) CHECK(plate.length >= 1200);
  }
}

TEST_CASE("a sloping plate is cut to its end where no stud is in reach of the one it was joined over") {
  WallSpec wall = levelWall(3000, 2400, 1200);
  wall.top = {{0, 2400}, {3000, 4132.05}};  // 30°
  const Frame frame = plan::frameWall(wall, {}, usualRules(), 1002);
  const auto plates = of(frame, MemberPart::TopPlate);
  REQUIRE(plates.size() >= 8);
  double along = 0;
  for (const Member& plate : plates) {
    CHECK(plate.length <= 1000 + 1e-6);
    along += (plate.corner[1].x - plate.corner[0].x) / std::cos(plate.slope_degrees * std::numbers::pi / 180);
  }
  CHECK(along == Approx(2 * std::hypot(3000, 1732.05)).margin(0.5));
  // The ends are cut plumb, 30° off square; between them the cuts are square.
  CHECK(plates.front().cut_degrees == Approx(30).margin(0.01));
  CHECK(plates[1].cut_degrees == 0);
}

TEST_CASE("jack studs and noggings too short to be nailed are left out and told of, no others") {
  WallSpec wall = levelWall(3600, 2400, 600);
  practice::Framing rules = usualRules();
  const std::vector<FramedOpening> openings{opening(0, 1000, 900, 1500, 1200)};
  const Frame all = plan::frameWall(wall, openings, rules);
  rules.shortest_piece = figure(100);
  const Frame frame = plan::frameWall(wall, openings, rules);
  CHECK(all.left_out.empty());
  CHECK(frame.members.size() + frame.left_out.size() == all.members.size());
  CHECK_FALSE(frame.left_out.empty());
  for (const auto& piece : frame.left_out) CHECK(piece.length < 100);
  for (const Member& member : frame.members) {
    const bool jack = member.part == MemberPart::JackStudAbove || member.part == MemberPart::JackStudBelow;
    if (jack || member.part == MemberPart::Nogging) CHECK(member.length >= 100);
  }
}

TEST_CASE("a saw holds the whole millimetre or the sixteenth, what fits between two others is rounded down") {
  Member member;
  member.part = MemberPart::CommonStud;
  member.length = 2304.6;
  CHECK(plan::sawnLength(member, practice::Display::Millimetres) == 2305);
  member.part = MemberPart::Nogging;
  CHECK(plan::sawnLength(member, practice::Display::Millimetres) == 2304);
  member.length = 555 - 1e-9;
  CHECK(plan::sawnLength(member, practice::Display::Millimetres) == 555);
  member.length = 25.4 * 14.53;  // between 14 1/2 and 14 9/16
  CHECK(plan::sawnLength(member, practice::Display::InchFractions) == Approx(25.4 * 14.5));
}

TEST_CASE("walls too short for two studs") {
  for (const double length : {1.0, 30.0, 45.0, 60.0, 90.0, 91.0, 200.0}) {
    INFO("length " << length);
    const Frame frame = plan::frameWall(levelWall(length, 2400, 600), {}, usualRules());
    const auto studs = of(frame, MemberPart::CommonStud);
    CHECK(studs.size() == (length < 90 ? 1u : 2u));
    CHECK(left(studs.front()) == 0);
    CHECK(right(studs.front()) == std::min(length, 45.0));
    if (studs.size() == 2) CHECK(right(studs.back()) == length);
  }
  const Frame low_wall = plan::frameWall(levelWall(2000, 140, 600), {}, usualRules());
  CHECK(of(low_wall, MemberPart::CommonStud).empty());
}
