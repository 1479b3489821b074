// Safety findings against the clauses they come from, as quoted on public pages (the practice files name each).

#include <algorithm>
#include <string>

#include "check/judge.h"
#include "plan/hold/panes.h"
#include "support/catch.h"
#include "support/simple_job.h"
#include "words/length.h"

using namespace sillwright;
using testing::shipped;
using testing::simpleJob;

namespace {

std::vector<check::Finding> judged(const job::Job& job, std::size_t opening = 0) {
  const auto& practice = shipped(job.practice);
  const auto plan = plan::makePlan(job, practice);
  return check::judge(job, practice, plan).openings[opening];
}

const check::Finding* about(const std::vector<check::Finding>& findings, const std::string& what) {
  const auto found =
      std::find_if(findings.begin(), findings.end(), [&](const check::Finding& each) { return each.about == what; });
  return found == findings.end() ? nullptr : &*found;
}

bool has(const job::Job& job, const char* what) {
  const auto findings = judged(job);
  return about(findings, what) != nullptr;
}

/// Puts the opening so that its lowest sight line is just there.
void setSightLine(job::Job& job, double height) {
  const auto plan = testing::planAlone(job, 0, shipped(job.practice));
  const double offset = plan.stand.z + plan::partsOf(plan.unit).pane[0].z0;
  job.openings[0].sill = height - offset;
}

/// Puts the opening so that its lowest part that opens is just there.
void setLowestOpening(job::Job& job, double height) {
  const auto plan = testing::planAlone(job, 0, shipped(job.practice));
  job.openings[0].sill = height - plan.stand.z - plan::partsOf(plan.unit).clear.z0;
}

/// A fixed window whose one pane is of this sight size.
job::Job pane(double width, double height, const char* practice) {
  return simpleJob(job::UnitKind::FixedWindow, width + 2 * (18 + 45), height + 2 * (18 + 45), practice);
}

}  // namespace

TEST_CASE("AU 8.4.5: a sight line below 500 wants safety glass, or ordinary glass of 5 mm up to 1.2 m²") {
  job::Job job = pane(1000, 1200, "au");  // 1.2 m² of 5 mm
  setSightLine(job, 499);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].unit.glass->thickness = 4;
  CHECK(has(job, "safety glass"));
  job = pane(1000, 1210, "au");  // 1.21 m²
  setSightLine(job, 499);
  const auto findings = judged(job);
  const auto* finding = about(findings, "safety glass");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Attend);  // the job doesn't say what glass it is
  CHECK(finding->source.find("8.4.5") != std::string::npos);
  CHECK_FALSE(finding->remedy.empty());
  CHECK_FALSE(finding->caution.empty());
  job.openings[0].unit.glass->safety = false;
  const auto ordinary = judged(job);
  CHECK(about(ordinary, "safety glass")->severity == check::Severity::Stop);
  job.openings[0].unit.glass->safety = true;
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].unit.glass->safety.reset();
  setSightLine(job, 500);
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("AU 8.4.2 and 8.4.3: doors, and panes nearer than 300 to a doorway") {
  CHECK(has(simpleJob(job::UnitKind::SlidingDoor, 1810, 2095, "au"), "safety glass"));
  job::Job job = pane(600, 800, "au");
  job.openings.push_back(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "au").openings[0]);
  job.openings[1].name = "D1";
  const auto plan = testing::planAlone(job, 0, shipped("au"));
  const double edge = job.openings[0].left + plan.stand.x + plan::partsOf(plan.unit).pane[0].x1;
  job.openings[1].left = edge + 299;
  CHECK(has(job, "safety glass"));
  job.openings[1].left = edge + 300;
  CHECK_FALSE(has(job, "safety glass"));
  // A fixed pane at the other hand of the door.
  job.openings[1].left = 3000 + plan.stand.x + plan::partsOf(plan.unit).pane[0].x0 - 940 - 250;
  CHECK(has(job, "safety glass"));
}

TEST_CASE("AU 8.4.6: in wet rooms a sight line below 2 m") {
  job::Job job = pane(600, 400, "au");
  job.openings[0].unit.reveal.reset();
  setSightLine(job, 1999);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].room = job::Room::WetArea;
  CHECK(has(job, "safety glass"));
  setSightLine(job, 2000);
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("US R308.4.3: 10 sq ft from 17 to 40 in is hazardous, from 18 in it isn't") {
  constexpr double kInch = 25.4;
  job::Job job = pane(10 * 144 * kInch / 23, 23 * kInch, "us");
  setSightLine(job, 17 * kInch);
  const auto findings = judged(job);
  const auto* finding = about(findings, "safety glass");
  REQUIRE(finding != nullptr);
  CHECK(finding->source.find("R308.4.3") != std::string::npos);
  setSightLine(job, 18 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  job = pane(9 * 144 * kInch / 23, 23 * kInch, "us");  // just 9 sq ft
  setSightLine(job, 17 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("AU 8.4.7: a large low pane is marked, not one no higher than 1 m, no wider than 500 or from 500 up") {
  job::Job job = pane(900, 1400, "au");
  setSightLine(job, 100);
  const auto findings = judged(job);
  const auto* finding = about(findings, "glass marking");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Note);
  for (const char* figure : {"20 mm", "700 mm", "1200 mm"}) CHECK(finding->say.find(figure) != std::string::npos);
  const auto marked = [](double width, double height, double sight) {
    job::Job other = pane(width, height, "au");
    setSightLine(other, sight);
    return has(other, "glass marking");
  };
  CHECK(marked(501, 1001, 499));
  CHECK_FALSE(marked(501, 1000, 499));
  CHECK_FALSE(marked(500, 1001, 499));
  CHECK_FALSE(marked(501, 1001, 500));
}

TEST_CASE("UK Approved Document K: glass below 800, or beside a doorway below 1500; all of a door's") {
  // As quoted in a trade newsletter.
  job::Job job = pane(1000, 600, "uk");
  setSightLine(job, 799);
  CHECK(has(job, "safety glass"));
  setSightLine(job, 800);
  CHECK_FALSE(has(job, "safety glass"));
  CHECK(has(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "uk"), "safety glass"));
  job.openings.push_back(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "uk").openings[0]);
  job.openings[1].name = "D1";
  const auto plan = testing::planAlone(job, 0, shipped("uk"));
  const double edge = job.openings[0].left + plan.stand.x + plan::partsOf(plan.unit).pane[0].x1;
  job.openings[1].left = edge + 299;
  setSightLine(job, 1499);
  CHECK(has(job, "safety glass"));
  setSightLine(job, 1500);
  CHECK_FALSE(has(job, "safety glass"));
  setSightLine(job, 1499);
  job.openings[1].left = edge + 300;
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("US R308.4.2 and R308.4.5: within 24 in of a door, and in wet rooms, with its bottom edge below 60 in") {
  constexpr double kInch = 25.4;
  job::Job job = pane(800, 500, "us");
  setSightLine(job, 59.9 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].room = job::Room::WetArea;
  CHECK(has(job, "safety glass"));
  setSightLine(job, 60 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  job.openings[0].room.reset();
  setSightLine(job, 59.9 * kInch);
  job.openings.push_back(simpleJob(job::UnitKind::HingedDoor, 920, 2095, "us").openings[0]);
  job.openings[1].name = "D1";
  const auto plan = testing::planAlone(job, 0, shipped("us"));
  const double edge = job.openings[0].left + plan.stand.x + plan::partsOf(plan.unit).pane[0].x1;
  job.openings[1].left = edge + 609;
  CHECK(has(job, "safety glass"));
  setSightLine(job, 60 * kInch);
  CHECK_FALSE(has(job, "safety glass"));
  setSightLine(job, 59.9 * kInch);
  job.openings[1].left = edge + 611;
  CHECK_FALSE(has(job, "safety glass"));
}

TEST_CASE("NZ F4: an openable window is guarded where the ground is 1 m or more below its floor") {
  // New Zealand Building Code F4, as quoted in an industry guide.
  job::Job job = simpleJob(job::UnitKind::AwningWindow, 900, 600, "nz");
  setLowestOpening(job, 600);
  job.walls[0].above_ground = 1000;
  const auto findings = judged(job);
  const auto* finding = about(findings, "falls");
  REQUIRE(finding != nullptr);
  CHECK(finding->limit == 1000);
  job.walls[0].above_ground = 999;
  CHECK_FALSE(has(job, "falls"));
}

TEST_CASE("AU 11.3.7: falls from bedrooms 2 m up through what opens below 1.7 m; other rooms from 4 m") {
  job::Job job = simpleJob(job::UnitKind::AwningWindow, 900, 600, "au");
  job.openings[0].room = job::Room::Bedroom;
  job.walls[0].above_ground = 2000;
  setLowestOpening(job, 900);
  const auto findings = judged(job);
  const auto* finding = about(findings, "falls");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Attend);
  CHECK(finding->source.find("11.3.7") != std::string::npos);
  CHECK(finding->remedy.find("125") != std::string::npos);
  CHECK(finding->remedy.find("250 N") != std::string::npos);
  // Where its release is child-resistant: a barrier of 865, nothing to climb on from 150 to 760 (as an industry text
  // and a consultant quote 11.3.7).
  for (const char* figure : {"865", "150", "760"}) CHECK(finding->remedy.find(figure) != std::string::npos);
  setLowestOpening(job, 1700);
  CHECK_FALSE(has(job, "falls"));
  setLowestOpening(job, 900);
  job.walls[0].above_ground = 1990;
  CHECK_FALSE(has(job, "falls"));
  job.openings[0].room = job::Room::Living;
  setLowestOpening(job, 800);
  job.walls[0].above_ground = 3999;
  CHECK_FALSE(has(job, "falls"));
  job.walls[0].above_ground = 4000;
  CHECK(has(job, "falls"));
  job.openings[0].unit.kind = job::UnitKind::FixedWindow;
  CHECK_FALSE(has(job, "falls"));
}

TEST_CASE("US R312.2: an opening 73 in above grade is guarded with its sill at 23 in, not at 24 in") {
  constexpr double kInch = 25.4;
  job::Job job = simpleJob(job::UnitKind::SlidingWindow, 900, 900, "us");
  setLowestOpening(job, 23 * kInch);
  job.walls[0].above_ground = (73 - 23) * kInch;
  CHECK(has(job, "falls"));
  setLowestOpening(job, 24 * kInch);
  job.walls[0].above_ground = (73 - 24) * kInch;
  CHECK_FALSE(has(job, "falls"));
  setLowestOpening(job, 23 * kInch);
  job.walls[0].above_ground = (72 - 23) * kInch;
  CHECK_FALSE(has(job, "falls"));
}

TEST_CASE("where the ground outside isn't told, a fall isn't judged and that is said") {
  job::Job job = simpleJob(job::UnitKind::SlidingWindow, 900, 900, "au");
  job.openings[0].room = job::Room::Bedroom;
  const auto findings = judged(job);
  const auto* finding = about(findings, "falls");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Note);
  job.practice = "nz";  // names no rule for it: silent
  if (shipped("nz").safety.fallRule(job::Room::Bedroom) == nullptr) CHECK_FALSE(has(job, "falls"));
}

TEST_CASE("wet rooms: no timber reveal; in showers all below 1800 is waterproofed") {
  job::Job job = simpleJob(job::UnitKind::AwningWindow, 600, 800, "au");
  CHECK_FALSE(has(job, "wet room"));
  job.openings[0].room = job::Room::WetArea;
  CHECK(has(job, "wet room"));
  CHECK_FALSE(has(job, "waterproofing"));
  job.openings[0].room = job::Room::Shower;
  const auto findings = judged(job);
  const auto* finding = about(findings, "waterproofing");
  REQUIRE(finding != nullptr);
  CHECK(finding->limit == 1800);
  CHECK(finding->source.find("10.2.2") != std::string::npos);
  job.openings[0].unit.reveal.reset();
  CHECK_FALSE(has(job, "wet room"));
  const auto plan = testing::planAlone(job, 0, shipped("au"));
  job.openings[0].sill = 1800 - plan.stand.z;
  CHECK_FALSE(has(job, "waterproofing"));
  job.practice = "uk";  // names no height: silent
  CHECK_FALSE(has(job, "waterproofing"));
}

TEST_CASE("AS 1684: a jamb stud isn't notched beside its opening; NZS 3604 allows 25") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, "au");
  job.openings[0].unit.width = 1218;  // 18 more than was framed for
  const auto findings = judged(job);
  const auto* finding = about(findings, "notching");
  REQUIRE(finding != nullptr);
  CHECK(finding->limit == 0);
  CHECK(finding->source.find("6.2.1.4") != std::string::npos);
  job.practice = "nz";
  CHECK_FALSE(has(job, "notching"));
}

TEST_CASE("lifting says how many, and asks for mechanical help above what the largest team may lift") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, "au");
  job.openings[0].unit.mass_kg = 30;
  auto findings = judged(job);
  REQUIRE(about(findings, "lifting") != nullptr);
  CHECK(about(findings, "lifting")->severity == check::Severity::Note);
  CHECK(about(findings, "lifting")->say == "It weighs 30 kg: 2 people lift it.");
  job.openings[0].unit.mass_kg = 120;
  findings = judged(job);
  CHECK(about(findings, "lifting")->severity == check::Severity::Attend);
  CHECK(about(findings, "lifting")->measured == 120);
}

TEST_CASE("the way up to a high sill is told where the lifting equation has it as a risk") {
  // NIOSH publication 94-110. Two carry 30 kg of a unit 1000 high up to a sill of 1000: hands from 500 to 1500, VM
  // 1 − 0.003·75, DM 0.82 + 4.5/100: 23 · 0.775 · 0.865 = 15.42 kg each.
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, "au");
  job.openings[0].sill = 1000;
  job.openings[0].unit.mass_kg = 2 * 15.2;  // 15.3 each is what two may carry at best
  CHECK_FALSE(has(job, "lifting index"));
  job.openings[0].sill = 1100;  // 1 − 0.003·85, 0.82 + 4.5/110: 14.75 kg
  const auto findings = judged(job);
  const auto* finding = about(findings, "lifting index");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Note);
  CHECK_THAT(*finding->measured, Catch::Matchers::WithinAbs(15.2 / (23 * 0.745 * (0.82 + 4.5 / 110)), 1e-9));
  CHECK(finding->source.find("NIOSH") != std::string::npos);
}

TEST_CASE("code change RB104: a single 2x8 of SPF spans 3 ft 8 in under 30 psf in a building of 28 ft, not 4 ft") {
  constexpr double kInch = 25.4;
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 48 * kInch - 20, 1000, "us");
  job.openings[0].lintel = job::Lintel{184, 38, 1};
  auto findings = judged(job);
  const auto* finding = about(findings, "lintel span");
  REQUIRE(finding != nullptr);
  // The job doesn't tell the snow: the lightest the table has would do, and those that would not are named.
  CHECK(finding->severity == check::Severity::Note);
  CHECK_THAT(*finding->limit, Catch::Matchers::WithinAbs(58 * kInch, 0.05));
  CHECK(finding->say.find("30 psf of snow, a building 28 ft wide, it may span 44 in only") != std::string::npos);
  CHECK(finding->say.find("50 psf of snow, a building 28 ft wide, it may span 36 in only") != std::string::npos);
  CHECK(finding->say.find("20 psf of snow, a building 28 ft wide, it may") == std::string::npos);
  job.openings[0].width = 44 * kInch;
  job.openings[0].unit.width = 44 * kInch - 20;
  findings = judged(job);
  CHECK(about(findings, "lintel span")->say.find("30 psf of snow, a building 28 ft wide, it may") == std::string::npos);
  job.openings[0].width = 59 * kInch;
  job.openings[0].unit.width = 59 * kInch - 20;
  findings = judged(job);
  CHECK(about(findings, "lintel span")->severity == check::Severity::Attend);
}

TEST_CASE("IRC R602.7(1): 2-2x8 spans 5 ft 9 in under roof and ceiling; wider is told") {
  constexpr double kInch = 25.4;
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 69 * kInch - 20, 1000, "us");
  job.openings[0].lintel = job::Lintel{184, 38, 2};
  auto findings = judged(job);
  REQUIRE(about(findings, "lintel span") != nullptr);
  CHECK(about(findings, "lintel span")->severity == check::Severity::Note);
  CHECK_THAT(*about(findings, "lintel span")->limit, Catch::Matchers::WithinAbs(1753, 1));
  CHECK(about(findings, "lintel span")->say.find("1 jack stud ") != std::string::npos);
  job.openings[0].width += 2;
  findings = judged(job);
  CHECK(about(findings, "lintel span")->severity == check::Severity::Attend);
}

TEST_CASE("a fixing that carries too much is told with what would help, in order") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1500, 1040, "au");
  job.wind = job::StatedPressure{2.5};
  const auto findings = judged(job);
  const auto* finding = about(findings, "fixing load");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Attend);
  CHECK(*finding->measured > *finding->limit);
  const auto more = finding->remedy.find("a jamb");
  const auto larger = finding->remedy.find("larger screws");
  REQUIRE(more != std::string::npos);
  REQUIRE(larger != std::string::npos);
  CHECK(more < larger);
  CHECK(finding->caution.find("ndicative") != std::string::npos);
}

TEST_CASE("of the fixings without a screw the one that wants the longest is told") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1500, 1040, "au");
  job.stock = job::Stock{};
  job.stock->screws = {"8g x 50"};
  job.openings[0].measured = job::Measured{};
  job.openings[0].measured->out_of_plumb = {-6.0, -6.0};
  const auto findings = judged(job);
  const auto* finding = about(findings, "fixing length");
  REQUIRE(finding != nullptr);
  const auto planned = testing::planAlone(job, 0, shipped("au"));
  double widest = 0;
  for (const auto& fixing : planned.fixings.points) {
    if (fixing.screw < 0) widest = std::max(widest, fixing.gap);
  }
  CHECK(finding->say.find("a gap of " + words::length(widest, practice::Display::Millimetres)) != std::string::npos);
}

TEST_CASE("screws that come out, or are too short, are told") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1500, 1040, "au");
  job.stock = job::Stock{};
  job.stock->screws = {"8g x 50"};
  CHECK(has(job, "fixing length"));
  job.stock->screws = {"14g x 150"};
  const auto findings = judged(job);
  const auto* finding = about(findings, "fixing breaks out");
  REQUIRE(finding != nullptr);
  CHECK(finding->caution.find("ipes") != std::string::npos);
  job.stock->screws = {"8g x 75"};
  CHECK_FALSE(has(job, "fixing breaks out"));
  CHECK_FALSE(has(job, "fixing length"));
}
