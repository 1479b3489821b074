#include <cmath>
#include <map>

#include "plan/stand/place.h"
#include "support/catch.h"
#include "support/openings.h"

using namespace sillwright;
using namespace sillwright::plan;
using namespace sillwright::testing;
using Catch::Matchers::WithinAbs;

namespace {

double spareOf(const Problem& p) { return place(knownExactly(p.shape), {p.width, p.height}, rulesWith(p.least)).spare; }

std::vector<Remedy> remediesOf(const Problem& p) {
  const PlaceRules rules = rulesWith(p.least);
  const AsBuilt opening = knownExactly(p.shape);
  return remedies(opening, {p.width, p.height}, rules, place(opening, {p.width, p.height}, rules));
}

// Timber taken off a whole side is gap gained there.
Problem cured(Problem p, const Remedy& remedy, double more = 0) {
  const double amount = remedy.amount + more;
  switch (remedy.kind) {
    case RemedyKind::TakeOffStud:
      (remedy.side == Side::Left ? p.least.left : p.least.right) -= amount;
      break;
    case RemedyKind::TakeOffSill:
      p.least.sill -= amount;
      break;
    case RemedyKind::TakeOffHead:
      p.least.head -= amount;
      break;
    case RemedyKind::NarrowerUnit:
      p.width = amount;
      break;
    case RemedyKind::LowerUnit:
      p.height = amount;
      break;
    case RemedyKind::TurnUnit: {
      // Turning the unit up at its right is turning the opening down at its right.
      const double angle = -std::asin(amount / p.width);
      for (Point& corner : p.shape.corner) {
        corner = {std::cos(angle) * corner.x - std::sin(angle) * corner.z,
                  std::sin(angle) * corner.x + std::cos(angle) * corner.z};
      }
      break;
    }
  }
  return p;
}

}  // namespace

TEST_CASE("remedies of a unit 4 mm too wide, by hand") {
  Problem p;
  p.shape = plannedShape({1000, 1000});
  p.width = 994;
  p.height = 980;
  p.least = {5, 5, 5, 5};
  const std::vector<Remedy> found = remediesOf(p);
  REQUIRE(found.size() == 3);
  CHECK(found[0].kind == RemedyKind::TakeOffStud);
  CHECK(found[0].side == Side::Left);
  CHECK_THAT(found[0].amount, WithinAbs(4, 1e-9));
  CHECK(found[1].side == Side::Right);
  CHECK_THAT(found[1].amount, WithinAbs(4, 1e-9));
  CHECK(found[2].kind == RemedyKind::NarrowerUnit);
  CHECK(found[2].amount == 990);
}

TEST_CASE("an opening framed out of level takes the unit only when it is turned") {
  // 1000 × 1000, turned by 5 in 1000, with a unit that has 6 less than the clear size: set level it needs
  // 995 + 0.005 · 995 + … in each direction.
  const double angle = std::asin(0.005);
  Problem p;
  p.shape = plannedShape({1000, 1000});
  for (Point& corner : p.shape.corner) {
    corner = {std::cos(angle) * corner.x - std::sin(angle) * corner.z,
              std::sin(angle) * corner.x + std::cos(angle) * corner.z};
  }
  p.width = p.height = 998;
  p.least = {0, 0, 0, 0};
  CHECK(spareOf(p) < 0);
  CHECK_FALSE(place(knownExactly(p.shape), {p.width, p.height}, rulesWith(p.least)).fits);
  const std::vector<Remedy> found = remediesOf(p);
  REQUIRE(found.back().kind == RemedyKind::TurnUnit);
  const Remedy& turn = found.back();
  // A turn of t off the opening's own leaves 1000 = 998 + 1000 · t all round, nearly: 2 mm of the 5 may be saved.
  CHECK_THAT(turn.amount, WithinAbs(3 * 0.998, 0.02));
  CHECK_THAT(spareOf(cured(p, turn)), WithinAbs(0, 1e-6));
  CHECK(spareOf(cured(p, turn, -0.01)) < 0);
}

TEST_CASE("each remedy cures, and a little less of it doesn't") {
  Dice dice(29);
  std::map<RemedyKind, int> seen;
  int pairs = 0;
  for (int i = 0; i < 1200; ++i) {
    Problem p = i % 3 == 0 ? wildProblem(dice, i % 2 == 0) : siteProblem(dice, i % 2 == 0);
    if (i % 3 == 1) p.width += 15;
    if (i % 3 == 2) p.height += 15;
    if (i % 9 == 1) p.height += 12;
    if (spareOf(p) >= 0) {
      CHECK(remediesOf(p).empty());
      continue;
    }
    CAPTURE(i, p.width, p.height);
    std::map<int, std::vector<Remedy>> groups;
    int alone = 0;
    for (const Remedy& remedy : remediesOf(p)) {
      ++seen[remedy.kind];
      groups[remedy.together == 0 ? --alone : remedy.together].push_back(remedy);
    }
    for (const auto& [number, group] : groups) {
      REQUIRE(group.size() == (number < 0 ? 1 : 2));
      const Problem first = group.size() == 2 ? cured(p, group[0]) : p;
      const Remedy& last = group.back();
      CAPTURE(static_cast<int>(last.kind), last.amount);
      if (group.size() == 2) {
        ++pairs;
        CHECK(spareOf(first) < 0);
      }
      CHECK(spareOf(cured(first, last)) >= -1e-6);
      switch (last.kind) {
        case RemedyKind::NarrowerUnit:
        case RemedyKind::LowerUnit:
          CHECK(last.amount < (last.kind == RemedyKind::NarrowerUnit ? p.width : p.height));
          CHECK((group.size() == 2 || spareOf(cured(first, last, 1)) < 0));
          break;
        case RemedyKind::TurnUnit:
          CHECK(spareOf(cured(first, last, -0.01 * last.amount)) < 0);
          break;
        default:
          CHECK(last.amount <= kMostTakenOff);
          CHECK_THAT(spareOf(cured(first, last)), WithinAbs(0, 1e-6));
          CHECK(spareOf(cured(first, last, -0.01)) < 0);
      }
    }
  }
  CHECK(pairs > 20);
  for (const RemedyKind kind : {RemedyKind::TakeOffStud, RemedyKind::TakeOffSill, RemedyKind::TakeOffHead,
                                RemedyKind::NarrowerUnit, RemedyKind::LowerUnit, RemedyKind::TurnUnit}) {
    CHECK(seen[kind] > 5);
  }
}

TEST_CASE("mirrored, the remedies change sides and the turn its sign") {
  Dice dice(31);
  for (int i = 0; i < 200; ++i) {
    Problem p = siteProblem(dice, false);
    p.width += 12;
    const std::vector<Remedy> one = remediesOf(p);
    const std::vector<Remedy> other = remediesOf(mirrored(p));
    REQUIRE(one.size() == other.size());
    CAPTURE(i);
    for (const Remedy& remedy : one) {
      const auto twin = std::find_if(other.begin(), other.end(), [&](const Remedy& candidate) {
        const bool turned = remedy.kind == RemedyKind::TurnUnit;
        const bool stud = remedy.kind == RemedyKind::TakeOffStud;
        const Side side = stud ? (remedy.side == Side::Left ? Side::Right : Side::Left) : remedy.side;
        return candidate.kind == remedy.kind && (candidate.side == side) &&
               std::abs(candidate.amount - (turned ? -remedy.amount : remedy.amount)) < 1e-6;
      });
      CHECK(twin != other.end());
    }
  }
}
