// Published clearances as cases: a practice that carries them gives the unit those gaps.
#include "plan/stand/place.h"
#include "support/catch.h"
#include "support/openings.h"

using namespace sillwright;
using namespace sillwright::plan;
using namespace sillwright::testing;
using Catch::Matchers::WithinAbs;

namespace {

practice::Figure figure(double value, const char* source) { return {value, "mm", source, "", "", {}, ""}; }

UnitSpec window(double width, double height) {
  UnitSpec unit;
  unit.width = width;
  unit.height = height;
  return unit;
}

UnitSpec door(double width, double height) {
  UnitSpec unit = window(width, height);
  unit.kind = job::UnitKind::SlidingDoor;
  return unit;
}

}  // namespace

TEST_CASE("LABC Warranty technical guidance, gaps around windows: aluminium frames") {
  // Table "gaps around windows": aluminium 5 mm below 1.5 m, 5 mm from 1.5 to 3.0 m, 7.5 mm from 3.0 to 4.5 m.
  constexpr const char* kSource = "LABC Warranty technical guidance, gaps around windows";
  practice::Clearance clearance;
  clearance.side_least.bands = {{1500, figure(5, kSource)}, {3000, figure(5, kSource)}, {4500, figure(7.5, kSource)}};

  for (const auto& [width, gap] : {std::pair{1200.0, 5.0}, {2400.0, 5.0}, {3600.0, 7.5}}) {
    CAPTURE(width);
    const PlaceRules rules = placeRules(width, window(width - 2 * gap, 1200), clearance);
    CHECK(rules.least.left == gap);
    CHECK(rules.least.right == gap);
    // A unit with just that gap each side fits with nothing to spare; a millimetre wider it is short by half of it.
    const AsBuilt opening = knownExactly(plannedShape({width, 1300}));
    const Stand just = place(opening, {width - 2 * gap, 1200}, rules);
    CHECK(just.fits);
    CHECK_THAT(just.spare, WithinAbs(0, 1e-9));
    CHECK(just.largest_unit[0] == std::floor(width - 2 * gap));
    const Stand wide = place(opening, {width - 2 * gap + 1, 1200}, rules);
    CHECK_FALSE(wide.fits);
    CHECK_THAT(wide.spare, WithinAbs(-0.5, 1e-9));
  }
  // The table ends at 4.5 m: nothing is invented beyond it.
  CHECK(placeRules(4800, window(4700, 1200), clearance).least.left == 0);
}

TEST_CASE("an Australian building textbook: framed opening is the unit plus 20") {
  // "Framed opening width for a window: unit overall width + 20 mm (10 per side)", textbook p.125. Height with the
  // same 10 at sill and head is common practice, no source.
  constexpr const char* kSource = "owner-builder textbook, p.125";
  practice::Clearance clearance;
  clearance.side_usual.bands = clearance.sill_usual.bands = clearance.head_usual.bands = {{6000, figure(10, kSource)}};
  const PlaceRules rules = placeRules(1830, window(1810, 1210), clearance);
  CHECK(openingFor(1810, 1210, rules) == std::array<double, 2>{1830, 1230});
  const Stand stand = place(knownExactly(plannedShape({1830, 1230})), {1810, 1210}, rules);
  CHECK(stand.order == std::array<double, 2>{1810, 1210});
  CHECK_THAT(stand.gaps.left[0], WithinAbs(10, 1e-9));
  CHECK_THAT(stand.gaps.right[1], WithinAbs(10, 1e-9));
  CHECK_THAT(stand.gaps.sill[0], WithinAbs(10, 1e-9));
  CHECK_THAT(stand.gaps.head[0], WithinAbs(10, 1e-9));
}

TEST_CASE("BRANZ Build 128: at least 8 under a reveal") {
  // "Sill packer height under timber reveal, direct-fix cladding, at least 8 mm" (E2/AS1 amendment 5 as summarised
  // there). A unit with 7 left under and over it in all doesn't fit whatever the head asks.
  constexpr const char* kSource = "BRANZ Build 128, direct-fix window installation";
  practice::Clearance clearance;
  clearance.sill_least.bands = {{6000, figure(8, kSource)}};
  const PlaceRules rules = placeRules(1230, window(1200, 1193), clearance);
  CHECK(rules.least.sill == 8);
  CHECK_FALSE(place(knownExactly(plannedShape({1230, 1200})), {1200, 1193}, rules).fits);
  const Stand stand = place(knownExactly(plannedShape({1230, 1200})), {1200, 1192}, rules);
  CHECK(stand.fits);
  CHECK_THAT(stand.gaps.sill[0], WithinAbs(8, 1e-6));
}

TEST_CASE("a door takes its own clearance at the sill") {
  // Common practice, no source: a door's sill stands on the floor.
  practice::Clearance clearance;
  clearance.sill_least.bands = clearance.sill_usual.bands = {{6000, figure(8, "")}};
  clearance.door_sill_least = figure(0, "");
  clearance.door_sill_usual = figure(3, "");
  CHECK(placeRules(2400, window(2380, 1200), clearance).least.sill == 8);
  CHECK(placeRules(2400, door(2380, 2100), clearance).least.sill == 0);
  CHECK(placeRules(2400, door(2380, 2100), clearance).usual_sill_packing == 3);
  clearance.door_sill_usual.reset();
  CHECK(placeRules(2400, door(2380, 2100), clearance).usual_sill_packing == 0);
}
