#include "scene/build/corners.h"

#include <algorithm>
#include <cmath>
#include <compare>
#include <cstddef>

#include "scene/solids.h"

namespace sillwright::scene {
namespace {

constexpr double kSlack = 5.0;    // mm that hand-set walls may be off a true corner
constexpr double kSquare = 0.02;  // cosine of the angle between two walls at a corner: 1.1° off square

/// A wall on plan.
struct Stand {
  Bench bench;
  const plan::WallSpec* spec = nullptr;

  [[nodiscard]] glm::dvec3 end(std::size_t side) const {
    return bench.origin + bench.along * (side == 0 ? 0.0 : spec->length);
  }
  [[nodiscard]] glm::dvec3 pastEnd(std::size_t side) const { return bench.along * (side == 0 ? -1.0 : 1.0); }
};

struct EndPoint {
  double x = 0;
  std::size_t wall = 0, side = 0;
  auto operator<=>(const EndPoint&) const = default;
};

/// The end of `a` and the end of `b`, seen as a butting `b`: fills both where they make a corner.
bool join(const Stand& a, std::size_t side_a, WallEnd& end_a, const Stand& b, std::size_t side_b, WallEnd& end_b) {
  if (std::abs(glm::dot(a.bench.along, b.bench.along)) > kSquare || a.bench.origin.z != b.bench.origin.z) return false;
  const glm::dvec3 away = a.end(side_a) - b.end(side_b);
  const double past_b = glm::dot(away, b.pastEnd(side_b));  // of a's outside face beyond the end of b
  const double into_b = glm::dot(away, b.bench.inward);     // of a's end behind b's outside face
  const bool faces_out = glm::dot(-a.bench.inward, b.pastEnd(side_b)) > 0;
  const bool points_in = glm::dot(a.pastEnd(side_a), b.bench.inward) > 0;
  if (faces_out && !points_in) {
    if (std::abs(past_b) > kSlack || into_b < -kSlack || into_b > b.spec->depth() + kSlack) return false;
    end_a.to_corner = into_b;
  } else if (!faces_out && points_in) {
    if (std::abs(into_b) > kSlack || past_b > kSlack || past_b < -a.spec->depth() - kSlack) return false;
    end_a.to_corner = -into_b;
  } else {
    return false;
  }
  end_b.to_corner = past_b;
  end_a.outer = end_b.outer = faces_out;
  // At an outer corner the butting wall runs past; at an inner one the wall behind does.
  end_a.passes = faces_out;
  end_b.passes = !faces_out;
  return true;
}

}  // namespace

std::vector<WallEnds> findEnds(const job::Job& job, const plan::Plan& plan) {
  Scene none;
  std::vector<Stand> stands(job.walls.size());
  std::vector<EndPoint> points;
  points.reserve(2 * stands.size());
  double deepest = 0;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    const job::Wall& wall = job.walls[i];
    stands[i] = {makeBench(none, wall.at_x, wall.at_y, wall.turn_degrees, -1, wall.level.value_or(0)),
                 &plan.walls[i].spec};
    deepest = std::max(deepest, stands[i].spec->depth());
    if (wall.isInside()) continue;  // its layers stop at its frame
    for (const std::size_t side : {0U, 1U}) points.push_back({stands[i].end(side).x, i, side});
  }
  // Ends that make a corner are no further apart than a wall is deep: sorted along X, only near ones are compared.
  std::sort(points.begin(), points.end());
  const double reach = deepest + 2 * kSlack;
  std::vector<WallEnds> ends(job.walls.size());
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (std::size_t j = i + 1; j < points.size() && points[j].x - points[i].x <= reach; ++j) {
      const EndPoint& p = points[i];
      const EndPoint& q = points[j];
      WallEnd& end_p = ends[p.wall][p.side];
      WallEnd& end_q = ends[q.wall][q.side];
      if (p.wall == q.wall || end_p.other >= 0 || end_q.other >= 0) continue;  // an end makes one corner
      // Which of the two butts the other isn't known: both ways are tried.
      if (join(stands[p.wall], p.side, end_p, stands[q.wall], q.side, end_q) ||
          join(stands[q.wall], q.side, end_q, stands[p.wall], p.side, end_p)) {
        end_p.other = static_cast<std::int32_t>(q.wall);
        end_q.other = static_cast<std::int32_t>(p.wall);
      }
    }
  }
  return ends;
}

double outsideEnd(const WallEnd& end, double back, double front) {
  if (end.other < 0) return 0;
  if (end.outer) return end.to_corner + (end.passes ? front : back);
  return end.to_corner - (end.passes ? back : front);
}

double liningEnd(const WallEnd& end, const plan::WallSpec& other) {
  if (end.other < 0) return 0;
  // One lining stops at the other's face, and that one goes on to the studs behind it.
  if (end.outer) return end.passes ? end.to_corner - other.depth() : end.to_corner - other.frameDepth();
  return end.passes ? 0.0 : end.to_corner + other.depth();
}

}  // namespace sillwright::scene
