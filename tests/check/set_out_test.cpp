// Findings from planned sizes alone.

#include "judge_support.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;

TEST_CASE("an ordinary window read as planned is ready") {
  for (const auto* name : {"au", "nz", "us", "uk"}) {
    const auto& practice = shipped(name);
    job::Job job = readWindow(name);
    // Ordered by the practice's own usual clearances, so that no gap is out of its range.
    const auto rules = plan::makePlan(job, practice).openings[0].rules;
    const auto opening = plan::openingFor(1510, 1040, rules);
    job.openings[0].width = opening[0];
    job.openings[0].height = opening[1];
    job.openings[0].measured = readingsAsPlanned(job.openings[0]);
    const Judged result = judged(job, practice);
    for (const auto* about :
         {"fit", "side clearance", "head clearance", "sill clearance", "square", "studs plumb", "measurements"}) {
      CAPTURE(name, about);
      CHECK(result.find(about) == nullptr);
    }
    CHECK(result.plan.openings[0].stand.fits);
  }
}

TEST_CASE("a unit larger than its opening stops the work and says by how much") {
  job::Job job = readWindow("au");
  job.openings[0].unit.width = 1540;
  const Judged result = judged(job, shipped("au"));
  const auto* finding = result.find("unit size");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Stop);
  CHECK(finding->say == "The unit is 10 mm wider than the framed opening planned for it.");
  CHECK(finding->measured == 1540);
  CHECK(finding->limit == 1530);
  // Common practice, no source: 10 a side in au.
  CHECK(finding->remedy == "Frame 1560 mm × 1060 mm, or order a smaller unit.");
  CHECK(result.verdict() == check::Verdict::Stop);
}

TEST_CASE("a frame that is deeper than the wall leaves it room for is told by how much it comes through") {
  job::Job job = readWindow("au");
  job.openings[0].unit.frame = job::FrameSection{.depth = 100, .face = 50};
  CHECK(judged(job, shipped("au")).find("frame depth") == nullptr);
  job.openings[0].unit.stands = 20;  // in a wall of 90 and 10 of lining
  const Judged result = judged(job, shipped("au"));
  const auto* finding = result.find("frame depth");
  REQUIRE(finding != nullptr);
  CHECK(finding->say.find("20 mm past the") != std::string::npos);
  job.openings[0].unit.stands = 0;
  CHECK(judged(job, shipped("au")).find("frame depth") == nullptr);
}

TEST_CASE("a reveal that is not as deep as the wall") {
  job::Job job = readWindow("au");
  SECTION("deeper: it will stand proud") {
    job.openings[0].unit.reveal->depth = 110;
    const Judged result = judged(job, shipped("au"));
    const auto* finding = result.find("reveal depth");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == check::Severity::Attend);
    CHECK(*finding->measured == Approx(10));
    CHECK(finding->say.find("stand proud of the lining by 10 mm") != std::string::npos);
    CHECK(finding->remedy.find("Plane it by 10 mm") == 0);
  }
  SECTION("shallower: it will fall short") {
    job.openings[0].unit.reveal->depth = 94;
    const Judged result = judged(job, shipped("au"));
    const auto* finding = result.find("reveal depth");
    REQUIRE(finding != nullptr);
    CHECK(*finding->measured == Approx(-6));
    CHECK(finding->say.find("fall short of the lining by 6 mm") != std::string::npos);
  }
  SECTION("the wall as read counts, not as planned") {
    job.openings[0].unit.reveal->depth = 110;
    job.openings[0].measured->wall_depth = {109, 110};
    CHECK(judged(job, shipped("au")).find("reveal depth") == nullptr);
  }
  SECTION("a bare frame has none") {
    job.openings[0].unit.reveal.reset();
    CHECK(judged(job, shipped("au")).find("reveal depth") == nullptr);
  }
}

TEST_CASE("a fin that hardly covers its gap") {
  job::Job job = readWindow("au");
  job.openings[0].unit.fin = 12;
  const Judged result = judged(job, shipped("au"));
  const auto* finding = result.find("fin cover");
  REQUIRE(finding != nullptr);
  // 12 over a gap of 10 laps by 2.
  CHECK(*finding->measured == Approx(2).margin(0.01));
  CHECK(*finding->limit == shipped("au").unit.fin_cover_least->value);
  // One finding for all sides.
  CHECK(finding->say.find("At the left, right, sill and head") != std::string::npos);
  job.openings[0].unit.fin = 30;
  CHECK(judged(job, shipped("au")).find("fin cover") == nullptr);
}

TEST_CASE("faults of the frame come to the opening they belong to") {
  job::Job job = readWindow("au");
  SECTION("past the wall's end") {
    job.openings[0].left = 8000;
    const Judged result = judged(job, shipped("au"));
    const auto* finding = result.find("set-out");
    REQUIRE(finding != nullptr);
    CHECK(*finding->measured > 530);  // 8000 + 1530 is 530 past 9000, and the side studs are further out
  }
  SECTION("no room for the lintel under the plate") {
    job.walls[0].top = {{0, 2100}, {9000, 2100}};
    const Judged result = judged(job, shipped("au"));
    const auto* finding = result.find("lintel room");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == check::Severity::Stop);
    CHECK(finding->spot.side == plan::Side::Head);
    // Head 1960, lintel 190 (au, to 1800 wide), underside of two plates of 45: 2010. 2150 − 2010 = 140 too high.
    CHECK(*finding->measured == Approx(140));
    CHECK(finding->caution.find("engineer") != std::string::npos);
  }
  SECTION("a soffit below the head: 1960 above the plate's underside") {
    job.walls[0].eave = job::Eave{1960, 450};
    CHECK(judged(job, shipped("au")).find("soffit") == nullptr);
    job.walls[0].eave = job::Eave{1900, 450};
    const Judged result = judged(job, shipped("au"));
    const auto* finding = result.find("soffit");
    REQUIRE(finding != nullptr);
    CHECK(finding->severity == check::Severity::Stop);
    CHECK(finding->say == "The eave's soffit meets the wall 60 mm below the opening's head.");
  }
  SECTION("two openings over each other") {
    job.openings.push_back(job.openings[0]);
    job.openings[1].name = "W2";
    job.openings[1].left += 500;
    const Judged result = judged(job, shipped("au"));
    for (std::size_t i = 0; i < 2; ++i) {
      const auto& findings = result.findings.openings[i];
      const std::string told = "It overlaps opening " + job.openings[1 - i].name + " by ";
      CHECK(std::any_of(findings.begin(), findings.end(), [&](const auto& one) { return one.say.starts_with(told); }));
      CHECK(result.findings.verdicts[i] == check::Verdict::Stop);
    }
    CHECK(result.findings.verdict == check::Verdict::Stop);
  }
}

TEST_CASE("what two openings lack of room is told to both, each by the other's name") {
  job::Job job = readWindow("au");
  job.openings.push_back(job.openings[0]);
  job.openings[1].name = "W2";
  const std::string first = job.openings[0].name;
  const auto saysOf = [&](std::size_t opening, const char* about) {
    const Judged result = judged(job, shipped("au"));
    for (const auto& finding : result.findings.openings[opening]) {
      if (finding.about == about) return finding.say;
    }
    return std::string();
  };
  SECTION("side by side") {
    job.openings[1].left += job.openings[0].width + 100;
    CHECK(saysOf(0, "side studs").starts_with("Between it and W2 "));
    CHECK(saysOf(1, "side studs").starts_with("Between it and " + first + " "));
  }
  SECTION("one above the other, their edges out of line: studs of each stand in the other's way, and it is said once") {
    job.walls[0].top = {{0, 5000}, {9000, 5000}};
    job.openings[1].sill = job.openings[0].sill + job.openings[0].height + 600;
    job.openings[1].left += 200;
    const Judged result = judged(job, shipped("au"));
    for (std::size_t i = 0; i < 2; ++i) {
      const auto& findings = result.findings.openings[i];
      const auto studs = [](const check::Finding& finding) { return finding.about == "side studs"; };
      CHECK(std::count_if(findings.begin(), findings.end(), studs) == 1);
      CHECK(saysOf(i, "side studs").starts_with("It and " + job.openings[1 - i].name + " stand one above the other"));
    }
    // Two studs of 45 beside each: 90 of the one stand in the other.
    CHECK(saysOf(0, "side studs").find(" 90 mm ") != std::string::npos);
  }
  SECTION("one above the other, into its lintel") {
    job.walls[0].top = {{0, 5000}, {9000, 5000}};
    job.openings[1].sill = job.openings[0].sill + job.openings[0].height + 60;
    CHECK(saysOf(0, "lintel room").find("above the sill of W2") != std::string::npos);
    CHECK(saysOf(1, "lintel room").starts_with("The top of the lintel of " + first));
  }
  SECTION("one above the other, without room for a trimmer") {
    job.walls[0].top = {{0, 5000}, {9000, 5000}};
    job.openings[1].sill = job.openings[0].sill + job.openings[0].height + 200;
    CHECK(saysOf(0, "sill trimmer").find("the sill of W2") != std::string::npos);
    CHECK(saysOf(1, "sill trimmer").find("lintel of " + first) != std::string::npos);
  }
}

TEST_CASE("what the job leaves out is told, with where it came from") {
  job::Job job = readWindow("au");
  job.openings[0].unit.fin.reset();
  job.openings[0].unit.frame.reset();
  const Judged result = judged(job, shipped("au"));
  const auto* finding = result.find("taken from the rule set");
  REQUIRE(finding != nullptr);
  CHECK(finding->severity == check::Severity::Note);
  CHECK(finding->say.find("unit.fin") != std::string::npos);
  CHECK(finding->say.find("common practice") != std::string::npos);
}
