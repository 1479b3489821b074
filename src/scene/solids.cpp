#include "scene/solids.h"

#include <cassert>
#include <cmath>
#include <numbers>

namespace sillwright::scene {
namespace {

/// Its cosine and sine.
glm::dvec2 turnOf(double degrees) {
  const double quarters = degrees / 90.0;
  const double nearest = std::round(quarters);
  if (std::abs(quarters - nearest) < 1e-9) {  // exact sines: walls at right angles meet without a gap
    const int quarter = static_cast<int>(std::fmod(nearest, 4.0) + 4.0) % 4;  // of a turn below zero, too
    static constexpr std::array<glm::dvec2, 4> kQuarters = {{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};
    return kQuarters[static_cast<std::size_t>(quarter)];
  }
  const double radians = degrees * std::numbers::pi / 180.0;
  return {std::cos(radians), std::sin(radians)};
}

[[maybe_unused]] bool liesIn(const Rect& inner, const Rect& outer) {
  return inner.x0 >= outer.x0 && inner.z0 >= outer.z0 && inner.x1 <= outer.x1 && inner.z1 <= outer.z1;
}

}  // namespace

glm::mat4 Bench::place(const glm::dvec3& at) const {
  return {glm::vec4(glm::vec3(along), 0.0F), glm::vec4(glm::vec3(inward), 0.0F), glm::vec4(0.0F, 0.0F, 1.0F, 0.0F),
          glm::vec4(toWorld(at), 1.0F)};
}

Bench makeBench(Scene& scene, double at_x, double at_y, double turn_degrees, std::int32_t wall, double level) {
  const glm::dvec2 along = turnOf(turn_degrees);
  return {&scene, {at_x, at_y, level}, {along, 0.0}, {-along.y, along.x, 0.0}, wall};
}

std::uint32_t addPart(const Bench& bench, Part like, const glm::dvec3& size) {
  like.wall = bench.wall;
  like.opening = bench.opening;
  like.size = glm::vec3(size);
  bench.scene->parts.push_back(like);
  return static_cast<std::uint32_t>(bench.scene->parts.size() - 1);
}

void addSolid(const Bench& bench, const std::array<glm::dvec3, 8>& corner, Grain grain, std::uint16_t edges) {
  assert(!bench.scene->parts.empty());  // a part was opened with addPart
  Solid& solid = bench.scene->solids.emplace_back();
  for (std::size_t i = 0; i < corner.size(); ++i) solid.corner[i] = bench.toWorld(corner[i]);
  solid.edges = edges;
  solid.grain = static_cast<std::uint8_t>(grain);
  solid.part = static_cast<std::uint32_t>(bench.scene->parts.size() - 1);
}

Quad quadOf(const Range& x, const Range& z) {
  return {{{x.low, z.low}, {x.high, z.low}, {x.high, z.high}, {x.low, z.high}}};
}

void addPrism(const Bench& bench, const Quad& front, const Quad& back, const Range& y, Grain grain,
              std::uint16_t edges) {
  const auto at = [](const glm::dvec2& point, double depth) { return glm::dvec3(point.x, depth, point.y); };
  // As Solid::corner: bottom before top, front before back, left before right.
  addSolid(bench,
           {at(front[0], y.low), at(front[1], y.low), at(back[0], y.high), at(back[1], y.high), at(front[3], y.low),
            at(front[2], y.low), at(back[3], y.high), at(back[2], y.high)},
           grain, edges);
}

void addPrism(const Bench& bench, const Quad& quad, const Range& y, Grain grain, std::uint16_t edges) {
  addPrism(bench, quad, quad, y, grain, edges);
}

void addSlab(const Bench& bench, const Quad& plan, const Range& z, Grain grain, std::uint16_t edges) {
  const auto at = [](const glm::dvec2& point, double height) { return glm::dvec3(point, height); };
  addSolid(bench,
           {at(plan[0], z.low), at(plan[1], z.low), at(plan[3], z.low), at(plan[2], z.low), at(plan[0], z.high),
            at(plan[1], z.high), at(plan[3], z.high), at(plan[2], z.high)},
           grain, edges);
}

void addBox(const Bench& bench, const Range& x, const Range& y, const Range& z, Grain grain) {
  addPrism(bench, quadOf(x, z), y, grain);
}

void addBoxPart(const Bench& bench, const Part& like, const Range& x, const Range& y, const Range& z, Grain grain) {
  addPart(bench, like, {x.length(), y.length(), z.length()});
  addBox(bench, x, y, z, grain);
}

void followHead(const Bench& bench, std::size_t first, const plan::HeadLine& head, const glm::dvec2& foot) {
  if (head.level()) return;
  std::vector<Solid>& solids = bench.scene->solids;
  const std::vector<Solid> made(solids.begin() + static_cast<std::ptrdiff_t>(first), solids.end());
  solids.resize(first);  // one may come back as two
  const auto xOf = [&](const glm::vec3& p) { return glm::dot(glm::dvec3(p) - bench.origin, bench.along) - foot.x; };
  const auto add = [&](Solid solid) {
    for (glm::vec3& p : solid.corner) p.z = static_cast<float>(head.followed({xOf(p), p.z - foot.y}).z + foot.y);
    solids.push_back(solid);
  };
  const double peak = head.middle().x;  // what comes within 1 mm of it stays whole
  for (const Solid& solid : made) {
    const bool across = head.peaked() && xOf(solid.corner[0]) < peak - 1 && xOf(solid.corner[1]) > peak + 1;
    const bool high = solid.corner[4].z - foot.y > head.top() / 2;  // what lies low has no peak above it to follow
    if (!across || !high) {
      add(solid);
      continue;
    }
    Solid left = solid, right = solid;
    for (std::size_t i = 0; i < solid.corner.size(); i += 2) {  // i at the left, i + 1 at the right
      const glm::vec3& a = solid.corner[i];
      const glm::vec3& b = solid.corner[i + 1];
      const auto share = static_cast<float>((peak - xOf(a)) / (xOf(b) - xOf(a)));
      left.corner[i + 1] = right.corner[i] = a + share * (b - a);
    }
    left.edges &= static_cast<std::uint16_t>(~kRightFace);  // where it is cut is no edge of the part
    right.edges &= static_cast<std::uint16_t>(~kLeftFace);
    add(left);
    add(right);
  }
}

std::array<Quad, 4> mitredRing(const Rect& outer, const Rect& inner) {
  assert(liesIn(inner, outer));
  const glm::dvec2 obl{outer.x0, outer.z0}, obr{outer.x1, outer.z0}, otr{outer.x1, outer.z1}, otl{outer.x0, outer.z1};
  const glm::dvec2 ibl{inner.x0, inner.z0}, ibr{inner.x1, inner.z0}, itr{inner.x1, inner.z1}, itl{inner.x0, inner.z1};
  return {{{obl, obr, ibr, ibl}, {ibr, obr, otr, itr}, {itl, itr, otr, otl}, {obl, ibl, itl, otl}}};
}

std::array<Quad, 4> buttedRing(const Rect& outer, const Rect& inner, bool jambs_through) {
  assert(liesIn(inner, outer));
  const Rect across = jambs_through ? inner : outer;  // what the sill and the head span
  const Rect up = jambs_through ? outer : inner;      // what the jambs span
  const Range level{across.x0, across.x1}, upright{up.z0, up.z1};
  return {quadOf(level, {outer.z0, inner.z0}), quadOf({inner.x1, outer.x1}, upright),
          quadOf(level, {inner.z1, outer.z1}), quadOf({outer.x0, inner.x0}, upright)};
}

}  // namespace sillwright::scene
