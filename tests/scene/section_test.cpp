// Sections against areas known from geometry, against volumes (Cavalieri: a solid's volume is the integral of its
// sections), and against rays.

#include "scene/section/section.h"

#include <cmath>
#include <map>
#include <numbers>
#include <random>

#include "made.h"
#include "measure.h"
#include "scene/pick.h"

using namespace sillwright;
using namespace sillwright::scene;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// mm².
double areaOf(const CutFace& face) {
  glm::dvec3 sum{0.0};
  const glm::dvec3 first = face.corner[0];
  for (std::size_t i = 2; i < face.count; ++i) {
    sum += glm::cross(glm::dvec3(face.corner[i - 1]) - first, glm::dvec3(face.corner[i]) - first);
  }
  return glm::length(sum) / 2;
}

Solid boxOf(glm::vec3 low, glm::vec3 high) {
  Solid solid;
  for (std::size_t i = 0; i < 8; ++i) {
    solid.corner[i] = {(i & 1U) != 0 ? high.x : low.x, (i & 2U) != 0 ? high.y : low.y, (i & 4U) != 0 ? high.z : low.z};
  }
  return solid;
}

Cut across(glm::vec3 normal, glm::vec3 through) {
  const glm::vec3 unit = glm::normalize(normal);
  return {unit, glm::dot(unit, through)};
}

double areaAt(const Solid& solid, const Cut& cut) {
  const auto face = cutThrough(solid, cut);
  return face ? areaOf(*face) : 0.0;
}

/// A prism on a polygon (anticlockwise, x and z) from y = 0 to `depth`, as a closed mesh; `out` false: a hollow.
void addPrism(Mesh& mesh, const std::vector<glm::vec2>& polygon, float depth, bool out) {
  const auto add = [&](glm::vec3 a, glm::vec3 b, glm::vec3 c) {
    if (!out) std::swap(b, c);
    for (const glm::vec3& each : {a, b, c}) mesh.corner.push_back(each);
  };
  const auto at = [&](std::size_t i, float y) {
    const glm::vec2& p = polygon[i % polygon.size()];
    return glm::vec3(p.x, y, p.y);
  };
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    add(at(i, 0), at(i + 1, 0), at(i + 1, depth));
    add(at(i, 0), at(i + 1, depth), at(i, depth));
  }
  for (std::size_t i = 1; i + 1 < polygon.size(); ++i) {
    add(at(0, 0), at(i + 1, 0), at(i, 0));
    add(at(0, depth), at(i, depth), at(i + 1, depth));
  }
}

std::vector<glm::vec2> rectangle(float x0, float z0, float x1, float z1) {
  return {{x0, z0}, {x0, z1}, {x1, z1}, {x1, z0}};
}

double areaOfAll(const Mesh& mesh, const Cut& cut, const glm::mat4& place = glm::mat4(1.0F)) {
  std::vector<CutFace> faces;
  cutThrough(mesh, place, cut, 0, faces);
  double sum = 0;
  for (const CutFace& face : faces) sum += areaOf(face);
  return sum;
}

}  // namespace

TEST_CASE("a box cut square, aslant and through its corners has the area that geometry gives") {
  const Solid box = boxOf({0, 0, 0}, {90, 45, 200});
  CHECK_THAT(areaAt(box, across({1, 0, 0}, {30, 0, 0})), WithinRel(45.0 * 200, 1e-6));
  CHECK_THAT(areaAt(box, across({0, -1, 0}, {0, 10, 0})), WithinRel(90.0 * 200, 1e-6));
  CHECK_THAT(areaAt(box, across({0, 0, 1}, {0, 0, 199})), WithinRel(90.0 * 45, 1e-6));
  // Aslant about one axis: the rectangle grows by 1 / cosine.
  const double slope = std::cos(std::numbers::pi / 6);
  CHECK_THAT(areaAt(box, across({std::sin(0.5235987755982988F), 0, std::cos(0.5235987755982988F)}, {45, 22, 100})),
             WithinRel(90.0 * 45 / slope, 1e-5));
  // A cube of 100 through its middle, square to a diagonal: a regular hexagon of side 100 / √2.
  const Solid cube = boxOf({0, 0, 0}, {100, 100, 100});
  const auto hexagon = cutThrough(cube, across({1, 1, 1}, {50, 50, 50}));
  REQUIRE(hexagon);
  CHECK(hexagon->count == 6);
  CHECK_THAT(areaOf(*hexagon), WithinRel(1.5 * std::sqrt(3.0) * 5000.0, 1e-6));
}

TEST_CASE("a mitred prism's section shortens along its mitre: a wedge with corners pulled together is cut too") {
  Solid mitred = boxOf({0, 0, 0}, {1000, 60, 45});
  mitred.corner[4].x = mitred.corner[6].x = 45;  // left end at 45°
  for (const float z : {5.0F, 20.0F, 40.0F}) {
    CHECK_THAT(areaAt(mitred, across({0, 0, 1}, {0, 0, z})), WithinRel((1000.0 - static_cast<double>(z)) * 60, 1e-6));
  }
  for (const float x : {9.0F, 30.0F}) {
    CHECK_THAT(areaAt(mitred, across({1, 0, 0}, {x, 0, 0})), WithinRel(static_cast<double>(x) * 60, 1e-6));
  }
  Solid wedge = boxOf({0, 0, 0}, {100, 50, 40});
  wedge.corner[5] = wedge.corner[4];
  wedge.corner[7] = wedge.corner[6];
  CHECK_THAT(areaAt(wedge, across({0, 0, 1}, {0, 0, 10})), WithinRel(75.0 * 50, 1e-6));
}

TEST_CASE("a plane that passes by, or only touches a face, cuts nothing") {
  const Solid box = boxOf({0, 0, 0}, {90, 45, 200});
  for (const float x : {-1.0F, 0.0F, 90.0F, 90.004F, 500.0F}) {
    CHECK_FALSE(cutThrough(box, across({1, 0, 0}, {x, 0, 0})).has_value());
    CHECK_FALSE(cutThrough(box, across({-1, 0, 0}, {x, 0, 0})).has_value());
  }
  CHECK(cutThrough(box, across({1, 0, 0}, {0.02F, 0, 0})).has_value());
}

TEST_CASE("a cut face lies in the plane, turns anticlockwise before the free side, and knows its width and grain") {
  Solid box = boxOf({0, 0, 0}, {600, 90, 45});
  box.grain = 0;
  for (const glm::vec3 normal : {glm::vec3(1, 0, 0), glm::vec3(-1, 0, 0), glm::vec3(0, 0, 1), glm::vec3(0, 0, -1),
                                 glm::vec3(0.3F, -0.8F, 0.2F)}) {
    const Cut cut = across(normal, {300, 45, 20});
    const auto face = cutThrough(box, cut);
    REQUIRE(face);
    glm::vec3 turn{0.0F};
    for (std::size_t i = 0; i < face->count; ++i) {
      CHECK(std::abs(cut.beyond(face->corner[i])) < 0.01F);
      const std::size_t next = (i + 1) % face->count;
      if (i > 0) turn += glm::cross(face->corner[i] - face->corner[0], face->corner[next] - face->corner[0]);
    }
    CHECK(glm::dot(turn, cut.normal) > 0.0F);
    CHECK(face->inked == (1U << face->count) - 1U);
  }
  const auto end = cutThrough(box, across({1, 0, 0}, {300, 0, 0}));
  CHECK(end->across_grain);
  CHECK_THAT(end->narrow, WithinAbs(45, 1e-3));
  CHECK_THAT(std::abs(end->thin.z), WithinAbs(1, 1e-5));
  CHECK_FALSE(cutThrough(box, across({0, 0, 1}, {0, 0, 20}))->across_grain);
}

TEST_CASE("a seam inside a part isn't outlined") {
  Solid box = boxOf({0, 0, 0}, {600, 1, 300});
  box.edges = 0x0fff & ~0x0a00 & ~0x00a0;  // nothing along its right end
  const auto face = cutThrough(box, across({0, 0, 1}, {0, 0, 100}));
  REQUIRE(face);
  int inked = 0;
  for (std::size_t i = 0; i < face->count; ++i) {
    const bool at_right = face->corner[i].x > 599 && face->corner[(i + 1) % face->count].x > 599;
    CHECK(((face->inked >> i & 1U) != 0) != at_right);
    if ((face->inked >> i & 1U) != 0) ++inked;
  }
  CHECK(inked == 3);
}

TEST_CASE("a hollow profile stays hollow: outer less inner, however it is turned and cut") {
  Mesh profile;
  addPrism(profile, rectangle(0, 0, 65, 45), 1000, true);
  addPrism(profile, rectangle(2, 2, 30, 43), 1000, false);
  addPrism(profile, rectangle(32, 2, 63, 43), 1000, false);
  const double metal = 65.0 * 45 - 28.0 * 41 - 31.0 * 41;
  CHECK_THAT(areaOfAll(profile, across({0, 1, 0}, {0, 400, 0})), WithinRel(metal, 1e-5));
  CHECK_THAT(areaOfAll(profile, across({0, -1, 0}, {0, 999, 0})), WithinRel(metal, 1e-5));
  // Lengthways at mid-height: three walls of 2 mm.
  CHECK_THAT(areaOfAll(profile, across({0, 0, 1}, {0, 0, 20})), WithinRel(6.0 * 1000, 1e-5));
  // Turned on plan by 30° the same metal is cut by the turned plane, and mirrored too.
  const float c = std::cos(0.5235987755982988F);
  const float s = std::sin(0.5235987755982988F);
  glm::mat4 turned(1.0F);
  turned[0] = {c, s, 0, 0};
  turned[1] = {-s, c, 0, 0};
  turned[3] = {1234, -567, 89, 1};
  const glm::vec3 through(turned * glm::vec4(0, 400, 0, 1));
  CHECK_THAT(areaOfAll(profile, across({-s, c, 0}, through), turned), WithinRel(metal, 1e-3));
  glm::mat4 mirrored(1.0F);
  mirrored[0].x = -1;
  CHECK_THAT(areaOfAll(profile, across({0, 1, 0}, {0, 400, 0}), mirrored), WithinRel(metal, 1e-5));
}

TEST_CASE("a round bar's section is its polygon's area, and shells that overlap count once") {
  constexpr int kSides = 24;
  std::vector<glm::vec2> round;
  for (int i = 0; i < kSides; ++i) {
    const double angle = -2 * std::numbers::pi * i / kSides;
    round.emplace_back(static_cast<float>(10 * std::cos(angle)), static_cast<float>(10 * std::sin(angle)));
  }
  Mesh bar;
  addPrism(bar, round, 80, true);
  const double polygon = 0.5 * kSides * 100 * std::sin(2 * std::numbers::pi / kSides);
  CHECK_THAT(areaOfAll(bar, across({0, 1, 0}, {0, 33, 0})), WithinRel(polygon, 1e-4));
  CHECK_THAT(areaOfAll(bar, across({1, 1, 0}, {0, 40, 0})), WithinRel(polygon * std::sqrt(2.0), 1e-4));
  addPrism(bar, round, 80, true);
  CHECK_THAT(areaOfAll(bar, across({0, 1, 0}, {0, 33, 0})), WithinRel(polygon, 1e-4));
}

TEST_CASE("an open mesh is not filled where it is open") {
  Mesh sheet;
  sheet.corner = {{0, 0, 0}, {100, 0, 0}, {0, 0, 100}};
  CHECK(areaOfAll(sheet, across({1, 0, 0}, {20, 0, 0})) == 0.0);
}

TEST_CASE("sections add up to each solid's volume, in the demo house and along any direction") {
  // Cavalieri: area of the section integrated along the normal. A convex solid's area is piecewise quadratic along it;
  // the midpoint rule over 400 slices is within a thousandth.
  const Made made = makeFile("boatshed.toml");
  std::mt19937_64 random(20);
  const auto unit = [&] { return static_cast<float>(random() >> 40U) / 16777216.0F * 2.0F - 1.0F; };
  std::map<PartKind, int> kinds;
  for (const Solid& solid : made.scene.solids) {
    if (kinds[made.scene.parts[solid.part].kind]++ > 1) continue;
    const glm::vec3 normal = glm::normalize(glm::vec3(unit(), unit(), unit()) + glm::vec3(0.01F, 0.02F, 0.03F));
    float low = 1e9F;
    float high = -1e9F;
    for (const glm::vec3& corner : solid.corner) {
      low = std::min(low, glm::dot(normal, corner));
      high = std::max(high, glm::dot(normal, corner));
    }
    constexpr int kSlices = 400;
    const double thick = (static_cast<double>(high) - static_cast<double>(low)) / kSlices;
    double sum = 0;
    for (int i = 0; i < kSlices; ++i) {
      sum += areaAt(solid, {normal, low + static_cast<float>((i + 0.5) * thick)}) * thick;
    }
    const double volume = measure::volume(solid);
    CAPTURE(static_cast<int>(made.scene.parts[solid.part].kind), volume);
    if (volume < 100) continue;
    CHECK_THAT(sum, WithinRel(volume, 0.004));
  }
  CHECK(kinds.size() > 20);
}

TEST_CASE("the section shows what a ray through the plane meets: parts in one another have one answer") {
  const Made made = make(oneOpening("sliding window", kReveal));
  const Scene& scene = made.scene;
  PickFilter shown;
  int met = 0;
  for (const Cut& cut : {across({1, 0, 0}, {1400, 0, 0}), across({0, 0, 1}, {0, 0, 1500}),
                         across({0, -1, 0}, {0, 45, 0}), across({1, 0, 0}, {1035 + 10 + 9, 0, 0})}) {
    const std::vector<CutFace> faces = sectionOf(scene, cut, shown);
    REQUIRE(faces.size() > 10);
    shown.cut = cut;
    for (std::size_t i = 0; i < faces.size(); ++i) {
      glm::vec3 middle{0.0F};
      for (std::size_t k = 0; k < faces[i].count; ++k)
        middle += faces[i].corner[k] / static_cast<float>(faces[i].count);
      const auto hit = Rays(scene, shown).pick(middle + cut.normal * 500.0F, -cut.normal);
      REQUIRE(hit);
      CHECK_THAT(hit->distance, WithinAbs(500, 0.01));
      CHECK_THAT(cut.beyond(hit->point), WithinAbs(0, 0.01));
      // It is this face's part, or one that has the place before it.
      const int own = rankOf(scene.parts[faces[i].part].material);
      const int other = rankOf(scene.parts[hit->part].material);
      CHECK(other <= own);
      if (hit->part == faces[i].part) ++met;
    }
    for (std::size_t i = 1; i < faces.size(); ++i) {
      CHECK(rankOf(scene.parts[faces[i - 1].part].material) <= rankOf(scene.parts[faces[i].part].material));
    }
    shown.cut.reset();
  }
  CHECK(met > 60);
}

TEST_CASE("an opening's section is what the section of all has of its wall and of it") {
  const Made made = makeFile("boatshed.toml");
  Scene ungrouped = made.scene;
  ungrouped.groups.clear();
  for (std::size_t i = 0; i < made.scene.openings.size(); ++i) {
    const OpeningFrame& opening = made.scene.openings[i];
    for (const glm::vec3& normal : {made.scene.walls[opening.wall].along, glm::vec3{0, 0, 1}}) {
      const Cut cut = across(normal, opening.centre);
      const auto own = sectionOf(made.scene, cut, i);
      std::vector<CutFace> expected;
      for (const CutFace& face : sectionOf(ungrouped, cut, PickFilter{})) {
        const Part& part = made.scene.parts[face.part];
        const bool of_wall = part.layer != Layer::Unit && part.layer != Layer::Flashing &&
                             part.layer != Layer::Fixing && part.layer != Layer::Packing &&
                             part.kind != PartKind::MembraneFold;
        const bool other = !of_wall && part.opening != static_cast<std::int32_t>(i);
        if (part.wall == static_cast<std::int32_t>(opening.wall) && !other) expected.push_back(face);
      }
      // What other openings fold of the membrane and its head flap is the wall's, and may be there besides.
      std::size_t found = 0;
      for (const CutFace& face : own) {
        if (found < expected.size() && face.part == expected[found].part && areaOf(face) == areaOf(expected[found])) {
          ++found;
        }
      }
      CHECK(found == expected.size());
      CHECK(own.size() > 10);
    }
  }
}

TEST_CASE("sections of a wall add up to its timber") {
  // Cavalieri: areas of level cuts times their distance. Against the members' own sections and lengths.
  const Made made = makeFile("workshop-window.toml");
  double timber = 0;
  for (const auto& member : made.plan.walls[0].frame.members) {
    if (member.part == plan::MemberPart::CommonStud) timber += member.width * member.depth * member.length;
  }
  constexpr double kStep = 10;
  double sum = 0;
  for (double z = kStep / 2; z < 2500; z += kStep) {
    for (const CutFace& face : sectionOf(made.scene, across({0, 0, 1}, {0, 0, z}), std::size_t{0})) {
      if (made.scene.parts[face.part].kind == PartKind::CommonStud) sum += areaOf(face) * kStep;
    }
  }
  CHECK(timber > 1e7);
  CHECK_THAT(sum, WithinRel(timber, 0.005));
}

TEST_CASE("what is cut away can't be picked from either side") {
  const Made made = make(oneOpening("fixed window", kReveal));
  PickFilter shown;
  const glm::vec3 from{300, -1000, 1222};
  shown.cut = across({0, -1, 0}, {0, 45, 0});  // the outside is taken away: from within the bay the lining is met
  const auto inside = Rays(made.scene, shown).pick(from, {0, 1, 0});
  REQUIRE(inside);
  CHECK(made.scene.parts[inside->part].kind == PartKind::Lining);
  shown.cut = across({0, 1, 0}, {0, 45, 0});  // the inside is taken away: seen from within, the membrane's back
  const auto back = Rays(made.scene, shown).pick({300, 1000, 1222}, {0, -1, 0});
  REQUIRE(back);
  CHECK(made.scene.parts[back->part].kind == PartKind::Membrane);
  const auto front = Rays(made.scene, shown).pick(from, {0, 1, 0});  // and from the side that stays, what always was
  REQUIRE(front);
  CHECK(made.scene.parts[front->part].kind == PartKind::CladdingBoard);
  shown.cut = across({0, -1, 0}, {0, 5000, 0});  // everything is taken away
  CHECK_FALSE(Rays(made.scene, shown).pick(from, {0, 1, 0}).has_value());
}

TEST_CASE("hidden layers and steps have no section, and a spread moves it with its layer") {
  const Made made = make(oneOpening("sliding window", kReveal));
  const Cut cut = across({0, -1, 0}, {0, 45, 0});
  PickFilter shown;
  shown.hidden_layers = 1U << static_cast<unsigned>(Layer::Frame);
  for (const CutFace& face : sectionOf(made.scene, cut, shown)) {
    CHECK(made.scene.parts[face.part].layer != Layer::Frame);
  }
  shown = {};
  shown.shift[static_cast<std::size_t>(Layer::Frame)] = 60;  // the studs stand behind the plane now
  bool frame = false;
  for (const CutFace& face : sectionOf(made.scene, cut, shown)) {
    frame = frame || made.scene.parts[face.part].layer == Layer::Frame;
  }
  CHECK_FALSE(frame);
}
