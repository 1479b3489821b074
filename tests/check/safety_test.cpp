// Findings on falls, ways out, wet rooms, lifting, labels, lintels and fixings against the clauses they come from, as
// quoted on public pages (the practice files name each).

#include <algorithm>
#include <array>
#include <string>

#include "safety_support.h"
#include "support/catch.h"
#include "words/text.h"

using namespace sillwright;
using namespace sillwright::testing;

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

TEST_CASE("AU 11.3.7: falls from bedrooms 2 m up through what opens below 1.7 m, other rooms from 4 m") {
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

TEST_CASE("a restrictor that stops the rule's sphere answers a fall, and shuts the way out in a fire") {
  job::Job job = simpleJob(job::UnitKind::CasementWindow, 910, 1210, "au");
  job.walls[0].above_ground = 3000;
  job.openings[0].room = job::Room::Bedroom;
  setLowestOpening(job, 900);
  REQUIRE(about(judged(job), "falls"));
  CHECK(about(judged(job), "falls")->severity == check::Severity::Attend);
  job.openings[0].unit.restrictor = 125;
  CHECK(about(judged(job), "falls")->severity == check::Severity::Note);
  CHECK(notJudged(job).find("what force its restrictor stands") != std::string::npos);
  job.openings[0].unit.restrictor = 130;
  CHECK(about(judged(job), "falls")->severity == check::Severity::Attend);
  job::Job british = job;
  british.practice = "uk";
  british.openings[0].unit.restrictor.reset();
  CHECK_FALSE(has(british, "escape"));
  british.openings[0].unit.restrictor = 100;
  const auto findings = judged(british);
  REQUIRE(about(findings, "escape"));
  CHECK(about(findings, "escape")->say.find("as far as its restrictor lets it") != std::string::npos);
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

TEST_CASE("a door over a drop is judged: nobody steps out of it into the air") {
  // ABCB Housing Provisions 11.3.3, F4/AS1, IRC R312.1 and Approved Document K, as quoted on public pages.
  const std::array<std::pair<const char*, double>, 4> from{{{"au", 1000}, {"nz", 1000}, {"us", 762}, {"uk", 600}}};
  for (const auto& [practice, drop] : from) {
    job::Job job = simpleJob(job::UnitKind::SlidingDoor, 1810, 2095, practice);
    CAPTURE(practice);
    CHECK(has(job, "falls"));  // not told how far down it is
    job.walls[0].above_ground = drop - 1;
    CHECK_FALSE(has(job, "falls"));
    job.walls[0].above_ground = drop;
    const auto findings = judged(job);
    REQUIRE(about(findings, "falls") != nullptr);
    CHECK(about(findings, "falls")->severity == check::Severity::Attend);
    CHECK(about(findings, "falls")->limit == drop);
  }
}

TEST_CASE("a door on to a deck or balcony: its floor's edge is guarded, on to the ground there is nothing to fall") {
  job::Job job = simpleJob(job::UnitKind::SlidingDoor, 1810, 2095, "au");
  job.openings[0].outside = job::Outside::Ground;
  CHECK_FALSE(has(job, "falls"));
  job.openings[0].outside = job::Outside::Balcony;
  job.walls[0].above_ground = 2600;
  const auto findings = judged(job);
  REQUIRE(about(findings, "falls") != nullptr);
  CHECK(about(findings, "falls")->severity == check::Severity::Note);
}

TEST_CASE("a room left out is told: an upstairs window that would want protecting in a bedroom is no longer ready") {
  job::Job job = simpleJob(job::UnitKind::AwningWindow, 900, 600, "au");
  CHECK(notJudged(job).find("its room") != std::string::npos);
  job.walls[0].above_ground = 2600;
  setLowestOpening(job, 900);
  const auto findings = judged(job);
  const auto* finding = about(findings, "falls");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Attend);
  CHECK(finding->say.find("names no room") != std::string::npos);
  job.openings[0].room = job::Room::Other;
  CHECK_FALSE(has(job, "falls"));
  CHECK(notJudged(job).find("its room") == std::string::npos);
}

TEST_CASE("what no practice has a figure for is told once, in one note") {
  for (const char* practice : {"au", "nz", "uk", "us"}) {
    job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, practice);
    job.openings[0].room = job::Room::Bedroom;
    job.walls[0].above_ground = 2600;
    setSightLine(job, 300);
    job.openings[0].unit.glass->safety = true;
    const auto findings = judged(job);
    CAPTURE(practice);
    CHECK(std::count_if(findings.begin(), findings.end(),
                        [](const auto& each) { return each.about == "not judged"; }) == 1);
    CHECK(notJudged(job).find("keeps people from falling") != std::string::npos);
    const bool none = std::string(practice) == "au" || std::string(practice) == "nz";
    CHECK((notJudged(job).find("a way out in a fire") != std::string::npos) == none);
  }
}

TEST_CASE("US R310: a bedroom's way out is 5.7 sq ft clear, 20 in wide, 24 in high, from 44 in up at most") {
  constexpr double kInch = 25.4;
  const auto escape = [](job::UnitKind kind, double clear_width, double clear_height, double foot, const char* practice,
                         std::optional<job::Room> room) {
    job::Job job = simpleJob(kind, clear_width + 2 * (18 + 45), clear_height + 2 * (18 + 45), practice);
    job.openings[0].room = room;
    setLowestOpening(job, foot);
    return job;
  };
  const auto bed = job::Room::Bedroom;
  // 20 by 24 in is 3.33 sq ft only: both sides pass and the area doesn't.
  auto findings = judged(escape(job::UnitKind::CasementWindow, 20 * kInch, 24 * kInch, 900, "us", bed));
  REQUIRE(about(findings, "escape") != nullptr);
  CHECK(about(findings, "escape")->severity == check::Severity::Attend);
  CHECK(about(findings, "escape")->say.find("wide where") == std::string::npos);
  CHECK(about(findings, "escape")->source.find("R310") != std::string::npos);
  CHECK_FALSE(has(escape(job::UnitKind::CasementWindow, 24 * kInch, 34.3 * kInch, 44 * kInch, "us", bed), "escape"));
  CHECK(has(escape(job::UnitKind::CasementWindow, 24 * kInch, 34.3 * kInch, 44.1 * kInch, "us", bed), "escape"));
  CHECK(has(escape(job::UnitKind::CasementWindow, 19 * kInch, 50 * kInch, 900, "us", bed), "escape"));
  // A sliding window of the same size opens half.
  CHECK(has(escape(job::UnitKind::SlidingWindow, 24 * kInch, 34.3 * kInch, 900, "us", bed), "escape"));
  CHECK_FALSE(
      has(escape(job::UnitKind::CasementWindow, 20 * kInch, 24 * kInch, 900, "us", job::Room::Living), "escape"));
  // What doesn't open is told; what hangs in the way is not judged.
  for (const auto kind : {job::UnitKind::FixedWindow, job::UnitKind::AwningWindow}) {
    findings = judged(escape(kind, 900, 1200, 900, "us", bed));
    REQUIRE(about(findings, "escape") != nullptr);
    CHECK(about(findings, "escape")->severity == check::Severity::Note);
  }
  // UK Approved Document B (2019): 0.33 m², so 450 wide wants 734 high; living rooms too; up to a floor at 4.5 m.
  CHECK(has(escape(job::UnitKind::CasementWindow, 450, 733, 900, "uk", job::Room::Living), "escape"));
  job::Job job = escape(job::UnitKind::CasementWindow, 450, 734, 900, "uk", job::Room::Living);
  CHECK_FALSE(has(job, "escape"));
  job.walls[0].above_ground = 4600;
  CHECK(has(job, "escape"));
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

TEST_CASE("wet rooms: no timber reveal, in showers all below 1800 is waterproofed") {
  job::Job job = simpleJob(job::UnitKind::AwningWindow, 600, 800, "au");
  CHECK_FALSE(has(job, "wet area"));
  job.openings[0].room = job::Room::WetArea;
  CHECK(has(job, "wet area"));
  const auto wet = judged(job);
  REQUIRE(about(wet, "waterproofing") != nullptr);  // where an open shower is near
  CHECK(about(wet, "waterproofing")->severity == check::Severity::Note);
  CHECK(about(wet, "waterproofing")->say.find("1500 mm") != std::string::npos);
  job.openings[0].room = job::Room::Shower;
  const auto findings = judged(job);
  const auto* finding = about(findings, "waterproofing");
  REQUIRE(finding != nullptr);
  CHECK(finding->limit == 1800);
  CHECK(finding->source.find("10.2.2") != std::string::npos);
  job.openings[0].unit.reveal.reset();
  CHECK_FALSE(has(job, "wet area"));
  const auto plan = testing::planAlone(job, 0, shipped("au"));
  job.openings[0].sill = 1800 - plan.stand.z;
  CHECK_FALSE(has(job, "waterproofing"));
  job.practice = "uk";  // names no height
  CHECK_FALSE(has(job, "waterproofing"));
  CHECK(notJudged(job).find("waterproofing") != std::string::npos);
}

TEST_CASE("AS 1684: a jamb stud isn't notched beside its opening, planing its thickness is in nobody's rule") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, "au");
  job.openings[0].unit.width = 1218;  // 18 more than was framed for
  const auto findings = judged(job);
  // Told with the fit that asks for it: one cause, one finding.
  const auto* finding = about(findings, "fit");
  REQUIRE(finding != nullptr);
  CHECK(finding->caution.find("may not be notched") != std::string::npos);
  CHECK(finding->caution.find("6.2.1.4") != std::string::npos);
  // NZS 3604 and IRC R602.6 limit a cut into the depth: 18 of 45 off the thickness is not what they allow.
  for (const char* practice : {"nz", "us", "uk"}) {
    job.practice = practice;
    const auto other = judged(job);
    CAPTURE(practice);
    REQUIRE(about(other, "fit") != nullptr);
    CHECK(about(other, "fit")->caution.find("an engineer's") != std::string::npos);
    CHECK(about(other, "fit")->caution.find("would be left") != std::string::npos);
  }
}

TEST_CASE("lifting says how many, that a lift is to be thought about, and asks for a lifter where the guidance does") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, "au");
  job.openings[0].unit.mass_kg = 30;
  auto findings = judged(job);
  REQUIRE(about(findings, "lifting") != nullptr);
  CHECK(about(findings, "lifting")->severity == check::Severity::Note);
  CHECK(about(findings, "lifting")->say == "It weighs 30 kg: lifted by 2 people.");
  job.openings[0].unit.mass_kg = 45;  // over the filter of 37.5, which is no limit
  findings = judged(job);
  CHECK(about(findings, "lifting")->severity == check::Severity::Note);
  CHECK(about(findings, "lifting")->say.find("lifted by 3 people") != std::string::npos);
  CHECK(about(findings, "lifting")->say.find("37.5 kg") != std::string::npos);
  job.openings[0].unit.mass_kg = 120;
  findings = judged(job);
  CHECK(about(findings, "lifting")->severity == check::Severity::Attend);
  CHECK(about(findings, "lifting")->measured == 120);
}

TEST_CASE("what is taken out to lighten a lift is called a leaf where it hangs, a panel where it slides") {
  for (const auto& [kind, word] : {std::pair(job::UnitKind::HingedDoor, "a leaf of "),
                                   std::pair(job::UnitKind::DoubleDoors, "2 leaves, the heaviest of "),
                                   std::pair(job::UnitKind::StackingDoor, "2 panels, the heaviest of ")}) {
    job::Job job = simpleJob(kind, 1800, 2095, "uk");
    job.openings[0].unit.mass_kg = 130;
    const auto findings = judged(job);
    REQUIRE(about(findings, "lifting") != nullptr);
    CAPTURE(about(findings, "lifting")->say);
    CHECK(about(findings, "lifting")->say.find(word) != std::string::npos);
  }
}

TEST_CASE("HSE: 36 kg is lifted by three, 76 by a lifter, whoever tells it, it is the same") {
  // 25 kg each close to the body, half of the sum by three: 37.5 (INDG143, L23, as quoted).
  for (const char* practice : {"au", "nz", "uk", "us"}) {
    job::Job job = simpleJob(job::UnitKind::FixedWindow, 1200, 1000, practice);
    job.openings[0].unit.mass_kg = 36;
    CHECK(plan::liftedBy(plan::makePlan(job, shipped(practice)).openings[0].mass) == "3 people");
    job.openings[0].unit.mass_kg = 76;  // three people's high risk begins at 75 (MAC tool)
    CHECK(plan::liftedBy(plan::makePlan(job, shipped(practice)).openings[0].mass) == "a lifter");
    // Light, but longer than 750: two pairs of hands.
    job.openings[0].unit.mass_kg = 12;
    CHECK(plan::liftedBy(plan::makePlan(job, shipped(practice)).openings[0].mass) == "2 people");
    job = simpleJob(job::UnitKind::FixedWindow, 600, 600, practice);
    CHECK(plan::liftedBy(plan::makePlan(job, shipped(practice)).openings[0].mass) == "1 person");
  }
}

TEST_CASE("the way up to a high sill: by the lifting equation for one, not judged for a team, out of reach told") {
  // NIOSH publication 94-110. One lifts a unit 600 high up to a sill of 1200: hands from 300 to 1500, VM 1 − 0.003·75,
  // DM 0.82 + 4.5/120.
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 600, 600, "au");
  const double most = 23 * 0.775 * (0.82 + 4.5 / 120);
  job.openings[0].sill = 1200;
  job.openings[0].unit.mass_kg = most - 0.1;
  CHECK_FALSE(has(job, "lifting index"));
  job.openings[0].unit.mass_kg = most + 1;
  auto findings = judged(job);
  const auto* finding = about(findings, "lifting index");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Note);
  CHECK_THAT(*finding->measured, Catch::Matchers::WithinAbs((most + 1) / most, 1e-9));
  CHECK(finding->source.find("NIOSH") != std::string::npos);
  // The equation is for one pair of hands.
  job.openings[0].unit.mass_kg = 30;
  CHECK_FALSE(has(job, "lifting index"));
  CHECK(notJudged(job).find("a team's lift") != std::string::npos);
  // Hands above 1750 are out of it: told, and needing attention where one may not lift as much to head height (10 kg).
  for (const double mass : {9.0, 11.0, 30.0}) {
    job.openings[0].unit.mass_kg = mass;
    job.openings[0].sill = 1451;
    findings = judged(job);
    REQUIRE(about(findings, "lifting height") != nullptr);
    CHECK(about(findings, "lifting height")->severity == (mass > 10 ? check::Severity::Attend : check::Severity::Note));
    job.openings[0].sill = 1450;
    findings = judged(job);
    CHECK(about(findings, "lifting height") == nullptr);
    CHECK((about(findings, "lifting index") == nullptr ||
           about(findings, "lifting index")->severity == check::Severity::Note));
  }
}

/// A header over an opening of this width, under a wall that leaves room for short studs above it, or doesn't.
job::Job headerOver(double opening, job::Lintel lintel, bool cripples) {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, opening - 20, 1000, "us");
  job.openings[0].lintel = lintel;
  if (!cripples)
    job.walls[0].top = {{0, 900 + 1020 + lintel.depth + 2 * 45}, {9000, 900 + 1020 + lintel.depth + 2 * 45}};
  return job;
}

TEST_CASE("IRC R602.7(1), note f: where short studs bear on a header of 2x8 or deeper, 0.70 of its span") {
  constexpr double kInch = 25.4;
  const job::Lintel two_2x8{184, 38, 2};
  const auto severity = [](const job::Job& job) {
    const auto findings = judged(job);
    REQUIRE(about(findings, "lintel span") != nullptr);
    return about(findings, "lintel span")->severity;
  };
  // 5 ft 9 in under roof and ceiling: as it is where nothing bears on the header, 0.70 of it where short studs do.
  CHECK(severity(headerOver(69 * kInch, two_2x8, false)) == check::Severity::Note);
  CHECK(severity(headerOver(69 * kInch + 2, two_2x8, false)) == check::Severity::Attend);
  CHECK(severity(headerOver(69 * kInch, two_2x8, true)) == check::Severity::Attend);
  CHECK(severity(headerOver(0.7 * 69 * kInch - 1, two_2x8, true)) == check::Severity::Note);
  CHECK(severity(headerOver(0.7 * 69 * kInch + 1, two_2x8, true)) == check::Severity::Attend);
  // 4 ft 7 in of 2-2x6 are not in the note.
  CHECK(severity(headerOver(55 * kInch - 1, {140, 38, 2}, true)) == check::Severity::Note);
}

TEST_CASE("the job doesn't tell the snow: no span of the table is chosen for it, the largest least of all") {
  // Code change RB104: a single 2x8 of SPF, 28 ft building: 4 ft 2 in under 20 psf, 3 ft 8 in under 30, 3 ft under 50.
  constexpr double kInch = 25.4;
  const auto findings = judged(headerOver(48 * kInch, {184, 38, 1}, false));
  const auto* finding = about(findings, "lintel span");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Note);
  CHECK_FALSE(finding->limit.has_value());
  CHECK(finding->say.find("not judged: the job says neither the ground snow") != std::string::npos);
  const auto too_little = finding->say.find("but too little");
  REQUIRE(too_little != std::string::npos);
  CHECK(finding->say.find("20 psf of snow, a building 28 ft wide") < too_little);
  CHECK(finding->say.find("30 psf of snow, a building 28 ft wide") > too_little);
  CHECK(finding->say.find("50 psf of snow, a building 28 ft wide") > too_little);
}

TEST_CASE("EN 1995-1-1 6.1.7: two of 38 × 140 C16 that shear by 1.49 times the crack factor fail") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 580, 1000, "uk");
  job.openings[0].lintel = job::Lintel{140, 38, 2};
  job.walls[0].timber = "C16";
  // By hand: V = 2/3 · 76 · 140 · 0.67 · 0.8 · 3.2/1.3 N, of 1.5 · w · span/2.
  const double span = plan::makePlan(job, shipped("uk")).openings[0].lintel_check->span;
  const double capacity = 2.0 / 3 * 76 * 140 * 0.67 * 0.8 * 3.2 * 0.769;
  job.walls[0].supports = job::Supports{2000, 1.48 * capacity * 2 / (1.5 * span) / 2000 * 1000};
  const auto check = *plan::makePlan(job, shipped("uk")).openings[0].lintel_check;
  CHECK_THAT(*check.shear, Catch::Matchers::WithinAbs(1.48, 0.001));
}

TEST_CASE("a fixing that carries too much is told with what would help, where it is enough, else with who decides") {
  job::Job job = simpleJob(job::UnitKind::SlidingDoor, 2100, 2100, "uk");
  job.wind = job::Wind{std::string("4")};
  const auto findings = judged(job);
  const auto* finding = about(findings, "fixing load");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Attend);
  CHECK(*finding->measured > *finding->limit);
  CHECK(finding->remedy.find("Larger screws") != std::string::npos);
  CHECK(finding->remedy.find("an engineer decides") == std::string::npos);
  CHECK(finding->caution.find("ndicative") != std::string::npos);
  job.wind = job::StatedPressure{20};
  const auto storm = judged(job);
  REQUIRE(about(storm, "fixing load") != nullptr);
  CHECK(about(storm, "fixing load")->remedy.find("an engineer decides") != std::string::npos);
}

TEST_CASE("a schedule decides, and the calculation beside it is a note with the source of its limit") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1500, 1040, "au");
  job.wind = job::StatedPressure{4};
  job.openings[0].unit.fixing.emplace().spacing = 450;
  const auto findings = judged(job);
  const auto* finding = about(findings, "fixing load");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Note);
  CHECK(finding->remedy.find("maker") != std::string::npos);
  CHECK(finding->source.find("Technical Report 12") != std::string::npos);
  REQUIRE(about(findings, "fixing spacing") != nullptr);
  CHECK(about(findings, "fixing spacing")->say.find("450 mm apart") != std::string::npos);
}

TEST_CASE("what holds a mullion's wind is told, with the practice's distance and its source") {
  job::Job job = simpleJob(job::UnitKind::SlidingWindow, 1510, 1040, "uk");
  job.wind = job::StatedPressure{0.5};
  const auto british = judged(job);
  const auto* told = about(british, "fixing of mullions");
  REQUIRE(told != nullptr);
  CHECK(told->severity == check::Severity::Note);
  CHECK(told->say.find("150 mm from it") != std::string::npos);
  CHECK(told->source.find("NHBC") != std::string::npos);
  job.openings[0].unit.kind = job::UnitKind::FixedWindow;
  CHECK_FALSE(has(job, "fixing of mullions"));
  job::Job door = simpleJob(job::UnitKind::SlidingDoor, 1810, 2095, "au");
  door.wind = job::StatedPressure{0.3};
  const auto australian = judged(door);
  const auto* at_head = about(australian, "fixing of mullions");
  REQUIRE(at_head != nullptr);
  CHECK(at_head->say.find("its maker's: not judged") != std::string::npos);
  CHECK(at_head->source.find("common practice") != std::string::npos);
}

TEST_CASE("a gap too wide to be sealed is the one cause of a screw that doesn't reach across it") {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1500, 1040, "uk");
  job.stock = job::Stock{};
  job.stock->screws = {"8g x 38"};
  CHECK(has(job, "fixing length"));  // at the jambs, across their usual gaps
  job.stock->screws = {"8g x 65"};
  job.openings[0].height += 20;
  CHECK(has(job, "head clearance"));
  CHECK_FALSE(has(job, "fixing length"));
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
