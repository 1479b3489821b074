// Flashings, cladding and membrane against published limits. No code itself was seen here but the adopted text of one
// state: each case names the text that quotes it.

#include <algorithm>
#include <cmath>
#include <utility>

#include "check/judge_support.h"
#include "outside/limits.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;
using Catch::Matchers::WithinAbs;

namespace {

/// A window in a wall clad over a cavity (0: fixed direct), in a wind class.
job::Job cladJob(const char* practice, const char* wind, double cavity, double cladding = 16) {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1790, 1000, practice);
  job.wind = std::string(wind);
  job.walls[0].cladding = job::Cladding{cladding, cavity};
  return job;
}

plan::Weather weatherOf(const job::Job& job) { return planAlone(job, 0, shipped(job.practice)).weather; }

plan::Piece pieceOf(const job::Job& job, plan::PieceKind kind) {
  const auto pieces = weatherOf(job).pieces;
  const auto found = std::find_if(pieces.begin(), pieces.end(), [&](const auto& piece) { return piece.kind == kind; });
  REQUIRE(found != pieces.end());
  return *found;
}

/// Whether the head of an opening is flashed under an eave so wide, so far above it.
bool flashedUnder(double eave, double height) {
  job::Job job = cladJob("au", "N2", 0);
  const auto& opening = job.openings[0];
  job.walls[0].eave = job::Eave{opening.sill + opening.height + height, eave};
  return weatherOf(job).head.needed;
}

bool says(const job::Job& job, const char* what) { return has(job, what); }

}  // namespace

TEST_CASE(
    "ABCB Housing Provisions 7.5.6(a)(i), as quoted: flashings 110 past each side, so 2030 of an opening of 1810") {
  practice::Practice au = shipped("au");
  const job::Job job = cladJob("au", "N2", 0);
  for (auto* measure : {&au.weather.flashing.sill_past, &au.weather.flashing.head_past}) {
    holdsPast(2030, -1, [&](double length) {
      const double kept = std::exchange(measure->usual.value, (length - 1810) / 2);
      const auto result = judged(job, au);
      measure->usual.value = kept;
      return result.find("flashing") != nullptr;
    });
  }
}

TEST_CASE("ABCB Housing Provisions 7.5.6, note to its figure, as quoted: no head flashing where A is 3 B or more") {
  CHECK_FALSE(flashedUnder(600, 200));
  CHECK(flashedUnder(600, 201));
  CHECK_FALSE(flashedUnder(450, 150));
  CHECK(flashedUnder(449, 150));
}

TEST_CASE("ABCB Housing Provisions 7.5.7(1), as quoted: cladding 150 clear of the ground") {
  holdsPast(150, -1, [](double floor) {
    job::Job job = cladJob("au", "N2", 0);
    job.walls[0].above_ground = floor;
    const auto plan = plan::makePlan(job, shipped("au"));
    return about(check::judge(job, shipped("au"), plan).walls[0], "ground clearance") != nullptr;
  });
}

TEST_CASE("AS 4200.2:2017, as summarised on trade pages: runs of membrane lap by 150") {
  const job::Job job = cladJob("au", "N2", 0);
  practice::Practice au = shipped("au");
  holdsPast(150, -1, [&](double lap) {
    au.weather.membrane.lap.usual.value = lap;
    return judged(job, au).find("lap", "sarking") != nullptr;
  });
}

TEST_CASE(
    "E2/AS1 9.1.10, as summarised by a weathertightness guide: heads fall 15 degrees, 8.04 in 30 and 13.40 in 50") {
  const auto head = pieceOf(cladJob("nz", "H", 20), plan::PieceKind::HeadFlashing);
  CHECK(head.fall_degrees == 15);
  const double slope = std::tan(head.fall_degrees * std::acos(-1.0) / 180);
  CHECK_THAT(30 * slope, WithinAbs(8.04, 0.01));
  CHECK_THAT(50 * slope, WithinAbs(13.40, 0.01));
}

TEST_CASE("E2/AS1, as summarised in a guide and a trade article: stop ends of 10, 25 more upstand in extra high wind") {
  const auto high = pieceOf(cladJob("nz", "VH", 20), plan::PieceKind::HeadFlashing);
  const auto extra = pieceOf(cladJob("nz", "EH", 20), plan::PieceKind::HeadFlashing);
  CHECK(high.stop_end == 10);
  CHECK_THAT(extra.folds.front() - high.folds.front(), WithinAbs(25, 1e-9));
}

TEST_CASE("E2/AS1 figures, as shown in BRANZ Build 161: corner tape 100 each way, heads sealed in very high wind") {
  CHECK(pieceOf(cladJob("nz", "H", 20), plan::PieceKind::CornerTape).width == 100);
  CHECK_FALSE(judged(cladJob("nz", "H", 20), shipped("nz")).find("head flashing", "is sealed"));
  CHECK(judged(cladJob("nz", "VH", 20), shipped("nz")).find("head flashing", "is sealed"));
  CHECK(judged(cladJob("nz", "EH", 20), shipped("nz")).find("head flashing", "is sealed"));
}

TEST_CASE(
    "E2/AS1 amendment 5, as summarised in BRANZ Build 128: direct fix not in extra high wind, sill tray 35 over") {
  CHECK_FALSE(says(cladJob("nz", "VH", 0), "cladding"));
  CHECK(says(cladJob("nz", "EH", 0), "cladding"));
  const auto laps = weatherOf(cladJob("nz", "H", 0)).laps;
  CHECK(std::any_of(laps.begin(), laps.end(), [](const auto& lap) { return lap.least == 35; }));
  // 8 under the reveal.
  job::Job job = cladJob("nz", "H", 0);
  holdsPast(8, -0.5, [&](double under) {
    job.openings[0].unit.height = job.openings[0].height - 5 - under;  // 5 at the head
    return says(job, "fit");
  });
}

TEST_CASE("E2/AS1, as quoted in a trade specification: membrane supported at 300 where studs are over 450 apart") {
  job::Job job = cladJob("nz", "H", 20);
  holdsPast(450, 1, [&](double spacing) {
    job.walls[0].spacing = spacing;
    return says(job, "membrane support");
  });
  CHECK(names(job, "membrane support", 300));
}

TEST_CASE("New Zealand's window association: all sills are supported across a cavity") {
  CHECK(says(cladJob("nz", "H", 20), "sill support"));
  CHECK_FALSE(says(cladJob("nz", "H", 0), "sill support"));
}

TEST_CASE("IRC R703.2 as adopted in Utah, 2015: runs lap by 2 in") {
  practice::Practice us = shipped("us");
  const job::Job job = cladJob("us", "DP30", 0);
  holdsPast(51, -1, [&](double lap) {
    us.weather.membrane.lap.usual.value = lap;
    return judged(job, us).find("lap", "wrap") != nullptr;
  });
}

TEST_CASE("IRC R703.8.6, as quoted: weepholes of masonry no more than 33 in apart") {
  CHECK(names(cladJob("us", "DP30", 40, 100), "weepholes", 33 * kFromInches));
  CHECK_FALSE(says(cladJob("us", "DP30", 40, 16), "weepholes"));
}

TEST_CASE(
    "Approved Document B and NHBC 6.2.8, as given in notes: barriers of 38, gaps of 6 and 12 under sills to brick") {
  job::Job job = cladJob("uk", "3", 50, 100);
  CHECK(names(job, "cavity barrier", 38));
  CHECK(names(job, "movement gap", 6));
  job.walls[0].level = 2700;
  CHECK(names(job, "movement gap", 12));
  CHECK_FALSE(says(cladJob("uk", "3", 50, 20), "movement gap"));
}

TEST_CASE(
    "Approved Document C 5.5, as quoted: a damp-proof course at 150 above the ground, and openings in brick over it") {
  job::Job job = cladJob("uk", "3", 50, 100);
  CHECK(names(job, "damp-proof course", 150));
  const double sill = job.openings[0].sill;
  job.openings[0].sill = 0;
  const auto attended = [&](double ground) {
    job.walls[0].above_ground = ground;
    return judged(job, shipped("uk")).find("damp-proof course", "stay wet") != nullptr;
  };
  holdsPast(150, -1, attended);
  job.openings[0].sill = sill;
  CHECK_FALSE(attended(100));
  job.walls[0].level = 2700;
  CHECK_FALSE(says(job, "damp-proof course"));
}

/// Where a label's U-value is past what the practice lets a unit lose in the case that the job names.
void holdsHeat(const char* practice, const char* wind, const char* limit, double most) {
  job::Job job = cladJob(practice, wind, 50);
  job.heat = limit;
  job.openings[0].unit.label = job::Label{3, 2, 0.3};
  CHECK(notJudged(job).find("U-value") != std::string::npos);
  holdsPast(most, 0.01, [&](double u_value) {
    job.openings[0].unit.label->u_value = u_value;
    return says(job, "heat loss");
  });
  job.heat.reset();
  CHECK(notJudged(job).find(limit) != std::string::npos);  // not told which holds: none is
  CHECK_FALSE(says(job, "heat loss"));
}

TEST_CASE("Approved Document L volume 1 (2021), by a glass maker: at most 1.4 W/m2K replaced, 1.6 in new dwellings") {
  holdsHeat("uk", "3", "replacement", 1.4);
  holdsHeat("uk", "3", "new dwelling", 1.6);
}

TEST_CASE("H1/AS1, by a merchant: windows of R 0.46 in zones 1 to 4, of R 0.50 in zones 5 and 6") {
  holdsHeat("nz", "high", "zone 1", 2.17);
  holdsHeat("nz", "high", "zone 5", 2.0);
}

TEST_CASE("AS 3959 (2009), by makers of screens: mesh of 2 mm at most, gaps of 3, none of aluminium at BAL-40") {
  job::Job job = cladJob("au", "N3", 20);
  job.openings[0].unit.kind = job::UnitKind::AwningWindow;
  job.bushfire = "BAL-29";
  CHECK(notJudged(job).find("glass, frame and seals at BAL-29") != std::string::npos);
  CHECK(notJudged(job).find("whether it has screens") != std::string::npos);
  job.openings[0].unit.screens = false;
  CHECK(names(job, "bushfire", 2));
  job.openings[0].unit.screens = true;
  CHECK(names(job, "bushfire", 2));
  const auto said = [&] {
    for (const auto& finding : judged(job)) {
      if (finding.about == "bushfire") return finding.say;
    }
    return std::string{};
  };
  CHECK(said().find("steel, bronze or aluminium") != std::string::npos);
  CHECK(said().find("gaps of 3 mm") != std::string::npos);
  job.bushfire = "BAL-40";
  CHECK(said().find("not of aluminium") != std::string::npos);
  job.bushfire = "BAL-FZ";
  CHECK(said().empty());
  CHECK(notJudged(job).find("tested") != std::string::npos);
}

TEST_CASE(
    "LABC Warranty technical guidance, gaps around windows: 5 a side, 7.5 over 3 m, 10 and 15 at most, rod over 5") {
  // Aluminium: what a unit is ordered by, the largest gap, and the depth of sealant.
  const auto gapped = [](double width, double gap) {
    job::Job job = simpleJob(job::UnitKind::FixedWindow, width - 2 * gap, 1000, "uk");
    job.openings[0].width = width;
    job.openings[0].height = 1010;
    job.openings[0].unit.fin.reset();
    return job;
  };
  for (const auto& [width, usual] : {std::pair{1200.0, 5.0}, {2900.0, 5.0}, {3500.0, 7.5}}) {
    CAPTURE(width);
    CHECK(planAlone(gapped(width, usual), 0, shipped("uk")).stand.order[0] == width - 2 * usual);
  }
  holdsPast(10, 0.5, [&](double gap) { return says(gapped(2900, gap), "side clearance"); });
  holdsPast(15, 0.5, [&](double gap) { return says(gapped(3500, gap), "side clearance"); });
  holdsPast(5, 0.5, [&](double gap) { return says(gapped(1200, gap), "sealing"); });
}
