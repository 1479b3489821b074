// Heads that follow the roof: their outline, their frame, how a unit stands under them, their survey, their water.
#include <algorithm>
#include <cmath>

#include "plan/frame/frame.h"
#include "plan/stand/place.h"
#include "plan/survey/survey.h"
#include "plan/weather/water.h"
#include "plan/weather/weather_skin.h"
#include "plan/weather/what_if.h"
#include "practice/read.h"
#include "support/catch.h"
#include "support/drops.h"
#include "support/openings.h"
#include "support/survey_rig.h"

namespace {

using namespace sillwright;
using namespace sillwright::plan;

job::Head raked(double left, double right) { return {left, right, 0, 0, {}}; }
job::Head peaked(double left, double x, double z, double right) { return {left, right, x, z, {}}; }
HeadLine lineOf(double width, const job::Head& head) { return {width, head.top(), head}; }

const practice::Practice& au() {
  static const auto loaded = practice::load("au", SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_ASSETS_DIR);
  return *loaded.value;
}

/// The largest spare by trying: every gap at the unit's corners against every edge, refined round the best stand.
double spareByTrying(const OpeningShape& shape, const HeadLine& unit, const LeastGaps& least) {
  const HeadLine opening(
      shape.corner[1].x, shape.corner[2].z,
      job::Head{
          shape.corner[3].z, shape.corner[2].z, shape.peak ? shape.peak->x : 0, shape.peak ? shape.peak->z : 0, {}});
  const auto spareAt = [&](double x, double z) {
    double spare = std::min({x - least.left, shape.corner[1].x - x - unit.width() - least.right, z - least.sill});
    for (const Point& corner : unit.corners()) {
      // Both slopes run on: a corner must lie below each.
      for (const double at : {opening.corners().front().x, opening.corners().back().x}) {
        const std::size_t run = at == 0 ? 0 : 1;
        const double over = opening.middle().z + opening.slopes()[run] * (x + corner.x - opening.middle().x);
        spare = std::min(spare, over - z - corner.z - least.head);
      }
    }
    return spare;
  };
  // Concave in x and z: thirds in thirds.
  const auto highest = [](const auto& of, double low, double high) {
    for (int i = 0; i < 60; ++i) {
      const double third = (high - low) / 3;
      (of(low + third) < of(high - third) ? low : high) += of(low + third) < of(high - third) ? third : -third;
    }
    return of((low + high) / 2);
  };
  const auto along = [&](double x) { return highest([&](double z) { return spareAt(x, z); }, -200, 200); };
  return highest(along, -200, 200);
}

TEST_CASE("a head: the height at x, lines inside and outside it, what lies below and above") {
  const HeadLine head = lineOf(1800, peaked(900, 900, 1350, 900));
  CHECK(head.at(0) == 900);
  CHECK(head.at(450) == Approx(1125));
  CHECK(head.at(900) == 1350);
  CHECK(head.top() == 1350);
  CHECK(head.inset(50).at(900) == Approx(1350 - 50 * std::hypot(1, 0.5)));
  CHECK(areaOf(head.under({0, 0, 1800, 1350})) == Approx(1800 * (900 + 225)));
  double above = 0;
  for (const auto& polygon : head.over({0, 0, 1800, 1350})) above += areaOf(polygon);
  CHECK(above == Approx(1800 * 225));
  CHECK(lineOf(1600, raked(800, 0)).under({0, 0, 1600, 800}).size() == 3);
  CHECK(HeadLine(1200, 900).under({0, 0, 1200, 900}).size() == 4);
}

TEST_CASE("a raked head: its lintel lies in the slope, studs and jack studs are cut to it") {
  WallSpec wall;
  wall.length = 6000;
  wall.top = {{0, 2400}, {6000, 4200}};  // 0.3
  wall.stud = {90, 45};
  wall.spacing = 450;
  wall.plates = {2, 1};
  const FramedOpening opening{0, 2000, 900, 1500, 1350, job::Lintel{190, 45, 2}, raked(900, 1350)};
  const Frame frame = frameWall(wall, std::vector{opening}, au().framing);
  CHECK(frame.faults.empty());
  const HeadLine head = headLineOf(opening);
  int lintels = 0, jacks = 0;
  for (const Member& member : frame.members) {
    const auto headAt = [&](double x) { return 900 + head.at(x - 2000); };
    if (member.part == MemberPart::Lintel) {
      ++lintels;
      CHECK(member.corner[0].z == Approx(headAt(member.corner[0].x)));
      CHECK(member.corner[1].z == Approx(headAt(member.corner[1].x)));
      CHECK(member.slope_degrees == Approx(std::atan(0.3) * 180 / M_PI));
      CHECK(member.width == 190);
      CHECK(member.length > member.short_length);
    }
    if (member.part == MemberPart::JackStudAbove) {
      ++jacks;
      const double up = 190 * std::hypot(1, 0.3);
      CHECK(member.corner[0].z == Approx(headAt(member.corner[0].x) + up));
      CHECK(member.corner[1].z == Approx(headAt(member.corner[1].x) + up));
    }
    if (member.part == MemberPart::BearingStud) CHECK(member.corner[3].z == Approx(headAt(member.corner[3].x)));
  }
  CHECK(lintels == 2);
  CHECK(jacks >= 2);
}

TEST_CASE("a triangle along the underside of the plates: they are its head, and no lintel is missed") {
  WallSpec wall;
  wall.length = 8000;
  wall.top = {{0, 2400}, {4000, 4400}, {8000, 2400}};
  wall.stud = {90, 45};
  wall.spacing = 450;
  wall.plates = {2, 1};
  const FramedOpening opening{0, 5400, 2799, 1600, 800, std::nullopt, raked(800, 0)};
  REQUIRE(liesUnderPlates(wall, opening));
  const Frame frame = frameWall(wall, std::vector{opening}, au().framing);
  for (const FrameFault& fault : frame.faults) CHECK(fault.kind != FrameFaultKind::NoLintelNamed);
  for (const Member& member : frame.members) CHECK(member.part != MemberPart::Lintel);
  FramedOpening lower = opening;
  lower.sill -= 3;
  CHECK_FALSE(liesUnderPlates(wall, lower));
}

TEST_CASE("a unit under a head that follows the roof: the largest spare is that of a search") {
  testing::Dice dice(20260511);
  for (int i = 0; i < 300; ++i) {
    const double width = dice.between(700, 2400);
    const bool peak = (dice.upTo(1) == 1);
    const double left = dice.between(500, 1500);
    const double slope = dice.between(0.1, 0.8);
    const double at = width * dice.between(0.3, 0.7);
    const job::Head own = peak ? peaked(left, at, left + slope * at, left + slope * (at - (width - at) * 0.9))
                               : raked(left, left + slope * width);
    OpeningShape shape = plannedShape(lineOf(width, own));
    const double less = dice.between(10, 30);
    job::Head units = own;
    for (double* z : {&units.left, &units.right}) *z -= less + dice.between(-3, 3);
    if (peak) {
      units.peak_x -= 10;
      units.peak_z -= less;
    }
    if (peak && lineOf(width - 20, units).slopes()[0] <= lineOf(width - 20, units).slopes()[1]) continue;
    const HeadLine unit = lineOf(width - 20, units);
    PlaceRules rules;
    rules.least = {3, 3, 2, 4};
    const Stand stand = place(testing::knownExactly(shape), unit, rules);
    INFO("opening " << i << ": " << width << ", " << own.left << "/" << own.peak_z << "/" << own.right);
    CHECK(stand.spare == Approx(spareByTrying(shape, unit, rules.least)).margin(2e-3));
  }
}

TEST_CASE("a raked opening: its readings are adjusted, and what was planned is not pulled at") {
  const HeadLine planned = lineOf(1500, raked(1200, 1950));
  job::Measured measured;
  measured.widths = {1502, std::nullopt, std::hypot(1502, 752)};
  measured.heights = {1199, std::nullopt, 1951};
  measured.diagonals = {std::hypot(1502, 1951), std::hypot(1502, 1199)};
  measured.out_of_level = 0;
  const AsBuilt built = survey(planned, measured, rig::tapeErrors());
  CHECK(built.trust == Trust::Sound);
  CHECK(built.shape.corner[2].x == Approx(1502).margin(0.2));
  CHECK(built.shape.corner[2].z == Approx(1951).margin(0.2));
  CHECK(built.shape.corner[3].z == Approx(1199).margin(0.2));
  const AsBuilt unread = survey(planned, std::nullopt, rig::tapeErrors());
  CHECK(unread.shape == plannedShape(planned));
}

TEST_CASE("a triangle: the corner that it has at its sill is held, and counts as no measurement") {
  const HeadLine planned = lineOf(1600, raked(800, 0));
  job::Measured measured;
  measured.widths[0] = 1604;
  measured.heights[0] = 797;
  measured.out_of_plumb[0] = 0;
  measured.out_of_level = 0;
  const AsBuilt built = survey(planned, measured, rig::tapeErrors());
  REQUIRE(built.converged);
  CHECK(built.read_count == 4);
  CHECK(built.shape.corner[2].x == Approx(1604).margin(0.1));
  CHECK(built.shape.corner[2].z == Approx(0).margin(0.1));
  CHECK(built.shape.corner[3].z == Approx(797).margin(0.1));
}

TEST_CASE("a peak is found from its distances: three tell that one is wrong, four which") {
  const HeadLine planned = lineOf(1800, peaked(900, 900, 1350, 900));
  job::Measured measured;
  measured.widths = {1800, std::nullopt, 1800};
  measured.heights = {900, std::nullopt, 900};
  measured.diagonals = {std::hypot(1800, 900), std::hypot(1800, 900)};
  measured.out_of_level = 0;
  const auto far = [](double dx, double dz) { return std::hypot(dx, dz); };
  measured.between = {far(905, 1342), far(895, 1342), far(895, 442), far(905, 442)};
  const AsBuilt built = survey(planned, measured, rig::tapeErrors());
  REQUIRE(built.shape.peak);
  CHECK(built.peak.agrees);
  CHECK(built.shape.peak->x == Approx(905).margin(0.3));
  CHECK(built.shape.peak->z == Approx(1342).margin(0.3));
  *measured.between[0] += 60;
  const AsBuilt wrong = survey(planned, measured, rig::tapeErrors());
  CHECK_FALSE(wrong.peak.agrees);
  CHECK(wrong.trust == Trust::Disputed);
  CHECK(wrong.peak.suspect == 0U);
  measured.between[3].reset();
  const AsBuilt fewer = survey(planned, measured, rig::tapeErrors());
  CHECK_FALSE(fewer.peak.agrees);
  CHECK_FALSE(fewer.peak.suspect);
}

/// The skin of an opening with such a head, its sizes by chance.
Skin skinOf(testing::Dice& dice, bool stop_ends, bool triangles = true) {
  const double width = dice.between(600, 2400);
  const double low = triangles && dice.upTo(3) == 0 ? 0 : dice.between(300, 1200);
  const double slope = dice.between(0.08, 0.9);
  const bool peak = (dice.upTo(1) == 1);
  const double at = width * dice.between(0.35, 0.65);
  job::Head head = peak ? peaked(low, at, low + slope * at, low + slope * (at - 0.9 * (width - at)))
                        : raked(low, low + slope * width);
  if (!peak && (dice.upTo(1) == 1)) std::swap(head.left, head.right);
  if (head.right < 0) head.right = 0;
  job::Opening opening;
  opening.width = width;
  opening.head = head;
  opening.height = head.top();
  opening.sill = dice.between(300, 900);
  WallSpec wall;
  wall.stud = {90, 45};
  wall.cladding = {16, (dice.upTo(1) == 1) ? 20.0 : 0.0};
  UnitSpec unit;
  unit.width = width - 20;
  unit.head = head;
  for (double* z : {&unit.head->left, &unit.head->right}) *z = std::max(*z - 20, 0.0);
  if (peak) unit.head->peak_z -= 20, unit.head->peak_x -= 10;
  unit.height = unit.head->top();
  unit.fin = (dice.upTo(1) == 1) ? 30 : 0;
  Stand stand;
  stand.x = stand.z = 10;
  job::Job job;
  job.wind = std::string("N2");
  SkinSizes size = skinSizes(job, opening, wall, unit, stand, au());
  size.stop_ends = stop_ends;
  return makeSkin(size, true, HUGE_VAL, au());
}

/// Every path of a skin against a drop let fall from where it starts; the number that differ.
int differing(const Skin& skin) {
  const Water water = traceWater(skin);
  int wrong = 0;
  for (const WaterPath& path : water.paths) {
    if (path.source != WaterSource::Rain || path.x_high - path.x_low < 1 || path.legs == 0) continue;
    const WaterLeg& leg = water.legs[path.first_leg];
    if (leg.z_from - leg.z_to < 0.6) continue;
    const double x = (path.x_low + path.x_high) / 2;
    // A step may pass over the thin end of a wedge (two strips of one skin in 10,000): a tenth of it decides then.
    const auto ends = [&](double step) { return testing::stepDown(skin, x, leg.z_from - 0.01, step) == path.end; };
    if (!ends(0.05) && !ends(0.005)) ++wrong;
  }
  return wrong;
}

TEST_CASE("water on the skin of a head that follows the roof: each drop ends where one let fall in steps does") {
  testing::Dice dice(7);
  for (int i = 0; i < 5; ++i) {
    INFO("skin " << i);
    CHECK(differing(skinOf(dice, true)) == 0);
  }
}

TEST_CASE("water on 10,000 skins of heads that follow the roof ends where drops in steps do", "[.long]") {
  testing::Dice dice(11);
  int wrong = 0;
  for (int i = 0; i < 10'000; ++i) wrong += differing(skinOf(dice, true));
  CHECK(wrong == 0);
}

TEST_CASE("the low end of a head flashing in a slope: with a stop end its water is shed, without one it gets behind") {
  testing::Dice dice(3);
  for (int i = 0; i < 20; ++i) {
    const auto ends = [&](const Skin& skin) {
      std::vector<WaterEnd> found;
      for (const WaterPath& path : traceWater(skin).paths) {
        if (path.source == WaterSource::Rain && path.x_low == path.x_high) found.push_back(path.end);
      }
      return found;
    };
    Skin skin = skinOf(dice, true, false);
    REQUIRE_FALSE(skin.slope_ends.empty());
    for (const WaterEnd end : ends(skin)) CHECK(end == WaterEnd::Outside);
    skin.stop_ends = false;
    for (const WaterEnd end : ends(skin)) CHECK(end != WaterEnd::Outside);
  }
}

TEST_CASE("where the head flashing in a slope is left out, no water leaves its low ends") {
  testing::Dice dice(3);
  const Skin skin = skinOf(dice, true, false);
  REQUIRE_FALSE(skin.slope_ends.empty());
  const base::Result<Skin> without = applyWhatIf(skin, LeaveOutSheet{"head flashing"});
  REQUIRE(without.ok());
  for (const WaterPath& path : traceWater(*without.value).paths) {
    CHECK((path.source != WaterSource::Rain || path.x_low < path.x_high));
  }
}

}  // namespace
