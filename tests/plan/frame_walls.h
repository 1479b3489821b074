/// Walls, openings and rules for the tests of the frame, and an independent measure of how members lie: convex pieces
/// told apart by separating axes.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "plan/frame/frame.h"

namespace sillwright::test {

using plan::Frame;
using plan::FramedOpening;
using plan::FrameFaultKind;
using plan::Member;
using plan::MemberPart;
using plan::Point;
using plan::WallSpec;

inline practice::Figure figure(double value) {
  practice::Figure made;
  made.value = value;
  return made;
}

inline practice::SideStuds sideStuds(double up_to, int full, int bearing) {
  return {up_to, figure(full), figure(bearing)};
}

/// One jamb and one bearing stud up to 1800, two jamb studs and one bearing stud up to 3600, noggings at 1350 with a
/// stagger of twice their breadth.
inline practice::Framing usualRules() {
  practice::Framing rules;
  rules.nogging_spacing = figure(1350);
  rules.nogging_stagger = figure(2);
  rules.side_studs = {sideStuds(1800, 1, 1), sideStuds(3600, 2, 1)};
  return rules;
}

inline WallSpec levelWall(double length, double top, double spacing) {
  WallSpec wall;
  wall.length = length;
  wall.top = {{0, top}, {length, top}};
  wall.stud = {.depth = 90, .thickness = 45};
  wall.spacing = spacing;
  wall.plates = {.top = 2, .bottom = 1};
  wall.lining = 10;
  return wall;
}

inline FramedOpening opening(std::int32_t index, double left, double sill, double width, double height) {
  FramedOpening made;
  made.index = index;
  made.left = left;
  made.sill = sill;
  made.width = width;
  made.height = height;
  made.lintel = job::Lintel{.depth = 140, .thickness = 45, .plies = 2};
  return made;
}

inline std::vector<Member> of(const Frame& frame, MemberPart part) {
  std::vector<Member> found;
  for (const Member& member : frame.members) {
    if (member.part == part) found.push_back(member);
  }
  return found;
}

inline bool has(const Frame& frame, FrameFaultKind kind) {
  return std::any_of(frame.faults.begin(), frame.faults.end(), [&](const auto& fault) { return fault.kind == kind; });
}

inline double left(const Member& member) { return std::min(member.corner[0].x, member.corner[3].x); }
inline double right(const Member& member) { return std::max(member.corner[1].x, member.corner[2].x); }
inline double low(const Member& member) { return std::min(member.corner[0].z, member.corner[1].z); }
inline double high(const Member& member) {
  const double top = std::max(member.corner[2].z, member.corner[3].z);
  return member.apex ? std::max(top, member.apex->z) : top;
}

using Polygon = std::vector<Point>;

/// A member as convex pieces: one, or two where its top has an apex, which may be a valley.
inline std::vector<Polygon> convexPieces(const Member& m) {
  if (!m.apex) return {{m.corner.begin(), m.corner.end()}};
  const Point foot{m.apex->x, m.corner[0].z};
  return {{m.corner[0], foot, *m.apex, m.corner[3]}, {foot, m.corner[1], m.corner[2], *m.apex}};
}

/// How deep two convex polygons lie in each other along the edge normals of both, at least: below 0 they are apart by
/// that much along some normal (separating axis theorem).
inline double depthOf(const Polygon& a, const Polygon& b) {
  double least = std::numeric_limits<double>::infinity();
  for (const Polygon* polygon : {&a, &b}) {
    for (std::size_t i = 0; i < polygon->size(); ++i) {
      const Point& p = (*polygon)[i];
      const Point& q = (*polygon)[(i + 1) % polygon->size()];
      const double length = std::hypot(q.x - p.x, q.z - p.z);
      if (length < 1e-9) continue;
      const double nx = (q.z - p.z) / length;
      const double nz = -(q.x - p.x) / length;
      double a_most = -std::numeric_limits<double>::infinity();
      double b_most = a_most;
      double a_least = std::numeric_limits<double>::infinity();
      double b_least = a_least;
      for (const Point& c : a) {
        a_most = std::max(a_most, c.x * nx + c.z * nz);
        a_least = std::min(a_least, c.x * nx + c.z * nz);
      }
      for (const Point& c : b) {
        b_most = std::max(b_most, c.x * nx + c.z * nz);
        b_least = std::min(b_least, c.x * nx + c.z * nz);
      }
      least = std::min(least, std::min(a_most, b_most) - std::max(a_least, b_least));
    }
  }
  return least;
}

inline double depthOf(const Member& a, const Member& b) {
  double most = -std::numeric_limits<double>::infinity();
  for (const Polygon& p : convexPieces(a)) {
    for (const Polygon& q : convexPieces(b)) most = std::max(most, depthOf(p, q));
  }
  return std::min(most, std::min(a.y1, b.y1) - std::max(a.y0, b.y0));
}

inline Polygon box(double x0, double x1, double z0, double z1) { return {{x0, z0}, {x1, z0}, {x1, z1}, {x0, z1}}; }

/// Uniform in a range, the same on every platform.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : bits_(seed) {}
  double between(double lo, double hi) { return lo + (hi - lo) * static_cast<double>(bits_() >> 11) * 0x1p-53; }
  int whole(int lo, int hi) { return lo + static_cast<int>(bits_() % static_cast<std::uint64_t>(hi - lo + 1)); }
  bool chance(double p) { return between(0, 1) < p; }
  template <class T>
  T oneOf(std::initializer_list<T> all) {
    return *(all.begin() + whole(0, static_cast<int>(all.size()) - 1));
  }

 private:
  std::mt19937_64 bits_;
};

/// A wall with openings, all at random: level, raking, gabled, valleyed and broken tops; openings mostly where they
/// fit, sometimes anywhere at all, sometimes above each other.
struct RandomWall {
  WallSpec wall;
  std::vector<FramedOpening> openings;
  practice::Framing rules;
};

inline RandomWall randomWall(std::uint64_t seed) {
  Dice dice(seed);
  RandomWall made;
  WallSpec& wall = made.wall;
  wall.length = dice.chance(0.1) ? dice.between(30, 900) : std::round(dice.between(900, 14000));
  wall.stud = {.depth = dice.oneOf({70.0, 90.0, 140.0}), .thickness = dice.oneOf({35.0, 38.0, 45.0})};
  wall.spacing = dice.oneOf({300.0, 400.0, 450.0, 600.0});
  wall.plates = {.top = dice.whole(1, 3), .bottom = dice.whole(1, 2)};
  const int corners = dice.oneOf({2, 2, 2, 3, 3, 4, 5});
  const bool level = corners == 2 && dice.chance(0.5);
  double z = std::round(dice.between(1700, 3200));
  for (int i = 0; i < corners; ++i) {
    const double x = wall.length * i / (corners - 1);
    if (i > 0 && !level) {
      const double run = wall.length / (corners - 1);
      z = std::clamp(z + dice.between(-1, 1) * std::min(run, 2500.0), 700.0, 6000.0);
    }
    wall.top.push_back({x, z});
  }
  wall.top.back().x = wall.length;

  made.rules = usualRules();
  made.rules.nogging_spacing = figure(dice.oneOf({1350.0, 1350.0, 1200.0, 800.0}));
  if (dice.chance(0.2)) made.rules.nogging_stagger.reset();
  const int bearing = dice.whole(0, 2);
  made.rules.side_studs = {sideStuds(1200, 1, bearing), sideStuds(2400, dice.whole(1, 2), bearing)};

  double x = dice.between(0, 1200);
  for (int i = 0; x < wall.length && i < 8; ++i) {
    const double width = std::round(dice.between(300, 2600));
    const bool door = dice.chance(0.25);
    const double sill = door ? dice.oneOf({0.0, 20.0}) : std::round(dice.between(40, 1500));
    FramedOpening made_opening = opening(i, std::round(x), sill, width, std::round(dice.between(300, 2100)));
    made_opening.lintel->depth = dice.oneOf({90.0, 140.0, 190.0, 240.0});
    made_opening.lintel->plies = dice.whole(1, 2);
    if (dice.chance(0.04)) made_opening.lintel.reset();
    made.openings.push_back(made_opening);
    if (dice.chance(0.15)) {
      FramedOpening above = made_opening;
      above.index = ++i;
      above.sill = made_opening.top() + std::round(dice.between(100, 600));
      if (dice.chance(0.5)) {
        above.left += std::round(dice.between(-300, 300));
        above.width = std::round(dice.between(200, 1500));
      }
      above.height = std::round(dice.between(200, 800));
      made.openings.push_back(above);
    }
    x += width + (dice.chance(0.25) ? dice.between(-200, 300) : dice.between(200, 2500));
  }
  return made;
}

}  // namespace sillwright::test
