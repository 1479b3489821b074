// A mirrored house has a mirrored answer. To the millionth of a millimetre: the readings are adjusted by iteration.

#include "invariants/mirror.h"

#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "check/judge.h"
#include "invariants/random_jobs.h"
#include "support/catch.h"

namespace sillwright::testing {
namespace {

constexpr double kSame = 1e-6;

bool same(double a, double b, double within = kSame) { return std::abs(a - b) <= within; }
bool same(plan::Point a, plan::Point b, double within = kSame) {
  return same(a.x, b.x, within) && same(a.z, b.z, within);
}

/// Between jambs that are parallel but for rounding a unit that doesn't fit has as much to spare at any height.
double sameStanding(const plan::OpeningPlan& planned) { return planned.stand.fits ? kSame : 1e-3; }

// --- survey, stand, packers, screws

void sameShape(const plan::AsBuilt& one, const plan::AsBuilt& two) {
  static constexpr std::array<std::size_t, 4> kOther{1, 0, 3, 2};
  for (std::size_t i = 0; i < 4; ++i) {
    RC_ASSERT(same(mirrored(one.shape, one.shape.corner[i]), two.shape.corner[kOther[i]]));
  }
  RC_ASSERT(same(one.shape.bow.left, two.shape.bow.right));
  RC_ASSERT(same(one.shape.bow.right, two.shape.bow.left));
  RC_ASSERT(same(one.shape.bow.sill, two.shape.bow.sill));
  RC_ASSERT(same(one.shape.bow.head, two.shape.bow.head));
  RC_ASSERT(one.trust == two.trust);
  RC_ASSERT(one.freedom == two.freedom);
  RC_ASSERT(same(one.chi_square, two.chi_square, 1e-6 * (1 + one.chi_square)));
  RC_ASSERT(same(one.out_of_square, -two.out_of_square));
  RC_ASSERT(one.twist.has_value() == two.twist.has_value());
  if (one.twist) RC_ASSERT(same(*one.twist, -*two.twist));
}

void sameStand(const plan::OpeningPlan& one, const plan::OpeningPlan& two) {
  const auto lower_right = mirrored(one.as_built.shape, {one.stand.x + one.unit.width, one.stand.z});
  RC_ASSERT(one.stand.fits == two.stand.fits || std::abs(one.stand.spare) < kSame);
  RC_ASSERT(same(one.stand.spare, two.stand.spare));
  // What stands in for readings not taken leaves the covariance with fewer digits.
  RC_ASSERT(same(one.stand.spare_sigma, two.stand.spare_sigma, 1e-4));
  // Half-spaces that are alike may be integrated in another order in the mirror: a fifth of a point.
  RC_ASSERT(same(one.stand.chance, two.stand.chance, 2e-3));
  const double within = sameStanding(one);
  RC_ASSERT(same(lower_right, {two.stand.x, two.stand.z}, within));
  for (std::size_t i = 0; i < 2; ++i) {
    RC_ASSERT(same(one.stand.gaps.left[i], two.stand.gaps.right[i], within));
    RC_ASSERT(same(one.stand.gaps.right[i], two.stand.gaps.left[i], within));
    RC_ASSERT(same(one.stand.gaps.sill[i], two.stand.gaps.sill[1 - i], within));
    RC_ASSERT(same(one.stand.gaps.head[i], two.stand.gaps.head[1 - i], within));
    RC_ASSERT(same(one.stand.largest_unit[i], two.stand.largest_unit[i]));
    RC_ASSERT(same(one.stand.order[i], two.stand.order[i]));
  }
  RC_ASSERT(one.remedies.size() == two.remedies.size());
}

double mirroredAt(const plan::OpeningPlan& planned, plan::Side side, double at) {
  return side == plan::Side::Left || side == plan::Side::Right ? at : planned.unit.width - at;
}

template <class Points>
auto pointAt(const Points& points, plan::Side side, double at) {
  return std::find_if(points.begin(), points.end(),
                      [&](const auto& point) { return point.side == side && same(point.at, at, 1e-3); });
}

void samePacking(const plan::OpeningPlan& one, const plan::OpeningPlan& two) {
  RC_ASSERT(one.packing.points.size() == two.packing.points.size());
  for (const auto& point : one.packing.points) {
    const auto found = pointAt(two.packing.points, mirrored(point.side), mirroredAt(one, point.side, point.at));
    RC_ASSERT(found != two.packing.points.end());
    RC_ASSERT(same(point.gap, found->gap, sameStanding(one)));
    RC_ASSERT(point.backing == found->backing);
    RC_ASSERT(same(point.stack.total, found->stack.total));
    RC_ASSERT(point.stack.pieces == found->stack.pieces);
  }
}

void sameFixings(const plan::OpeningPlan& one, const plan::OpeningPlan& two) {
  RC_ASSERT(one.fixings.points.size() == two.fixings.points.size());
  constexpr double kPerMm = 20;  // N that a screw can take less for each mm of gap, and more
  const double within = sameStanding(one);
  RC_ASSERT(same(one.fixings.worst_ratio, two.fixings.worst_ratio, within));
  for (const auto& fixing : one.fixings.points) {
    const auto found = pointAt(two.fixings.points, mirrored(fixing.side), mirroredAt(one, fixing.side, fixing.at));
    RC_ASSERT(found != two.fixings.points.end());
    RC_ASSERT((fixing.screw < 0) == (found->screw < 0));
    RC_ASSERT(same(fixing.embedment, found->embedment, within));
    RC_ASSERT(same(fixing.demand_n, found->demand_n));
    RC_ASSERT(same(fixing.capacity_n.value_or(-1), found->capacity_n.value_or(-1), kPerMm * within));
  }
}

// --- weather

void sameWeather(const plan::OpeningPlan& one, const plan::OpeningPlan& two) {
  RC_ASSERT(one.weather.head.needed == two.weather.head.needed);
  RC_ASSERT(one.weather.pieces.size() == two.weather.pieces.size());
  for (const auto& piece : one.weather.pieces) {
    const bool found = std::any_of(two.weather.pieces.begin(), two.weather.pieces.end(), [&](const auto& other) {
      return other.kind == piece.kind && other.side == mirrored(piece.side) && same(other.length, piece.length) &&
             same(other.width, piece.width);
    });
    RC_ASSERT(found);
  }
}

void sameLeaks(const plan::OpeningPlan& one, const plan::OpeningPlan& two) {
  const auto check = [&](const std::vector<plan::Leak>& leaks, const std::vector<plan::Leak>& others) {
    RC_ASSERT(leaks.size() == others.size());
    for (const auto& leak : leaks) {
      const bool found = std::any_of(others.begin(), others.end(), [&](const auto& other) {
        return other.source == leak.source && other.end == leak.end && same(other.z, leak.z, 1e-3) &&
               same(other.x_low, one.weather.skin.opening_width - leak.x_high, 1e-3) &&
               same(other.x_high, one.weather.skin.opening_width - leak.x_low, 1e-3);
      });
      RC_ASSERT(found);
    }
  };
  check(one.water.leaks, two.water.leaks);
  check(one.water.behind_cladding, two.water.behind_cladding);
}

// --- frame

bool sameMember(const plan::Member& one, const plan::Member& two, double length) {
  static constexpr std::array<std::size_t, 4> kOther{1, 0, 3, 2};
  if (one.part != two.part || one.opening != two.opening || !same(one.length, two.length)) return false;
  for (std::size_t i = 0; i < 4; ++i) {
    if (!same(one.corner[i].x, length - two.corner[kOther[i]].x)) return false;
    if (!same(one.corner[i].z, two.corner[kOther[i]].z)) return false;
  }
  return true;
}

/// A plate of several pieces: they are set out from the wall's left end, as the studs that they meet over are.
bool isOfPieces(const plan::Frame& frame, const plan::Member& plate) {
  const auto isPlate = [](const plan::Member& member) {
    return member.part == plan::MemberPart::TopPlate || member.part == plan::MemberPart::BottomPlate;
  };
  return isPlate(plate) && std::any_of(frame.members.begin(), frame.members.end(), [&](const plan::Member& other) {
           return isPlate(other) &&
                  (same(other.corner[1].x, plate.corner[0].x) || same(other.corner[0].x, plate.corner[1].x));
         });
}

void sameFrame(const plan::WallPlan& one, const plan::WallPlan& two) {
  RC_ASSERT(one.frame.faults.size() == two.frame.faults.size());
  for (const auto& member : one.frame.members) {
    if (isOfPieces(one.frame, member)) continue;
    const bool found = std::any_of(two.frame.members.begin(), two.frame.members.end(),
                                   [&](const auto& other) { return sameMember(member, other, one.spec.length); });
    if (!found)
      RC_LOG() << static_cast<int>(member.part) << " at " << member.corner[0].x << ", " << member.corner[0].z << "\n";
    RC_ASSERT(found);
  }
}

// --- findings

/// A figure within rounding of its limit may be judged either way.
bool onTheLimit(const check::Finding& finding) {
  return finding.measured && finding.limit && same(std::abs(*finding.measured), *finding.limit, 1e-3);
}

bool hasLike(const std::vector<check::Finding>& findings, const check::Finding& wanted) {
  // Of several panes the left one's reason is told.
  const bool of_first_pane = wanted.about == "safety glass" || wanted.about == "glass marking";
  return std::any_of(findings.begin(), findings.end(), [&](const auto& other) {
    if (other.about != wanted.about || other.severity != wanted.severity) return false;
    if (of_first_pane) return true;
    return same(std::abs(other.measured.value_or(0)), std::abs(wanted.measured.value_or(0)), 1e-3) &&
           same(other.limit.value_or(0), wanted.limit.value_or(0), 1e-3) &&
           other.spot.side.has_value() == wanted.spot.side.has_value();
  });
}

void sameFindings(const std::vector<check::Finding>& one, const std::vector<check::Finding>& two) {
  for (const auto& finding : one) {
    if (onTheLimit(finding)) continue;
    RC_LOG() << finding.about << ": " << finding.say << "\n";
    RC_ASSERT(hasLike(two, finding));
  }
}

/// Whether the opening's lower right corner is where it was planned. The lower left one is taken to be so, which is the
/// other one in the mirror.
bool isInPlace(const job::Opening& opening, const plan::OpeningPlan& planned) {
  const plan::Point& corner = planned.as_built.shape.corner[1];
  return std::abs(corner.x - opening.width) < 1e-9 && std::abs(corner.z) < 1e-9;
}

/// A stand that doesn't depend on where the lower left corner is taken to be.
bool standsByItself(const job::Job& job, const Answer& answer, std::size_t opening) {
  if (!job.walls[job.openings[opening].wall].align_heads) return true;
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    if (job.openings[i].wall == job.openings[opening].wall && !isInPlace(job.openings[i], answer.plan.openings[i]))
      return false;
  }
  return true;
}

/// Openings that share room: the left one is framed, the other as far as it goes.
bool hasRoom(const plan::Frame& frame) {
  return std::none_of(frame.faults.begin(), frame.faults.end(), [](const auto& fault) {
    return fault.kind == plan::FrameFaultKind::OpeningsOverlap ||
           fault.kind == plan::FrameFaultKind::NoRoomForSideStuds || fault.other >= 0;
  });
}

}  // namespace

TEST_CASE("a mirrored house is surveyed, placed, packed and fixed as in the mirror") {
  REQUIRE(holdsForJobs("mirrored stands", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const Answer one = answerTo(job, practice);
    const Answer two = answerTo(mirrored(job, practice), practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      RC_LOG() << job.openings[i].name << "\n";
      sameShape(one.plan.openings[i].as_built, two.plan.openings[i].as_built);
      if (!standsByItself(job, one, i)) continue;
      sameStand(one.plan.openings[i], two.plan.openings[i]);
      samePacking(one.plan.openings[i], two.plan.openings[i]);
      RC_ASSERT(one.plan.openings[i].wind.near_corner == two.plan.openings[i].wind.near_corner);
      sameFixings(one.plan.openings[i], two.plan.openings[i]);
      sameWeather(one.plan.openings[i], two.plan.openings[i]);
    }
  }));
}

TEST_CASE("a mirrored house lets water in where the mirror shows it") {
  REQUIRE(holdsForJobs("mirrored water", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const Answer one = answerTo(job, practice);
    const Answer two = answerTo(mirrored(job, practice), practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      if (!isInPlace(job.openings[i], one.plan.openings[i]) || !standsByItself(job, one, i)) continue;
      sameLeaks(one.plan.openings[i], two.plan.openings[i]);
    }
  }));
}

TEST_CASE("a mirrored wall of whole bays is framed as in the mirror") {
  REQUIRE(holdsForJobs("mirrored frames", [](const job::Job& drawn, const practice::Practice& named, Draw&) {
    practice::Practice practice = named;
    practice.framing.nogging_stagger.reset();  // up and down from the left end on
    const job::Job job = inWholeBays(drawn, practice);
    const Answer one = answerTo(job, practice);
    const Answer two = answerTo(mirrored(job, practice), practice);
    for (std::size_t i = 0; i < job.walls.size(); ++i) {
      if (!hasRoom(one.plan.walls[i].frame)) continue;
      RC_LOG() << job.walls[i].name << "\n";
      sameFrame(one.plan.walls[i], two.plan.walls[i]);
      const auto whole = [](const plan::Frame& frame) {
        return std::count_if(frame.members.begin(), frame.members.end(),
                             [&](const auto& member) { return !isOfPieces(frame, member); });
      };
      RC_ASSERT(whole(one.plan.walls[i].frame) == whole(two.plan.walls[i].frame));
    }
  }));
}

TEST_CASE("a mirrored house has the findings of the house") {
  REQUIRE(holdsForJobs("mirrored findings", [](const job::Job& job, const practice::Practice& practice, Draw&) {
    const Answer one = answerTo(job, practice);
    const Answer two = answerTo(mirrored(job, practice), practice);
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      const auto& wall = one.plan.walls[job.openings[i].wall];
      if (!isInPlace(job.openings[i], one.plan.openings[i]) || !standsByItself(job, one, i) || !hasRoom(wall.frame))
        continue;
      sameFindings(one.findings.openings[i], two.findings.openings[i]);
      sameFindings(two.findings.openings[i], one.findings.openings[i]);
    }
  }));
}

}  // namespace sillwright::testing
