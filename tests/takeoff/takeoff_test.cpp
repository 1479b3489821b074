// The take-off against the plan it is of: nothing lost, nothing twice, and one job worked by hand.

#include "takeoff/takeoff.h"

#include <cmath>
#include <map>
#include <numbers>

#include "support/catch.h"
#include "support/demo_jobs.h"
#include "takeoff/gather.h"

using namespace sillwright;

namespace {

double lengthOf(const takeoff::CutPlan& plan) {
  double length = 0;
  for (const auto& bar : plan.bars) {
    for (const double piece : bar.pieces) length += piece * bar.times;
  }
  for (const auto& piece : plan.too_long) length += piece.length * piece.count;
  return length;
}

}  // namespace

TEST_CASE("every member is in the list and in the cutting") {
  for (const auto& demo : testing::demoJobs()) {
    CAPTURE(demo.job.title);
    const auto list = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
    double in_plan = 0;
    for (const auto& wall : demo.plan.walls) {
      for (const auto& member : wall.frame.members) in_plan += member.length;
    }
    double in_list = 0;
    for (const auto& section : list.timber) {
      in_list += section.length;
      CHECK(section.depth >= section.thickness);
      CHECK(lengthOf(section.cutting) == Approx(section.length).margin(0.1));
      CHECK(section.cutting.bound <= section.cutting.bought);
      CHECK(section.cutting.bought - section.cutting.bound <= 0.05 * section.cutting.bought);
    }
    std::size_t members = 0;
    for (const auto& wall : demo.plan.walls) members += wall.frame.members.size();
    CHECK(std::abs(in_list - in_plan) <= 0.05 * static_cast<double>(members) * 2);
  }
}

TEST_CASE("a lintel of two plies buys two pieces, one of three buys three") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  for (const int plies : {1, 2, 3}) {
    demo.job.openings[0].lintel = job::Lintel{140, 35, plies};
    demo.plan = plan::makePlan(demo.job, *demo.practice);
    int bought = 0;
    for (const auto& section : takeoff::takeOff(demo.job, *demo.practice, demo.plan).timber) {
      for (const auto& line : section.lines) bought += line.part == plan::MemberPart::Lintel ? line.count : 0;
    }
    CHECK(bought == plies);
  }
}

TEST_CASE("screws, packers and flashings are those of the openings") {
  for (const auto& demo : testing::demoJobs()) {
    CAPTURE(demo.job.title);
    const auto list = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
    int fixings = 0, packers = 0, strips = 0, folded = 0, fitted = 0;
    for (const auto& opening : demo.plan.openings) {
      fixings += static_cast<int>(opening.fixings.points.size());
      for (const auto& point : opening.packing.points) packers += point.stack.pieces;
      for (const auto& piece : opening.weather.pieces) {
        if (piece.fitted) {
          ++fitted;
        } else if (piece.kind == plan::PieceKind::SillFlashing || piece.kind == plan::PieceKind::SillPan ||
                   piece.kind == plan::PieceKind::JambFlashing) {
          ++strips;
        } else if (piece.kind == plan::PieceKind::HeadFlashing) {
          ++folded;
        }
      }
    }
    int listed = list.without_screw;
    for (const auto& screw : list.screws) listed += screw.count;
    CHECK(listed == fixings);
    int of_packers = 0;
    for (const auto& packer : list.packers) of_packers += packer.count;
    CHECK(of_packers == packers);
    int of_strips = 0, of_folded = 0;
    for (const auto& roll : list.rolls) {
      for (const auto& piece : roll.pieces) of_strips += piece.count;
      CHECK(roll.cutting.proven());
    }
    for (const auto& metal : list.folded) of_folded += metal.count;
    CHECK(of_strips == strips);
    CHECK(of_folded == folded);
    CHECK(list.fitted_flashings == fitted);
    CHECK(!list.tools.empty());
  }
}

TEST_CASE("folded metal of another girth or with stop ends is a line of its own") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  auto& pieces = demo.plan.openings[0].weather.pieces;
  const auto head = std::find_if(pieces.begin(), pieces.end(),
                                 [](const plan::Piece& each) { return each.kind == plan::PieceKind::HeadFlashing; });
  REQUIRE(head != pieces.end());
  plan::Piece plain = *head;
  plain.fitted = false;
  plain.stop_end = 0;
  plan::Piece stopped = plain;
  stopped.stop_end = 15;
  plan::Piece wider = plain;
  wider.width += 10;
  pieces = {plain, stopped, wider, plain};
  const auto list = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
  REQUIRE(list.folded.size() == 3);
  int of_plain = 0;
  for (const auto& metal : list.folded) {
    CHECK(metal.count == (metal.stop_end == 0 && metal.girth < plain.width + 5 ? 2 : 1));
    of_plain += metal.count == 2 ? 1 : 0;
  }
  CHECK(of_plain == 1);
}

TEST_CASE("the workshop window's areas and joint, by hand") {
  const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  const auto list = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
  REQUIRE(list.walls.size() == 1);
  CHECK(list.walls[0].face == Approx(3.6 * 2.44));
  CHECK(list.walls[0].lining == Approx(3.6 * 2.44 - 1.53 * 1.06));
  CHECK(list.walls[0].cladding == Approx(3.6 * 2.44 - 1.51 * 1.04));
  const double lap = demo.practice->weather.membrane.lap.usual.value;
  CHECK(list.walls[0].membrane_runs == 2);
  CHECK(list.walls[0].membrane == Approx(3.6 * 2.44 + 3.6 * lap / 1000));
  CHECK(list.sealing.length == Approx(2 * (1510 + 1040)));
  CHECK(list.sealing.foot_of_doors == 0);
}

TEST_CASE("plates longer than any stock meet over a common stud, those above each other over different ones") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  demo.job.walls[0].length = 9100;
  demo.job.walls[0].top = {{0, 2440}, {9100, 2440}};
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  const auto list = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
  std::map<double, int> count;
  for (const auto& section : list.timber) {
    CHECK(section.cutting.too_long.empty());
    for (const auto& piece : section.pieces) count[piece.length] += piece.count;
  }
  CHECK(count[5850] == 2);  // 13 bays of 450: the bottom plate and one top plate
  CHECK(count[3250] == 2);
  CHECK(count[5400] == 1);  // the other top plate, a bay before
  CHECK(count[3700] == 1);
}

TEST_CASE("plates cut from stock between two tenths lose nothing") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  demo.job.stock = job::Stock{};
  demo.job.stock->timber = {300.07};  // no stud in reach of another: every piece is as long as the stock
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  const auto list = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
  double given = 0;
  int bars = 0;
  for (const auto& section : list.timber) {
    for (const auto& bar : section.cutting.bars) {
      bars += bar.times;
      for (const double piece : bar.pieces) given += piece * bar.times;
    }
    for (const auto& piece : section.cutting.too_long) given += piece.length * piece.count;
  }
  double wanted = 0;
  for (const auto& member : demo.plan.walls[0].frame.members) wanted += member.length;
  CHECK(bars > 30);
  CHECK(given == Approx(wanted).margin(0.01));
}

TEST_CASE(
    "each joint of a long plate is over a common stud: beside a door, up a rake, in walls of their own spacings") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  auto& job = demo.job;
  job.walls[0].length = 21'000;
  job.walls[0].top = {{0, 2440}, {21'000, 2440}};
  job.openings[0].left = 1'130;  // a door: the bottom plate starts anew beside it
  job.openings[0].sill = 0;
  job.openings[0].height = 2'100;
  job.openings[0].unit.height = 2'080;
  job.openings[0].unit.kind = job::UnitKind::HingedDoor;
  job.walls.push_back(job.walls[0]);
  job.walls[1].name = "rake";
  job.walls[1].spacing = 610;
  job.walls[1].top = {{0, 2440}, {21'000, 6'000}};
  demo.plan = plan::makePlan(job, *demo.practice);
  const double longest = 6000;
  int joints = 0;
  for (const auto& wall : demo.plan.walls) {
    std::vector<double> studs;
    for (const auto& member : wall.frame.members) {
      if (member.part != plan::MemberPart::CommonStud) continue;
      studs.push_back((member.corner[0].x + member.corner[1].x) / 2);
    }
    takeoff::PlateJoints cutter(wall.frame, longest);
    std::map<plan::MemberPart, std::vector<double>> joints_of;
    for (const auto& member : wall.frame.members) {
      if (member.part != plan::MemberPart::TopPlate && member.part != plan::MemberPart::BottomPlate) continue;
      const auto pieces = cutter.cut(member);
      double sum = 0;
      for (std::size_t i = 0; i < pieces.size(); ++i) {
        CHECK(pieces[i] <= longest);
        sum += pieces[i];
        if (i + 1 == pieces.size()) continue;
        // Along the slope from the plate's left end, back to x.
        const double x = std::min(member.corner[0].x, member.corner[3].x) +
                         sum * std::cos(member.slope_degrees * std::numbers::pi / 180);
        const auto near = std::min_element(studs.begin(), studs.end(),
                                           [&](double a, double b) { return std::abs(a - x) < std::abs(b - x); });
        CHECK(std::abs(*near - x) < 1);
        auto& others = joints_of[member.part];
        CHECK(std::count(others.begin(), others.end(), *near) == 0);
        others.push_back(*near);
        ++joints;
      }
      CHECK(sum == Approx(member.length).margin(0.051));
    }
  }
  CHECK(joints >= 6 * 3);
}

TEST_CASE("a sloping plate is cut to its end where no stud is in reach of the one it was joined over") {
  plan::Frame frame;
  plan::Member stud;
  stud.part = plan::MemberPart::CommonStud;
  stud.corner = {{{300.3, 0}, {300.4, 0}, {300.4, 2400}, {300.3, 2400}}};  // no tenth of a millimetre up the slope
  frame.members.push_back(stud);
  plan::Member plate;
  plate.part = plan::MemberPart::TopPlate;
  plate.slope_degrees = 30;
  plate.length = 2000;
  takeoff::PlateJoints cutter(frame, 1000);
  const auto pieces = cutter.cut(plate);
  REQUIRE(pieces.size() == 3);
  CHECK(pieces[0] == Approx(346.8).margin(0.051));
  CHECK(pieces[1] == 1000);
  CHECK(pieces[0] + pieces[1] + pieces[2] == Approx(2000));
}

TEST_CASE("the timber of a thousand openings is bought within 2 % of what no plan could better") {
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  const auto wall = demo.job.walls[0];
  const auto opening = demo.job.openings[0];
  demo.job.walls.clear();
  demo.job.openings.clear();
  for (std::size_t i = 0; i < 1000; ++i) {
    // Sizes that hardly repeat: the hardest cutting.
    demo.job.walls.push_back(wall);
    demo.job.openings.push_back(opening);
    demo.job.openings.back().wall = i;
    demo.job.openings.back().width += static_cast<double>(i * 37 % 501) - 300;
    demo.job.openings.back().height += static_cast<double>(i * 71 % 307) - 150;
    demo.job.openings.back().sill += static_cast<double>(i * 13 % 97) - 50;
    demo.job.openings.back().measured.reset();
  }
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  const auto list = takeoff::takeOff(demo.job, *demo.practice, demo.plan);
  for (const auto& section : list.timber) {
    UNSCOPED_INFO(section.depth << " × " << section.thickness << ": bought " << section.cutting.bought << ", bound "
                                << section.cutting.bound);
    CHECK(section.cutting.bound >= 0.98 * section.cutting.bought);
  }
}
