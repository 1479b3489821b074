#include "plan/stand/pack.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "support/catch.h"
#include "support/openings.h"

using namespace sillwright;
using namespace sillwright::plan;
using namespace sillwright::testing;
using Catch::Matchers::WithinAbs;

namespace {

// Packers of the trade notes. From memory.
constexpr double kTableRounds = 1e-3 / 80;  // mm: what a table of packers takes for rounding
const std::vector<double> kUsualStock{1, 1.5, 2, 3, 5, 6, 8, 10};

practice::Figure figure(double value) { return practice::Figure{value, "mm", "", "", "", {}, ""}; }

practice::Packing usualRules() {
  practice::Packing rules;
  rules.spacing_sill = figure(450);
  rules.spacing_jamb = figure(450);
  rules.from_corner = figure(150);
  rules.most_stack = figure(20);
  rules.most_pieces = figure(3);
  rules.most_left_over = figure(1);
  return rules;
}

// Every stack of up to `most` pieces, thickest first; keeps the best by the three rules, one after the other.
void everyStack(const std::vector<double>& thickest_first, double gap, int most, std::size_t from,
                std::vector<double>& stack, double total, std::vector<double>& best, double& best_total) {
  const bool better =
      total > best_total + 1e-6 ||
      (total > best_total - 1e-6 && (stack.size() < best.size() || (stack.size() == best.size() && stack > best)));
  if (better) {
    best = stack;
    best_total = total;
  }
  if (static_cast<int>(stack.size()) == most) return;
  for (std::size_t i = from; i < thickest_first.size(); ++i) {
    if (total + thickest_first[i] > gap + 1e-9) continue;
    stack.push_back(thickest_first[i]);
    everyStack(thickest_first, gap, most, i, stack, total + thickest_first[i], best, best_total);
    stack.pop_back();
  }
}

std::vector<double> bestOfEvery(std::vector<double> stock, double gap, int most) {
  std::sort(stock.rbegin(), stock.rend());
  stock.erase(std::unique(stock.begin(), stock.end()), stock.end());
  std::vector<double> stack, best;
  double best_total = 0;
  everyStack(stock, gap, most, 0, stack, 0, best, best_total);
  return best;
}

std::vector<double> piecesOf(const Stack& stack) { return {stack.piece.begin(), stack.piece.begin() + stack.pieces}; }

struct Set {
  AsBuilt opening;
  UnitSpec unit;
  Stand stand;
};

Set setIn(const Problem& p, job::UnitKind kind, double packing = 10) {
  Set set;
  set.opening = knownExactly(p.shape);
  set.unit.kind = kind;
  set.unit.width = p.width;
  set.unit.height = p.height;
  PlaceRules rules = rulesWith(p.least);
  rules.usual_sill_packing = packing;
  set.stand = place(set.opening, {p.width, p.height}, rules);
  return set;
}

std::vector<PackingPoint> pointsOn(const Packing& packing, Side side) {
  std::vector<PackingPoint> points;
  std::copy_if(packing.points.begin(), packing.points.end(), std::back_inserter(points),
               [side](const PackingPoint& point) { return point.side == side; });
  return points;
}

std::vector<double> placesOn(const Packing& packing, Side side) {
  std::vector<double> places;
  for (const PackingPoint& point : pointsOn(packing, side)) places.push_back(point.at);
  return places;
}

/// The best stack for a gap of a stock in any order.
Stack bestStack(double gap, std::span<const double> stock, int most_pieces) {
  return PackerTable(stock, most_pieces, gap).best(gap);
}

/// With a table made for this one opening.
Packing pack(const AsBuilt& opening, const UnitSpec& unit, const Stand& stand, const practice::Packing& rules,
             std::span<const double> stock) {
  return sillwright::plan::pack(opening, unit, stand, rules, packerTable(stock, rules));
}

Problem rectangle(double width, double height, double unit_width, double unit_height) {
  Problem p;
  p.shape = plannedShape({width, height});
  p.width = unit_width;
  p.height = unit_height;
  p.least = {5, 5, 5, 5};
  return p;
}

}  // namespace

TEST_CASE("stacks worked by hand") {
  CHECK(piecesOf(bestStack(13, kUsualStock, 3)) == std::vector<double>{10, 3});
  CHECK(piecesOf(bestStack(12.4, kUsualStock, 3)) == std::vector<double>{10, 2});  // 12.4 itself can't be made
  CHECK(piecesOf(bestStack(12.6, kUsualStock, 3)) == std::vector<double>{10, 1.5, 1});
  CHECK(piecesOf(bestStack(11, kUsualStock, 3)) == std::vector<double>{10, 1});  // before 8 + 3 and 6 + 5
  CHECK(piecesOf(bestStack(9, kUsualStock, 1)) == std::vector<double>{8});
  CHECK(piecesOf(bestStack(0.9, kUsualStock, 3)).empty());
  CHECK(piecesOf(bestStack(-2, kUsualStock, 3)).empty());
  CHECK(piecesOf(bestStack(10, {}, 3)).empty());
  CHECK(piecesOf(bestStack(10, kUsualStock, 0)).empty());
  CHECK(piecesOf(bestStack(10 - 1e-9, kUsualStock, 3)) == std::vector<double>{10});  // a gap of 10, but for rounding
  CHECK(piecesOf(bestStack(9.99, kUsualStock, 3)) == std::vector<double>{8, 1.5});   // but never above it
}

TEST_CASE("the greedy stack isn't always the best: the best is found") {
  // 12 of 8, 7 and 5: greedy takes 8 and is stuck; 7 + 5 fills it.
  CHECK(piecesOf(bestStack(12, std::vector<double>{8, 7, 5}, 3)) == std::vector<double>{7, 5});
}

TEST_CASE("packers in sixteenths of an inch are exact") {
  constexpr double kSixteenth = 25.4 / 16;
  const std::vector<double> stock{kSixteenth, 2 * kSixteenth, 4 * kSixteenth};
  const Stack stack = bestStack(7 * kSixteenth, stock, 4);
  CHECK(piecesOf(stack) == std::vector<double>{4 * kSixteenth, 2 * kSixteenth, kSixteenth});
  CHECK_THAT(stack.total, WithinAbs(7 * kSixteenth, 1e-12));
}

TEST_CASE("a stack is the best of all stacks") {
  Dice dice(3);
  for (int i = 0; i < 3000; ++i) {
    std::vector<double> stock;
    const bool inches = i % 3 == 0;
    const double step = inches ? 25.4 / 16 : 0.1;
    for (int n = 1 + dice.upTo(7); n > 0; --n) stock.push_back((1 + dice.upTo(inches ? 9 : 149)) * step);
    const int most = dice.upTo(5);
    const double gap = dice.upTo(400) * 0.1 + (i % 2) * 0.037;
    CAPTURE(i, stock, most, gap);
    const Stack stack = bestStack(gap, stock, most);
    const std::vector<double> best = bestOfEvery(stock, gap, most);
    CHECK(piecesOf(stack) == best);
    CHECK(stack.total <= gap + 1e-6);

    // The table of a whole job says the same, for this and for every other gap.
    const PackerTable table(stock, most);
    CHECK(piecesOf(table.best(gap)) == best);
    const double other = dice.between(0, 40);
    CHECK(piecesOf(table.best(other)) == bestOfEvery(stock, other, most));
  }
}

TEST_CASE("packers of any thickness never fill more than the gap") {
  Dice dice(5);
  for (int i = 0; i < 2000; ++i) {
    std::vector<double> stock;
    for (int n = 1 + dice.upTo(30); n > 0; --n) stock.push_back(dice.between(-1, 12));
    const double gap = dice.between(-5, 120);
    const Stack stack = bestStack(gap, stock, 6);
    CAPTURE(i, gap);
    CHECK(stack.total <= std::max(gap, 0.0) + 1e-6);
    CHECK(std::is_sorted(stack.piece.rbegin() + static_cast<std::ptrdiff_t>(kMostPieces) - stack.pieces,
                         stack.piece.rend()));
    const auto thinnest = std::min_element(stock.begin(), stock.end(),
                                           [](double a, double b) { return (a > 0 ? a : 1e9) < (b > 0 ? b : 1e9); });
    // Room for one more thin packer is only left where six are in already.
    if (*thinnest > 0 && stack.pieces < 6 && stack.total + *thinnest < 99) {
      CHECK(gap - stack.total < *thinnest + 6 * 0.0125 + 1e-6);
    }
  }
}

TEST_CASE("where a window is packed, by hand") {
  // 1810 × 1210 in 1830 × 1230, evenly 10 all round. Sill: ends at 37.5 (packer flush with the corner) and between
  // them 1735 in four spaces of 433.75. Jambs: from 150 to 1060 in three spaces (910 / 450 = 2.02) of 303.33.
  const Set set = setIn(rectangle(1830, 1230, 1810, 1210), job::UnitKind::FixedWindow);
  const Packing packing = pack(set.opening, set.unit, set.stand, usualRules(), kUsualStock);
  const std::vector<double> sill = placesOn(packing, Side::Sill);
  REQUIRE(sill.size() == 5);
  for (std::size_t i = 0; i < 5; ++i) CHECK_THAT(sill[i], WithinAbs(37.5 + 433.75 * static_cast<double>(i), 1e-9));
  for (const Side side : {Side::Left, Side::Right}) {
    const std::vector<double> jamb = placesOn(packing, side);
    REQUIRE(jamb.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) CHECK_THAT(jamb[i], WithinAbs(150 + 910.0 / 3 * static_cast<double>(i), 1e-9));
  }
  CHECK(pointsOn(packing, Side::Head).empty());
  CHECK_FALSE(packing.sill_full_bearing);
  for (const PackingPoint& point : packing.points) {
    CHECK_THAT(point.gap, WithinAbs(10, 1e-9));
    CHECK(piecesOf(point.stack) == std::vector<double>{10});
    CHECK_THAT(point.left_over, WithinAbs(0, 1e-9));
    CHECK(point.backing == 0);
  }
  CHECK(packerTotals(std::vector<Packing>{packing, packing}) == std::vector<PackerCount>{{10, 26}});
}

TEST_CASE("a gap of 9.99 takes a packer of 10, and one of 9.7 does not") {
  UnitSpec unit;
  unit.width = 1000;
  unit.height = 1000;
  for (const double gap : {9.99, 9.7}) {
    const AsBuilt opening = knownExactly(plannedShape({1000 + 2 * gap, 1000 + 2 * gap}));
    PlaceRules place_rules = rulesWith({0, 0, 0, 0});
    place_rules.usual_sill_packing = gap;
    const Stand stand = place(opening, {unit.width, unit.height}, place_rules);
    for (const PackingPoint& point : pack(opening, unit, stand, usualRules(), kUsualStock).points) {
      CAPTURE(point.gap);
      CHECK(point.stack.total == (gap > 9.8 ? 10 : 9.5));
      CHECK(point.left_over >= 0);
    }
  }
}

TEST_CASE("a sliding unit is packed under its meeting stile") {
  const Set set = setIn(rectangle(1830, 1230, 1810, 1210), job::UnitKind::SlidingWindow);
  const std::vector<double> sill =
      placesOn(pack(set.opening, set.unit, set.stand, usualRules(), kUsualStock), Side::Sill);
  CHECK(std::count_if(sill.begin(), sill.end(), [](double at) { return std::abs(at - 905) < 1e-9; }) == 1);
}

TEST_CASE("doors: bedded where the practice packs no sill, else close packers") {
  practice::Packing rules = usualRules();
  rules.door_sill_spacing = figure(300);
  Problem p = rectangle(1830, 2110, 1810, 2100);
  p.least.sill = 0;
  const Set bedded = setIn(p, job::UnitKind::SlidingDoor, 0);
  const Packing on_floor = pack(bedded.opening, bedded.unit, bedded.stand, rules, kUsualStock);
  CHECK(on_floor.sill_full_bearing);
  CHECK(pointsOn(on_floor, Side::Sill).empty());
  CHECK_FALSE(pointsOn(on_floor, Side::Left).empty());

  const Set packed = setIn(p, job::UnitKind::SlidingDoor, 5);
  const Packing on_packers = pack(packed.opening, packed.unit, packed.stand, rules, kUsualStock);
  CHECK_FALSE(on_packers.sill_full_bearing);
  const std::vector<double> sill = placesOn(on_packers, Side::Sill);
  for (std::size_t i = 1; i < sill.size(); ++i) CHECK(sill[i] - sill[i - 1] <= 300 + 1e-9);
}

TEST_CASE("a gap deeper than packers may fill wants timber behind them") {
  // 1790 in 1830: 20 a side, just enough for packers. 1780: 25, of which 10 (the thinnest worth fixing) are timber.
  // 1740: 45, of which 25 are timber and 20 packers.
  const auto sideOf = [](double unit_width) {
    const Set set = setIn(rectangle(1830, 1230, unit_width, 1210), job::UnitKind::FixedWindow);
    return pointsOn(pack(set.opening, set.unit, set.stand, usualRules(), kUsualStock), Side::Left).front();
  };
  CHECK(sideOf(1790).backing == 0);
  CHECK(piecesOf(sideOf(1790).stack) == std::vector<double>{10, 10});
  CHECK(sideOf(1780).backing == 10);
  CHECK(piecesOf(sideOf(1780).stack) == std::vector<double>{10, 5});
  CHECK(sideOf(1740).backing == 25);
  CHECK(piecesOf(sideOf(1740).stack) == std::vector<double>{10, 10});
  CHECK(sideOf(1739).backing == 26);
  CHECK(piecesOf(sideOf(1739).stack) == std::vector<double>{10, 8, 1.5});  // 45.5 − 26
}

TEST_CASE("the first jamb") {
  SECTION("is the hinge side of a leaf") {
    Set set = setIn(rectangle(1830, 1230, 1810, 1210), job::UnitKind::CasementWindow);
    set.unit.hand = job::Hand::Right;
    CHECK(pack(set.opening, set.unit, set.stand, usualRules(), kUsualStock).first_jamb == Side::Right);
  }
  SECTION("else the plumber one") {
    Problem p = rectangle(1830, 1230, 1805, 1210);
    p.shape.corner[3].x = 3;   // left leans in by 3
    p.shape.corner[2].x += 1;  // right leans out by 1
    Set set = setIn(p, job::UnitKind::FixedWindow);
    CHECK(pack(set.opening, set.unit, set.stand, usualRules(), kUsualStock).first_jamb == Side::Right);
    p.shape.bow.right = 6;  // plumb as it is, a bow is worse
    set = setIn(p, job::UnitKind::FixedWindow);
    CHECK(pack(set.opening, set.unit, set.stand, usualRules(), kUsualStock).first_jamb == Side::Left);
  }
}

TEST_CASE("a practice that packs the head, and one that names nothing") {
  const Set set = setIn(rectangle(1830, 1230, 1810, 1210), job::UnitKind::FixedWindow);
  practice::Packing rules = usualRules();
  rules.head_packed = figure(1);
  CHECK(pointsOn(pack(set.opening, set.unit, set.stand, rules, kUsualStock), Side::Head).size() == 5);
  const Packing bare = pack(set.opening, set.unit, set.stand, {}, kUsualStock);
  CHECK(bare.points.size() == 6);  // the ends only
}

TEST_CASE("points keep the spacing, the gaps are those of the edge, stacks stay below them, mirrored or not") {
  Dice dice(37);
  for (int i = 0; i < 1500; ++i) {
    const Problem p = siteProblem(dice, i % 2 == 0);
    const job::UnitKind kind = static_cast<job::UnitKind>(dice.upTo(static_cast<int>(std::size(job::kKindWords)) - 1));
    Set set = setIn(p, kind, dice.between(1, 14));
    set.unit.hand = dice.upTo(1) == 0 ? job::Hand::Left : job::Hand::Right;
    practice::Packing rules = usualRules();
    rules.spacing_sill = figure(dice.between(250, 800));
    rules.spacing_jamb = figure(dice.between(250, 600));
    rules.from_corner = figure(dice.between(20, 250));
    rules.most_pieces = figure(1 + dice.upTo(3));
    const Packing packing = pack(set.opening, set.unit, set.stand, rules, kUsualStock);
    CAPTURE(i, p.width, p.height, static_cast<int>(kind));

    for (const Side side : {Side::Sill, Side::Left, Side::Right}) {
      const std::vector<PackingPoint> points = pointsOn(packing, side);
      const bool jamb = side != Side::Sill;
      const double length = jamb ? p.height : p.width;
      const double most = jamb ? rules.spacing_jamb->value : rules.spacing_sill->value;
      REQUIRE(points.size() >= 2);
      CHECK(points.front().at <= rules.from_corner->value + 1e-9);
      CHECK(length - points.back().at <= rules.from_corner->value + 1e-9);
      CHECK(points.front().at > 0);
      for (std::size_t k = 1; k < points.size(); ++k) {
        CHECK(points[k].at > points[k - 1].at);
        CHECK(points[k].at - points[k - 1].at <= most + 1e-9);
      }
      for (const PackingPoint& point : points) {
        const double along = point.at + (jamb ? set.stand.z : set.stand.x);
        const double edge = edgeFromPoints(p.shape, side, along);
        const double gap = side == Side::Left    ? set.stand.x - edge
                           : side == Side::Right ? edge - set.stand.x - p.width
                                                 : set.stand.z - edge;
        CHECK_THAT(point.gap, WithinAbs(gap, 1e-9));
        CHECK(point.stack.total <= (point.gap > 0 ? point.gap + kTimberGives : 0.0) + 2e-5);
        CHECK(point.stack.pieces <= static_cast<int>(rules.most_pieces->value));
        CHECK(point.stack.total <= rules.most_stack->value + 1e-6);
        const double rest = point.gap - point.backing - point.stack.total;
        CHECK_THAT(point.left_over, WithinAbs(point.gap > 0 ? std::max(0.0, rest) : rest, 1e-9));
        CHECK((point.backing > 0) == (point.gap > rules.most_stack->value + 1e-9));
        CHECK(piecesOf(point.stack) ==
              bestOfEvery(kUsualStock, std::min(point.gap - point.backing + kTimberGives + kTableRounds, 20.0),
                          static_cast<int>(rules.most_pieces->value)));
      }
    }

    Set other = setIn(mirrored(p), kind, set.stand.sill_packing);
    other.unit.hand = set.unit.hand == job::Hand::Left ? job::Hand::Right : job::Hand::Left;
    const Packing twin = pack(other.opening, other.unit, other.stand, rules, kUsualStock);
    CHECK(twin.points.size() == packing.points.size());
    CHECK(twin.first_jamb != packing.first_jamb);
    const std::vector<PackingPoint> left = pointsOn(packing, Side::Left);
    const std::vector<PackingPoint> right = pointsOn(twin, Side::Right);
    for (std::size_t k = 0; k < left.size(); ++k) {
      CHECK_THAT(right[k].gap, WithinAbs(left[k].gap, 1e-6));
      CHECK_THAT(right[k].at, WithinAbs(left[k].at, 1e-9));
    }
  }
}
