#include "plan/panes.h"

#include <numeric>

#include "plan/hold/mass.h"
#include "support/catch.h"
#include "support/openings.h"
#include "support/simple_job.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using job::Light;
using job::UnitKind;
using testing::simpleJob;

namespace {

plan::OpeningPlan planned(const job::Job& job) { return testing::planAlone(job, 0, testing::shipped(job.practice)); }

job::Job divided(UnitKind kind, double width, double height, std::vector<Light> lights,
                 std::vector<double> columns = {}, std::vector<double> rows = {}) {
  job::Job job = simpleJob(kind, width, height, "au");
  job::Unit& unit = job.openings[0].unit;
  unit.lights = std::move(lights);
  unit.columns = std::move(columns);
  unit.rows = std::move(rows);
  return job;
}

Light lightOf(UnitKind kind) { return static_cast<Light>(kind); }

bool inside(const plan::UnitRect& inner, const plan::UnitRect& outer) {
  return inner.x0 >= outer.x0 - 1e-9 && inner.x1 <= outer.x1 + 1e-9 && inner.z0 >= outer.z0 - 1e-9 &&
         inner.z1 <= outer.z1 + 1e-9 && inner.width() > 0 && inner.height() > 0;
}

double overlap(const plan::UnitRect& a, const plan::UnitRect& b) {
  return std::max(0.0, std::min(a.x1, b.x1) - std::max(a.x0, b.x0)) *
         std::max(0.0, std::min(a.z1, b.z1) - std::max(a.z0, b.z0));
}

std::vector<double> onSill(const plan::OpeningPlan& plan) {
  std::vector<double> at;
  for (const auto& point : plan.packing.points) {
    if (point.side == plan::Side::Sill) at.push_back(point.at);
  }
  return at;
}

bool packedNear(const plan::OpeningPlan& plan, double at) {
  const auto points = onSill(plan);
  return std::any_of(points.begin(), points.end(), [at](double point) { return std::abs(point - at) <= 1e-6; });
}

}  // namespace

TEST_CASE("of every kind, alone and as a light, panes lie inside their sashes and sashes inside the light") {
  for (std::size_t i = 0; i < std::size(job::kKindWords); ++i) {
    const auto kind = static_cast<UnitKind>(i);
    for (const double width : {300.0, 610.0, 2410.0}) {
      for (const auto& job : {simpleJob(kind, width, 700, "au"),
                              divided(kind, width, 700, {lightOf(kind), Light{}, Light{}, lightOf(kind)}, {0, 0})}) {
        CAPTURE(job::kKindWords[i], width, job.openings[0].unit.lights.size());
        const auto parts = plan::partsOf(planned(job).unit);
        CHECK(parts.light.size() == std::max<std::size_t>(job.openings[0].unit.lights.size(), 1));
        std::size_t sashes = 0;
        for (const auto& light : parts.light) {
          CHECK(inside(light.clear, parts.clear));
          CHECK(light.panes >= 1);
          sashes += light.sashes;
          for (const auto& sash : parts.sashesOf(light)) {
            CHECK(inside(sash.outside, light.clear));
            CHECK(inside(parts.pane[sash.pane], sash.outside));
          }
          for (const auto& pane : parts.panesOf(light)) CHECK(inside(pane, light.clear));
          const auto clear = plan::clearOpening(parts, light);
          if (clear) CHECK(inside(*clear, light.clear));
          if (light.kind == UnitKind::FixedWindow) CHECK_FALSE(clear);
        }
        CHECK(sashes == parts.sash.size());
      }
    }
  }
}

TEST_CASE("lights, mullions and transoms tile what the frame leaves clear") {
  const Light f = lightOf(UnitKind::FixedWindow);
  for (const auto& job :
       {divided(UnitKind::FixedWindow, 2400, 1500, {f, f, f, f, f, f}, {600, 0, 600}, {400, 0}),
        divided(UnitKind::FixedWindow, 2400, 1500, {f, Light::Joined, Light::Joined, f, f, f}, {}, {400, 0}),
        divided(UnitKind::FixedWindow, 2400, 1500, {f, f, Light::Joined, f, Light::Joined, f}, {}, {0, 500}),
        divided(UnitKind::FixedWindow, 1800, 900, {f, f, f}, {900, 0, 0})}) {
    const auto parts = plan::partsOf(planned(job).unit);
    std::vector<plan::UnitRect> all = parts.bar;
    for (const auto& light : parts.light) all.push_back(light.clear);
    double area = 0;
    for (std::size_t i = 0; i < all.size(); ++i) {
      CHECK(inside(all[i], parts.clear));
      area += all[i].area();
      for (std::size_t k = 0; k < i; ++k) CHECK_THAT(overlap(all[i], all[k]), WithinAbs(0, 1e-6));
    }
    CHECK_THAT(area, WithinAbs(parts.clear.area(), 1e-3));
  }
}

TEST_CASE("columns and rows are measured between the middles of mullions, 0 a share of what is left") {
  const Light f = lightOf(UnitKind::FixedWindow);
  const auto plan = planned(divided(UnitKind::FixedWindow, 2400, 1500, {f, f, f, f, f, f}, {600, 0, 700}, {400, 0}));
  const auto parts = plan::partsOf(plan.unit);
  REQUIRE(parts.mullions == 2);
  CHECK_THAT((parts.bar[0].x0 + parts.bar[0].x1) / 2, WithinAbs(600, 1e-9));
  CHECK_THAT((parts.bar[1].x0 + parts.bar[1].x1) / 2, WithinAbs(1700, 1e-9));
  CHECK_THAT((parts.bar[2].z0 + parts.bar[2].z1) / 2, WithinAbs(1100, 1e-9));
  CHECK(packedNear(plan, 600));
  CHECK(packedNear(plan, 1700));
}

TEST_CASE("the sill is packed where weight comes down: under mullions of the bottom row, and where panels meet") {
  const Light f = lightOf(UnitKind::FixedWindow);
  const auto above = planned(divided(UnitKind::FixedWindow, 1500, 1500, {f, f, f, Light::Joined}, {550, 0}, {400, 0}));
  CHECK_FALSE(packedNear(above, 550));
  job::Job stacking = simpleJob(UnitKind::StackingDoor, 3600, 2100, "au");
  stacking.openings[0].unit.panels = 4;
  const auto door = planned(stacking);
  const auto bearing = plan::bearings(door.unit);
  REQUIRE(bearing.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) CHECK_THAT(bearing[i], WithinAbs(900.0 * static_cast<double>(i + 1), 60));
  for (const double at : bearing) CHECK(packedNear(door, at));
}

TEST_CASE("what can't be divided as it says is told") {
  const Light f = lightOf(UnitKind::FixedWindow);
  const auto fault = [](const job::Job& job) { return plan::lightsFault(job.openings[0].unit); };
  CHECK(fault(divided(UnitKind::FixedWindow, 1500, 900, {f, f})).empty());
  CHECK(fault(divided(UnitKind::FixedWindow, 1500, 900, {f, f, f}, {0, 0})) == "3 lights for 1 row of 2");
  CHECK(fault(divided(UnitKind::FixedWindow, 1500, 900, {Light::Joined, f})).find("first light") != std::string::npos);
  CHECK(fault(divided(UnitKind::FixedWindow, 1500, 900, {f, f}, {1450, 0})).find("less than 100 mm") !=
        std::string::npos);
  CHECK(fault(divided(UnitKind::FixedWindow, 1500, 900, {f, f}, {700, 700})).find("come to 1400 mm") !=
        std::string::npos);
  CHECK(fault(divided(UnitKind::FixedWindow, 1500, 900, {}, {700, 0})).find("lights are named") != std::string::npos);
}

TEST_CASE("of leaves and panels that are taken out each is weighed, and all of them are off what is lifted") {
  job::Job job = simpleJob(UnitKind::FoldingDoor, 3600, 2400, "au");
  job.openings[0].unit.panels = 4;
  job.openings[0].unit.glass = job::Glass{12, 1, true};
  const auto mass = planned(job).mass;
  REQUIRE(mass.panels_out == 4);
  CHECK_THAT(mass.out_kg, WithinAbs(4 * mass.panel_kg, 1e-6));
  CHECK_THAT(mass.lifted(), WithinAbs(mass.total_kg - mass.out_kg, 1e-9));
  job.openings[0].unit.kind = UnitKind::StackingDoor;
  CHECK(planned(job).mass.panels_out == 3);  // one stands still
  job.openings[0].unit.kind = UnitKind::DoubleDoors;
  CHECK(planned(job).mass.panels_out == 2);
}

TEST_CASE("the clear opening of each kind is what its sashes leave") {
  const auto clear = [](UnitKind kind) {
    const auto plan = planned(simpleJob(kind, 1200, 1200, "au"));
    const auto parts = plan::partsOf(plan.unit);
    const auto open = plan::clearOpening(parts);
    return open ? open->area() / parts.clear.area() : 0;
  };
  CHECK(clear(UnitKind::CasementWindow) == 1);
  CHECK(clear(UnitKind::TiltTurnWindow) == 1);
  CHECK(clear(UnitKind::DoubleDoors) == 1);
  CHECK_THAT(clear(UnitKind::FoldingDoor), WithinAbs(1 - 3 * 40 / 1100.0, 0.01));  // its leaves stand at the jamb
  CHECK_THAT(clear(UnitKind::SlidingWindow), WithinAbs(0.5, 0.03));
  CHECK_THAT(clear(UnitKind::DoubleHungWindow), WithinAbs(0.5, 0.03));
  CHECK_THAT(clear(UnitKind::StackingDoor), WithinAbs(2.0 / 3, 0.04));
  for (const auto kind :
       {UnitKind::FixedWindow, UnitKind::AwningWindow, UnitKind::HopperWindow, UnitKind::LouvreWindow}) {
    CHECK(clear(kind) == 0);
  }
}

TEST_CASE("coupled parts: a pair of double hung windows made apart, with a frame each at the joint") {
  job::Job job = simpleJob(UnitKind::DoubleHungWindow, 1836, 1236, "au");
  job.openings[0].unit.coupled = {{UnitKind::DoubleHungWindow, job::CoupledAt::Right, 900, {}, {}}};
  const auto plan = planned(job);
  const auto made = plan::madeParts(plan.unit);
  REQUIRE(made.size() == 2);
  CHECK(made[0].x1 == 936);
  CHECK(made[1].width() == 900);
  CHECK(made[1].height() == 1236);
  const auto parts = plan::partsOf(plan.unit);
  REQUIRE(parts.light.size() == 2);
  CHECK(parts.light[1].kind == UnitKind::DoubleHungWindow);
  // Both frames stand at the joint, and the joint on one packer.
  REQUIRE(parts.mullions == 2);
  CHECK(parts.bar[0].x1 == parts.bar[1].x0);
  CHECK(parts.bar[0].width() == plan.unit.frame.face);
  CHECK(plan::bearings(plan.unit) == std::vector<double>{936});
  const auto sill = onSill(plan);
  CHECK(std::any_of(sill.begin(), sill.end(), [](double at) { return std::abs(at - 936) < 1; }));
  // Weighed and lifted part by part.
  REQUIRE(plan.mass.parts_kg.size() == 2);
  CHECK_THAT(plan.mass.parts_kg[0] + plan.mass.parts_kg[1], WithinAbs(plan.mass.total_kg, 1e-9));
  CHECK(plan.mass.lifted() == std::max(plan.mass.parts_kg[0], plan.mass.parts_kg[1]));
  CHECK(plan::liftedBy(plan.mass).find("part by part") != std::string::npos);
  CHECK(plan::partsWords(plan.unit, practice::Display::Millimetres) ==
        "double hung window 936 × 1236 mm + double hung window 900 × 1236 mm");
}

TEST_CASE("coupled parts: a light over a door is a row of its own, the door below it keeps its kind") {
  job::Job job = simpleJob(UnitKind::HingedDoor, 920, 2500, "au");
  job.openings[0].unit.coupled = {{UnitKind::FixedWindow, job::CoupledAt::Over, {}, 400, {}}};
  const auto unit = planned(job).unit;
  const auto made = plan::madeParts(unit);
  REQUIRE(made.size() == 2);
  CHECK(made[0].height() == 2100);
  CHECK(made[1].z0 == 2100);
  const auto parts = plan::partsOf(unit);
  CHECK(parts.light[0].kind == UnitKind::FixedWindow);
  CHECK(parts.light[1].kind == UnitKind::HingedDoor);
  CHECK(plan::partsWords(unit, practice::Display::Millimetres) ==
        "hinged door 920 × 2100 mm + fixed window 920 × 400 mm");
}

TEST_CASE("coupled parts that don't line up, and glass of lights that aren't there, are faults") {
  job::Job job = simpleJob(UnitKind::FixedWindow, 1800, 1200, "au");
  job::Unit& unit = job.openings[0].unit;
  const auto fault = [&] { return plan::lightsFault(unit); };
  unit.coupled = {{UnitKind::FixedWindow, job::CoupledAt::Right, {}, {}, {}}};
  CHECK(fault() == "a part coupled at the right says its width alone");
  unit.coupled[0].width = 600;
  CHECK(fault().empty());
  unit.coupled[0].height = 600;
  CHECK(fault() == "a part coupled at the right says its width alone");
  unit.coupled[0].height.reset();
  unit.coupled.push_back({UnitKind::FixedWindow, job::CoupledAt::Over, {}, 300, {}});
  CHECK(fault() == "coupled parts stand all at the right, or all over");
  unit.coupled.pop_back();
  unit.lights = {lightOf(UnitKind::FixedWindow), lightOf(UnitKind::FixedWindow)};
  unit.rows = {0, 0};
  CHECK(fault().find("a single row") != std::string::npos);
  unit.coupled.clear();
  unit.glass_of = {{3, 1, {}, {}, {}, {}, {}}};
  CHECK(fault() == "glass_of names the light [3, 1], which is not there or was named before");
  unit.glass_of = {{2, 1, {}, {}, {}, {}, {}}, {2, 1, {}, {}, {}, {}, {}}};
  CHECK(fault() == "glass_of names the light [2, 1], which is not there or was named before");
}

TEST_CASE("a coupled part's light is judged as any other: none opens under a slope, panels have their letters") {
  job::Job job = simpleJob(UnitKind::FixedWindow, 1800, 1200, "au");
  job::Unit& unit = job.openings[0].unit;
  unit.coupled = {{UnitKind::AwningWindow, job::CoupledAt::Right, 600, {}, {}}};
  CHECK(plan::lightsFault(unit).empty());
  unit.head = job::Head{1000, 1200, 0, 0, {}};
  CHECK(plan::lightsFault(unit) == "only a fixed light can reach up to a head that follows the roof");
  unit.coupled[0].kind = UnitKind::FixedWindow;
  CHECK(plan::lightsFault(unit).empty());
  unit.head.reset();
  unit.configuration = "XO";
  CHECK_FALSE(plan::lightsFault(unit).empty());  // nothing slides
  unit.coupled[0].kind = UnitKind::SlidingWindow;
  CHECK(plan::lightsFault(unit).empty());
}

TEST_CASE("a restrictor limits what is clear and what lets air through, and blades leave what they don't fill") {
  const auto lightOf = [](const plan::UnitParts& parts) -> const plan::LightParts& { return parts.light[0]; };
  job::Job job = simpleJob(UnitKind::CasementWindow, 1200, 1200, "au");
  const auto whole = plan::partsOf(planned(job).unit);
  CHECK(*plan::airOpening(whole, lightOf(whole)) == whole.clear.area());
  job.openings[0].unit.restrictor = 100;
  const auto held = plan::partsOf(planned(job).unit);
  CHECK_THAT(plan::clearOpening(held)->width(), WithinAbs(100, 1e-9));
  CHECK_THAT(*plan::airOpening(held, lightOf(held)), WithinAbs(100 * (held.clear.width() + held.clear.height()), 1e-6));
  job.openings[0].unit.kind = UnitKind::DoubleHungWindow;
  CHECK_THAT(plan::clearOpening(plan::partsOf(planned(job).unit))->height(), WithinAbs(100, 1e-9));
  job.openings[0].unit.kind = UnitKind::AwningWindow;
  const auto awning = plan::partsOf(planned(job).unit);
  CHECK_FALSE(plan::clearOpening(awning));
  CHECK(plan::airOpening(awning, lightOf(awning)) == plan::airOpening(held, lightOf(held)));
  job.openings[0].unit.restrictor.reset();
  const auto free = plan::partsOf(planned(job).unit);
  CHECK_FALSE(plan::airOpening(free, lightOf(free)));  // how far it goes isn't told
  job.openings[0].unit.kind = UnitKind::LouvreWindow;
  const auto blades = plan::partsOf(planned(job).unit);
  CHECK_THAT(
      *plan::airOpening(blades, lightOf(blades)),
      WithinAbs(blades.clear.width() * (blades.clear.height() - 5.0 * static_cast<double>(blades.pane.size())), 1e-6));
}

TEST_CASE("transoms have a face of their own, and glass a thickness of each pane") {
  job::Job job = divided(UnitKind::FixedWindow, 1800, 1500, {Light{}, Light{}, Light{}, Light{}}, {}, {500, 0});
  job::Unit& unit = job.openings[0].unit;
  unit.mullion = 60;
  unit.transom = 90;
  unit.glass = job::Glass{.thickness = 4, .panes = 2, .safety = {}, .each = {6, 4}, .gap = 12.0, .u_value = 2.6};
  const auto plan = planned(job);
  const auto parts = plan::partsOf(plan.unit);
  REQUIRE(parts.bar.size() == 3);
  CHECK_THAT(parts.bar[0].width(), WithinAbs(60, 1e-9));
  CHECK_THAT(parts.bar[1].height(), WithinAbs(90, 1e-9));
  CHECK_THAT(parts.bar[1].x1, WithinAbs(parts.bar[0].x0, 1e-9));
  CHECK_THAT(plan::glassMass(1e6, plan.unit.glass, 2500), WithinAbs(25, 1e-9));
  CHECK(plan::glassWords(plan.unit.glass, practice::Display::Millimetres) ==
        "6 mm + 4 mm, gap 12 mm, U-value 2.6 W/m²K");
  CHECK(plan::lightsFault(unit).empty());
  unit.glass->each = {6, 6};
  CHECK_FALSE(plan::lightsFault(unit).empty());
  unit.glass->each = {4};
  CHECK_FALSE(plan::lightsFault(unit).empty());
}

TEST_CASE("panels that slide go to the nearest that stands still, and meet edge to edge in one track") {
  job::Job job = simpleJob(UnitKind::SlidingDoor, 3636, 2136, "au");
  job.openings[0].unit.configuration = "OXXO";
  const auto plan = planned(job);
  const auto parts = plan::partsOf(plan.unit);
  REQUIRE(parts.sash.size() == 4);
  CHECK(parts.sash[0].motion == plan::Motion::Stays);
  CHECK(parts.sash[1].motion == plan::Motion::SlidesLeft);
  CHECK(parts.sash[2].motion == plan::Motion::SlidesRight);
  CHECK((parts.sash[1].track == 1 && parts.sash[2].track == 1));
  CHECK_THAT(parts.sash[1].outside.x1, WithinAbs(1818, 1e-9));
  CHECK_THAT(parts.sash[2].outside.x0, WithinAbs(1818, 1e-9));
  CHECK_THAT(parts.sash[3].outside.x1, WithinAbs(parts.clear.x1, 1e-9));
  CHECK(parts.sash[0].outside.x1 > parts.sash[1].outside.x0);  // stiles behind each other
  // Both slide away: what lies between the two that stand still is clear, in the middle.
  const auto clear = plan::clearOpening(parts);
  REQUIRE(clear);
  CHECK(clear->x0 == parts.sash[0].outside.x1);
  CHECK(clear->x1 == parts.sash[3].outside.x0);
  CHECK(plan::bearings(plan.unit).size() == 3);
  CHECK(plan::opensWords(parts, parts.light[0]) == "slides OXXO");
  job.openings[0].unit.configuration = "XOX";
  const auto both = plan::partsOf(planned(job).unit);
  CHECK(both.sash[0].motion == plan::Motion::SlidesRight);
  CHECK(both.sash[2].motion == plan::Motion::SlidesLeft);
}

TEST_CASE("leaves fold to the jambs that they are told, every second one with its far edge in the track") {
  job::Job job = simpleJob(UnitKind::FoldingDoor, 3636, 2136, "au");
  job.openings[0].unit.configuration = "LLLR";
  const auto parts = plan::partsOf(planned(job).unit);
  REQUIRE(parts.sash.size() == 4);
  const bool left[] = {true, true, true, false}, turned[] = {false, true, false, false};
  for (std::size_t i = 0; i < 4; ++i) {
    CAPTURE(i);
    CHECK(parts.sash[i].left == left[i]);
    CHECK(parts.sash[i].turned == turned[i]);
    CHECK_FALSE(parts.sash[i].inwards);
  }
  CHECK(plan::opensWords(parts, parts.light[0]) == "folds out: LLLR");
  job.openings[0].unit.opens = job::Way::In;
  const auto inwards = plan::partsOf(planned(job).unit);
  CHECK(inwards.sash[0].inwards);
}

TEST_CASE("a configuration that doesn't suit its unit is a fault") {
  job::Job job = simpleJob(UnitKind::SlidingDoor, 3600, 2100, "au");
  job::Unit& unit = job.openings[0].unit;
  const auto faultOf = [&](UnitKind kind, const char* letters) {
    unit.kind = kind;
    unit.configuration = letters;
    return plan::lightsFault(unit);
  };
  CHECK(faultOf(UnitKind::SlidingDoor, "OXXO").empty());
  CHECK(faultOf(UnitKind::FoldingDoor, "LLLR").empty());
  CHECK_FALSE(faultOf(UnitKind::SlidingDoor, "XX").empty());
  CHECK_FALSE(faultOf(UnitKind::SlidingDoor, "LLLR").empty());
  CHECK_FALSE(faultOf(UnitKind::FoldingDoor, "RL").empty());
  CHECK_FALSE(faultOf(UnitKind::FixedWindow, "OX").empty());
  unit.panels = 3;
  CHECK_FALSE(faultOf(UnitKind::StackingDoor, "OXXX").empty());
}

TEST_CASE("what is made apart is ordered apart: each part with its own size, kind, glass and weight") {
  job::Job job = simpleJob(UnitKind::FixedWindow, 2400, 1200, "au");
  job::Unit& unit = job.openings[0].unit;
  unit.lights = {lightOf(UnitKind::FixedWindow), lightOf(UnitKind::AwningWindow)};
  unit.columns = {900, 0};
  unit.coupled = {{UnitKind::DoubleHungWindow, job::CoupledAt::Right, 700, {}, 40}};
  unit.glass_of = {{1, 3, 10, {}, {}, {}, {}}};
  const auto plan = planned(job);
  const auto specs = plan::madeSpecs(plan.unit);
  REQUIRE(specs.size() == 2);
  CHECK(specs[0].width == 1700);
  CHECK(specs[0].lights.size() == 2);
  CHECK(specs[0].glass_of.empty());
  CHECK(specs[1].kind == UnitKind::DoubleHungWindow);
  CHECK(specs[1].width == 700);
  CHECK(specs[1].lights.empty());
  CHECK(specs[1].glass.thickness == 10);
  CHECK(plan.mass.parts_kg[1] == 40);
  CHECK_THAT(plan.mass.total_kg, WithinAbs(plan.mass.parts_kg[0] + 40, 1e-9));
  REQUIRE(plan.mass.parts_team.size() == 2);
  CHECK(plan.mass.leaf_kg.size() == plan::partsOf(plan.unit).sash.size());
}
