#include <numeric>

#include "plan/frame_walls.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::test;

namespace {

constexpr double kTolerance = 1e-6;
constexpr std::uint64_t kWalls = 3000;

bool standsUp(MemberPart part) {
  return part == MemberPart::CommonStud || part == MemberPart::JambStud || part == MemberPart::BearingStud ||
         part == MemberPart::JackStudBelow || part == MemberPart::JackStudAbove;
}

bool isPlate(MemberPart part) { return part == MemberPart::BottomPlate || part == MemberPart::TopPlate; }

/// Calls visit(i, j) for every two members whose extents in x come together.
template <class Visit>
void forPairs(const std::vector<Member>& members, Visit visit) {
  std::vector<std::size_t> order(members.size());
  std::iota(order.begin(), order.end(), 0u);
  std::sort(order.begin(), order.end(), [&](auto a, auto b) { return left(members[a]) < left(members[b]); });
  for (std::size_t i = 0; i < order.size(); ++i) {
    for (std::size_t j = i + 1; j < order.size() && left(members[order[j]]) <= right(members[order[i]]) + kTolerance;
         ++j) {
      visit(order[i], order[j]);
    }
  }
}

bool faulty(const Frame& frame, std::int32_t index) {
  return std::any_of(frame.faults.begin(), frame.faults.end(),
                     [&](const auto& fault) { return fault.opening == index || fault.other == index; });
}

bool framed(const Frame& frame, const FramedOpening& opening) {
  return std::none_of(frame.faults.begin(), frame.faults.end(), [&](const auto& fault) {
    return fault.opening == opening.index && fault.kind == FrameFaultKind::OpeningsOverlap;
  });
}

double underside(const WallSpec& wall, double x) {
  return plan::heightBelowTop(wall, wall.plates.top * wall.stud.thickness, x);
}

double floorOf(const WallSpec& wall) { return wall.plates.bottom * wall.stud.thickness; }

template <class Check>
void forWalls(Check check) {
  for (std::uint64_t seed = 1; seed <= kWalls; ++seed) {
    INFO("seed " << seed);
    const RandomWall random = randomWall(seed);
    check(random, plan::frameWall(random.wall, random.openings, random.rules));
  }
}

}  // namespace

TEST_CASE("no two members overlap, and every figure is finite, whatever the openings") {
  forWalls([](const RandomWall&, const Frame& frame) {
    for (const Member& m : frame.members) {
      bool finite = std::isfinite(m.length) && std::isfinite(m.cut_degrees) && std::isfinite(m.slope_degrees);
      for (const Point& p : m.corner) finite = finite && std::isfinite(p.x) && std::isfinite(p.z);
      REQUIRE(finite);
      REQUIRE(m.length > 0);
      REQUIRE(m.y1 > m.y0);
    }
    double deepest = 0;
    forPairs(frame.members, [&](std::size_t i, std::size_t j) {
      const double depth = depthOf(frame.members[i], frame.members[j]);
      if (depth > deepest) {
        deepest = depth;
        UNSCOPED_INFO("parts " << static_cast<int>(frame.members[i].part) << " and "
                               << static_cast<int>(frame.members[j].part) << " at " << left(frame.members[j]) << " by "
                               << depth);
      }
    });
    REQUIRE(deepest <= kTolerance);
  });
}

TEST_CASE("no member floats: all hold together, from the bottom plate up") {
  forWalls([](const RandomWall& random, const Frame& frame) {
    const auto& members = frame.members;
    if (members.empty()) return;
    std::vector<std::size_t> group(members.size());
    std::iota(group.begin(), group.end(), 0u);
    const auto find = [&](std::size_t i) {
      while (group[i] != i) i = group[i] = group[group[i]];
      return i;
    };
    forPairs(members, [&](std::size_t i, std::size_t j) {
      if (depthOf(members[i], members[j]) >= -kTolerance) group[find(i)] = find(j);
    });
    // The bottom plate is first. Walls in which something is wrong, or too low or short for a stud, may come in parts,
    // but each part is held by a plate.
    const bool sound = frame.faults.empty() && !of(frame, MemberPart::CommonStud).empty();
    std::vector<bool> held(members.size(), false);
    for (std::size_t i = 0; i < members.size(); ++i) {
      if (isPlate(members[i].part) && (!sound || i == 0)) held[find(i)] = true;
    }
    REQUIRE(members[0].part ==
            (of(frame, MemberPart::BottomPlate).empty() ? MemberPart::TopPlate : MemberPart::BottomPlate));
    for (std::size_t i = 0; i < members.size(); ++i) {
      INFO("part " << static_cast<int>(members[i].part) << " at " << left(members[i]) << ", " << low(members[i]));
      REQUIRE(held[find(i)]);
    }
    (void)random;
  });
}

TEST_CASE("every lintel bears on its bearing studs at both ends, or hangs between jamb studs") {
  std::size_t seen = 0;
  forWalls([&](const RandomWall& random, const Frame& frame) {
    const int bearing = static_cast<int>(random.rules.side_studs[0].bearing.value);
    for (const Member& lintel : of(frame, MemberPart::Lintel)) {
      if (faulty(frame, lintel.opening)) continue;
      ++seen;
      double borne_left = 0;
      double borne_right = 0;
      bool stopped_left = false;
      bool stopped_right = false;
      const double middle = (left(lintel) + right(lintel)) / 2;
      for (const Member& m : frame.members) {
        if (m.part == MemberPart::BearingStud && std::abs(high(m) - low(lintel)) < kTolerance &&
            left(m) > left(lintel) - kTolerance && right(m) < right(lintel) + kTolerance) {
          (left(m) < middle ? borne_left : borne_right) += m.width;
        }
        if (m.part != MemberPart::JambStud || high(m) < high(lintel)) continue;
        stopped_left = stopped_left || std::abs(right(m) - left(lintel)) < kTolerance;
        stopped_right = stopped_right || std::abs(left(m) - right(lintel)) < kTolerance;
      }
      REQUIRE(borne_left == Approx(bearing * random.wall.stud.thickness).margin(kTolerance));
      REQUIRE(borne_right == Approx(bearing * random.wall.stud.thickness).margin(kTolerance));
      REQUIRE(stopped_left);
      REQUIRE(stopped_right);
    }
  });
  REQUIRE(seen > 1500);
}

TEST_CASE("common and jack studs stand on the spacing, or at the wall's ends") {
  forWalls([](const RandomWall& random, const Frame& frame) {
    for (const Member& m : frame.members) {
      if (m.part != MemberPart::CommonStud && m.part != MemberPart::JackStudAbove &&
          m.part != MemberPart::JackStudBelow)
        continue;
      if (left(m) < kTolerance || right(m) > random.wall.length - kTolerance) continue;
      const double off = std::remainder((left(m) + right(m)) / 2, random.wall.spacing);
      REQUIRE(std::abs(off) < kTolerance);
    }
  });
}

TEST_CASE("nothing stands in an opening") {
  forWalls([](const RandomWall& random, const Frame& frame) {
    for (const FramedOpening& opening : random.openings) {
      if (!framed(frame, opening)) continue;
      const bool past_wall = faulty(frame, opening.index);
      const Polygon clear = box(opening.left, opening.right(), opening.sill, opening.top());
      for (const Member& m : frame.members) {
        // An opening that reaches into the plates, or lies past the wall, is a fault; the plates run on.
        if (past_wall && isPlate(m.part)) continue;
        for (const Polygon& piece : convexPieces(m)) {
          INFO("opening " << opening.index << ", part " << static_cast<int>(m.part) << " at " << left(m));
          REQUIRE(depthOf(piece, clear) <= kTolerance);
        }
      }
    }
  });
}

TEST_CASE("nothing reaches above the underside of the top plates, or below the top of the bottom plates") {
  forWalls([](const RandomWall& random, const Frame& frame) {
    for (const Member& m : frame.members) {
      if (isPlate(m.part)) continue;
      for (const Point& p : m.corner) {
        REQUIRE(p.z <= underside(random.wall, p.x) + kTolerance);
        REQUIRE(p.z >= floorOf(random.wall) - kTolerance);
      }
      if (m.apex) REQUIRE(m.apex->z == Approx(underside(random.wall, m.apex->x)));
    }
  });
}

TEST_CASE("between horizontals nothing is clear by more than the noggings' centres") {
  // Along upright lines at random: what of the line isn't timber or opening.
  std::size_t seen = 0;
  forWalls([&](const RandomWall& random, const Frame& frame) {
    const bool sound = frame.faults.empty();
    Dice dice(random.openings.size() + 77);
    const double most = random.rules.nogging_spacing.value;
    for (int line = 0; line < 12 && sound; ++line) {
      const double x = dice.between(0, random.wall.length);
      // Only bays wider than a stud have noggings.
      double bay_left = 0;
      double bay_right = random.wall.length;
      std::vector<std::pair<double, double>> blocked{{-1e9, floorOf(random.wall)}, {underside(random.wall, x), 1e9}};
      bool in_stud = false;
      for (const Member& m : frame.members) {
        if (standsUp(m.part)) {
          in_stud = in_stud || (left(m) <= x && right(m) >= x);
          if (right(m) < x) bay_left = std::max(bay_left, right(m));
          if (left(m) > x) bay_right = std::min(bay_right, left(m));
        } else if (!isPlate(m.part) && left(m) <= x && right(m) >= x) {
          blocked.emplace_back(low(m), high(m));
        }
      }
      if (in_stud || bay_right - bay_left < random.wall.stud.thickness + kTolerance) continue;
      for (const FramedOpening& o : random.openings) {
        if (o.left <= x && o.right() >= x)
          blocked.emplace_back(o.sill <= floorOf(random.wall) ? -1e9 : o.sill, o.top());
      }
      std::sort(blocked.begin(), blocked.end());
      double top = blocked[0].second;
      for (const auto& [from, to] : blocked) {
        INFO("x " << x << ", from " << top << " to " << from);
        REQUIRE(from - top <= most + kTolerance);
        top = std::max(top, to);
      }
      ++seen;
    }
  });
  REQUIRE(seen > 2500);
}

TEST_CASE("no bay is wider in the clear than the spacing") {
  // Along level lines at random: what of the line isn't timber or opening.
  std::size_t seen = 0;
  forWalls([&](const RandomWall& random, const Frame& frame) {
    if (!frame.faults.empty() || of(frame, MemberPart::CommonStud).size() < 2) return;
    Dice dice(random.openings.size() + 78);
    double lowest = 1e9;
    for (const auto& corner : random.wall.top) lowest = std::min(lowest, underside(random.wall, corner.x));
    // Noggings must not hide a bay that is too wide: they are left out of the line.
    for (int line = 0; line < 12; ++line) {
      const double z = dice.between(floorOf(random.wall), lowest);
      std::vector<std::pair<double, double>> blocked;
      for (const Member& m : frame.members) {
        if (m.part != MemberPart::Nogging && low(m) <= z && high(m) >= z) blocked.emplace_back(left(m), right(m));
      }
      for (const FramedOpening& o : random.openings) {
        if (o.sill <= z && o.top() >= z) blocked.emplace_back(o.left, o.right());
        // Too low for jack studs: less than the shortest piece, or no trimmer to carry.
        const bool low_sill = o.sill - random.wall.stud.thickness - floorOf(random.wall) < 20;
        if (low_sill && z <= o.sill && z >= floorOf(random.wall)) blocked.emplace_back(o.left, o.right());
        // Between a lintel and the plates, or a lintel and the next sill, jack studs may be too short.
        const double lintel_top = o.top() + (o.lintel ? o.lintel->depth : 0);
        if (z >= lintel_top && z <= lintel_top + 20) blocked.emplace_back(o.left - 200, o.right() + 200);
        for (const FramedOpening& above : random.openings) {
          const double trimmer = above.sill - random.wall.stud.thickness;
          if (trimmer - lintel_top < 20 && z >= lintel_top && z <= trimmer)
            blocked.emplace_back(o.left - 200, o.right() + 200);
        }
      }
      std::sort(blocked.begin(), blocked.end());
      double end = 0;
      for (const auto& [from, to] : blocked) {
        INFO("z " << z << ", from " << end << " to " << from);
        // A lintel close under a sloping plate leaves no room for a short jack stud at its lower end.
        if (from - end > random.wall.spacing + kTolerance) {
          const double room = std::min(underside(random.wall, end), underside(random.wall, from)) - z;
          REQUIRE(room < 20 + kTolerance);
        }
        end = std::max(end, to);
      }
      REQUIRE(random.wall.length - end <= random.wall.spacing + kTolerance);
      ++seen;
    }
  });
  REQUIRE(seen > 2500);
}

TEST_CASE("a wall seen from the other side has the same lintels, side studs, trimmers and plates, mirrored") {
  // Common studs are set out from the left end and the noggings between them follow: they differ.
  using Shape = std::array<double, 9>;
  const auto shapes = [](const Frame& frame, double length, bool mirror) {
    std::vector<Shape> made;
    for (const Member& m : frame.members) {
      if (m.part == MemberPart::CommonStud || m.part == MemberPart::Nogging || m.part == MemberPart::JackStudAbove ||
          m.part == MemberPart::JackStudBelow) {
        continue;
      }
      const auto x = [&](double at) { return std::round((mirror ? length - at : at) * 1e4) * 1e-4 + 0.0; };
      const auto z = [](double at) { return std::round(at * 1e4) * 1e-4; };
      const auto& c = m.corner;
      Shape shape{static_cast<double>(m.part),
                  m.y0,
                  x(c[0].x),
                  z(c[0].z),
                  x(c[1].x),
                  z(c[1].z),
                  z(c[2].z),
                  z(c[3].z),
                  z(m.length)};
      if (mirror) {
        std::swap(shape[2], shape[4]);
        std::swap(shape[3], shape[5]);
        std::swap(shape[6], shape[7]);
      }
      made.push_back(shape);
    }
    std::sort(made.begin(), made.end());
    return made;
  };
  forWalls([&](const RandomWall& random, const Frame& frame) {
    if (!frame.faults.empty()) return;
    WallSpec mirrored = random.wall;
    std::reverse(mirrored.top.begin(), mirrored.top.end());
    for (auto& corner : mirrored.top) corner.x = random.wall.length - corner.x;
    mirrored.top.front().x = 0;
    std::vector<FramedOpening> openings = random.openings;
    for (FramedOpening& o : openings) o.left = random.wall.length - o.right();
    const Frame other = plan::frameWall(mirrored, openings, random.rules);
    const auto a = shapes(frame, random.wall.length, false);
    const auto b = shapes(other, random.wall.length, true);
    REQUIRE(a.size() == b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
      for (std::size_t k = 0; k < a[i].size(); ++k) REQUIRE(a[i][k] == Approx(b[i][k]).margin(2e-4));
    }
  });
}

TEST_CASE("studs under a ridge, by cutting the plane with half-planes") {
  // A stud is what is left of the plane between its sides, above the bottom plate and below both slopes, each lowered
  // square to itself by the plates. Area and highest point of that are the member's.
  const auto clip = [](const Polygon& polygon, double nx, double nz, double most) {
    Polygon kept;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Point& p = polygon[i];
      const Point& q = polygon[(i + 1) % polygon.size()];
      const double dp = p.x * nx + p.z * nz - most;
      const double dq = q.x * nx + q.z * nz - most;
      if (dp <= 0) kept.push_back(p);
      if (dp * dq < 0) kept.push_back({p.x + (q.x - p.x) * dp / (dp - dq), p.z + (q.z - p.z) * dp / (dp - dq)});
    }
    return kept;
  };
  const auto area = [](const Polygon& polygon) {
    double twice = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Point& p = polygon[i];
      const Point& q = polygon[(i + 1) % polygon.size()];
      twice += p.x * q.z - q.x * p.z;
    }
    return twice / 2;
  };
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    INFO("seed " << seed);
    Dice dice(seed);
    WallSpec wall = levelWall(dice.between(2000, 9000), 0, dice.oneOf({300.0, 450.0, 600.0}));
    const double ridge = dice.between(0.2, 0.8) * wall.length;
    const double rise = dice.between(200, std::min(ridge, wall.length - ridge));
    wall.top = {{0, dice.between(2400, 2700)}, {ridge, 2700 + rise}, {wall.length, dice.between(2400, 2700)}};
    const Frame frame = plan::frameWall(wall, {}, usualRules());
    for (const Member& stud : of(frame, MemberPart::CommonStud)) {
      Polygon left_over = box(left(stud), right(stud), 45, 1e5);
      for (std::size_t i = 0; i + 1 < wall.top.size(); ++i) {
        const double dx = wall.top[i + 1].x - wall.top[i].x;
        const double dz = wall.top[i + 1].z - wall.top[i].z;
        const double nx = -dz / std::hypot(dx, dz);
        const double nz = dx / std::hypot(dx, dz);
        left_over = clip(left_over, nx, nz, wall.top[i].x * nx + wall.top[i].z * nz - 90);
      }
      double stud_area = 0;
      for (const Polygon& piece : convexPieces(stud)) stud_area += area(piece);
      double highest = 0;
      for (const Point& p : left_over) highest = std::max(highest, p.z);
      CHECK(stud_area == Approx(area(left_over)).epsilon(1e-9));
      CHECK(stud.length == Approx(highest - 45).epsilon(1e-9));
    }
  }
}

TEST_CASE("a wall of a thousand openings") {
  WallSpec wall = levelWall(100'000, 2700, 600);
  wall.length = 2'000'000;
  wall.top.back().x = wall.length;
  std::vector<FramedOpening> openings;
  for (int i = 0; i < 1000; ++i) openings.push_back(opening(i, 500 + 2000.0 * i, 900, 1200, 1000));
  const Frame frame = plan::frameWall(wall, openings, usualRules());
  CHECK(frame.faults.empty());
  CHECK(of(frame, MemberPart::SillTrimmer).size() == 1000);
  CHECK(of(frame, MemberPart::Lintel).size() == 2000);
  // All in one place: one is framed, the others are told.
  for (FramedOpening& each : openings) each.left = 500;
  const Frame heap = plan::frameWall(wall, openings, usualRules());
  CHECK(of(heap, MemberPart::SillTrimmer).size() == 1);
  CHECK(heap.faults.size() == 999);
}
