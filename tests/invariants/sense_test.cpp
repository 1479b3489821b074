// What no plan may say, whatever the job: figures that are none, packers thicker than their gap, screws in the air,
// more cut from a bar than it is long, a list that isn't the sum of its openings.

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "invariants/random_jobs.h"
#include "plan/plan.h"
#include "support/catch.h"
#include "support/check_json.h"
#include "takeoff/takeoff.h"

namespace sillwright::testing {
namespace {

constexpr double kRounding = 1e-6;

/// JSON without what stands in quotes.
std::string withoutTexts(const std::string& json) {
  std::string out;
  bool text = false;
  for (std::size_t i = 0; i < json.size(); ++i) {
    if (text && json[i] == '\\') {
      ++i;
    } else if (json[i] == '"') {
      text = !text;
    } else if (!text) {
      out += json[i];
    }
  }
  return out;
}

bool has(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }

double lengthOf(plan::Side side, const plan::UnitSpec& unit) {
  return side == plan::Side::Left || side == plan::Side::Right ? unit.height : unit.width;
}

void packersAreInTheirGaps(const plan::OpeningPlan& planned) {
  for (const auto& point : planned.packing.points) {
    RC_ASSERT(point.at >= -kRounding);
    RC_ASSERT(point.at <= lengthOf(point.side, planned.unit) + kRounding);
    double sum = 0;
    for (int i = 0; i < point.stack.pieces; ++i) sum += point.stack.piece[static_cast<std::size_t>(i)];
    RC_ASSERT(std::abs(sum - point.stack.total) < kRounding);
    RC_ASSERT(sum + point.backing <= (point.gap > 0 ? point.gap + plan::kTimberGives : 0.0) + 1e-4);
    if (point.gap < 0) continue;
    RC_ASSERT(std::abs(point.left_over - std::max(0.0, point.gap - point.backing - sum)) < 1e-4);
  }
}

/// Whether studs stand at that side of the opening at height z, without a break for `deep` of them; wall axes.
bool timberBeside(const plan::Frame& frame, const job::Opening& opening, plan::Side side, double z, double deep) {
  const bool left = side == plan::Side::Left;
  double reached = left ? opening.left : opening.left + opening.width;
  const double wanted = left ? reached - deep : reached + deep;
  for (bool more = true; more && (left ? reached > wanted + kRounding : reached < wanted - kRounding);) {
    more = false;
    for (const auto& member : frame.members) {
      const bool stud = member.part == plan::MemberPart::JambStud || member.part == plan::MemberPart::BearingStud ||
                        member.part == plan::MemberPart::CommonStud;
      if (!stud || z < member.corner[0].z - kRounding || z > member.corner[3].z + kRounding) continue;
      const double near = left ? member.corner[1].x : member.corner[0].x;
      const double far = left ? member.corner[0].x : member.corner[1].x;
      if (std::abs(near - reached) > kRounding) continue;
      reached = far;
      more = true;
    }
  }
  return left ? reached <= wanted + kRounding : reached >= wanted - kRounding;
}

bool framedWithoutFault(const plan::Frame& frame) { return frame.faults.empty(); }

void screwsHoldInTimber(const job::Opening& opening, const plan::OpeningPlan& planned, const plan::WallPlan& wall) {
  for (const auto& fixing : planned.fixings.points) {
    RC_ASSERT(fixing.at >= -kRounding);
    RC_ASSERT(fixing.at <= lengthOf(fixing.side, planned.unit) + kRounding);
    if (fixing.screw < 0) continue;
    RC_ASSERT(fixing.embedment > 0);
    RC_ASSERT(fixing.screw < static_cast<int>(planned.fixings.screws.size()));
    const double length = planned.fixings.screws[static_cast<std::size_t>(fixing.screw)].length;
    RC_ASSERT(fixing.embedment + std::max(0.0, fixing.past_stud) <= length + kRounding);
    if (fixing.kind == plan::FixingKind::ThroughFin) continue;
    RC_ASSERT(planned.fixings.line >= 0);
    RC_ASSERT(planned.fixings.line <= wall.spec.stud.depth);
    const bool jamb = fixing.side == plan::Side::Left || fixing.side == plan::Side::Right;
    if (!jamb || !framedWithoutFault(wall.frame)) continue;
    // The wall's frame is as planned; what was read moves the unit by some millimetres in it.
    const double z = opening.sill + planned.stand.z + fixing.at;
    if (z < opening.sill || z > opening.sill + opening.height) continue;
    double backing = 0;
    for (const auto& point : planned.packing.points) {
      if (point.side == fixing.side && std::abs(point.at - fixing.at) <= plan::kAtPacker)
        backing = std::max(backing, point.backing);
    }
    RC_ASSERT(timberBeside(wall.frame, opening, fixing.side, z, fixing.embedment - backing));
  }
}

}  // namespace

TEST_CASE("no figure of the report is other than a number") {
  REQUIRE(holdsForJobs("finite", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const Answer answer = answerTo(job, practice);
    const std::string report = testing::checkJson(job, practice, answer.plan, answer.findings);
    RC_ASSERT(!has(withoutTexts(report), "null"));
    for (const auto& findings : answer.findings.openings) {
      for (const auto& finding : findings) {
        for (const std::string* text : {&finding.say, &finding.remedy}) {
          RC_ASSERT(!has(*text, "nan") && !has(*text, "inf ") && !has(*text, "-0 "));
        }
      }
    }
  }));
}

TEST_CASE("packers stand between unit and opening, and no stack is thicker than its gap") {
  REQUIRE(holdsForJobs("packers", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    for (const auto& planned : answerTo(job, practice).plan.openings) packersAreInTheirGaps(planned);
  }));
}

TEST_CASE("every screw holds in timber, or is said not to be long enough or to come out behind") {
  REQUIRE(holdsForJobs("screws", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const plan::Plan plan = plan::makePlan(job, practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      screwsHoldInTimber(job.openings[i], plan.openings[i], plan.walls[job.openings[i].wall]);
    }
  }));
}

TEST_CASE("bars are cut into no more than they are long, and into all the pieces") {
  REQUIRE(holdsForJobs("cutting", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const plan::Plan plan = plan::makePlan(job, practice);
    const auto takeoff = takeoff::takeOff(job, practice, plan, {.kerf = takeoff::kSawKerf, .steps = 2'000'000});
    for (const auto& section : takeoff.timber) {
      std::map<double, int> cut;
      for (const auto& bar : section.cutting.bars) {
        double used = takeoff.kerf * static_cast<double>(bar.pieces.size() - 1);
        for (const double piece : bar.pieces) {
          used += piece;
          cut[piece] += bar.times;
        }
        RC_ASSERT(used <= bar.stock - takeoff.end_trim + kRounding);
        RC_ASSERT(bar.offcut <= bar.stock - used + kRounding);
      }
      for (const auto& piece : section.cutting.too_long) cut[piece.length] += piece.count;
      std::map<double, int> wanted;
      for (const auto& piece : section.pieces) wanted[piece.length] += piece.count;
      RC_ASSERT(cut == wanted);
      RC_ASSERT(section.cutting.bought >= section.cutting.bound - kRounding);
      RC_ASSERT(section.cutting.bought >= section.cutting.used - kRounding);
    }
  }));
}

TEST_CASE("the take-off is the sum of the walls and openings") {
  REQUIRE(holdsForJobs("sums", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const plan::Plan plan = plan::makePlan(job, practice);
    const auto takeoff = takeoff::takeOff(job, practice, plan, {.kerf = takeoff::kSawKerf, .steps = 1000});
    double timber = 0;
    std::size_t members = 0;
    for (const auto& wall : plan.walls) {
      for (const auto& member : wall.frame.members) timber += member.length;
      members += wall.frame.members.size();
    }
    double listed = 0;
    std::size_t counted = 0;
    for (const auto& section : takeoff.timber) {
      listed += section.length;
      for (const auto& line : section.lines) counted += static_cast<std::size_t>(line.count);
    }
    RC_ASSERT(counted == members);
    // Sawn to the millimetre or the sixteenth of an inch, what fits between two others rounded down.
    RC_ASSERT(listed >= timber - 1.6 * static_cast<double>(counted) - kRounding);
    std::map<double, int> packers;
    std::map<std::string, int> screws;
    int without = 0;
    for (const auto& planned : plan.openings) {
      for (const auto& point : planned.packing.points) {
        for (int i = 0; i < point.stack.pieces; ++i) ++packers[point.stack.piece[static_cast<std::size_t>(i)]];
      }
      for (const auto& fixing : planned.fixings.points) {
        if (fixing.screw < 0) {
          ++without;
        } else {
          ++screws[planned.fixings.screws[static_cast<std::size_t>(fixing.screw)].name];
        }
      }
    }
    std::map<double, int> packers_listed;
    for (const auto& packer : takeoff.packers) packers_listed[packer.thickness] += packer.count;
    RC_ASSERT(packers_listed == packers);
    RC_ASSERT(takeoff.screws == screws);
    RC_ASSERT(takeoff.without_screw == without);
  }));
}

}  // namespace sillwright::testing
